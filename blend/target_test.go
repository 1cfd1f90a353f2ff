package blend_test

import (
	"math"
	"os"
	"testing"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/plan"
)

// The nearest cup is the one that a look through all of them finds, and a cup's
// own values find that cup.
func TestNearest(t *testing.T) {
	src, err := os.ReadFile("../testdata/plans/triaxial.toml")
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read("triaxial", src)
	if err != nil {
		t.Fatal(err)
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	ratio := blend.Target{Oxide: "SiO2", Over: "Al2O3", Value: 7}
	near, err := test.Nearest([]blend.Target{ratio})
	if err != nil || len(near) != len(test.Cells) {
		t.Fatal(len(near), err)
	}
	best := math.Inf(1)
	for i := range test.Cells {
		best = min(best, math.Abs(test.Chemistry(i, blend.Measured).SiAl-7))
	}
	if got := math.Abs(near[0].Values[0] - 7); math.Abs(got-best) > 1e-9 {
		t.Errorf("nearest is off by %g, by looking %g", got, best)
	}
	for i, c := range test.Cells {
		chemistry := test.Chemistry(i, blend.Measured)
		var targets []blend.Target
		for _, a := range chemistry.Unity {
			targets = append(targets, blend.Target{Oxide: a.Oxide, Unity: true, Value: a.Value})
		}
		for _, a := range chemistry.WeightPercent {
			targets = append(targets, blend.Target{Oxide: a.Oxide, Value: a.Value})
		}
		if near, err := test.Nearest(targets); err != nil || near[0].Cup != c.Number {
			t.Errorf("the values of cup %d find cup %d (%v)", c.Number, near[0].Cup, err)
		}
	}
	if _, err := test.Nearest([]blend.Target{{Oxide: "SiO2", Over: oxide.Oxide("UO2"), Value: 3}}); err == nil {
		t.Error("a ratio to an oxide that no cup has was found")
	}
}
