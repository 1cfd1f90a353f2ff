package blend

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pourboard/blend/design"
	"pourboard/blend/measure"
)

// matte, ash and blue are invented glazes.
var (
	matte = Glaze{Name: "Matte", SG: 1.45, Solids: 2.6, Recipe: []Part{{Material: "Potash feldspar", Percent: 44}, {Material: "Silica", Percent: 22}, {Material: "Talc", Percent: 16}, {Material: "Whiting", Percent: 10}, {Material: "Kaolin", Percent: 8}}, Additions: []Part{{Material: "Bentonite", Percent: 2}}}
	ash   = Glaze{Name: "Ash", SG: 1.50, Solids: 2.7, Recipe: []Part{{Material: "Wood ash", Percent: 50}, {Material: "Potash feldspar", Percent: 30}, {Material: "Kaolin", Percent: 20}}}
	blue  = Glaze{Name: "Blue", SG: 1.40, Solids: 2.6, Recipe: []Part{{Material: "Soda feldspar", Percent: 50}, {Material: "Silica", Percent: 30}, {Material: "Whiting", Percent: 20}}, Additions: []Part{{Material: "Cobalt carbonate", Percent: 1}}}
	clear = Glaze{Name: "Clear", SG: 1.43, Solids: 2.6, Recipe: []Part{{Material: "Silica", Percent: 60}, {Material: "Whiting", Percent: 40}}}
)

func kit() measure.Kit {
	return measure.Kit{
		Scale: measure.Step{Size: 0.1, Unit: measure.Gram}, Pour: measure.Step{Size: 5, Unit: measure.Millilitre},
		Syringe: measure.Step{Size: 1, Unit: measure.Millilitre}, Extra: 0.10, Worst: 0.05,
	}
}

func planOf(b Blend) *Plan {
	if b.Basis == "" {
		b.Basis = Dry
	}
	if b.HasSeries() && b.Method == "" {
		b.Method = ByDose
	}
	return &Plan{
		Title: "Invented", Cup: Cup{Size: Amount{100, Dry}}, Kit: kit(),
		Glazes: []Glaze{matte, ash, blue, clear}, Blend: b,
		Tiles: Tiles{Bodies: []string{"Buff"}, WidthMM: 50, HeightMM: 100, Coats: 2, Repeats: 1},
	}
}

// designs is one of every kind, of end glazes and of series.
func designs() map[string]Blend {
	copper := Series{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 2, 4}}
	rutile := Series{Material: "Rutile", Percents: []float64{2, 4, 8}}
	return map[string]Blend{
		"line":            {Kind: Line, Ends: []int{0, 1}, Cells: 11},
		"line inside":     {Kind: Line, Ends: []int{0, 1}, Cells: 9, Interior: true, Repeat: []int{1, 9}},
		"pairs":           {Kind: Pairs, Ends: []int{0, 1, 2, 3}, PairShares: []float64{25, 50, 75}, Alone: true},
		"rows":            {Kind: Rows, Series: []Series{copper, rutile}, Repeat: []int{2}},
		"rows of a base":  {Kind: Rows, Series: []Series{{Name: "Ana", Material: "Rutile", Percents: []float64{0, 1, 2, 4, 8}}, {Name: "Ben", Material: "Copper carbonate", Percents: []float64{0, 0, 0.5}}}, SharedZero: true},
		"series twice":    {Kind: Line, Series: []Series{{Material: "Copper carbonate", Percents: []float64{0, 0, 1, 2}}}},
		"line bounds":     {Kind: Line, Ends: []int{0, 1}, Cells: 5, Bounds: []Bound{{Lo: 0, Hi: 1}, {Lo: 0.2, Hi: 0.6}}},
		"biaxial":         {Kind: Biaxial, Ends: []int{0, 1, 2, 3}, Columns: 5, Rows: 4},
		"triaxial":        {Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: 6},
		"triaxial in":     {Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: 6, Interior: true},
		"triaxial bounds": {Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: 6, Bounds: []Bound{{Lo: 0.2, Hi: 1}, {Lo: 0.2, Hi: 0.6}, {Lo: 0, Hi: 1}}},
		"quadraxial":      {Kind: Quadraxial, Ends: []int{0, 1, 2, 3}, Divisions: 4},
		"list":            {Kind: List, Ends: []int{0, 1, 2}, Parts: [][]float64{{70, 30, 0}, {1, 1, 1}, {0, 0, 5}}},
		"centroid":        {Kind: Centroid, Ends: []int{0, 1, 2, 3}},
		"series":          {Kind: Line, Series: []Series{copper}},
		"two series":      {Kind: Biaxial, Series: []Series{copper, rutile}},
		"three series":    {Kind: Triaxial, Divisions: 4, Series: []Series{{Material: "Copper carbonate", To: 4}, {Material: "Rutile", To: 8}, {Material: "Tin oxide", To: 5}}},
	}
}

