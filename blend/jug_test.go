package blend

import (
	"math"
	"strings"
	"testing"

	"pourboard/blend/measure"
)

// What is poured into all cups is what the batch needs, and the rest is left.
func TestJug(t *testing.T) {
	for name, b := range designs() {
		for _, pour := range []measure.Step{{Size: 5, Unit: measure.Millilitre}, {Size: 1, Unit: measure.Gram}} {
			p := planOf(b)
			p.Kit.Pour, p.Kit.Loss = pour, 0.5
			test, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			var all []int
			for i := range test.Cells {
				all = append(all, i)
			}
			for e, batch := range test.Batches {
				half := test.Jug(e, all[:len(all)/2])
				whole := test.Jug(e, all)
				if math.Abs(whole.ML-batch.NeedML) > 1e-9 || math.Abs(whole.LeftML-(batch.ML-batch.NeedML)) > 1e-9 {
					t.Errorf("%s, end %d: poured %g and left %g of %g mL, %g are needed", name, e, whole.ML, whole.LeftML, batch.ML, batch.NeedML)
				}
				if half.Steps > whole.Steps || half.ML > whole.ML || half.Pouring > whole.Pouring {
					t.Errorf("%s, end %d: %+v after half the cups, %+v after all", name, e, half, whole)
				}
			}
		}
	}
}

func TestDoseSum(t *testing.T) {
	series := Series{Material: "Copper carbonate", Percents: []float64{0, 1, 2.5}}
	for _, c := range []struct {
		cup  float64
		cell int
		want string
	}{
		// 0.716912 g of recipe in a mL (TestWorkedCup), in steps of 5 mL.
		{100, 1, "140 mL hold 100.4 g dry; 1 % of that is 1.00 g"},
		{100, 2, "140 mL hold 100.4 g dry; 2.5 % of that is 2.51 g"},
		{37.5, 2, "50 mL hold 35.85 g dry; 2.5 % of that is 0.90 g"},
		{1234.4, 1, "1720 mL hold 1233 g dry; 1 % of that is 12.33 g"},
	} {
		p := planOf(Blend{Kind: Line, Series: []Series{series}})
		p.Cup.Size = c.cup
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if got := test.DoseSum(test.Cells[c.cell], 0); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestWaterText(t *testing.T) {
	test, err := New(planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 5}))
	if err != nil {
		t.Fatal(err)
	}
	thin, thick, uneven := test.Thickness()
	if !uneven || test.Cells[thin].Got.SG != test.CommonSG() {
		t.Fatalf("thinnest cup %d, uneven %v; want the cup of the common gravity %g", thin+1, uneven, test.CommonSG())
	}
	if got := test.WaterText(test.Cells[thin], test.CommonSG()); got != "–" {
		t.Errorf("water into the thinnest cup: %q, want none", got)
	}
	if got := test.WaterText(test.Cells[thin], test.Cells[thick].Got.SG); got != "too thin already" {
		t.Errorf("water to bring the thinnest cup to the thickest: %q", got)
	}
	// By hand: x = (W − ρV)/(ρ − 1), in whole mL of the syringe.
	c, sg := test.Cells[thick].Got, test.CommonSG()
	want := measure.Step{Size: 1}.Format(int64(math.Round((c.G - sg*c.ML) / (sg - 1))))
	if got := test.WaterText(test.Cells[thick], sg); got != want {
		t.Errorf("water into the thickest cup: %q, want %q", got, want)
	}
}

func TestDifferences(t *testing.T) {
	for name, b := range designs() {
		test, err := New(planOf(b))
		if err != nil {
			t.Fatal(err)
		}
		last := math.Inf(1)
		for _, d := range test.Differences() {
			off := math.Abs(d.Got - d.Asked)
			if b.HasSeries() {
				off /= d.Asked
			}
			if off == 0 || off > last+1e-5 {
				t.Errorf("%s: %+v is off by %g after %g", name, d, off, last)
			}
			last = off
		}
	}
	// By hand: 1.2345 g on a scale of 0.1 g is 1.2 g; the pour is exact.
	p := planOf(Blend{Kind: Line, Series: []Series{{Material: "Rutile", Percents: []float64{1.2345}}}})
	p.Cup = Cup{Size: 100, Of: Volume}
	p.Glazes[0].SG, p.Glazes[0].Solids, p.Glazes[0].Additions = 1.625, 2.6666666666666665, nil // 1 g dry per mL
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	got := test.Differences()
	if len(got) != 1 || math.Abs(got[0].Got-1.2) > 1e-9 || got[0].Asked != 1.2345 || got[0].Of != "Rutile" {
		t.Errorf("differences %+v, want one of rutile, 1.2345 to 1.2", got)
	}
}

func TestMaterials(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 2}, Cells: 3})
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	want := "Potash feldspar, Silica, Talc, Whiting, Kaolin, Bentonite, Soda feldspar, Cobalt carbonate"
	if got := strings.Join(test.Materials(), ", "); got != want {
		t.Errorf("materials %s, want %s", got, want)
	}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{GotText(0), "0.000"}, {GotText(0.0984), "0.098"}, {GotText(0.9996), "1.00"}, {GotText(1.234), "1.23"},
		{GotText(9.996), "10.0"}, {GotText(33.333), "33.3"}, {GotText(100), "100.0"},
		{UnityText(3.104), "3.10"}, {UnityText(0.0996), "0.10"}, {UnityText(0.0124), "0.012"},
		{fourFigures(100), "100"}, {fourFigures(37.5), "37.5"}, {fourFigures(123.456), "123.5"}, {fourFigures(0.01234), "0.01234"},
	} {
		if c.got != c.want {
			t.Errorf("printed %s, want %s", c.got, c.want)
		}
	}
}

// check and the pour sheet say the same of the water that evens cups out.
func TestWater_oneRounding(t *testing.T) {
	// 120 mL at 1.48 and at 1.40: 120·(1.48−1.40)/0.40 = 24 mL exactly.
	p := &Plan{
		Cup:    Cup{Size: 120, Of: Volume},
		Kit:    measure.Kit{Scale: measure.Step{Size: 1, Unit: measure.Gram}, Pour: measure.Step{Size: 5, Unit: measure.Millilitre}, Syringe: measure.Step{Size: 1, Unit: measure.Millilitre}, Worst: 0.05},
		Glazes: []Glaze{{Name: "Thick", SG: 1.48, Recipe: []Part{{"Silica", 100}}}, {Name: "Thin", SG: 1.4, Recipe: []Part{{"Silica", 100}}}},
		Blend:  Blend{Kind: Line, Ends: []int{0, 1}, Cells: 3, Basis: Volume},
	}
	x, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if got := x.WaterText(x.Cells[0], x.CommonSG()); got != "24" {
		t.Errorf("the pour sheet has %s mL, want 24", got)
	}
	for _, w := range x.Warnings {
		if strings.HasPrefix(w.What, "differ in specific gravity") {
			if !strings.HasSuffix(w.Fix, "at most 24 mL") {
				t.Errorf("the note says %q, want 24 mL", w.Fix)
			}
			return
		}
	}
	t.Error("there is no note")
}
