package oxide

import (
	"math"
	"testing"
)

// C. F. Binns, The Potter's Craft (1910), worked example of a batch.
func TestBinns(t *testing.T) {
	got := Builtin().Of([]Part{
		{"White lead", 154.8}, {"Whiting", 30}, {"Potash feldspar", 55.7}, {"Kaolin", 25.8}, {"Flint", 48},
	}, false)
	if len(got.Missing) > 0 {
		t.Fatalf("missing %v", got.Missing)
	}
	want := map[Oxide]float64{"PbO": 0.6, "CaO": 0.3, "K2O": 0.1, "Al2O3": 0.2, "SiO2": 1.6}
	if len(got.Unity) != len(want) {
		t.Errorf("unity formula has %v, want %v", got.Unity, want)
	}
	for _, a := range got.Unity {
		if math.Abs(a.Value-want[a.Oxide]) > 0.002 {
			t.Errorf("%s = %.4f mol, want %.1f within 0.002", a.Oxide, a.Value, want[a.Oxide])
		}
	}
	if math.Abs(got.SiAl-8) > 0.03 {
		t.Errorf("SiO2 : Al2O3 = %.3f, want 8", got.SiAl)
	}
}
