package main

import (
	"fmt"
	"path/filepath"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/render/wording"
)

func nextCommand() command {
	return command{
		name: "next",
		line: "write the next plan from the best cups",
		help: `Usage:  pourboard next PLAN --cup N,N[,N[,N]] [-o FILE]
        pourboard next PLAN --cup N [-o FILE]

Writes a plan with the recipes of your chosen cups as end glazes. Two cups make
a line, three a triaxial, four a biaxial or, with --kind, a quadraxial. Cups
with one colourant make a series with finer steps between them, one cup alone
a series around it. Glazes without a recipe are blended again, in the shares
between the cups. Other settings stay. The mark changes, so tiles of the two
tests cannot be mixed up.

  --cup LIST        the cups, such as 12,13,17, or one cup
` + nearHelp + `                    (repeat --near for each further cup)
  --kind KIND       for four cups: biaxial or quadraxial
  --asked           use recipes or steps as the plan asks, not as measured
  -o, --output FILE file to write, instead of PLAN-next.toml; - prints it
` + logHelp + measuredHelp + `
Example:

  pourboard next plan.toml --cup 12,13,17 -o next.toml
`,
		run: runNext,
	}
}

func runNext(u *ui, args []string) error {
	f := flags("next")
	var chosen cupFlags
	chosen.add(f)
	kind := f.String("kind", string(blend.Biaxial), "quadraxial")
	asked := f.Bool("asked", false, "")
	output, log := f.StringP("output", "o", "", "next.toml"), f.String("log", "", "plan-log.xlsx")
	j, err := u.onePlan(f, args, func(*overrides) error {
		if !chosen.given() {
			return usagef("name the cups to go on from (such as --cup 12,13,17)")
		}
		if four := blend.Kind(*kind); four != blend.Biaxial && four != blend.Quadraxial {
			return usagef("--kind must be %s or %s, for four cups", blend.Biaxial, blend.Quadraxial)
		}
		return nil
	})
	if err != nil {
		return err
	}
	cups, err := chosen.choose(u, j.test)
	if err != nil {
		return err
	}
	cells := make([]int, len(cups))
	for i, n := range cups {
		cells[i] = n - 1
	}
	view, err := j.view(u, *asked, *log)
	if err != nil {
		return err
	}
	next, err := j.test.Refine(cells, view, blend.Kind(*kind), freeMark(j.plan.Mark, marksBeside(j.file)))
	if err != nil {
		return usagef("--cup: %s", err)
	}
	worked, err := blend.New(next)
	if err != nil {
		return fmt.Errorf("%s: the new plan: %w", j.file, err)
	}
	text := plan.Write(next)
	if *output == "-" {
		u.print(string(text))
		u.warnAlike("the new plan", worked)
		return nil
	}
	file := *output
	if file == "" {
		file = filepath.Join(filepath.Dir(j.file), j.name+"-next.toml")
	}
	if err := createFile(file, text, byOutput); err != nil {
		return err
	}
	u.printf("%s written; its marks begin with %s. Look it over, then run: pourboard check %s\n", file, next.Mark, file)
	u.warnAlike(file, worked)
	return nil
}

// warnAlike says which cups of a new plan its own instruments cannot tell apart.
func (u *ui) warnAlike(file string, t *blend.Test) {
	if groups := t.IdenticalCups(); groups != nil {
		u.warn(file, []wording.Line{wording.LineOf(blend.Identical{Groups: groups})})
	}
}
