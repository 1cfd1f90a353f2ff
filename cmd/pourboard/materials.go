package main

import (
	"fmt"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/render/text"
)

func materialsCommand() command {
	return command{
		name: "materials",
		line: "the raw materials that are known, with their composition",
		help: `Usage:  pourboard materials [NAME]

Lists the raw materials whose composition is built in, or tells of one: its
other names, formula or analysis, what it loses in firing, its density, where
the figures come from and what calls for care. A plan can describe materials of
its own under [[material]]; those go first.

  --plan PLAN       with the plan's own materials
  -q, --quiet       no notes

Example:

  pourboard materials whiting
`,
		run: runMaterials,
	}
}

func runMaterials(u *ui, args []string) error {
	f := flags("materials")
	file := f.String("plan", "", "")
	args, err := u.parse(f, args, "[the material]")
	if err != nil {
		return err
	}
	lib := oxide.Builtin()
	if *file != "" {
		j, err := load(*file, overrides{})
		if err != nil {
			return err
		}
		lib = lib.With(j.plan.Materials...)
	}
	if len(args) == 0 {
		return text.Materials(u.out, lib)
	}
	m, ok := lib.Find(args[0])
	if !ok {
		near := ""
		if name := lib.Nearest(args[0]); name != "" {
			near = fmt.Sprintf(" (did you mean %s?)", name)
		}
		return fmt.Errorf("no material is known as %q%s; a plan can describe it under [[material]]", strings.TrimSpace(args[0]), near)
	}
	return text.Material(u.out, m, lib)
}
