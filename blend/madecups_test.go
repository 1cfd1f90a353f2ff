package blend_test

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/plan"
)

// Of every plan: a cup that was made as it was to be measured is what it was,
// and no other cup changes.
func TestAsDone_asPlanned(t *testing.T) {
	files, err := filepath.Glob("../testdata/plans/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		if strings.Contains(file, "cells-") {
			continue // large, and like others
		}
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p, _, err := plan.Read(file, src)
		if err != nil {
			t.Fatal(err)
		}
		test, err := blend.New(p)
		if err != nil {
			t.Fatal(err)
		}
		var all []blend.Done
		for _, c := range test.Cells {
			done := blend.Done{Cup: c.Number, Poured: map[int]float64{}, Dosed: map[int]float64{}}
			for e, pour := range c.Pours {
				done.Poured[e] = pour.Got.Shown(test.Plan.Kit)
			}
			for s, d := range c.Doses {
				switch p.Blend.Method {
				case blend.ByStock:
					done.Dosed[s] = d.MeasuredML
				case blend.ByDose:
					done.Dosed[s] = d.MeasuredG
				}
			}
			all = append(all, done)
		}
		as := test.AsDone(all)
		for i := range test.Cells {
			a, b := test.Cells[i], as.Cells[i]
			if math.Abs(a.Got.DryG-b.Got.DryG) > 1e-9 || math.Abs(a.Got.ML-b.Got.ML) > 1e-9 || math.Abs(a.Got.SG-b.Got.SG) > 1e-9 || math.Abs(a.Got.Worst-b.Got.Worst) > 1e-9 || a.AsMade != b.AsMade {
				t.Errorf("%s: cup %d was %+v, is %+v", file, i+1, a.Got, b.Got)
			}
			for e := range a.Pours {
				if x, y := a.Pours[e], b.Pours[e]; math.Abs(x.GotShare-y.GotShare) > 1e-9 || x.Steps != y.Steps || math.Abs(x.PlusMinus-y.PlusMinus) > 1e-9 {
					t.Errorf("%s: cup %d pour %+v, is %+v", file, i+1, x, y)
				}
			}
			for s := range a.Doses {
				if x, y := a.Doses[s], b.Doses[s]; math.Abs(x.GotPercent-y.GotPercent) > 1e-9 || math.Abs(x.PlusMinus-y.PlusMinus) > 1e-9 {
					t.Errorf("%s: cup %d dose %+v, is %+v", file, i+1, x, y)
				}
			}
		}
	}
}

// By hand: 300 mL of base where 200 were planned take the percentage to two
// thirds; a dose of 3 g on 200 mL is what 3 g are of their recipe.
func TestAsDone_byHand(t *testing.T) {
	p := &blend.Plan{
		Title: "Copper", Cup: blend.Cup{Size: blend.Amount{Value: 200, Of: blend.Volume}},
		Kit:    measure.Kit{Scale: measure.Step{Size: 0.01, Unit: measure.Gram}, Pour: measure.Step{Size: 5, Unit: measure.Millilitre}},
		Glazes: []blend.Glaze{{Name: "Base", Recipe: []blend.Part{{Material: "Silica", Percent: 100}}, SG: 1.5, Solids: 2.5}},
		Blend: blend.Blend{Kind: blend.Line, Method: blend.ByDose, Series: []blend.Series{
			{Material: "Copper carbonate", Percents: []float64{1, 2}},
		}},
		Tiles: blend.Tiles{Bodies: []string{"Buff"}, Coats: 1, Repeats: 1},
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	before := test.Cells[0].Doses[0]
	as := test.AsDone([]blend.Done{{Cup: 1, Poured: map[int]float64{0: 300}}, {Cup: 2, Dosed: map[int]float64{0: 3}}, {Cup: 9}})
	if got, want := as.Cells[0].Doses[0].GotPercent, before.GotPercent*200/300; math.Abs(got-want) > 1e-9 {
		t.Errorf("cup 1 holds %g %%, want %g", got, want)
	}
	// 200 mL at SG 1.5 of grains of 2.5 hold 200·(1.5 − 1)·2.5/1.5 = 166.67 g.
	if got, want := as.Cells[1].Doses[0].GotPercent, 100*3/(200*0.5*2.5/1.5); math.Abs(got-want) > 1e-9 {
		t.Errorf("cup 2 holds %g %%, want %g", got, want)
	}
	if !reflect.DeepEqual(test.Cells[0].Doses[0], before) {
		t.Error("the test itself was changed")
	}
}