// variants tries every design in every basis, size and way of pouring.
func variants(t *testing.T, try func(t *testing.T, test *Test)) {
	for name, b := range designs() {
		for _, basis := range []Basis{Dry, Volume, Weight} {
			for _, size := range []Basis{Dry, Volume, Weight} {
				for _, pour := range []measure.Step{{Size: 5, Unit: measure.Millilitre}, {Size: 0.5, Unit: measure.Gram}} {
					methods := []Method{""}
					if b.HasSeries() {
						methods = []Method{ByDose, ByStock, ByPour}
					}
					for _, m := range methods {
						b.Basis, b.Method = basis, m
						p := planOf(b)
						p.Cup = Cup{Size: Amount{150, size}}
						p.Kit.Pour = pour
						p.Kit.Worst = 2 // advice has tests of its own
						t.Run(fmt.Sprintf("%s/%s/%s/%s/%s", name, basis, size, pour.Unit, m), func(t *testing.T) {
							test, err := New(p)
							if err != nil {
								t.Fatal(err)
							}
							try(t, test)
						})
					}
				}
			}
		}
	}
}

func close(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)+math.Abs(b)) }

func TestProperties(t *testing.T) {
	variants(t, func(t *testing.T, test *Test) {
		p := test.Plan
		for i, c := range test.Cells {
			if c.Number != i+1 {
				t.Fatalf("cell %d has the number %d", i+1, c.Number)
			}
			shares, ml, g, dry, recipeG, steps := 0.0, 0.0, 0.0, 0.0, 0.0, int64(0)
			got, gotRecipe := 0.0, 0.0
			for e, x := range c.Shares {
				shares += x
				ml += c.Pours[e].ML
				g += c.Pours[e].G
				dry += c.Pours[e].DryG
				recipeG += c.Pours[e].RecipeG
				gotRecipe += c.Pours[e].Got.RecipeG
				steps += c.Pours[e].Steps
				got += c.Pours[e].GotShare
				if (x == 0) != (c.Pours[e].ML == 0) {
					t.Fatalf("cell %d: a share of %g is a pour of %g mL", c.Number, x, c.Pours[e].ML)
				}
				exact := c.Pours[e].ML
				if p.Kit.Pour.Unit == measure.Gram {
					exact = c.Pours[e].G
				}
				if off := math.Abs(p.Kit.Pour.Amount(c.Pours[e].Steps) - exact); off >= p.Kit.Pour.Size {
					t.Errorf("cell %d: pour of %g is measured %g off", c.Number, exact, off)
				}
			}
			if !close(shares, 1) {
				t.Errorf("cell %d: shares sum to %g", c.Number, shares)
			}
			if !close(got, 1) {
				t.Errorf("cell %d: measured shares sum to %g", c.Number, got)
			}
			total := ml
			if p.Kit.Pour.Unit == measure.Gram {
				total = g
			}
			if steps != p.Kit.Pour.Count(total) {
				t.Errorf("cell %d: measured pours sum to %d steps and the cup to %d", c.Number, steps, p.Kit.Pour.Count(total))
			}
			if !close(recipeG, c.RecipeG) || !close(gotRecipe, c.Got.RecipeG) {
				t.Errorf("cell %d: pours hold %g g of recipe, measured %g, and the cup %g and %g", c.Number, recipeG, gotRecipe, c.RecipeG, c.Got.RecipeG)
			}
			if !p.Blend.HasSeries() {
				size := map[Basis]float64{Dry: recipeG, Volume: ml, Weight: g}[p.Cup.Size.Of]
				if !close(size, p.Cup.Size.Value) {
					t.Errorf("cell %d: %g in a cup of %g", c.Number, size, p.Cup.Size.Value)
				}
				if !close(dry, c.DryG) {
					t.Errorf("cell %d: pours hold %g g dry and the cup %g", c.Number, dry, c.DryG)
				}
			}
			for s, d := range c.Doses {
				if !close(d.Percent/100*gotRecipe, d.G) {
					t.Errorf("cell %d: %g %% of %s is %g g over %g g", c.Number, d.Percent, p.Blend.Series[s].Material, d.G, gotRecipe)
				}
			}
			recipe, _ := test.Recipe(i, Asked)
			sum := 0.0
			for _, part := range recipe {
				sum += part.Percent
			}
			if !close(sum, 100) {
				t.Errorf("cell %d: recipe sums to %g", c.Number, sum)
			}
			if !(c.SG > 1) || c.SG > 7 {
				t.Errorf("cell %d: specific gravity %g", c.Number, c.SG)
			}
		}
		for i, b := range test.Batches {
			if b.NeedML > 0 && b.ML < b.NeedML*(1+p.Kit.Extra)-1e-6 {
				t.Errorf("batch %d: %g mL for a need of %g", i, b.ML, b.NeedML)
			}
			sum := 0.0
			for _, w := range b.Weighings {
				sum += w.G
			}
			off := p.Kit.Scale.Size / 2
			for _, x := range b.Apart {
				sum += x.G
				off += x.Step.Size / 2
			}
			if math.Abs(sum-b.WeighedG) > 1e-9 || math.Abs(sum-b.DryG) > off+1e-9 {
				t.Errorf("batch %d: materials sum to %g of %g g, and %g is said", i, sum, b.DryG, b.WeighedG)
			}
		}
	})
}

