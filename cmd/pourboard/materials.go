package main

import (
	"fmt"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/render/text"
)

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
