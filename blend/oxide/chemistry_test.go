package oxide

import (
	"math"
	"math/rand/v2"
	"testing"
)

// randomMix is a mix of up to eight of the built-in materials.
func randomMix(rnd *rand.Rand) []Part {
	all := Builtin().All()
	parts := make([]Part, 1+rnd.IntN(8))
	for i := range parts {
		parts[i] = Part{all[rnd.IntN(len(all))].Name, 0.01 + 100*rnd.Float64()}
	}
	return parts
}

func sum(list []Amount) float64 {
	s := 0.0
	for _, a := range list {
		s += a.Value
	}
	return s
}

func TestChemistrySums(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 1))
	for range 2000 {
		mix := randomMix(rnd)
		for _, opt := range []bool{false, true} {
			c := Builtin().Of(mix, opt)
			if len(c.Missing) > 0 {
				t.Fatalf("%v: missing %v", mix, c.Missing)
			}
			if len(c.WeightPercent) == 0 {
				continue // only gum
			}
			near(t, "sum of weight %", sum(c.WeightPercent), 100, 1e-9)
			near(t, "sum of mol %", sum(c.MolPercent), 100, 1e-9)
			flux, counted := 0.0, 0.0
			for _, a := range c.Unity {
				switch g := a.Oxide.Group(); {
				case g == R2OFlux, g == ROFlux:
					flux += a.Value
					counted += a.Value
				case a.Oxide == "MnO", a.Oxide == "CoO", a.Oxide == "NiO", a.Oxide == "CuO", a.Oxide == "CdO":
					counted += a.Value
				}
			}
			if opt {
				flux = counted
			}
			if len(c.Unity) > 0 {
				near(t, "R2O + RO", flux, 1, 1e-9)
			}
		}
	}
}

// A blend's oxides are the dry-mass-weighted mean of its ends': that must
// agree with the blend's own recipe written out, worked from the materials.
func TestVectorIsWeightedMean(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 2))
	for range 500 {
		n := 1 + rnd.IntN(7)
		ends, dry := make([]Vector, n), make([]float64, n)
		var whole []Part
		for i := range ends {
			mix := randomMix(rnd)
			ends[i], _ = Builtin().Vector(mix)
			dry[i] = 200 * rnd.Float64()
			total := 0.0
			for _, p := range mix {
				total += p.Percent
			}
			for _, p := range mix {
				whole = append(whole, Part{p.Material, p.Percent / total * dry[i]})
			}
		}
		var got Vector
		sum := 0.0
		for _, g := range dry {
			sum += g
		}
		for i, end := range ends {
			for k := range end.G {
				got.G[k] += dry[i] / sum * end.G[k]
			}
			got.Loss += dry[i] / sum * end.Loss
		}
		want, _ := Builtin().Vector(whole)
		for i := range want.G {
			near(t, string(oxides()[i].Name), got.G[i], want.G[i], 1e-12)
		}
		near(t, "loss", got.Loss, want.Loss, 1e-12)
	}
}

// Worked by hand: 56.0288 % of whiting and 46.5478 % and 39.4955 % of kaolin
// (theoretical compositions, IUPAC 2021 weights) in equal parts.
func TestChemistry_byHand(t *testing.T) {
	c := Builtin().Of([]Part{{"Whiting", 50}, {"Kaolin", 50}}, false)
	fired := (56.0288 + 46.5478 + 39.4955) / 2
	want := map[Oxide]float64{"CaO": 56.0288 / 2 / fired * 100, "SiO2": 46.5478 / 2 / fired * 100, "Al2O3": 39.4955 / 2 / fired * 100}
	for _, a := range c.WeightPercent {
		near(t, string(a.Oxide), a.Value, want[a.Oxide], 1e-3)
	}
	near(t, "LOI", c.LOI, 100-fired, 1e-3)
	near(t, "SiO2 : Al2O3", c.SiAl, 2, 1e-9)
}

func TestUnity_conventions(t *testing.T) {
	recipe := []Part{{"Whiting", 100.086}, {"Silica", 60.083}, {"Copper oxide", 79.545}, {"Red iron oxide", 159.687}}
	for _, tt := range []struct {
		opt  bool
		want map[Oxide]float64
	}{
		{false, map[Oxide]float64{"CaO": 1, "SiO2": 1, "CuO": 1, "Fe2O3": 1}},
		{true, map[Oxide]float64{"CaO": 0.5, "SiO2": 0.5, "CuO": 0.5, "Fe2O3": 0.5}},
	} {
		c := Builtin().Of(recipe, tt.opt)
		if len(c.Unity) != 4 {
			t.Errorf("unity %v", c.Unity)
		}
		for _, a := range c.Unity {
			near(t, string(a.Oxide), a.Value, tt.want[a.Oxide], 1e-5)
		}
		if c.SiAl != 0 {
			t.Errorf("SiO2 : Al2O3 = %v without Al2O3", c.SiAl)
		}
	}
	if c := Builtin().Of([]Part{{"Silica", 1}}, false); c.Unity != nil {
		t.Errorf("silica alone has a unity formula: %v", c.Unity)
	}
	if c := Builtin().Of([]Part{{"CMC", 1}}, false); c.WeightPercent != nil || c.LOI != 100 {
		t.Errorf("gum alone: %+v", c)
	}
}

