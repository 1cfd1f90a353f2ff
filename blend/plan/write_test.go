package plan

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// survives holds that a plan comes back equal from what Write makes of it.
func survives(t *testing.T, p *blend.Plan) {
	t.Helper()
	text := Write(p)
	again, _, err := Read("again.toml", text)
	if err != nil {
		t.Fatalf("what Write makes does not read:\n%v\n%s", err, text)
	}
	withoutLines(p)
	withoutLines(again)
	if !reflect.DeepEqual(p, again) {
		t.Fatalf("the plan came back another:\n%+v\n%+v\n%s", p, again, text)
	}
	if identity.Fingerprint(p) != identity.Fingerprint(again) {
		t.Errorf("fingerprints %s and %s", identity.Fingerprint(p), identity.Fingerprint(again))
	}
}

// withoutLines takes out of a plan what is of its file alone.
func withoutLines(p *blend.Plan) {
	for i := range p.Poured {
		p.Poured[i].Line = 0
	}
	for i := range p.Glazes {
		p.Glazes[i].Line = 0
	}
}

func TestWrite_plans(t *testing.T) {
	for name, text := range plans(t) {
		p, _, err := Read(name+".toml", text)
		if err != nil {
			t.Fatal(err)
		}
		survives(t, p)
	}
}

// Any legal plan, with whatever names and amounts, survives.
func TestWrite_anyPlan(t *testing.T) {
	for seed := range uint64(100) {
		survives(t, anyPlan(rand.New(rand.NewPCG(seed, 1))))
	}
}

// anyPlan makes up a legal plan.
func anyPlan(r *rand.Rand) *blend.Plan {
	amount := func(lo, hi float64) float64 { // with the digits that arithmetic leaves
		x := lo * math.Pow(hi/lo, r.Float64())
		return quantity.Shift(math.Round(x*1e3), -3) + lo
	}
	names := map[string]bool{}
	name := func() string {
		signs := []rune(`abcXYZ éßЖ"\'=#[]{},.:;%+@-_0123456789«»`)
		for {
			var b strings.Builder
			for range 1 + r.IntN(12) {
				b.WriteRune(signs[r.IntN(len(signs))])
			}
			n := strings.TrimSpace(b.String())
			if n != "" && !names[quantity.Fold(n)] && !isLogColumn(n) {
				names[quantity.Fold(n)] = true
				return n
			}
		}
	}
	maybe := func(x float64) float64 { return x * float64(r.IntN(2)) }
	parts := func(n int) []blend.Part {
		var all []blend.Part
		for range n {
			all = append(all, blend.Part{Material: name(), Percent: amount(0.001, 90)})
		}
		return all
	}
	p := &blend.Plan{
		Title: name(),
		Mark:  []string{"", "K", "MR", "AB12"}[r.IntN(4)],
		Cup:   blend.Cup{Size: blend.Amount{Value: amount(1, 5000), Of: []blend.Basis{blend.Dry, blend.Volume, blend.Weight}[r.IntN(3)]}, DiameterMM: maybe(amount(5, 200))},
		Kit: measure.Kit{
			Scale:    measure.Step{Size: amount(0.001, 10), Unit: measure.Gram},
			Capacity: maybe(amount(1000, 90_000)),
			Pour:     measure.Step{Size: amount(0.001, 10), Unit: []measure.Unit{measure.Gram, measure.Millilitre}[r.IntN(2)]},
			Syringe:  measure.Step{Size: amount(0.001, 10), Unit: measure.Millilitre},
			Fill:     maybe(amount(0.1, 9)), Dead: maybe(amount(0.1, 90)), Loss: maybe(amount(0.1, 9)),
			FillG: 1, Extra: quantity.Shift(float64(r.IntN(1000)), -3), Worst: quantity.Shift(float64(1+r.IntN(400)), -3),
		},
		Tiles: blend.Tiles{WidthMM: amount(5, 90), HeightMM: amount(20, 200), ThicknessMM: maybe(amount(0.5, 20)), Coats: 1 + r.IntN(12), Repeats: 1 + r.IntN(20),
			HoldS: maybe(amount(0.1, 30)), Bands: []blend.Bands{blend.Straight, blend.Corner}[r.IntN(2)]},
		Board:     blend.Board{Paper: "A3", PaperW: 297, PaperH: 420, Scale: []blend.Scale{blend.Life, blend.Fit}[r.IntN(2)], GapMM: maybe(amount(0.1, 20))},
		Chemistry: blend.Chemistry{ColourantsInUnity: r.IntN(2) == 0},
	}
	p.Tiles.Size = quantity.Plain(p.Tiles.WidthMM) + " x " + quantity.Plain(p.Tiles.HeightMM) + " mm"
	if p.Kit.Pour.Unit == measure.Gram && p.Kit.Fill > 0 {
		p.Kit.Fill, p.Kit.FillG = 0, p.Kit.Fill
	}
	p.Tiles.DipMM = maybe(p.Tiles.HeightMM)
	for range 1 + r.IntN(5) {
		p.Tiles.Bodies = append(p.Tiles.Bodies, name())
	}
	if r.IntN(2) == 0 {
		p.Board.Shuffle, p.Board.Seed = true, r.Uint64()>>33
	}
	if r.IntN(2) == 0 {
		p.Labels = &blend.Labels{Columns: 2, Rows: 3, WidthMM: amount(1, 50), HeightMM: amount(1, 50), LeftMM: maybe(7.5), TopMM: maybe(3.25), GapXMM: maybe(2.5), GapYMM: maybe(1), Sheet: "Letter", SheetW: 215.9, SheetH: 279.4}
	}
	if r.IntN(2) == 0 {
		p.Log.Numbers = []string{name(), name()}
		p.Chemistry.Maps = []string{"CaO", "SiO2"}
	}
	if r.IntN(2) == 0 {
		p.Materials = []oxide.Material{
			{Name: name(), Density: amount(1, 9)},
			{Name: name(), Basis: oxide.Own, Analysis: oxide.Analysis{Oxides: []oxide.Amount{{Oxide: "CaO", Value: amount(1, 30)}, {Oxide: "SiO2", Value: amount(1, 30)}}, LOI: maybe(amount(0.1, 20))}},
		}
	}
	glazes := 4
	for range glazes {
		g := blend.Glaze{Name: name(), Recipe: parts(1 + r.IntN(6)), Solids: maybe(amount(2.6, 5))}
		if r.IntN(2) == 0 {
			g.Additions = parts(1 + r.IntN(3))
		}
		switch r.IntN(3) {
		case 0:
			g.SG = 1.01 + quantity.Shift(float64(r.IntN(80)), -2)
		case 1:
			g.WaterPer = amount(20, 300)
		}
		p.Glazes = append(p.Glazes, g)
	}
	p.Blend = anyDesign(r, name)
	if p.Blend.Kind == blend.Line {
		p.Board.BodiesAsRows = r.IntN(2) == 0
	}
	return p
}

