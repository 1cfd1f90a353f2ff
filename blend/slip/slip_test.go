package slip

import (
	"math"
	"testing"
	"testing/quick"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s = %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

// The worked litre of testdata/reference/slip_physics.toml: 1500 g a litre of
// solids of density 2.5 holds 833.3 g dry and 666.7 g water (relation of
// A. Brongniart, printed example).
func TestWorkedLitre(t *testing.T) {
	s := Slip{SG: 1.5, Solids: 2.5}
	near(t, "dry g of a litre", 1000*s.DryPerML(), 833.3, 0.05)
	near(t, "water g of a litre", 1000*s.DryPerML()*s.WaterPerG(), 666.7, 0.05)
}

// Percent solids = 100·K·(G−1)/G with K = D/(D−1); K = 1.625 is printed for
// D = 2.6 (testdata/reference/slip_physics.toml).
func TestSolidsFactor(t *testing.T) {
	for _, g := range []float64{1.1, 1.3, 1.45, 1.6} {
		near(t, "percent solids", 100*Slip{SG: g, Solids: 2.6}.DryPerML()/g, 100*1.625*(g-1)/g, 1e-9)
	}
}

// Two rows of a pulp density table: solids of 2.5 at 30 % by weight give 1.22,
// of 2.7 at 40 % give 1.337 (published rows; the source was not noted).
func TestPulpDensity(t *testing.T) {
	near(t, "SG of 30 % solids of 2.5", Mixed(70.0/30, 2.5).SG, 1.22, 0.005)
	near(t, "SG of 40 % solids of 2.7", Mixed(60.0/40, 2.7).SG, 1.337, 0.0005)
}

// The imperial pint: W = (P − 20)·S/(S − 1), P ounces to the pint (relation
// from memory; a pint of water weighs 20 oz).
func TestPint(t *testing.T) {
	for p, want := range map[float64]float64{24: 6.5, 26: 9.75, 28: 13, 32: 19.5, 36: 26} {
		near(t, "dry oz", 20*Slip{SG: p / 20, Solids: 2.6}.DryPerML(), want, 1e-9)
	}
}

func TestThereAndBack(t *testing.T) {
	check := func(a, b float64) bool {
		s := Slip{Solids: 1.5 + math.Mod(math.Abs(a), 4)}
		s.SG = 1 + (s.Solids-1)*(0.01+0.98*math.Mod(math.Abs(b), 1))
		if s.Check() != nil {
			return true
		}
		return math.Abs(Mixed(s.WaterPerG(), s.Solids).SG-s.SG) < 1e-9
	}
	if err := quick.Check(check, nil); err != nil {
		t.Error(err)
	}
}

// Water to a gravity: what is added makes weight and volume agree with it.
func TestWaterTo(t *testing.T) {
	g, ml := 198.29, 136.75
	x := WaterTo(1.40, g, ml)
	near(t, "SG after water", (g+x)/(ml+x), 1.40, 1e-12)
	if WaterTo(1.50, g, ml) >= 0 {
		t.Error("a slip thinner than asked wants negative water")
	}
}

func TestCheck(t *testing.T) {
	for _, bad := range []Slip{{1, 2.6}, {0.9, 2.6}, {2.6, 2.6}, {1.4, 1}, {math.NaN(), 2.6}, {1.4, math.NaN()}, {1.4, math.Inf(1)}} {
		if bad.Check() == nil {
			t.Errorf("%+v passed", bad)
		}
	}
	if err := (Slip{1.45, 2.6}).Check(); err != nil {
		t.Error(err)
	}
}
