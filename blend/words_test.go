package blend

import "testing"

func TestDosePercentText(t *testing.T) {
	for _, x := range []struct {
		percent, plusMinus float64
		want               string
	}{
		{4.0 / 3, 0.065, "1.33"},
		{2.0 / 3, 0.065, "0.67"},
		{2.0 / 3, 0.0065, "0.667"},
		{100.0 / 3, 1.4, "33"},
		{100.0 / 3, 0.4, "33.3"},
		{2.0004, 0.1, "2"},
		// What was typed with up to three digits stays, however far off it can be.
		{0.25, 0.3, "0.25"},
		{0.0125, 0.02, "0.0125"},
		{10, 2, "10"},
		// Of a dose that comes out as nothing there is no ±.
		{1.0 / 3, 0, "0.3333"},
	} {
		if got := (Dose{Percent: x.percent, PlusMinus: x.plusMinus}).PercentText(); got != x.want {
			t.Errorf("%g ± %g is printed as %s, want %s", x.percent, x.plusMinus, got, x.want)
		}
	}
}
