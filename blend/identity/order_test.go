package identity

import "testing"

func TestReorderings(t *testing.T) {
	line := func(percents string, more ...string) []string {
		return append([]string{"kind: line", `series "Copper carbonate": ` + percents}, more...)
	}
	list := func(cells string) []string { return []string{"kind: list", "cells: " + cells} }
	for _, c := range []struct {
		name    string
		was, is []string
		kept    int
		shifted bool
		none    bool
	}{
		{name: "the same", was: line("0 %, 1 %, 2 %"), is: line("0 %, 1 %, 2 %"), none: true},
		{name: "appended", was: line("0 %, 1 %, 2 %"), is: line("0 %, 1 %, 2 %, 4 %, 0.5 %"), kept: 3},
		{name: "inserted", was: line("0 %, 1 %, 2 %"), is: line("0 %, 0.5 %, 1 %, 2 %"), kept: 1, shifted: true},
		{name: "put first", was: line("1 %, 2 %"), is: line("0 %, 1 %, 2 %"), shifted: true},
		{name: "in another order", was: line("0 %, 1 %, 2 %"), is: line("2 %, 1 %, 0 %"), shifted: true},
		{name: "one taken away", was: line("0 %, 1 %, 2 %"), is: line("0 %, 2 %"), kept: 1, shifted: true},
		{name: "appended before repeats", was: line("0 %, 1 %", "repeat: 1"), is: line("0 %, 1 %, 2 %", "repeat: 1"), kept: 2, shifted: true},
		{name: "a list", was: list("[70, 30], [50, 50]"), is: list("[70, 30], [60, 40], [50, 50]"), kept: 1, shifted: true},
		{name: "a line of glazes", was: []string{"kind: line", "cells: 5"}, is: []string{"kind: line", "cells: 7"}, none: true},
		{name: "a biaxial", was: []string{"kind: biaxial", `series "A": 0 %, 1 %`}, is: []string{"kind: biaxial", `series "A": 0 %, 2 %`}, none: true},
	} {
		got := Reorderings(ReadOutline(c.was), ReadOutline(c.is))
		if c.none {
			if got != nil {
				t.Errorf("%s: %+v", c.name, got)
			}
			continue
		}
		if len(got) != 1 || got[0].Kept != c.kept || got[0].Shifted != c.shifted {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}
