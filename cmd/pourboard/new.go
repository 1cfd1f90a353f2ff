package main

import (
	"fmt"
	"strings"

	"pourboard/blend"
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

// start is a plan to start from.
type start struct {
	name   string
	line   string
	kind   blend.Kind
	series bool
}

// starts are all of them: blends of end glazes, and series dosed into one base.
func starts() []start {
	return []start{
		{"line", "two glazes blended in steps", blend.Line, false},
		{"biaxial", "four glazes at the corners of a rectangle", blend.Biaxial, false},
		{"triaxial", "three glazes on a triangle", blend.Triaxial, false},
		{"quadraxial", "four glazes on triangles in layers", blend.Quadraxial, false},
		{"list", "blends that you write out one by one", blend.List, false},
		{"centroid", "each glaze alone, each pair, each three in equal shares", blend.Centroid, false},
		{"line-series", "one base with a colourant in steps", blend.Line, true},
		{"biaxial-series", "one base with two colourants, across and down", blend.Biaxial, true},
		{"triaxial-series", "one base with three colourants on a triangle", blend.Triaxial, true},
	}
}

func kindsHelp() string {
	var b strings.Builder
	for _, s := range starts() {
		fmt.Fprintf(&b, "  %-17s %s\n", s.name, s.line)
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
	for _, s := range starts() {
		if s.name == args[0] {
			return u.writeStart(s, *output)
		}
		names = append(names, s.name)
	}
	return usagef("there is no kind %q%s", args[0], meantOr(args[0], names, "the kinds are"))
}

func (u *ui) writeStart(s start, name string) error {
	text, err := plan.Template(s.kind, s.series)
	if err != nil {
		return err
	}
	if name == "-" {
		u.print(string(text))
		return nil
	}
	if name == "" {
		name = s.name + ".toml"
	}
	if err := createFile(name, text, byOutput); err != nil {
		return err
	}
	u.printf("%s is written; change it, then run: pourboard check %s\n", name, name)
	return nil
}
