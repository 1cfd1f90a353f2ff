package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend/oxide"
	"pourboard/render/text"
)

func materialsCommand() command {
	return command{
		name: "materials",
		line: "list the built-in materials",
		help: `Usage:  pourboard materials [NAME]

Lists the built-in raw materials. With NAME, it prints that material's other
names, formula or analysis, LOI, density, sources and cautions. A word such as
copper lists all materials with it in their names. A plan may describe its own
materials under [[material]]; those are used first.

  -q, --quiet       no notes

Example:

  pourboard materials whiting
`,
		args:  []string{"[the material]"},
		flags: func(*pflag.FlagSet) action { return runMaterials },
	}
}

func runMaterials(u *ui, args []string) error {
	lib := oxide.Builtin()
	if len(args) == 0 {
		return text.Materials(u.out, lib.All())
	}
	m, ok := lib.Find(args[0])
	if !ok {
		if some := lib.Containing(args[0]); len(some) > 1 {
			return text.Materials(u.out, some)
		}
		fix := "describe it in a [[material]] of the plan"
		if name := lib.Nearest(args[0]); name != "" {
			fix = fmt.Sprintf("did you mean %s? If not, %s", name, fix)
		}
		return fmt.Errorf("unknown material %q (%s)", strings.TrimSpace(args[0]), fix)
	}
	return text.Material(u.out, m, lib)
}