// Dosed, poured from stock or blended from end slips: a cup holds the same dry
// recipe, to the last digit.
func TestMethodsAgree(t *testing.T) {
	for name, b := range designs() {
		if !b.HasSeries() {
			continue
		}
		var first *Test
		for _, m := range []Method{ByDose, ByStock, ByPour} {
			b.Method = m
			test, err := New(planOf(b))
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = test
				continue
			}
			for i := range test.Cells {
				want, wantOver := first.Recipe(i, Asked)
				got, gotOver := test.Recipe(i, Asked)
				compareParts(t, fmt.Sprintf("%s by %s, cell %d", name, m, i+1), append(got, gotOver...), append(want, wantOver...))
			}
		}
	}
}

// Twelve glazes, each with each, by hand: cup 1 is half of the first and half
// of the second, cup 66 of the last two, and cup 78 the last alone; a cup of
// 100 g of recipe at 50 % takes 50 g of either.
func TestPairs_twelve(t *testing.T) {
	b := Blend{Kind: Pairs, PairShares: []float64{50}, Alone: true}
	p := planOf(b)
	p.Glazes = nil
	for i := range 12 {
		g := []Glaze{matte, ash, blue, clear}[i%4]
		g.Name = fmt.Sprintf("Glaze %d", i+1)
		p.Glazes = append(p.Glazes, g)
		p.Blend.Ends = append(p.Blend.Ends, i)
	}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if len(test.Cells) != 78 {
		t.Fatalf("%d cups, want 66 pairs and 12 alone", len(test.Cells))
	}
	for cup, want := range map[int][]float64{1: {0: 50, 1: 50}, 66: {10: 50, 11: 50}, 78: {11: 100}} {
		for e, p := range test.Cells[cup-1].Pours {
			x := 0.0
			if e < len(want) {
				x = want[e]
			}
			if !close(p.RecipeG, x) {
				t.Errorf("cup %d: %g g of %s, want %g", cup, p.RecipeG, test.Ends[e].Name, x)
			}
		}
	}
	// Each glaze is in 11 pairs of 50 g and once alone: 650 g, and a tenth more.
	for i, batch := range test.Batches {
		need := 650 / test.Ends[i].RecipePerML
		if math.Abs(batch.NeedML-need) > 12*p.Kit.Pour.Size/2 {
			t.Errorf("%s: %g mL, want about %g", batch.Glaze, batch.NeedML, need)
		}
	}
}

