package measure

import (
	"math"
	"math/rand/v2"
	"testing"
)

func grams(size float64) Step { return Step{Size: size, Unit: Gram} }

func TestCount(t *testing.T) {
	for _, c := range []struct {
		step, x float64
		want    int64
	}{
		{0.1, 139.65, 1397}, // 139.6 in plain binary arithmetic, 139.7 in a spreadsheet
		{0.1, 0.05, 1}, {0.1, -0.05, -1}, {0.1, 0.04999, 0},
		{5, 136.75, 27}, {5, 2.5, 1}, {5, 2.4999999, 0}, {0.01, 1.005, 101},
		{0.5, 0.25, 1}, {0.2, 0.3, 2}, {1, 1e9 + 0.5, 1_000_000_001},
	} {
		if got := grams(c.step).Count(c.x); got != c.want {
			t.Errorf("%g in steps of %g = %d, want %d", c.x, c.step, got, c.want)
		}
	}
}

func TestAmountHasNoNoise(t *testing.T) {
	for _, size := range []float64{0.1, 0.01, 0.001, 0.2, 0.05, 2.5} {
		s := grams(size)
		for n := range int64(5000) {
			if got := s.Count(s.Amount(n)); got != n {
				t.Fatalf("%d steps of %g come back as %d", n, size, got)
			}
		}
	}
	if got := grams(0.1).Format(3); got != "0.3" {
		t.Errorf("3 steps of 0.1 print as %s", got)
	}
	if got := grams(2.5).Format(3); got != "7.5" {
		t.Errorf("3 steps of 2.5 print as %s", got)
	}
}

// Among all whole numbers with the cup's total, largest remainder has the
// least sum of squared errors: tried against every one of them.
func TestApportionAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 400 {
		n := 2 + r.IntN(3)
		amounts := make([]float64, n)
		sum := 0.0
		for i := range amounts {
			amounts[i] = r.Float64() * 6
			sum += amounts[i]
		}
		step := grams(1)
		got := step.Apportion(amounts)
		total := int64(0)
		for i, x := range got {
			total += x
			if math.Abs(float64(x)-amounts[i]) >= 1 {
				t.Fatalf("%v became %v: a pour is off by a step or more", amounts, got)
			}
		}
		if total != step.Count(sum) {
			t.Fatalf("%v became %v, which does not sum to %d", amounts, got, step.Count(sum))
		}
		if best := leastSquares(amounts, total, nil); squares(amounts, got) > best+1e-9 {
			t.Fatalf("%v became %v with squares %g; %g can be had", amounts, got, squares(amounts, got), best)
		}
	}
}

func squares(amounts []float64, counts []int64) float64 {
	sum := 0.0
	for i, x := range amounts {
		sum += (x - float64(counts[i])) * (x - float64(counts[i]))
	}
	return sum
}

func leastSquares(amounts []float64, left int64, chosen []int64) float64 {
	if len(chosen) == len(amounts)-1 {
		return squares(amounts, append(chosen, left))
	}
	best := math.Inf(1)
	for n := int64(0); n <= left; n++ {
		best = min(best, leastSquares(amounts, left-n, append(chosen[:len(chosen):len(chosen)], n)))
	}
	return best
}

func TestApportionLeavesNothingToNothing(t *testing.T) {
	got := grams(5).Apportion([]float64{68.375, 0, 68.375})
	if got[1] != 0 || got[0] != 14 || got[2] != 13 {
		t.Errorf("two alike halves of 136.75 and nothing between them are %v", got)
	}
}

func TestRunning(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	step := grams(0.5)
	for range 1000 {
		amounts := []float64{r.Float64() * 40, 0, r.Float64() * 40, r.Float64() * 3}
		sum, reading := 0.0, int64(0)
		for i, part := range step.Running(amounts) {
			sum += amounts[i]
			reading += part
			if math.Abs(step.Amount(reading)-sum) > step.Size/2+1e-9 {
				t.Fatalf("%v: reading %d is %g for a sum of %g", amounts, i, step.Amount(reading), sum)
			}
		}
	}
}

