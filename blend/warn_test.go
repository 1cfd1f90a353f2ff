package blend

import (
	"strings"
	"testing"

	"pourboard/blend/measure"
)

// Steps that do not come out at an upper bound are told of, with divisions that
// do.
func TestWarnBounds(t *testing.T) {
	for _, c := range []struct {
		divisions int
		bounds    []Bound
		want      string // "" for no note
	}{
		// Room 1 − 0.3 = 0.7, steps 17.5 %: 30, 47.5. 0.15/0.7 is 3/14.
		{4, []Bound{{0.3, 0.45}, {0, 1}, {0, 1}}, `bounds: no cup has more than 30 % End 1, and the bounds go to 45 %; the steps are 17.5 % (divisions = 14 reach the bounds)`},
		{14, []Bound{{0.3, 0.45}, {0, 1}, {0, 1}}, ""},
		{5, []Bound{{0.1, 0.73}, {0, 1}, {0, 1}}, `no cup has more than 64 % End 1, and the bounds go to 73 %`},
		{5, []Bound{{0.1, 0.7351}, {0, 1}, {0, 1}}, "(other bounds, whole steps apart)"},
		{8, []Bound{{0.2, 0.6}, {0.1, 1}, {0, 1}}, "no cup has more than 55 % End 1"},
		{7, []Bound{{0.2, 0.6}, {0.1, 1}, {0, 1}}, ""},
		{6, []Bound{{0, 1}, {0, 1}, {0, 1}}, ""},
		{6, nil, ""},
	} {
		p := planOf(designs()["triaxial"])
		p.Blend.Divisions, p.Blend.Bounds = c.divisions, c.bounds
		for i := range p.Blend.Ends {
			p.Glazes[p.Blend.Ends[i]].Name = []string{"End 1", "End 2", "End 3"}[i]
		}
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		var notes []string
		for _, w := range test.Warnings {
			if w.Place == "bounds" {
				notes = append(notes, w.String())
			}
		}
		if got := strings.Join(notes, "\n"); !strings.Contains(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%d divisions, %v: %q, want %q", c.divisions, c.bounds, got, c.want)
		}
	}
}

// What is poured onto the scale is more than it takes.
func TestWarnCapacity(t *testing.T) {
	for _, c := range []struct {
		capacity float64
		want     string
	}{
		// A cup of 100 g dry and 2 g of bentonite at 1.45 and solids of 2.6 g/mL is 202 g of wet glaze.
		{150, "cups 1-5: up to 202 g are poured onto a scale that takes 150 g, and the cup stands on it too (smaller cups, or another scale)"},
		{250, ""},
		{0, ""},
	} {
		p := planOf(designs()["series"])
		p.Kit.Pour = measure.Step{Size: 1, Unit: measure.Gram}
		p.Kit.Capacity = c.capacity
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, w := range test.Warnings {
			if strings.Contains(w.What, "poured onto a scale") {
				got = w.String()
			}
		}
		if got != c.want {
			t.Errorf("a scale of %g g: %q, want %q", c.capacity, got, c.want)
		}
	}
}
