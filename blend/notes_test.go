package blend

import (
	"math"
	"slices"
	"testing"

	"pourboard/blend/measure"
)

// noteOf is the note of type N of a test.
func noteOf[N Note](t *Test) (found N, ok bool) {
	if all := NotesOf[N](t); all != nil {
		return all[0], true
	}
	return found, false
}

// Steps that do not come out at an upper bound are noted.
func TestBoundMissed(t *testing.T) {
	for _, c := range []struct {
		divisions int
		bounds    []Bound
		most      float64 // of the first end; 0 for no note
	}{
		// Room 1 − 0.3 = 0.7, steps 17.5 %: 30, 47.5. 0.15/0.7 is 3/14.
		{4, []Bound{{Lo: 0.3, Hi: 0.45}, {Lo: 0, Hi: 1}, {Lo: 0, Hi: 1}}, 0.3},
		{14, []Bound{{Lo: 0.3, Hi: 0.45}, {Lo: 0, Hi: 1}, {Lo: 0, Hi: 1}}, 0},
		{5, []Bound{{Lo: 0.1, Hi: 0.73}, {Lo: 0, Hi: 1}, {Lo: 0, Hi: 1}}, 0.64},
		{5, []Bound{{Lo: 0.1, Hi: 0.7351}, {Lo: 0, Hi: 1}, {Lo: 0, Hi: 1}}, 0.64},
		{8, []Bound{{Lo: 0.2, Hi: 0.6}, {Lo: 0.1, Hi: 1}, {Lo: 0, Hi: 1}}, 0.55},
		{7, []Bound{{Lo: 0.2, Hi: 0.6}, {Lo: 0.1, Hi: 1}, {Lo: 0, Hi: 1}}, 0},
		{6, []Bound{{Lo: 0, Hi: 1}, {Lo: 0, Hi: 1}, {Lo: 0, Hi: 1}}, 0},
		{6, nil, 0},
	} {
		p := planOf(designs()["triaxial"])
		p.Blend.Divisions, p.Blend.Bounds = c.divisions, c.bounds
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		n, ok := noteOf[BoundMissed](test)
		switch {
		case c.most == 0 && ok:
			t.Errorf("%d divisions, %v: %+v, want no note", c.divisions, c.bounds, n)
		case c.most > 0 && (!ok || math.Abs(n.Most-c.most) > 1e-9):
			t.Errorf("%d divisions, %v: %+v, want at most %g", c.divisions, c.bounds, n, c.most)
		}
	}
}

// What is poured onto the scale is more than it takes.
func TestOverCapacity(t *testing.T) {
	for capacity, want := range map[float64]float64{150: 202, 250: 0, 0: 0} { // a cup of 100 g dry and 2 g of bentonite at 1.45 and solids of 2.6 g/mL is 202 g
		p := planOf(designs()["series"])
		p.Kit.Pour = measure.Step{Size: 1, Unit: measure.Gram}
		p.Kit.Capacity = capacity
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		n, _ := noteOf[OverCapacity](test)
		if n.MostG != want || want > 0 && !slices.Equal(n.Cups, []int{1, 2, 3, 4, 5}) {
			t.Errorf("a scale of %g g: %+v, want up to %g g", capacity, n, want)
		}
	}
}