// Rows share one batch, and a row gets no colourant but its own.
func TestRows(t *testing.T) {
	test, err := New(planOf(designs()["rows of a base"]))
	if err != nil {
		t.Fatal(err)
	}
	if len(test.Batches) != 1 || len(test.Cells) != 6 {
		t.Fatalf("%d batches, %d cups, want 1 and 6", len(test.Batches), len(test.Cells))
	}
	want := [][]float64{{0, 0}, {1, 0}, {2, 0}, {4, 0}, {8, 0}, {0, 0.5}}
	for i, c := range test.Cells {
		for s, d := range c.Doses {
			if d.Percent != want[i][s] {
				t.Errorf("cup %d: %g %% of series %d, want %g", i+1, d.Percent, s+1, want[i][s])
			}
		}
	}
}

func compareParts(t *testing.T, what string, got, want []Part) {
	t.Helper()
	amounts := map[string]float64{}
	for _, p := range want {
		amounts[p.Material] += p.Percent
	}
	for _, p := range got {
		amounts[p.Material] -= p.Percent
	}
	for m, x := range amounts {
		if math.Abs(x) > 1e-9 {
			t.Errorf("%s: %s differs by %g", what, m, x)
		}
	}
}

// A 1000 g batch shared into ten cups is 100 g dry a cup, and 1 % of it is
// 1 g, not 10 g (common practice, no source); the 140 mL that a jug of 5 mL
// shows hold 100.37 g.
func TestPercentOfTheCup(t *testing.T) {
	b := Blend{Kind: Line, Series: []Series{{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 5}}}}
	p := planOf(b)
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	dry := 0.0
	for _, c := range test.Cells {
		dry += c.Pours[0].RecipeG
	}
	if !close(dry, 1000) {
		t.Errorf("ten cups of 100 g hold %g g", dry)
	}
	if d := test.Cells[2].Doses[0]; math.Abs(d.G-1.003676) > 1e-6 || d.MeasuredG != 1 {
		t.Errorf("1 %% of 100 g dry is %g g, measured %g g", d.G, d.MeasuredG)
	}
}

// Worked by hand: wet glaze of SG 1.45 and solids 2.6 holds
// 0.45·2.6/1.6 = 0.73125 g dry per mL. Of that 1/1.02 is recipe where 2 % of
// bentonite is over it, 0.716912 g, so 100 g of recipe are 139.487 mL, weigh
// 202.256 g and bring 102 g dry; a jug of 5 mL reads 140 mL, which hold
// 100.368 g.
func TestWorkedCup(t *testing.T) {
	p := planOf(Blend{Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: 6})
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	top := test.Cells[0].Pours[0]
	if math.Abs(top.ML-139.4872) > 1e-4 || math.Abs(top.G-202.2564) > 1e-4 || !close(top.RecipeG, 100) || !close(top.DryG, 102) ||
		top.Got.Shown(test.Plan.Kit) != 140 || math.Abs(top.Got.RecipeG-100.3676) > 1e-4 {
		t.Errorf("a cup of the first end is %+v", top)
	}
}

// Worked by hand: a base without additions at SG 1.45 and
// solids 2.6 holds 0.73125 g in a mL. Cups of 100 g are 136.75 mL; a jug of
// 10 mL shows 140, which hold 102.375 g, and 9 % of that is 9.21375 g: 9.2 on a
// scale of 0.1 g, which comes to 8.987 %.
func TestDoseFollowsThePour(t *testing.T) {
	p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 1, 9}}}})
	p.Glazes[0].Additions = nil
	p.Kit.Pour.Size = 10
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := test.Cells[2]
	d := c.Doses[0]
	if c.Pours[0].Got.Shown(test.Plan.Kit) != 140 || math.Abs(c.Got.RecipeG-102.375) > 1e-9 || math.Abs(d.G-9.21375) > 1e-9 || d.MeasuredG != 9.2 || math.Abs(d.GotPercent-8.98657) > 1e-5 {
		t.Errorf("9 %% in a cup of 140 mL is %+v in %+v", d, c.Got)
	}
	if !close(c.RecipeG, 100) || math.Abs(c.DryG-109) > 1e-9 {
		t.Errorf("the cup as asked holds %g g of recipe and %g g dry", c.RecipeG, c.DryG)
	}
}

