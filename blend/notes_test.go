package blend

import (
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