// anyDesign makes up a design of four glazes.
func anyDesign(r *rand.Rand, name func() string) blend.Blend {
	all := []blend.Kind{blend.Line, blend.Biaxial, blend.Triaxial, blend.Quadraxial, blend.List, blend.Centroid}
	b := blend.Blend{Kind: all[r.IntN(len(all))], Basis: blend.Dry}
	if k := []blend.Kind{blend.Line, blend.Biaxial, blend.Triaxial}; r.IntN(2) == 0 {
		b.Kind = k[r.IntN(len(k))]
		b.Base = r.IntN(4)
		b.Method = []blend.Method{blend.ByDose, blend.ByStock, blend.ByPour}[r.IntN(3)]
		for range map[blend.Kind]int{blend.Line: 1, blend.Biaxial: 2, blend.Triaxial: 3}[b.Kind] {
			s := blend.Series{Material: name()}
			if b.Kind == blend.Triaxial {
				s.To = quantity.Shift(float64(1+r.IntN(5000)), -3)
			} else {
				for i := range 2 + r.IntN(6) {
					s.Percents = append(s.Percents, quantity.Shift(float64(1000*i+r.IntN(1000)), -3))
				}
				r.Shuffle(len(s.Percents), func(i, j int) { s.Percents[i], s.Percents[j] = s.Percents[j], s.Percents[i] })
			}
			b.Series = append(b.Series, s)
		}
		if b.Kind == blend.Triaxial {
			b.Divisions = 1 + r.IntN(9)
		}
		return b
	}
	b.Basis = []blend.Basis{blend.Dry, blend.Volume, blend.Weight}[r.IntN(3)]
	least, largest := b.Kind.Ends()
	b.Ends = r.Perm(4)[:least+r.IntN(largest-least+1)]
	switch b.Kind {
	case blend.Line:
		b.Cells = 3 + r.IntN(9)
	case blend.Biaxial:
		b.Columns, b.Rows = 2+r.IntN(5), 2+r.IntN(5)
	case blend.Triaxial, blend.Quadraxial:
		b.Divisions = 4 + r.IntN(5)
	case blend.List:
		for range 1 + r.IntN(6) {
			parts := make([]float64, len(b.Ends))
			for i := range parts {
				parts[i] = quantity.Shift(float64(r.IntN(1000)), -1)
			}
			parts[0]++
			b.Parts = append(b.Parts, parts)
		}
	}
	if b.Kind == blend.Line || b.Divisions > 0 {
		b.Interior = r.IntN(3) == 0
		if r.IntN(2) == 0 {
			b.Bounds = make([]blend.Bound, len(b.Ends))
			for i := range b.Bounds {
				b.Bounds[i] = blend.Bound{Lo: quantity.Shift(float64(r.IntN(200)), -3), Hi: 1}
			}
		}
	}
	return b
}

// What refine changes in a plan is written, though the plan it came from had
// left the key out.
func TestWrite_changedDefault(t *testing.T) {
	p, _, err := Read("plan.toml", []byte(seriesPlan))
	if err != nil {
		t.Fatal(err)
	}
	p.Kit.Scale.Size = 0.01
	again, _, err := Read("again.toml", Write(p))
	if err != nil {
		t.Fatal(err)
	}
	if again.Kit.Scale.Size != 0.01 {
		t.Errorf("scale %v, want 0.01 g", again.Kit.Scale)
	}
	for _, line := range again.Kit.Defaults {
		if strings.HasPrefix(line, "scale") {
			t.Errorf("a scale that is written counts as left out: %q", again.Kit.Defaults)
		}
	}
}
