package blend

import (
	"slices"
	"testing"
)

// One cup of rows goes on as a line of its own row, without what was said of
// single cups, or of batches that are used up.
func TestRefine_rows(t *testing.T) {
	b := designs()["rows"]
	p := planOf(b)
	p.Log.Check, p.Poured = []int{2}, []Poured{{Cups: []int{1}, Amount: Amount{140, Volume}}}
	p.Have = []Have{{Glaze: p.Glazes[p.Blend.Base].Name, ML: 5000}}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	next, err := test.Refine([]int{3}, Asked, Biaxial, "B") // 2 % of copper, between 1 and 4
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{1.25, 1.5, 1.75, 2, 2.5, 3, 3.5}
	if next.Blend.Kind != Line || len(next.Blend.Series) != 1 || !slices.Equal(next.Blend.Series[0].Percents, want) {
		t.Errorf("%+v, want a line of %v", next.Blend, want)
	}
	if next.Blend.Repeat != nil || next.Log.Check != nil || next.Poured != nil || next.Have != nil {
		t.Errorf("what is of single cups or of batches is kept: %+v", next)
	}
	if _, err := test.Refine([]int{0}, Asked, Biaxial, "B"); err == nil {
		t.Error("the base alone has finer steps")
	}
}
