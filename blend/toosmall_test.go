package blend

import (
	"testing"

	"pourboard/blend/measure"
)

// ± of a jug marked every 5 mL is 2·5/√12 = 2.89 mL: more than four limits of
// 5 % for 10 mL (28.9 %), less for 15 mL (19.2 %). 0.5 mL in 15 would do.
func TestTooSmall(t *testing.T) {
	test := &Test{Plan: &Plan{Kit: measure.Kit{Pour: measure.Step{Size: 5, Unit: measure.Millilitre}, Worst: 0.05}}}
	for ml, want := range map[int64]bool{5: true, 10: true, 15: false, 100: false} {
		if got := test.TooSmall(Pour{Steps: ml / 5, Measured: float64(ml)}); got != want {
			t.Errorf("%d mL too small: %v, want %v", ml, got, want)
		}
	}
	if got := test.FinerPour(Pour{Steps: 2, Measured: 10}); got.Size != 0.5 || got.Unit != measure.Millilitre {
		t.Errorf("for 10 mL take a step of %s, want 0.5 mL", got)
	}
}