// JCGM 100:2008 F.2.2.1 prints 0.29·δx for a resolution of δx, and 4.3.7 a/√3
// for bounds of ± a.
func TestStandardUncertainties(t *testing.T) {
	if u := grams(1).Reading(); math.Abs(u-0.29) > 0.005 {
		t.Errorf("a reading in steps of 1 has u = %g, and 0.29 is printed", u)
	}
	if u := FillU(3); math.Abs(u-math.Sqrt(3)) > 1e-12 {
		t.Errorf("a fill of ± 3 has u = %g", u)
	}
	if s := Smallest(grams(0.1).Tared(), 0.05); math.Abs(s-1.63299) > 1e-5 {
		t.Errorf("a scale of 0.1 g weighs to 5 %% from %g g", s)
	}
}

// simulate is the idea of JCGM 101:2008: draw the readings, work out the
// result each time, and take the spread of the results.
func simulate(runs int, draw func(*rand.Rand) float64) float64 {
	r := rand.New(rand.NewPCG(5, 6))
	sum, squares := 0.0, 0.0
	for range runs {
		x := draw(r)
		sum += x
		squares += x * x
	}
	mean := sum / float64(runs)
	return math.Sqrt(squares/float64(runs) - mean*mean)
}

// rectangular draws from ± half.
func rectangular(r *rand.Rand, half float64) float64 { return (2*r.Float64() - 1) * half }

func TestMeanAgainstMonteCarlo(t *testing.T) {
	const runs, step, fill = 200_000, 1.0, 0.8
	factors := []float64{0.73, 0.81, 0.65}
	for _, c := range []struct {
		name    string
		amounts []float64
		values  []float64
		running bool
	}{
		{"shares poured by volume", []float64{60, 45, 30}, []float64{0, 1, 0}, false},
		{"a cup that lacks an end", []float64{60, 0, 75}, []float64{1, 0, 0}, false},
		{"shares poured on a scale", []float64{60, 45, 30}, []float64{0, 1, 0}, true},
		{"the first on a scale", []float64{20, 45, 70}, []float64{1, 0, 0}, true},
		{"a gap on a scale", []float64{60, 0, 75}, []float64{1, 0, 0}, true},
		{"percentages of end slips", []float64{60, 45, 30}, []float64{0, 2, 5}, false},
		{"percentages on a scale", []float64{60, 45, 30}, []float64{0.5, 2, 5}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Pouring{Amounts: c.amounts, Factors: factors, U: grams(step).Reading(), Running: c.running}
			if c.running {
				kit := Kit{Pour: grams(step), FillG: fill}
				p.Tare, p.U = kit.TareU(), kit.PourU()
			}
			mean, u, cause := p.Mean(c.values)
			got := simulate(runs, func(r *rand.Rand) float64 {
				whole, sum, before := 0.0, 0.0, rectangular(r, step/2)
				for j, a := range c.amounts {
					if a == 0 {
						continue
					}
					after := rectangular(r, step/2)
					if c.running { // nobody stops a pour at the last digit
						after += rectangular(r, fill)
					}
					amount := a + after
					if c.running {
						amount -= before
					}
					before = after
					whole += amount * factors[j]
					sum += amount * factors[j] * c.values[j]
				}
				return sum / whole
			})
			// The spread of 200 000 draws is good to 0.2 %; three times that.
			if math.Abs(got/u-1) > 0.006 {
				t.Errorf("mean %.5f has u = %.6f by the rules and %.6f by simulation", mean, u, got)
			}
			if cause < 0 {
				t.Error("no cause named")
			}
		})
	}
}

