package main

import (
	"pourboard/render/text"
)

func showCommand() command {
	return command{
		name: "show",
		line: "print what goes into each cup, as a table, JSON or CSV",
		help: `Usage:  pourboard show PLAN [--json | --csv] [FLAGS]

Prints the cups of a plan on the terminal: shares or percentages, what to pour
and weigh, what that makes and how far off it can be (±, about 95 % sure).

  --json            everything, for other programs
  --csv             the pours and doses, for a spreadsheet
` + overridesHelp + `
Example:

  pourboard show plan.toml --pour "1 mL"
`,
		run: runShow,
	}
}

func runShow(u *ui, args []string) error {
	f := flags("show")
	asJSON, asCSV := f.Bool("json", false, ""), f.Bool("csv", false, "")
	var o overrides
	o.add(f)
	args, err := u.parse(f, args, "the plan's file")
	if err != nil {
		return err
	}
	if *asJSON && *asCSV {
		return usagef("--json and --csv are two forms of one thing: give one of them")
	}
	j, err := load(args[0], o)
	if err != nil {
		return err
	}
	switch {
	case *asJSON:
		return text.JSON(u.out, j.test, j.places, j.notes)
	case *asCSV:
		return text.CSV(u.out, j.test)
	}
	if err := text.Table(u.out, j.test); err != nil {
		return err
	}
	u.warn(args[0], j.notes)
	return nil
}
