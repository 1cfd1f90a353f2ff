package class

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/plan"
)

// member works out a colourant test of one base.
func member(t *testing.T, name, mark, base, recipe, colourant string, sg string) Member {
	t.Helper()
	text := `title = "A class test"
mark = "` + mark + `"
[cup]
batch = "1000 g"
[measure]
scale = "0.1 g"
pour = "5 mL"
[[glaze]]
name = "` + base + `"
recipe = ` + recipe + `
additions = [["Bentonite", 2]]
specific-gravity = ` + sg + `
[blend]
kind = "line"
base = "` + base + `"
[[blend.series]]
material = "` + colourant + `"
percent = [0, 1, 2, 4]
[tiles]
bodies = ["Buff"]
`
	p, _, err := plan.Read(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return Member{Plan: name, Test: test}
}

const clear = `[["Potash feldspar", 40], ["Silica", 30], ["Whiting", 20], ["Kaolin", 10]]`

func TestOf(t *testing.T) {
	other := `[["Kaolin", 10], ["Whiting", 20], ["Silica", 30], ["Potash feldspar", 40]]` // the same in another order
	s := Of([]Member{
		member(t, "ana.toml", "RU", "Clear", clear, "Rutile", "1.45"),
		member(t, "ben.toml", "KA", "Our clear", other, "Copper carbonate", "1.45"),
		member(t, "cem.toml", "TN", "Clear", clear, "Rutile", "1.5"), // another SG
		member(t, "dee.toml", "RU", "Matt", `[["Talc", 50], ["Kaolin", 50]]`, "Tin oxide", "1.45"),
	})
	if len(s.Batches) != 3 {
		t.Fatalf("%d batches: %+v", len(s.Batches), s.Batches)
	}
	// Two batches of 1000 g: 2000 g of recipe, 40 % of it feldspar, 2 % bentonite
	// over it.
	first := s.Batches[0]
	if first.RecipeG != 2000 || len(first.Uses) != 2 || first.Uses[1].Glaze != "Our clear" || first.Parts[0].G != 800 || first.Parts[4].G != 40 {
		t.Errorf("the clear glaze of two: %+v", first)
	}
	water := 0.0
	for _, m := range s.Members[:2] {
		water += m.Test.Batches[0].WaterG
	}
	if math.Abs(first.WaterG-water) > 1e-9 {
		t.Errorf("water %v, want %v", first.WaterG, water)
	}
	got := map[string]float64{}
	for _, p := range s.Shopping {
		got[p.Material] = p.G
	}
	// Bentonite 4 x 20 g; kaolin 3 x 100 g and 500 g.
	for name, want := range map[string]float64{"Bentonite": 80, "Kaolin": 800, "Potash feldspar": 1200, "Talc": 500} {
		if math.Abs(got[name]-want) > 1 {
			t.Errorf("%s: %v g, want %v", name, got[name], want)
		}
	}
	if len(s.Clashes) != 1 || s.Clashes[0].A != 0 || s.Clashes[0].B != 3 || s.Clashes[0].Count != 4 || !strings.HasPrefix(s.Clashes[0].Mark, "RU1") {
		t.Errorf("clashes %+v", s.Clashes)
	}
}

// What is bought over all is the sum of what is bought for each.
func TestOf_shoppingSums(t *testing.T) {
	members := []Member{
		member(t, "a.toml", "AA", "Clear", clear, "Rutile", "1.45"),
		member(t, "b.toml", "CC", "Clear", clear, "rutile", "1.45"),
	}
	each, all := 0.0, 0.0
	for _, m := range members {
		for _, p := range m.Test.Shopping() {
			each += p.G
		}
	}
	for _, p := range Of(members).Shopping {
		all += p.G
	}
	if math.Abs(each-all) > 1e-9 {
		t.Errorf("%v g over all, %v g one by one", all, each)
	}
}

// O and 0, I and 1 are read for each other, and A1 with A share A11 to A19.
func TestOf_clashes(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"TO", "T0", 4}, {"RU", "KA", 0}, {"RI", "R1", 4}} {
		s := Of([]Member{member(t, "a.toml", c.a, "Clear", clear, "Rutile", "1.45"), member(t, "b.toml", c.b, "Clear", clear, "Rutile", "1.45")})
		n := 0
		for _, clash := range s.Clashes {
			n += clash.Count
		}
		if n != c.want {
			t.Errorf("%s and %s share %d marks, want %d: %+v", c.a, c.b, n, c.want, s.Clashes)
		}
	}
}

// A material that only the second plan describes is cautioned by that plan.
func TestHazards_ownMaterials(t *testing.T) {
	first := member(t, "ana.toml", "RU", "Clear", clear, "Rutile", "1.45")
	p := *first.Test.Plan
	p.Glazes = []blend.Glaze{{Name: "Clear", Recipe: []blend.Part{{Material: "Studio mix", Percent: 100}}, SG: 1.45}}
	p.Materials = []oxide.Material{{Name: "Studio mix", Analysis: oxide.Analysis{Oxides: []oxide.Amount{{Oxide: "BaO", Value: 60}, {Oxide: "SiO2", Value: 40}}}}}
	second, err := blend.New(&p)
	if err != nil {
		t.Fatal(err)
	}
	got := Of([]Member{first, {Plan: "ben.toml", Test: second}}).Hazards()
	barium := slices.IndexFunc(got, func(h oxide.Hazard) bool { return h.Contains == "barium" })
	if barium < 0 || !slices.Equal(got[barium].Materials, []string{"Studio mix"}) {
		t.Errorf("hazards %+v", got)
	}
	seen := map[string]bool{}
	for _, h := range got {
		if seen[h.Substance] {
			t.Errorf("%s twice", h.Substance)
		}
		seen[h.Substance] = true
	}
}
