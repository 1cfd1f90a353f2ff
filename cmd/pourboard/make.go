package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/pdf"
)

func makeCommand() command {
	return command{
		name: "make",
		line: "make the packet to print and the workbooks",
		help: `Usage:  pourboard make PLAN [FLAGS]

Writes beside the plan, for a plan named test.toml:

  test.pdf          the packet: what to mix, pour, weigh, paint and dip, and the
                    board at life size
  test-pour.xlsx    the amounts as a live spreadsheet
  test-log.xlsx     the record of the fired tiles; it is made once and never
                    replaced, since it may have been filled in

  --out FOLDER      another folder
  --only LIST       only these sections of the packet, such as board,pour:
` + sectionsHelp() + `  --measured MM     what the printed 100 mm bar measured; the life-size pages
                    are corrected for the printer, by at most 5 %
  --free LIST       places that are free on the first sheet of labels: 3-7,20
  --log-as NAME     write a new log as NAME-log.xlsx, for a changed plan
` + overridesHelp + `
Example:

  pourboard make plan.toml --only board --measured 97.4
`,
		run: runMake,
	}
}

// sectionsHelp lists the packet's sections in lines of a help text.
func sectionsHelp() string {
	var b strings.Builder
	line := "                   "
	for _, name := range pdf.Sections() {
		if len(line)+1+len(name) > 76 {
			b.WriteString(line + "\n")
			line = "                   "
		}
		line += " " + name
	}
	return b.String() + line + "\n"
}

// makeOptions are what make is asked for beyond the plan.
type makeOptions struct {
	folder   string
	only     []string
	measured float64
	free     []int
	logAs    string
}

func runMake(u *ui, args []string) error {
	f := flags("make")
	var o overrides
	o.add(f)
	out := f.String("out", "", "")
	only := f.StringSlice("only", nil, "")
	measured := f.String("measured", "", "")
	free := f.String("free", "", "")
	logAs := f.String("log-as", "", "")
	args, err := u.parse(f, args, "the plan's file")
	if err != nil {
		return err
	}
	m := makeOptions{folder: *out, logAs: *logAs}
	if m.only, err = sections(*only); err != nil {
		return err
	}
	if *measured != "" {
		if m.measured, err = millimetres(*measured); err != nil {
			return err
		}
	}
	j, err := load(args[0], o)
	if err != nil {
		return err
	}
	if *free != "" {
		if j.plan.Labels == nil {
			return usagef("--free is about labels, and the plan describes none: it has no [labels]")
		}
		if m.free, err = layout.ParseFree(*free, j.plan.Labels.Columns*j.plan.Labels.Rows); err != nil {
			return usagef("--free: %s", err)
		}
	}
	if m.folder == "" {
		m.folder = filepath.Dir(args[0])
	} else if err := os.MkdirAll(m.folder, 0o755); err != nil {
		return plainly(m.folder, err)
	}
	if err := u.make(j, m); err != nil {
		return err
	}
	u.warn(args[0], j.notes)
	return nil
}

// sections checks the names given to --only.
func sections(names []string) ([]string, error) {
	var all []string
	for _, name := range names {
		name = strings.ToLower(strings.TrimSpace(name))
		if !slices.Contains(pdf.Sections(), name) {
			return nil, usagef("the packet has no section %q%s; it has %s", name,
				didYouMean(name, pdf.Sections()), strings.Join(pdf.Sections(), ", "))
		}
		all = append(all, name)
	}
	return all, nil
}

// output is one file of make.
type output struct {
	file   string
	render func(io.Writer) error
}

// make writes the outputs of a plan. They are drawn side by side and written
// one after the other, so that a plan that cannot be drawn leaves nothing.
func (u *ui) make(j *job, m makeOptions) error {
	advice, err := blend.Advise(j.test)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	base := filepath.Join(m.folder, j.name)
	packet := pdf.Packet{
		Test: j.test, Places: j.places, Advice: advice, Notes: j.notes,
		Only: m.only, MeasuredMM: m.measured, Free: m.free,
	}
	outputs := []output{{base + ".pdf", func(w io.Writer) error {
		notes, err := packet.Write(w)
		j.notes = append(j.notes, notes...)
		return err
	}}}
	for _, o := range outputs {
		if err := writeFile(o.file, o.render); err != nil {
			return err
		}
		u.printf("  %s\n", o.file)
	}
	return nil
}
