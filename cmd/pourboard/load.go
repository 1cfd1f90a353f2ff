package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/plan"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/wording"
)

// overrides are the flags that change a plan for a quick try.
type overrides struct {
	cup, pour, paper string
	folder           string // where the log is looked for, beside the plan's own
	have, sg         []string
	shareAll         bool
}

func (o *overrides) add(f *pflag.FlagSet) {
	f.StringVar(&o.cup, "cup-size", "", "")
	f.StringVar(&o.pour, "pour", "", "")
	f.StringVar(&o.paper, "paper", "", "")
	f.StringArrayVar(&o.have, "have", nil, "")
	f.StringArrayVar(&o.sg, "sg", nil, "")
	f.BoolVar(&o.shareAll, "share-all", false, "")
}

// overridesHelp is the part of a help text that is about them.
const overridesHelp = `  --cup-size SIZE   try another cup size, such as "120 g" or "180 mL"
  --pour STEP       another pouring instrument, such as "1 mL" or "1 g"
  --paper PAPER     another paper: A5 A4 A3 A2 Letter Legal Tabloid or a size
                    such as "300 x 420 mm"
  --have NAME=AMOUNT  the batch you have: "Ash=1450 mL", "Ash=1000 g dry",
                    "Ash=1990 g wet" or "Ash=1000 g dry, 1450 mL";
                    cups shrink if it is too little (may be repeated)
  --share-all       share out the whole batch, so cups may grow too
  --sg NAME=NUMBER  the specific gravity that you read, such as "Ash=1.40"
  -q, --quiet       no notes
`

// measuredHelp is the part of a help text that is about them where cups have
// been measured already.
const measuredHelp = `  --cup-size SIZE, --pour STEP, --have NAME=AMOUNT, --share-all,
  --sg NAME=NUMBER, --paper PAPER
                    as for make; amounts given here count, not the log's
  -q, --quiet       no notes
`

// onePlan parses the command line of a command that takes one plan, and works the
// plan out unless check finds a flag wrong.
func (u *ui) onePlan(f *pflag.FlagSet, args []string, check func(o *overrides) error) (*job, error) {
	var o overrides
	o.add(f)
	args, err := u.parse(f, args, "a plan file")
	if err == nil {
		err = check(&o)
	}
	if err != nil {
		return nil, err
	}
	return load(args[0], o)
}

// apply changes the plan.
func (o overrides) apply(p *blend.Plan) error {
	if o.cup != "" {
		size, in, err := quantity.Graduation(o.cup)
		if err != nil || size == 0 {
			return usagef(`--cup-size %q is not a size (such as "120 g" or "180 mL")`, o.cup)
		}
		p.Cup.Size.Value, p.Cup.BatchG = size, 0
		if in == "mL" {
			p.Cup.Size.Of = blend.Volume
		} else if p.Cup.Size.Of == blend.Volume {
			p.Cup.Size.Of = blend.Dry
		}
	}
	if o.pour != "" {
		var in string
		size, err := amountFlag("--pour", o.pour, func(text string) (size float64, err error) {
			size, in, err = quantity.Graduation(text)
			return size, err
		})
		if err != nil {
			return err
		}
		p.Kit.Pour = measure.Step{Size: size, Unit: measure.Unit(in)}
		p.Kit.Defaults = slices.DeleteFunc(slices.Clone(p.Kit.Defaults), func(line string) bool { return strings.HasPrefix(line, "pour ") })
	}
	if o.paper != "" {
		size, err := quantity.ReadPaper(o.paper)
		if err != nil {
			return usagef("--paper: %s", err)
		}
		p.Board.Paper, p.Board.PaperW, p.Board.PaperH = size.Name, size.W, size.H
	}
	if err := o.gravities(p); err != nil {
		return err
	}
	return o.batches(p)
}

