package main

import (
	"github.com/spf13/pflag"

	"pourboard/render/text"
)

func showFlags(f *pflag.FlagSet) action {
	asJSON, asCSV, chemistry := f.Bool("json", false, ""), f.Bool("csv", false, ""), f.Bool("chemistry", false, "")
	var chosen cupFlags
	chosen.add(f)
	var o overrides
	o.add(f)
	return func(u *ui, args []string) error {
		for _, cup := range []string{"cup", "near"} {
			if err := oneOf(f, "chemistry", "json", "csv", cup); err != nil {
				return err
			}
		}
		j, err := load(args[0], o)
		switch {
		case err != nil:
			return err
		case chosen.given():
			return showCups(u, j, chosen)
		case *asJSON:
			return text.JSON(u.out, j.test, j.places, j.notes)
		case *asCSV:
			return text.CSV(u.out, j.test)
		case *chemistry:
			u.print(text.Chemistry(j.test))
		default:
			u.print(text.Table(j.test))
		}
		u.warnPlan(j)
		return nil
	}
}

// showCups prints single cups; of a single value of --near the nearest few.
func showCups(u *ui, j *job, chosen cupFlags) error {
	cups, err := chosen.choose(u, j.test)
	if err != nil {
		return err
	}
	if len(cups) == 1 && len(chosen.near) == 1 {
		const most = 5
		targets := chosen.near[0].targets
		near, err := j.test.Nearest(targets)
		if err != nil {
			return err
		}
		for _, n := range near[:min(most, len(near))] {
			u.printf("cup %d: %s\n", n.Cup, nearText(targets, n))
		}
		u.print("\n")
	}
	u.print(text.Cups(j.test, cups))
	return nil
}
