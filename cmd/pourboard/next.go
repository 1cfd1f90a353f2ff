package main

import (
	"cmp"
	"fmt"
	"path/filepath"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/plan"
	"pourboard/render/wording"
)

func nextFlags(f *pflag.FlagSet) action {
	var g goOn
	g.add(f)
	kind := f.String("kind", string(blend.Biaxial), "quadraxial")
	output := f.StringP("output", "o", "", "next.toml")
	return func(u *ui, args []string) error {
		if !g.given() {
			return usagef("name the cups to go on from (such as --cup 12,13,17)")
		}
		if four := blend.Kind(*kind); four != blend.Biaxial && four != blend.Quadraxial {
			return usagef("--kind must be %s or %s, for four cups", blend.Biaxial, blend.Quadraxial)
		}
		j, cups, view, err := g.from(u, args[0])
		if err != nil {
			return err
		}
		for i := range cups {
			cups[i]-- // by index
		}
		next, err := j.test.Refine(cups, view, blend.Kind(*kind), freeMark(j.plan.Mark, marksBeside(j.file)))
		if err != nil {
			return usagef("--cup: %s", err)
		}
		worked, err := blend.New(next)
		if err != nil {
			return fmt.Errorf("%s: the new plan: %w", j.file, err)
		}
		file := cmp.Or(*output, filepath.Join(filepath.Dir(j.file), j.name+"-next.toml"))
		if text := plan.Write(next); file == "-" {
			u.print(string(text))
			file = "the new plan"
		} else if err := createFile(file, text); err != nil {
			return err
		} else {
			u.printf("%s written; its marks begin with %s. Look it over, then run: pourboard check %s\n", file,
				next.Mark, file)
		}
		// Cups of the new plan that its own instruments cannot tell apart.
		if groups := worked.IdenticalCups(); groups != nil {
			u.warn(file, wording.Note(blend.Identical{Groups: groups}))
		}
		return nil
	}
}
