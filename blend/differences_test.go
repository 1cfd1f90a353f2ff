package blend

import (
	"math"
	"strings"
	"testing"

	"pourboard/blend/measure"
)

// What is poured into all cups is what the batch needs, and there is enough.
func TestPouredML(t *testing.T) {
	for name, b := range designs() {
		for _, pour := range []measure.Step{{Size: 5, Unit: measure.Millilitre}, {Size: 1, Unit: measure.Gram}} {
			p := planOf(b)
			p.Kit.Pour, p.Kit.Loss = pour, 0.5
			test, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			for e, batch := range test.Batches {
				var ml float64
				for _, c := range test.Cells {
					if c.Pours[e].Steps > 0 {
						ml += c.Pours[e].Got.ML + p.Kit.Loss
					}
				}
				if math.Abs(ml-batch.NeedML) > 1e-9 || batch.ML < batch.NeedML || math.Abs(test.PouredML(e)-ml) > 1e-9 {
					t.Errorf("%s, end %d: poured %g mL of %g mL, %g are needed", name, e, ml, batch.ML, batch.NeedML)
				}
			}
		}
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
	p.Cup = Cup{Size: Amount{100, Volume}}
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

// check and the pour sheet say the same of the water that evens cups out.
func TestWater_oneRounding(t *testing.T) {
	// 120 mL at 1.48 and at 1.40: 120·(1.48−1.40)/0.40 = 24 mL exactly.
	p := &Plan{
		Cup:    Cup{Size: Amount{120, Volume}},
		Kit:    measure.Kit{Scale: measure.Step{Size: 1, Unit: measure.Gram}, Pour: measure.Step{Size: 5, Unit: measure.Millilitre}, Syringe: measure.Step{Size: 1, Unit: measure.Millilitre}, Worst: 0.05},
		Glazes: []Glaze{{Name: "Thick", SG: 1.48, Recipe: []Part{{Material: "Silica", Percent: 100}}}, {Name: "Thin", SG: 1.4, Recipe: []Part{{Material: "Silica", Percent: 100}}}},
		Blend:  Blend{Kind: Line, Ends: []int{0, 1}, Cells: 3, Basis: Volume},
	}
	x, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if got := x.ThinningSteps(x.Cells[0], x.CommonSG); got != 24 {
		t.Errorf("the pour sheet has %d mL, want 24", got)
	}
	for _, note := range x.Notes {
		if n, ok := note.(UnevenGravity); ok {
			if n.Water != "24" {
				t.Errorf("the note says %q, want 24 mL", n.Water)
			}
			return
		}
	}
	t.Error("there is no note")
}
