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
		u.print(text.Materials(lib.All()))
		return nil
	}
	if m, ok := lib.Find(args[0]); ok {
		u.print(text.Material(m, lib))
		return nil
	}
	if some := lib.Containing(args[0]); len(some) > 1 {
		u.print(text.Materials(some))
		return nil
	}
	fix := "describe it in a [[material]] of the plan"
	if name := lib.Nearest(args[0]); name != "" {
		fix = fmt.Sprintf("did you mean %s? If not, %s", name, fix)
	}
	return fmt.Errorf("unknown material %q (%s)", strings.TrimSpace(args[0]), fix)
}
