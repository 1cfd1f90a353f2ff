package oxide

import (
	"math"
	"strings"
	"testing"
)

func TestParseAnalysis(t *testing.T) {
	for _, tt := range []struct {
		name    string
		entries map[string]float64
		want    map[Oxide]float64
		loi     float64
	}{
		{"wood ash of the design", map[string]float64{"SiO2": 38.2, "CaO": 27.5, "K2O": 9.1, "MgO": 4.0, "P2O5": 2.6, "LOI": 18.6},
			map[Oxide]float64{"SiO2": 38.2, "CaO": 27.5, "K2O": 9.1, "MgO": 4.0, "P2O5": 2.6}, 18.6},
		{"no LOI", map[string]float64{"CaO": 56}, map[Oxide]float64{"CaO": 56}, 0},
		{"no LOI of a good analysis", map[string]float64{"SiO2": 66.5, "Al2O3": 30}, map[Oxide]float64{"SiO2": 66.5, "Al2O3": 30}, 0},
		{"no LOI and over 100", map[string]float64{"SiO2": 60.5, "CaO": 40}, map[Oxide]float64{"SiO2": 60.5, "CaO": 40}, 0},
		{"LOI that leaves a gap", map[string]float64{"SiO2": 60, "LOI": 1}, map[Oxide]float64{"SiO2": 60}, 1},
		{"gain", map[string]float64{"CuO": 111.181 - 11.181, "LOI": -2}, map[Oxide]float64{"CuO": 100}, -2},
		{"only loss", map[string]float64{"LOI": 100}, nil, 100},
		{"subscripts", map[string]float64{"SiO₂": 100}, map[Oxide]float64{"SiO2": 100}, 0},
		// oxygen_loss_conversions.csv: MnO2 0.815968, Co3O4 0.933558
		{"other forms", map[string]float64{"MnO2": 50, "Co3O4": 50}, map[Oxide]float64{"MnO": 40.7984, "CoO": 46.6779}, 12.5237},
		{"carbon dioxide", map[string]float64{"CaO": 56, "CO2": 44, "LOI": 0}, map[Oxide]float64{"CaO": 56}, 44},
		// 1 g F takes the place of 15.999/(2 × 18.998) = 0.42106 g O
		{"fluorine", map[string]float64{"CaO": 90, "F": 10, "LOI": 0}, map[Oxide]float64{"CaO": 90}, 5.7894},
	} {
		a, _, err := ParseAnalysis(tt.entries)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if len(a.Oxides) != len(tt.want) {
			t.Errorf("%s: %v", tt.name, a)
		}
		for _, x := range a.Oxides {
			near(t, tt.name+": "+string(x.Oxide), x.Value, tt.want[x.Oxide], 1e-4)
		}
		near(t, tt.name+": LOI", a.LOI, tt.loi, 1e-4)
	}
	for _, tt := range []struct {
		entries   map[string]float64
		key, says string
	}{
		{map[string]float64{"Si02": 50}, "Si02", "did you mean SiO2?"},
		{map[string]float64{"K20": 50}, "K20", "did you mean K2O?"},
		{map[string]float64{"AL2O3": 50}, "AL2O3", "did you mean Al2O3?"},
		{map[string]float64{"SiO": 50}, "SiO", "is not an oxide"},
		{map[string]float64{"magnesia": 50}, "magnesia", "is not an oxide"},
		{map[string]float64{"SiO2": -1}, "SiO2", "from 0 to 100"},
		{map[string]float64{"SiO2": math.NaN()}, "SiO2", "from 0 to 100"},
		{map[string]float64{"SiO2": math.Inf(1)}, "SiO2", "from 0 to 100"},
		{map[string]float64{"LOI": math.NaN()}, "LOI", "from -100 to 100"},
		{map[string]float64{"SiO2": 60, "CaO": 50.5}, "", "adds up to 110.5 %"},
		{map[string]float64{"SiO2": 60, "LOI": 51}, "", "adds up to 111 %"},
		{map[string]float64{}, "", "empty"},
		{map[string]float64{"SiO2": 0}, "", "empty"},
	} {
		a, key, err := ParseAnalysis(tt.entries)
		if err == nil {
			t.Errorf("%v is read as %v", tt.entries, a)
			continue
		}
		if key != tt.key || !strings.Contains(err.Error(), tt.says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%v: %q about %q, want %q about %q", tt.entries, err, key, tt.says, tt.key)
		}
	}
}

func TestAddsUp(t *testing.T) {
	for _, tt := range []struct {
		entries map[string]float64
		want    bool
	}{
		{map[string]float64{"SiO2": 60, "CaO": 27, "LOI": 12}, true},
		{map[string]float64{"SiO2": 70}, false},
		{map[string]float64{"SiO2": 60, "CaO": 36.5}, false},
		{map[string]float64{"SiO2": 60, "CaO": 37}, true},
		{map[string]float64{"SiO2": 60, "CaO": 40, "LOI": 3.5}, false},
	} {
		a, _, err := ParseAnalysis(tt.entries)
		if err != nil || a.AddsUp() != tt.want {
			t.Errorf("%v adds up to %g: %v, %v", tt.entries, a.Total(), a.AddsUp(), err)
		}
	}
}

func FuzzParseAnalysis(f *testing.F) {
	f.Add("SiO2", 60.0, "LOI", 10.0)
	f.Add("FeO", 50.0, "F", 1.0)
	f.Add("Si02", 1.0, "", math.Inf(1))
	f.Fuzz(func(t *testing.T, k1 string, v1 float64, k2 string, v2 float64) {
		a, _, err := ParseAnalysis(map[string]float64{k1: v1, k2: v2})
		if err != nil {
			return
		}
		if !usable(a) {
			t.Errorf("%q %v, %q %v is read as %v, which cannot be used", k1, v1, k2, v2, a)
		}
		c := Builtin().With(Material{Name: "Own", Analysis: a}).Of([]Part{{"Own", 1}}, false)
		for _, x := range append(append(c.WeightPercent, c.MolPercent...), c.Unity...) {
			if math.IsNaN(x.Value) || math.IsInf(x.Value, 0) {
				t.Errorf("%v has chemistry %+v", a, c)
			}
		}
	})
}

// usable reports whether the figures can be calculated with.
func usable(a Analysis) bool {
	for _, x := range a.Oxides {
		if _, known := x.Oxide.Place(); !known || !(x.Value >= 0 && x.Value <= 1000) {
			return false
		}
	}
	return !a.Empty() && a.LOI >= -1000 && a.LOI <= 100
}