// The convention of the package comment, oxide by oxide.
func TestGroups(t *testing.T) {
	want := map[Oxide]Group{
		"K2O": R2OFlux, "Li2O": R2OFlux, "CaO": ROFlux, "ZnO": ROFlux, "PbO": ROFlux, "Al2O3": Intermediate,
		"SiO2": GlassFormer, "B2O3": GlassFormer, "TiO2": Opacifier, "Fe2O3": Colourant, "MnO": Colourant, "CuO": Colourant, "FeO": "",
	}
	for o, g := range want {
		if o.Group() != g {
			t.Errorf("%s is %q, want %q", o, o.Group(), g)
		}
	}
	if n := len(Oxides()); n < 35 {
		t.Errorf("%d oxides, want at least 35", n)
	}
}

func TestMissing(t *testing.T) {
	l := Builtin().With(Material{Name: "Mystery frit", Density: 2.5})
	for _, tt := range []struct {
		name  string
		parts []Part
		want  []string
	}{
		{"no analysis, unknown, repeated", []Part{{"Silica", 1}, {"Mystery frit", 1}, {"Moon dust", 2}, {"moon-dust", 1}}, []string{"Mystery frit", "Moon dust"}},
		{"none of it", []Part{{"Silica", 1}, {"Moon dust", 0}}, nil},
		{"empty", nil, nil},
	} {
		c := l.Of(tt.parts, false)
		if len(c.Missing) != len(tt.want) {
			t.Errorf("%s: missing %v, want %v", tt.name, c.Missing, tt.want)
			continue
		}
		for i := range tt.want {
			if c.Missing[i] != tt.want[i] {
				t.Errorf("%s: missing %v, want %v", tt.name, c.Missing, tt.want)
			}
		}
		if len(c.Missing) > 0 && (c.WeightPercent != nil || c.Unity != nil || c.LOI != 0) {
			t.Errorf("%s: something is filled although materials are missing: %+v", tt.name, c)
		}
	}
}

// Amounts at the ends of what a float64 holds must not make infinities.
func TestExtremeAmounts(t *testing.T) {
	want := Builtin().Of([]Part{{"Whiting", 1}, {"Kaolin", 1}}, false)
	for _, size := range []float64{1e300, 1e-300} {
		got := Builtin().Of([]Part{{"Whiting", size}, {"Kaolin", size}}, false)
		if len(got.Unity) != len(want.Unity) {
			t.Errorf("size %g: %+v", size, got)
			continue
		}
		for i := range want.Unity {
			near(t, "unity", got.Unity[i].Value, want.Unity[i].Value, 1e-9)
		}
	}
	// A trace of flux makes no unity formula.
	if c := Builtin().Of([]Part{{"Silica", 1}, {"Whiting", 1e-300}}, false); c.Unity != nil {
		t.Errorf("unity of a trace: %v", c.Unity)
	}
}

// Worked by hand: 1/S = 0.5/2.65 + 0.5/2.60.
func TestSolidsDensity(t *testing.T) {
	got, missing := Builtin().SolidsDensity([]Part{{"Silica", 30}, {"Kaolin", 30}})
	if len(missing) > 0 {
		t.Fatal(missing)
	}
	near(t, "density", got, 2.62476, 1e-5)
	l := Builtin().With(Material{Name: "Frit", Analysis: Analysis{LOI: 100}})
	if s, missing := l.SolidsDensity([]Part{{"Frit", 1}, {"Silica", 1}}); s != 0 || len(missing) != 1 || missing[0] != "Frit" {
		t.Errorf("density %g, missing %v", s, missing)
	}
	if s, missing := l.SolidsDensity(nil); s != 0 || missing != nil {
		t.Errorf("nothing has density %g, missing %v", s, missing)
	}
	rnd := rand.New(rand.NewPCG(6, 3))
	for range 500 { // between its lightest and its heaviest material
		mix := randomMix(rnd)
		low, high := math.Inf(1), 0.0
		for _, p := range mix {
			m, _ := l.Find(p.Material)
			low, high = min(low, m.Density), max(high, m.Density)
		}
		if s, _ := l.SolidsDensity(mix); s < low*(1-1e-12) || s > high*(1+1e-12) {
			t.Errorf("%v has density %g, outside %g to %g", mix, s, low, high)
		}
	}
}

// Of is the whole way from a dry mix to its chemistry, as a test's cells take it.
func (l Library) Of(parts []Part, opt bool) Chemistry {
	v, missing := l.Vector(parts)
	if len(missing) > 0 {
		return Chemistry{Missing: missing}
	}
	return v.Chemistry(opt)
}
