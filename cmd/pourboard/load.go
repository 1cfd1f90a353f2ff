package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
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
	cup, pour measure.Step
	paper     quantity.Paper
	folder    string // where the log is looked for, beside the plan's own
	have      []blend.Have
	sg        []gravity
	shareAll  bool
}

// gravity is the specific gravity of a glaze, as it was read; one without a name is
// that of a bucket.
type gravity struct {
	glaze string
	sg    float64
}

func (o *overrides) add(f *pflag.FlagSet) {
	add(f, &o.cup, "cup-size", "120 g", readStep)
	add(f, &o.pour, "pour", "1 mL", readStep)
	add(f, &o.paper, "paper", "A4", quantity.ReadPaper)
	add(f, &o.have, "have", "Ash=1450 mL", func(text string) ([]blend.Have, error) {
		name, amount, ok := strings.Cut(text, "=")
		if !ok {
			return nil, fmt.Errorf("%q needs a glaze and an amount, such as %q", text, "Ash=1450 mL")
		}
		b, err := quantity.ReadBatch(strings.TrimSpace(amount))
		return append(o.have, blend.Have{Glaze: strings.TrimSpace(name), ML: b.ML, WetG: b.WetG, DryG: b.DryG}), err
	})
	add(f, &o.sg, "sg", "Ash=1.45", func(text string) ([]gravity, error) {
		name, number, ok := strings.Cut(text, "=")
		if !ok {
			name, number = "", text
		}
		sg, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64)
		if err != nil {
			return nil, fmt.Errorf("%q is not a number (such as %q)", text, "Ash=1.45")
		}
		if !(sg > 1) {
			return nil, fmt.Errorf("%q is too low (water is 1.00; weigh 100 mL again)", text)
		}
		return append(o.sg, gravity{strings.TrimSpace(name), sg}), nil
	})
	f.BoolVar(&o.shareAll, "share-all", false, "")
}

// readStep reads a size or a step in mL or in g.
func readStep(text string) (measure.Step, error) {
	size, unit, err := quantity.Graduation(text)
	if err == nil && size == 0 {
		err = fmt.Errorf("%q is too small (more than 0)", text)
	}
	return measure.Step{Size: size, Unit: measure.Unit(unit)}, err
}

// apply changes the plan.
func (o overrides) apply(p *blend.Plan) error {
	if size := &p.Cup.Size; o.cup.Size > 0 {
		size.Value, p.Cup.BatchG = o.cup.Size, 0
		if o.cup.Unit == measure.Millilitre {
			size.Of = blend.Volume
		} else if size.Of == blend.Volume {
			size.Of = blend.Dry
		}
	}
	if o.pour.Size > 0 {
		p.Kit.Pour = o.pour
		p.Kit.Defaults = slices.DeleteFunc(slices.Clone(p.Kit.Defaults),
			func(line string) bool { return strings.HasPrefix(line, "pour ") })
	}
	if o.paper.W > 0 {
		p.Board.Paper, p.Board.PaperW, p.Board.PaperH = o.paper.Name, o.paper.W, o.paper.H
	}
	for _, read := range o.sg {
		var names []string
		for _, g := range p.Glazes {
			names = append(names, g.Name)
		}
		at := slices.Index(names, read.glaze)
		switch {
		case read.glaze == "":
			return usagef(`--sg needs a glaze, such as --sg "Ash=1.45"`)
		case at < 0:
			return usagef("--sg: unknown glaze %q%s", read.glaze, nearestOrAll(read.glaze, names, "the plan has"))
		}
		p.Glazes[at].SG, p.Glazes[at].WaterPer = read.sg, 0
	}
	if o.shareAll && o.have == nil {
		return usagef(`--share-all needs a batch to share, such as --have "Ash=1450 mL"`)
	}
	p.Have, p.ShareAll = append(p.Have, o.have...), o.shareAll
	return nil
}

// wrong is the error of a plan that cannot be worked out, which may be the fault of
// flags and not of the plan.
func (o overrides) wrong(file string, err error) error {
	var fault *blend.Fault
	if !errors.As(err, &fault) {
		return fmt.Errorf("%s: %w", file, err)
	}
	switch {
	case fault.Key == blend.KeyHave:
		return usagef("--have: %s", err)
	case fault.Key == blend.KeyGravity && o.sg != nil:
		return usagef("--sg: %s", err)
	case fault.Line > 0:
		return fmt.Errorf("%s:%d: %w", file, fault.Line, err)
	}
	return fmt.Errorf("%s: %w", file, err)
}

// job is a plan worked out, with the places of its tiles.
type job struct {
	file   string
	name   string // the file's name without folder and ending
	text   string // of the plan's file
	plan   *blend.Plan
	test   *blend.Test
	places *layout.Places
	notes  []string // of the plan and of the test
	shrunk bool     // there is less glaze than planned, so cups are smaller
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
		return nil, o.wrong(file, err)
	}
	p = t.Plan
	var unread []string
	p.Letters, unread = keptLetters(file, o.folder, len(t.Cells)*len(p.Tiles.Bodies)*p.Tiles.Repeats)
	short := func(n blend.Supplied) bool { return n.Short }
	return &job{
		file: file, name: strings.TrimSuffix(filepath.Base(file), filepath.Ext(file)),
		text: string(text), plan: p, test: t, places: layout.Boards(t),
		notes:    slices.Concat(notes, unread, wording.Notes(t.Notes)),
		shrunk:   slices.ContainsFunc(blend.NotesOf[blend.Supplied](t), short),
		measured: map[string]*blend.Test{},
		flagged:  o.cup.Size > 0 || o.pour.Size > 0 || o.have != nil || o.sg != nil,
		tried:    o.tried(p, cup, pour),
	}, nil
}

// tried says which flags make the cups other than the plan's file does, whose
// sizes are given: what is printed may be read by others than who typed them.
func (o overrides) tried(p *blend.Plan, cup blend.Cup, pour measure.Step) string {
	var parts []string
	if p.Cup != cup {
		parts = append(parts, fmt.Sprintf("cups of %s (plan: %s)", wording.AmountText(p.Cup.Size),
			wording.AmountText(cup.Size)))
	}
	if p.Kit.Pour != pour {
		parts = append(parts, fmt.Sprintf("pours in steps of %s (plan: %s)", p.Kit.Pour, pour))
	}
	for _, read := range o.sg {
		parts = append(parts, "SG as read: "+read.glaze+" "+quantity.AtMost(read.sg, 4))
	}
	return wording.Sentence(strings.Join(parts, "; "))
}
