package main

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/spf13/pflag"

	"pourboard/blend/plan"
)

func newFlags(f *pflag.FlagSet) action {
	examples := map[string]string{
		"glaze": "Shino", "base": "Clear", "colourant": "Rutile=0,1,2,4", "cups": "10", "divisions": "4",
		"batch": "1000 g", "cup-size": "100 mL", "jug": "5 mL", "scale": "0.1 g",
		"bodies": "Buff, Red", "tile": "50 x 100 mm", "paper": "A4",
		"title": "Rutile over a clear", "mark": "MR",
	}
	given := map[string][]string{} // by the flags' names
	for _, flag := range plan.Flags() {
		add(f, new(string), flag.Name, examples[flag.Name], func(text string) (string, error) {
			if !flag.Several {
				given[flag.Name] = nil
			}
			given[flag.Name] = append(given[flag.Name], text)
			return text, nil
		})
	}
	withSheets := f.Bool("make", false, "")
	output := f.StringP("output", "o", "", "ash.toml")
	return func(u *ui, args []string) error {
		design, text, err := newPlan(args[0], given)
		if err != nil {
			return usagef("%s", err)
		}
		name := cmp.Or(*output, design.Name+".toml")
		switch {
		case name == "-" && *withSheets:
			return usagef("--make needs a file for the plan (leave out -o -)")
		case name == "-":
			u.print(string(text))
			return nil
		}
		if err := createFile(name, text); err != nil {
			return err
		}
		if base := given["base"]; base != nil {
			u.warn(name, fmt.Sprintf("specific-gravity = %v assumed (weigh 100 mL of %s and put yours into the plan)",
				plan.AssumedSG, base[0]))
		}
		if !*withSheets {
			u.printf("%s written; change it, then run: pourboard check %s\n", name, name)
			return nil
		}
		u.printf("%s written\n", name)
		j, err := load(name, overrides{})
		if err != nil {
			return err
		}
		return u.makeSheets(j, makeOptions{})
	}
}

// newPlan is a plan of a kind with what flags give it, or one that explains every key.
func newPlan(kind string, given map[string][]string) (design plan.Design, text []byte, err error) {
	dosed := given["base"] != nil || given["colourant"] != nil
	if series := kind + "-series"; dosed && slices.Contains(startNames(), series) {
		kind = series
	}
	if design, err = plan.FindDesign(kind); err != nil {
		return design, nil, fmt.Errorf("unknown kind %q%s", kind, nearestOrAll(kind, startNames(), "choose from"))
	}
	if len(given) == 0 {
		return design, plan.Template(design), nil
	}
	text, err = plan.New(design, given)
	return design, text, err
}
