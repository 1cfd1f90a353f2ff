package quantity

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
		if got := DosePercentText(x.percent, x.plusMinus); got != x.want {
			t.Errorf("%g ± %g is printed as %s, want %s", x.percent, x.plusMinus, got, x.want)
		}
	}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{GotText(0), "0.000"}, {GotText(0.0984), "0.098"}, {GotText(0.9996), "1.00"}, {GotText(1.234), "1.23"},
		{GotText(9.996), "10.0"}, {GotText(33.333), "33.3"}, {GotText(100), "100.0"},
		{UnityText(3.104), "3.10"}, {UnityText(0.0996), "0.10"}, {UnityText(0.0124), "0.012"},
		{Significant(100, 4), "100"}, {Significant(37.5, 4), "37.5"}, {Significant(123.456, 4), "123.5"}, {Significant(0.01234, 4), "0.01234"},
		{Significant(0.425, 3), "0.425"}, {Significant(1234, 3), "1234"}, {Significant(0, 3), "0"},
	} {
		if c.got != c.want {
			t.Errorf("printed %s, want %s", c.got, c.want)
		}
	}
}

// Halves go away from zero, as a spreadsheet's ROUND does: 1.615, 139.65, 2.675
// and 1.005 all lie a little below the half in binary arithmetic.
func TestFixed(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{1.615, 2, "1.62"}, {139.65, 1, "139.7"}, {2.675, 2, "2.68"}, {1.005, 2, "1.01"}, {0.5, 0, "1"}, {2.5, 0, "3"},
		{-2.5, 0, "-3"}, {-0.04, 1, "0.0"}, {1e9 + 0.25, 1, "1000000000.2"}, {0.1, 3, "0.100"}, {1.4449999, 2, "1.44"},
	} {
		if got := Fixed(c.x, c.decimals); got != c.want {
			t.Errorf("%v with %d decimals is %s, want %s", c.x, c.decimals, got, c.want)
		}
	}
}

func TestCups(t *testing.T) {
	for _, c := range []struct {
		numbers []int
		spans   int
		want    string
	}{
		{[]int{3}, 1, "cup 3"}, {[]int{3, 4, 5, 9}, 6, "cups 3-5, 9"}, {[]int{1, 3, 5}, 2, "cups 1, 3 and 1 more"},
	} {
		if got := Cups(c.numbers, c.spans); got != c.want {
			t.Errorf("%v: %q, want %q", c.numbers, got, c.want)
		}
	}
}
