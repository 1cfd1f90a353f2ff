package identity

import (
	"slices"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
)

func TestAmounts(t *testing.T) {
	tenth := 0.1
	p := &blend.Plan{
		Cup:    blend.Cup{Size: blend.Amount{Value: 3 * tenth, Of: blend.Dry}}, // 0.30000000000000004
		Kit:    measure.Kit{Scale: measure.Step{Size: 0.1, Unit: measure.Gram}, Pour: measure.Step{Size: 5, Unit: measure.Millilitre}},
		Glazes: []blend.Glaze{{Name: "Ash = wood", SG: 1.45}, {Name: "Blue", WaterPer: 98}},
		Blend:  blend.Blend{Kind: blend.Line, Ends: []int{0, 1}},
		Have:   []blend.Have{{Glaze: "Ash = wood", ML: 1450}, {Glaze: "Blue", WetG: 2000}},
	}
	want := []string{
		`[cup] dry = "0.3 g"`, `--have "Ash = wood=1450 mL"`, `--have "Blue=2000 g wet"`,
		`[measure] scale = "0.1 g"`, `[measure] pour = "5 mL"`,
		`[[glaze]] "Ash = wood" specific-gravity = 1.45`, `[[glaze]] "Blue" water = "98 g"`,
	}
	if got := AmountsOf(p).Lines(); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestSameAmounts(t *testing.T) {
	for _, c := range []struct {
		was, is []string
		want    bool
	}{
		{nil, []string{`[cup] dry = "300 g"`}, true},
		{[]string{`[cup] dry = "300 g"`}, []string{`[cup] dry = "300 g"`}, true},
		{[]string{`[cup] dry = "500 g"`, `[measure] pour = "1 mL"`}, []string{`[cup] dry = "300 g"`, `[measure] pour = "1 mL"`}, false},
		{[]string{`[cup] volume = "180 mL"`}, []string{`[cup] dry = "300 g"`}, false},
		{[]string{`[cup] dry = "300 g"`}, []string{`[cup] dry = "300 g"`, `[measure] pour = "1 mL"`}, false},
		{[]string{`[cup] dry = "287 g"`, `--have "Ash=1450 mL"`}, []string{`[cup] dry = "300 g"`}, false},
		{[]string{`[cup] dry = "300 g"`}, []string{`[cup] dry = "287 g"`, `--have "Ash=1450 mL"`}, false},
		{[]string{`[cup] dry = "287 g"`, `--have "Ash=1450 mL"`}, []string{`[cup] dry = "286 g"`, `--have "Ash=1450 mL"`}, false},
		{[]string{`[[glaze]] "Slate" specific-gravity = 1.45`}, []string{`[[glaze]] "Slate blue" specific-gravity = 1.45`}, true},
		{[]string{`[[glaze]] "Slate" specific-gravity = 1.45`}, []string{`[[glaze]] "Slate" water = "98 g"`}, false},
		{[]string{`--have "Ash=1450 mL"`, `--have "Tin=1 L"`}, []string{`--have "Tin=1 L"`, `--have "Ash=1450 mL"`}, true},
	} {
		if got := Same(ReadAmounts(c.was), ReadAmounts(c.is)); got != c.want {
			t.Errorf("from %q to %q: %v, want %v", c.was, c.is, got, c.want)
		}
	}
}

// Amounts of a log are read back, also in the words of earlier versions. A line
// that cannot be read is carried unchanged.
func TestReadAmounts(t *testing.T) {
	lines := []string{
		`[cup] batch = "1000 g"`, `--have "Ash = wood=1450 mL"`, `--have "Blue=1000 g dry, 1370 mL"`,
		`[measure] scale = "0.1 g"`, `[measure] pour = "5 mL"`, `[blend] method = "stock"`, `[measure] syringe = "1 mL"`,
		`[[glaze]] "Ash = wood" specific-gravity = 1.45`, `[[glaze]] "Blue" water = "98 g"`,
	}
	if got := ReadAmounts(lines).Lines(); !slices.Equal(got, lines) {
		t.Errorf("%q", got)
	}
	old := ReadAmounts([]string{`[cup] dry = "100 g"`, `--have "Blue=2000 g"`, `[oven] heat = "9"`})
	p := old.In(&blend.Plan{Cup: blend.Cup{BatchG: 5}})
	if len(p.Have) != 1 || p.Have[0].WetG != 2000 || p.Cup != (blend.Cup{Size: blend.Amount{Value: 100, Of: blend.Dry}}) || old[2].String() != `[oven] heat = "9"` {
		t.Errorf("%+v makes %+v", old, p)
	}
}