// Half way between a base with 2 % of bentonite and the same with 5 % of iron
// is 2.5 % of iron, and 2 % of bentonite, poured and asked.
func TestHalfWayIsHalf(t *testing.T) {
	p := planOf(Blend{Kind: Line, Method: ByPour, Series: []Series{{Material: "Red iron oxide", Percents: []float64{0, 2.5, 5}}}})
	p.Kit.Pour.Size, p.Kit.Scale.Size = 0.001, 0.0001
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	_, over := test.Recipe(1, Asked)
	compareParts(t, "half way", over, []Part{{Material: "Bentonite", Percent: 2}, {Material: "Red iron oxide", Percent: 2.5}})
	if got := test.Cells[1].Doses[0].GotPercent; math.Abs(got-2.5) > 1e-3 {
		t.Errorf("half way to 5 %% is made %g %%", got)
	}
}

// Whatever is in the jug: with no gravity known, shares by volume stay.
func TestWithoutGravity(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 5, Basis: Volume})
	p.Cup = Cup{Size: Amount{200, Volume}}
	for i := range p.Glazes {
		p.Glazes[i].SG = 0
	}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if c := test.Cells[1]; !close(c.Pours[0].ML, 150) || !close(c.Pours[1].ML, 50) || !close(c.Pours[1].DryG/c.DryG, 0.25) {
		t.Errorf("a quarter by volume is %+v", c.Pours)
	}
	if n, ok := test.Notes[0].(NoGravity); !ok || len(n.Glazes) != 2 {
		t.Errorf("notes %v, want one of two glazes without gravity", test.Notes)
	}
}

// The capacity of the scale splits a batch; no load is over it, none is lost.
func TestCapacity(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		p := planOf(Blend{Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: 6})
		p.Kit.Capacity = 20 + 2000*r.Float64()
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range test.Batches {
			sum, reading, load := 0.0, 0.0, 1
			for _, w := range b.Weighings {
				if w.Load != load {
					load, reading = w.Load, 0
				}
				sum += w.G
				reading += w.G
				if math.Abs(reading-w.ReadingG) > 1e-6 || w.ReadingG > p.Kit.Capacity+1e-9 {
					t.Fatalf("capacity %g: %+v after %g", p.Kit.Capacity, w, reading)
				}
			}
			if math.Abs(sum-b.DryG) > 0.05+1e-6 {
				t.Fatalf("capacity %g: %g of %g g", p.Kit.Capacity, sum, b.DryG)
			}
		}
	}
}

func BenchmarkNew(b *testing.B) {
	for _, m := range []int{10, 50, 100} {
		b.Run(fmt.Sprintf("cells=%d", design.LatticeCount(3, m)), func(b *testing.B) {
			p := planOf(Blend{Kind: Triaxial, Ends: []int{0, 1, 2}, Divisions: m})
			for b.Loop() {
				if _, err := New(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The advice, the ± and the warnings that go with them.
func BenchmarkAdvice(b *testing.B) {
	percents := make([]float64, 1326)
	for i := range percents {
		percents[i] = 0.1 + float64(i)*0.01
	}
	p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Copper carbonate", Percents: percents}}})
	for b.Loop() {
		t, err := New(p)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Advise(t); err != nil {
			b.Fatal(err)
		}
	}
}

func TestNew_noEnds(t *testing.T) {
	if _, err := New(planOf(Blend{Kind: Line, Cells: 3})); err == nil || !strings.Contains(err.Error(), "without ends") {
		t.Errorf("a line of no glazes: %v", err)
	}
}
