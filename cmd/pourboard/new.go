package main

import (
	"fmt"
	"strings"

	"pourboard/blend/plan"
)

func newCommand() command {
	return command{
		name: "new",
		line: "write a commented plan to start from",
		help: `Usage:  pourboard new KIND [-o FILE]

Writes a plan with every key explained, ready to be changed in a text editor.

KIND is one of
` + kindsHelp() + `
  -o, --output FILE   where to, instead of KIND.toml; - prints it
  -q, --quiet         no notes

Example:

  pourboard new triaxial -o ash.toml
`,
		run: runNew,
	}
}

func kindsHelp() string {
	var b strings.Builder
	for _, d := range plan.Designs() {
		fmt.Fprintf(&b, "  %-17s %s\n", d.Name, d.Line)
	}
	return b.String()
}

func runNew(u *ui, args []string) error {
	f := flags("new")
	output := f.StringP("output", "o", "", "")
	args, err := u.parse(f, args, "the kind")
	if err != nil {
		return err
	}
	var names []string
	for _, d := range plan.Designs() {
		if d.Name == args[0] {
			return u.writeStart(d.Name, *output)
		}
		names = append(names, d.Name)
	}
	return usagef("unknown kind %q%s", args[0], meantOr(args[0], names, "the kinds are"))
}

func (u *ui) writeStart(design, name string) error {
	text, err := plan.Template(design)
	if err != nil {
		return err
	}
	if name == "-" {
		u.print(string(text))
		return nil
	}
	if name == "" {
		name = design + ".toml"
	}
	if err := createFile(name, text, byOutput); err != nil {
		return err
	}
	u.printf("%s is written; change it, then run: pourboard check %s\n", name, name)
	return nil
}
