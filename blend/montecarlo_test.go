package blend

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pourboard/blend/measure"
)

// What a ± says is tried by simulation, the idea of JCGM 101:2008: readings are
// drawn, what they make of a cup is worked out by plain arithmetic, and twice
// the spread of many such cups must be the ± that is printed. Nothing of the
// rules under test is used.

const draws = 20_000 // the spread of so many is good to 0.5 %

// spread is twice the standard deviation of each of the results of draw.
func spread(results int, draw func(r *rand.Rand, into []float64)) []float64 {
	r := rand.New(rand.NewPCG(11, 12))
	sum, squares, x := make([]float64, results), make([]float64, results), make([]float64, results)
	for range draws {
		draw(r, x)
		for i, v := range x {
			sum[i] += v
			squares[i] += v * v
		}
	}
	for i := range sum {
		mean := sum[i] / draws
		sum[i] = 2 * math.Sqrt(squares[i]/draws-mean*mean)
	}
	return sum
}

// from draws from ± half.
func from(r *rand.Rand, half float64) float64 { return half * (2*r.Float64() - 1) }

// pourOnce draws what really flows into a cup at each of its pours, in the
// instrument's unit.
func pourOnce(r *rand.Rand, kit measure.Kit, c *Cell, into []float64) {
	before := from(r, kit.Pour.Size/2) // the tared scale
	for e, p := range c.Pours {
		into[e] = p.Got.Shown(kit)
		if p.Steps == 0 {
			continue
		}
		after := from(r, kit.Pour.Size/2)
		if kit.Pour.Unit == measure.Gram {
			after += from(r, kit.FillG)
			into[e] -= before
		}
		into[e] += after
		before = after
	}
}

func near(got, want float64) bool { return math.Abs(got-want) <= 0.02*want+1e-12 }

func TestPlusMinusOfShares(t *testing.T) {
	for name, pour := range map[string]measure.Step{
		"jug": {Size: 5, Unit: measure.Millilitre}, "scale": {Size: 0.1, Unit: measure.Gram}, "coarse scale": {Size: 2, Unit: measure.Gram},
	} {
		for _, basis := range []Basis{Dry, Volume, Weight} {
			p := planOf(Blend{Kind: Quadraxial, Ends: []int{0, 1, 2, 3}, Divisions: 3, Basis: basis})
			p.Cup = Cup{Size: Amount{400, Volume}}
			p.Kit.Pour, p.Kit.FillG = pour, 1
			test, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			factors := make([]float64, len(test.Ends)) // of the basis in a unit of the instrument
			for e, end := range test.Ends {
				factors[e] = map[Basis]float64{Dry: end.RecipePerML, Volume: 1, Weight: end.SG}[basis]
				if pour.Unit == measure.Gram {
					factors[e] /= end.SG
				}
			}
			for i := range test.Cells {
				c := &test.Cells[i]
				got := spread(len(c.Pours), func(r *rand.Rand, x []float64) {
					pourOnce(r, p.Kit, c, x)
					whole := 0.0
					for e := range x {
						x[e] *= factors[e]
						whole += x[e]
					}
					for e := range x {
						x[e] /= whole
					}
				})
				for e, pm := range got {
					if !near(c.Pours[e].PlusMinus, pm) {
						t.Errorf("%s, shares of %s, cup %d, end %d: ± %g, simulated %g", name, basis, c.Number, e, c.Pours[e].PlusMinus, pm)
					}
				}
			}
		}
	}
}

func TestPlusMinusOfPercents(t *testing.T) {
	for _, method := range []Method{ByDose, ByStock} {
		for _, pour := range []measure.Step{{Size: 5, Unit: measure.Millilitre}, {Size: 0.1, Unit: measure.Gram}} {
			p := planOf(Blend{Kind: Line, Method: method, Series: []Series{{Material: "Copper carbonate", Percents: []float64{0.5, 2, 5}}}})
			p.Kit.Pour, p.Kit.FillG = pour, 1
			p.Kit.Fine = measure.Step{Size: 0.1, Unit: measure.Gram}
			test, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			for i := range test.Cells {
				c := &test.Cells[i]
				d := c.Doses[0]
				got := spread(1, func(r *rand.Rand, x []float64) {
					pourOnce(r, p.Kit, c, x)
					recipe := x[0] * c.Got.RecipeG / c.Pours[0].Got.Shown(test.Plan.Kit)
					step := p.Kit.Fine.Size
					g := d.MeasuredG + from(r, step/2) - from(r, step/2)
					if method == ByStock {
						s := test.Stocks[d.Stock]
						weighed := s.G + from(r, step/2) - from(r, step/2)
						water := s.ML - s.G/test.Densities[0] + from(r, p.Kit.Scale.Size/2) - from(r, p.Kit.Scale.Size/2)
						g = (d.MeasuredML + from(r, p.Kit.Syringe.Size/2)) * weighed / (weighed/test.Densities[0] + water)
					}
					x[0] = 100 * g / recipe
				})
				if !near(d.PlusMinus, got[0]) {
					t.Errorf("%s, %s, cup %d: %g %% ± %g, simulated %g", method, pour, c.Number, d.GotPercent, d.PlusMinus, got[0])
				}
			}
		}
	}
}

// On a scale a cup's ± rests on its own readings: whatever the other cups hold,
// it is the same, for no other cup's weight enters.
func TestScaleIsCupByCup(t *testing.T) {
	p := planOf(Blend{Kind: Line, Ends: []int{0, 1}, Cells: 10})
	p.Kit.Pour, p.Kit.FillG = measure.Step{Size: 0.1, Unit: measure.Gram}, 1
	all, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	p.Blend = Blend{Kind: List, Basis: Dry, Ends: []int{0, 1}, Parts: [][]float64{all.Cells[7].Shares}}
	alone, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := fmt.Sprint(all.Cells[7].Pours), fmt.Sprint(alone.Cells[0].Pours); a != b {
		t.Errorf("cup 8 of ten %s, alone %s", a, b)
	}
	// By hand: cup 8 has 2/9 of P and 7/9 of Q, poured p g then q g. Readings
	// R0 (tare), R1, R2: p = R1 − R0, q = R2 − R1; x = p·f/(p·f + q·h), with f and
	// h g of recipe per g. dx/dp = f·q·h/M², dx/dq = −h·p·f/M².
	c, e := all.Cells[7], all.Ends
	f, h := e[0].RecipePerML/e[0].SG, e[1].RecipePerML/e[1].SG
	m, q := c.Pours[0].Got.Shown(all.Plan.Kit), c.Pours[1].Got.Shown(all.Plan.Kit)
	whole := m*f + q*h
	dp, dq := f*q*h/whole/whole, -h*m*f/whole/whole
	zero := 0.1 * 0.1 / 12
	reading := zero + 1.0/3
	want := 2 * math.Sqrt(dp*dp*zero+(dp-dq)*(dp-dq)*reading+dq*dq*reading)
	if got := c.Pours[0].PlusMinus; math.Abs(got-want) > 1e-12 {
		t.Errorf("cup 8: ± %g, by hand %g", got, want)
	}
}
