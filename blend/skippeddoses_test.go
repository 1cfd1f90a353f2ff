package blend

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pourboard/blend/measure"
)

// coarseBiaxial is a biaxial of two colourants in cups of 100 g dry, weighed on a
// scale of 1 g: 0.25 % is 0.25 g and comes to nothing, 0.5 % and 1 % are both
// 1 g (halves are rounded up), 2 % is 2 g.
func coarseBiaxial(t *testing.T) *Test {
	t.Helper()
	p := planOf(Blend{Kind: Biaxial, Method: ByDose, Series: []Series{
		{Material: "Cobalt carbonate", Percents: []float64{0, 0.25, 0.5, 1, 2}},
		{Material: "Titanium dioxide", Percents: []float64{0, 4}},
	}})
	p.Cup = Cup{Size: Amount{100, Dry}}
	p.Kit.Scale, p.Kit.Fine = measure.Step{Size: 1, Unit: measure.Gram}, measure.Step{}
	// 1 g of recipe in a mL, so that the jug pours 100 g.
	p.Glazes[0].SG, p.Glazes[0].Solids, p.Glazes[0].Additions = 1.625, 2.6666666666666665, nil
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	return test
}

// What is too little for the scale is skipped, and said to be.
func TestSkippedDoses(t *testing.T) {
	test := coarseBiaxial(t)
	got := NotesOf[SkippedDoses](test)
	want := SkippedDoses{
		Cups: []int{2, 7}, Material: "Cobalt carbonate", Method: ByDose, Most: test.Cells[1].Doses[0], Alike: true,
		Step: measure.Step{Size: 1, Unit: measure.Gram}, Twins: [][]int{{1, 2}, {6, 7}},
		Finer: measure.Step{Size: 0.01, Unit: measure.Gram}, Enough: test.Smallest,
	}
	if len(got) != 1 || !reflect.DeepEqual(got[0], want) {
		t.Errorf("got %+v\nwant %+v alone", got, want)
	}
	// 0.5 % and 1 % are both 1 g.
	if n, _ := noteOf[Identical](test); !reflect.DeepEqual(n.Groups, [][]int{{3, 4}, {8, 9}}) {
		t.Errorf("identical: %v, want 3 and 4, 8 and 9", n.Groups)
	}
}

// Where no cup is asked to have none, one that gets none is like no other.
func TestSkippedDoses_alone(t *testing.T) {
	p := planOf(Blend{Kind: Line, Method: ByDose, Series: []Series{{Material: "Cobalt carbonate", Percents: []float64{0.1, 2, 4}}}})
	p.Cup = Cup{Size: Amount{100, Dry}}
	p.Kit.Scale, p.Kit.Fine = measure.Step{Size: 1, Unit: measure.Gram}, measure.Step{}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if got := NotesOf[SkippedDoses](test); len(got) != 1 || !slices.Equal(got[0].Cups, []int{1}) || got[0].Twins != nil {
		t.Errorf("got %+v, want cup 1, identical to none", got)
	}
}

// Nothing lies between two cells that are one glaze.
func TestRefine_alike(t *testing.T) {
	test := coarseBiaxial(t)
	for _, x := range []struct {
		cells []int
		view  View
		want  string // "" for no error
	}{
		{[]int{2, 3}, Measured, "cups 3 and 4 are identical as measured"},
		{[]int{0, 1}, Measured, "cups 1 and 2 are identical as measured"},

		{[]int{2, 3}, Asked, ""},
		{[]int{1, 4}, Measured, ""},
	} {
		_, err := test.Refine(x.cells, x.view, Biaxial, "CT")
		switch {
		case x.want == "" && err != nil:
			t.Errorf("%v: %v", x.cells, err)
		case x.want != "" && (err == nil || !strings.Contains(err.Error(), x.want)):
			t.Errorf("%v: %v, want %q", x.cells, err, x.want)
		}
	}
}

// Steps about one cup lie about what was made of it: in the coarse biaxial 0.5 %
// and 1 % are both 1 g in 100 g, 0.25 % is none, 2 % is 2 g, and titania has
// only 0 and 4 g. Halves were worked out by hand.
func TestRefine_asMade(t *testing.T) {
	test := coarseBiaxial(t)
	for _, x := range []struct {
		cell int // from 1
		view View
		want []float64
		err  string
	}{
		{3, Measured, []float64{0.5, 1, 1.5}, ""},
		{4, Measured, []float64{0.5, 1, 1.5}, ""},
		{3, Asked, []float64{0.375, 0.5, 0.75}, ""},
		{1, Measured, []float64{0, 0.5}, ""},
		{2, Measured, nil, "cup 2 holds no Cobalt carbonate"},
		{2, Measured, nil, "--asked"},
		{2, Asked, []float64{0.125, 0.25, 0.375}, ""},
	} {
		next, err := test.Refine([]int{x.cell - 1}, x.view, Biaxial, "CT")
		if x.err != "" {
			if err == nil || !strings.Contains(err.Error(), x.err) {
				t.Errorf("cup %d: %v, want %q", x.cell, err, x.err)
			}
			continue
		}
		if err != nil {
			t.Errorf("cup %d: %v", x.cell, err)
			continue
		}
		if got := next.Blend.Series[0].Percents; !slices.Equal(got, x.want) {
			t.Errorf("cup %d: %v, want %v", x.cell, got, x.want)
		}
	}
	next, err := test.Refine([]int{2}, Measured, Biaxial, "CT")
	if err != nil {
		t.Fatal(err)
	}
	finer, err := New(next)
	if err != nil {
		t.Fatal(err)
	}
	// 0.5 % and 1 % are 1 g, 1.5 % is 2 g; titania has 0 and 2 g.
	if got := finer.IdenticalCups(); !reflect.DeepEqual(got, [][]int{{1, 2}, {4, 5}}) {
		t.Errorf("steps that the scale cannot tell apart: %v, want 1 and 2, 4 and 5", got)
	}
}