// amountFlag reads an amount above 0 that a flag gives.
func amountFlag(flag, text string, read func(string) (float64, error)) (float64, error) {
	x, err := read(text)
	if err == nil && x == 0 {
		err = fmt.Errorf("%q is too small (more than 0)", text)
	}
	if err != nil {
		return 0, usagef("%s: %s", flag, err)
	}
	return x, nil
}

// job is a plan worked out, with the places of its tiles.
type job struct {
	file   string
	name   string // the file's name without folder and ending
	text   string // of the plan's file
	plan   *blend.Plan
	test   *blend.Test
	places *layout.Places
	notes  []wording.Line // of the plan and of the test
	// flagged says that flags give amounts, which then count in place of a log's.
	flagged  bool
	measured map[string]*blend.Test // by the amounts of a log
	tried    string                 // what flags measure otherwise than the plan's file, a sentence or nothing
}

// largestPlan is how much of a file is read before it is called no plan; the
// reader of plans has a limit of its own below that.
const largestPlan = 4 << 20

// load reads a plan and works it out.
func load(file string, o overrides) (*job, error) {
	text, err := readFile(file, largestPlan)
	if err != nil {
		return nil, err
	}
	if looksLikeLog(file) || strings.EqualFold(filepath.Ext(file), ".pdf") {
		return nil, fmt.Errorf("%s: not a plan (plans end in .toml)", file)
	}
	return loadText(file, text, o)
}

func loadText(file string, text []byte, o overrides) (*job, error) {
	if name := filepath.Base(file); name == filepath.Ext(name) {
		return nil, fmt.Errorf("%s: the file has only an ending (give it a name, such as plan%s)", file, name)
	}
	p, notes, err := plan.Read(file, text)
	if err != nil {
		return nil, err
	}
	cup, err := p.SharedCup()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	pour := p.Kit.Pour
	if err := o.apply(p); err != nil {
		return nil, err
	}
	t, err := blend.New(p)
	if err != nil {
		return nil, wrongFlag(file, err)
	}
	p = t.Plan
	var unread []wording.Line
	p.Letters, unread = keptLetters(file, o.folder, len(t.Cells)*len(p.Tiles.Bodies)*p.Tiles.Repeats)
	lines := wording.Lines(t.Notes)
	markLoud(lines, t.Notes)
	return &job{
		file: file, name: strings.TrimSuffix(filepath.Base(file), filepath.Ext(file)),
		text: string(text), plan: p, test: t, places: layout.Boards(t),
		notes:    append(append(notes, unread...), lines...),
		measured: map[string]*blend.Test{},
		flagged:  o.cup != "" || o.pour != "" || o.have != nil || o.sg != nil,
		tried:    o.tried(p, cup, pour),
	}, nil
}

// tried says which flags make the cups other than the plan's file does, whose
// sizes are given: what is printed may be read by others than who typed them.
func (o overrides) tried(p *blend.Plan, cup blend.Cup, pour measure.Step) string {
	var parts []string
	if p.Cup != cup {
		parts = append(parts, fmt.Sprintf("cups of %s (plan: %s)", wording.AmountText(p.Cup.Size), wording.AmountText(cup.Size)))
	}
	if p.Kit.Pour != pour {
		parts = append(parts, fmt.Sprintf("pours in steps of %s (plan: %s)", p.Kit.Pour, pour))
	}
	for _, read := range o.sg {
		parts = append(parts, "SG as read: "+strings.Replace(read, "=", " ", 1))
	}
	return wording.Sentence(strings.Join(parts, "; "))
}

// millimetres reads a length above 0 that a flag gives, perhaps without its unit.
func millimetres(flag, text string) (float64, error) {
	mm, err := quantity.Length(text)
	if err != nil {
		mm, err = quantity.Length(text + " mm")
	}
	switch {
	case err != nil:
		return 0, usagef("%s %q is not a length in mm (such as 97.4)", flag, text)
	case mm <= 0:
		return 0, usagef("%s %q is too small (the printed bar is 100 mm)", flag, text)
	}
	return mm, nil
}
