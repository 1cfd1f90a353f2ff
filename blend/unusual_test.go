package blend

import "testing"

func TestUnusual(t *testing.T) {
	for _, c := range []struct {
		material string
		percents []float64
		noted    bool
		mistake  bool
	}{
		{"Cobalt carbonate", []float64{0, 1, 2}, false, false},
		{"Cobalt carbonate", []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, true, true},
		{"Cobalt carbonate", []float64{0, 9}, true, false},
		{"Moss pigment", []float64{0, 10, 20}, false, false}, // nothing is known of it
		{"Moss pigment", []float64{0, 10, 45}, true, false},
		{"Silica", []float64{0, 10, 45}, false, false}, // known, and no colourant
	} {
		test, err := New(planOf(Blend{Kind: Line, Series: []Series{{Material: c.material, Percents: c.percents}}}))
		if err != nil {
			t.Fatal(err)
		}
		n, ok := noteOf[Unusual](test)
		if ok != c.noted || n.BatchDose != c.mistake {
			t.Errorf("%s, %v: %v %+v, want a note %v, a mistake %v", c.material, c.percents, ok, n, c.noted, c.mistake)
		}
	}
}
