package blend_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/plan"
	"pourboard/render/wording"
)

// everyPlan tries every plan of testdata, as it is and with coarse instruments.
func everyPlan(t *testing.T, try func(t *testing.T, test *blend.Test)) {
	t.Helper()
	names, err := filepath.Glob("../testdata/plans/*.toml")
	if err != nil || len(names) < 20 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, coarse := range []bool{false, true} {
			p, _, err := plan.Read(name, text)
			if err != nil {
				t.Fatal(err)
			}
			if coarse {
				p.Kit.Pour.Size *= 4
				p.Kit.Scale.Size *= 10
				p.Kit.Syringe.Size *= 3
			}
			test, err := blend.New(p)
			if err != nil {
				t.Fatal(err)
			}
			t.Run(strings.TrimSuffix(filepath.Base(name), ".toml")+map[bool]string{true: "/coarse"}[coarse], func(t *testing.T) { try(t, test) })
		}
	}
}

// What a cup is labelled with sums to 100, asked and as made, as numbers and in
// every text; and a cup with one end noticeably off gives all of them as made.
func TestLabelsSumTo100(t *testing.T) {
	everyPlan(t, func(t *testing.T, test *blend.Test) {
		if test.Plan.Blend.HasSeries() {
			return
		}
		for i, c := range test.Cells {
			asked, got, brief := 0.0, 0.0, 0.0
			for e, p := range c.Pours {
				asked += p.Percent
				got += p.GotPercent
				if p.ML == 0 {
					continue
				}
				if text := strings.TrimSuffix(wording.ShareBrief(c, e), " %"); text != "none" {
					x, err := strconv.ParseFloat(text, 64)
					if err != nil {
						t.Fatal(err)
					}
					brief += x
				}
				if off := math.Abs(p.GotShare - c.Shares[e]); !c.AsMade && (off > p.PlusMinus+1e-9 || off > 0.0500001*c.Shares[e]) {
					t.Errorf("cup %d: end %d is made %g of %g ± %g, and the cup is labelled as asked", i+1, e, p.GotShare, c.Shares[e], p.PlusMinus)
				}
			}
			if math.Abs(asked-100) > 1e-9 || c.Poured() && math.Abs(got-100) > 1e-9 {
				t.Errorf("cup %d: asked %g in all, made %g", i+1, asked, got)
			}
			if c.Poured() && math.Abs(brief-100) > 0.1 {
				t.Errorf("cup %d is labelled with %g in all", i+1, brief)
			}
		}
	})
}

// Asked and made differ by no more than the steps of the instruments: a dose by half
// a step of the scale, a stock by half a step of the syringe, over the recipe
// that is in the cup; pours by a step of the jug each.
func TestMadeIsNearToAsked(t *testing.T) {
	everyPlan(t, func(t *testing.T, test *blend.Test) {
		kit := test.Plan.Kit
		for _, c := range test.Cells {
			if !c.Poured() {
				continue
			}
			for s, d := range c.Doses {
				allowed := kit.Dosing().Size / 2
				switch test.Plan.Blend.Method {
				case blend.ByStock:
					allowed = kit.Syringe.Size / 2 * test.Stocks[d.Stock].GPerML
				case blend.ByPour:
					continue
				}
				if off := math.Abs(d.GotPercent-d.Percent) / 100 * c.Got.RecipeG; off > allowed+1e-9 {
					t.Errorf("cup %d, series %d: %g %% is made %g %%, off by %g g where %g are allowed", c.Number, s, d.Percent, d.GotPercent, off, allowed)
				}
			}
			if test.Plan.Blend.HasSeries() {
				continue
			}
			whole, factors := 0.0, make([]float64, len(c.Pours))
			for e, p := range c.Pours {
				ml, _ := test.PerShare(e)
				factors[e] = 1 / ml
				if kit.Pour.Unit == measure.Gram {
					factors[e] /= test.Ends[e].SG
				}
				whole += p.Got.Shown(test.Plan.Kit) * factors[e]
			}
			for e, p := range c.Pours {
				allowed := 0.0
				for k, f := range factors {
					switch {
					case c.Pours[k].ML == 0:
					case k == e:
						allowed += (1 - c.Shares[e]) * f
					default:
						allowed += c.Shares[e] * f
					}
				}
				if off := math.Abs(p.GotShare - c.Shares[e]); off > allowed*kit.Pour.Size/whole+1e-9 {
					t.Errorf("cup %d, end %d: a share of %g is made %g, where %g are allowed", c.Number, e, c.Shares[e], p.GotShare, allowed*kit.Pour.Size/whole)
				}
			}
		}
	})
}

// By hand: thirds are 33.3 each and 0.1 is left, for the earliest of equal
// remainders; 1/7, 2/7 and 4/7 are 14.29, 28.57 and 57.14, and of 14.2, 28.5 and
// 57.1 the first two have the larger remainders.
func TestHundred(t *testing.T) {
	for _, c := range []struct{ shares, want []float64 }{
		{[]float64{1. / 3, 1. / 3, 1. / 3}, []float64{33.4, 33.3, 33.3}},
		{[]float64{1. / 7, 2. / 7, 4. / 7}, []float64{14.3, 28.6, 57.1}},
		{[]float64{1, 0}, []float64{100, 0}},
		{[]float64{0, 0}, []float64{0, 0}},
		{[]float64{0.819, 0.115, 0.066}, []float64{81.9, 11.5, 6.6}},
	} {
		got := blend.Hundred(c.shares)
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%v are %v, want %v", c.shares, got, c.want)
				break
			}
		}
	}
}