// A percentage dosed on a scale over a base that is poured, or filled by eye.
func TestRootSumSquare_monteCarlo(t *testing.T) {
	const dose, base, step, fill = 2.0, 136.0, 0.1, 4.0
	for _, c := range []struct {
		name string
		u    float64
		draw func(*rand.Rand) float64
	}{
		{"dose over a poured base", RootSumSquare(grams(step).Tared()/dose, grams(5).Reading()/base), func(r *rand.Rand) float64 {
			return (dose + rectangular(r, step/2) - rectangular(r, step/2)) / (base + rectangular(r, 2.5))
		}},
		{"dose over a base filled by eye", RootSumSquare(grams(step).Tared()/dose, FillU(fill)/base), func(r *rand.Rand) float64 {
			return (dose + rectangular(r, step/2) - rectangular(r, step/2)) / (base + rectangular(r, fill))
		}},
		{"stock over a poured base", RootSumSquare(grams(1).Reading()/20, grams(5).Reading()/base), func(r *rand.Rand) float64 {
			return (20 + rectangular(r, 0.5)) / (base + rectangular(r, 2.5))
		}},
	} {
		got := simulate(200_000, c.draw)
		mean := dose / base
		if c.name[0] == 's' {
			mean = 20 / base
		}
		if math.Abs(got/(c.u*mean)-1) > 0.006 {
			t.Errorf("%s: u = %.6g by the rules and %.6g by simulation", c.name, c.u*mean, got)
		}
	}
}

func TestConvenient(t *testing.T) {
	for x, want := range map[float64]float64{163: 165, 1480: 1500, 999: 1000, 1000: 1000, 1001: 1050, 0.731: 0.735, 100: 100, 5: 5, 0: 0, 4.99: 5, 999.9999999999: 1000, 1000.0000000001: 1000, 1000.001: 1050, 0.1: 0.1} {
		if got := Convenient(x); got != want {
			t.Errorf("Convenient(%g) = %g, want %g", x, got, want)
		}
	}
	for x, want := range map[float64]float64{0.49: 0.4, 0.5: 0.5, 0.051: 0.05, 9.99: 8, 10: 10, 1: 1, 0.0199: 0.015} {
		if got := ConvenientBelow(x); got != want {
			t.Errorf("ConvenientBelow(%g) = %g, want %g", x, got, want)
		}
	}
}

func TestToldApart(t *testing.T) {
	if ToldApart(1, 0.3, 1.5, 0.4) || !ToldApart(1, 0.3, 1.51, 0.4) {
		t.Error("1 ± 0.3 and 1.5 ± 0.4 are on the border: 0.5")
	}
}

// Worked by hand from the rule: a scale of 2 g makes steps of 5 g into 6.
func TestWater(t *testing.T) {
	for _, c := range []struct{ scale, g, want float64 }{
		{0.1, 12.34, 12.3}, {0.1, 49.96, 50}, {0.1, 98.1, 98}, {0.1, 199.6, 200}, {0.1, 398.1, 400}, {0.1, 397.4, 395},
		{0.1, 1482.6, 1480}, {1, 1485, 1490}, {0.1, 6024, 6000}, {0.1, 6025, 6050}, {2, 398.1, 396}, {10, 398.1, 400}, {0.1, 0, 0},
	} {
		if got := (Kit{Scale: grams(c.scale)}).Water(c.g); got != c.want {
			t.Errorf("%g g of water on a %g g scale: %g g, want %g g", c.g, c.scale, got, c.want)
		}
	}
}

// What is rounded is a whole number of the scale's steps, and near enough that
// the SG stays.
func TestWaterStaysNear(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 5000 {
		g := math.Exp(math.Log(1) + r.Float64()*math.Log(40000))
		k := Kit{Scale: grams([]float64{0.01, 0.1, 0.5, 1}[r.IntN(4)])}
		got := k.Water(g)
		if math.Abs(got-g) > max(k.Scale.Size/2, 0.0126*g) || math.Abs(got/k.Scale.Size-math.Round(got/k.Scale.Size)) > 1e-6 {
			t.Fatalf("%g g on a scale of %g g comes to %g g", g, k.Scale.Size, got)
		}
	}
}
