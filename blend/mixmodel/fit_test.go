package mixmodel

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats"
)

func TestFit_yarn(t *testing.T) {
	// J. A. Cornell, Experiments with Mixtures; NIST/SEMATECH e-Handbook of
	// Statistical Methods 5.5.4.2. Coefficients, standard errors and s as
	// printed; the centred R² and F of the handbook are from memory.
	m := fit(t, reference(t, "mixture_yarn.csv"), Quadratic)
	for i, want := range []Term{
		{"A", 11.7, 0.6037}, {"B", 9.4, 0.6037}, {"C", 16.4, 0.6037},
		{"A×B", 19.0, 2.6082}, {"A×C", 11.4, 2.6082}, {"B×C", -9.6, 2.6082},
	} {
		got := m.Terms[i]
		if got.Name != want.Name || !near(got.Coef, want.Coef, 1e-9) || !near(got.SE, want.SE, 0.5e-4) {
			t.Errorf("term %d is %+v, published %+v", i, got, want)
		}
	}
	if m.N != 15 || m.DF != 9 || !near(m.S, 0.85375, 0.5e-5) {
		t.Errorf("s = %.6f on %d df, published 0.85375 on 9", m.S, m.DF)
	}
	if !near(m.R2, 0.951356, 0.5e-6) {
		t.Errorf("R² = %.7f, published 0.951356", m.R2)
	}
	if want := 1 - (1-0.951356)*14/9; !near(m.AdjR2, want, 1e-6) {
		t.Errorf("adjusted R² = %.7f, from the published R² %.7f", m.AdjR2, want)
	}
	if f := m.R2 / 5 / ((1 - m.R2) / 9); !near(f, 35.2032, 0.5e-4) {
		t.Errorf("F of the regression = %.5f, published 35.2032", f)
	}
	// The quadratic goes through the means of its own lattice.
	if m.Lack.DF != 0 || m.Lack.PureDF != 9 || m.Lack.Gap != Saturated || !near(m.Lack.SumSquares, 0, 1e-20) {
		t.Errorf("lack of fit %+v, want none on the model's own lattice", m.Lack)
	}
	p := m.Predict([]float64{0.5, 0.5, 0})
	if !near(p.Mean, 15.3, 1e-9) || !near(p.SE, 0.85375/math.Sqrt(3), 1e-5) || !p.Inside {
		t.Errorf("prediction at A:B %+v, want the mean of its three readings 15.3 ± s/√3", p)
	}
}

func TestFit_etch(t *testing.T) {
	// Plasma etch rate, R. H. Myers, D. C. Montgomery, Response Surface
	// Methodology: the printed coefficients are from memory.
	m := fit(t, reference(t, "mixture_etch.csv"), SpecialCubic)
	for i, want := range []float64{550.2, 344.7, 268.3, 689.5, -9.0, 58.1, 9243.3} {
		if got := m.Terms[i].Coef; !near(got, want, 0.05+1e-9) {
			t.Errorf("coefficient of %s is %.3f, printed %.1f", m.Terms[i].Name, got, want)
		}
	}
}

func TestTerms(t *testing.T) {
	for _, c := range []struct {
		space Space
		kind  Kind
		names string
		want  string
	}{
		{Shares, Mean, "A B", "mean"},
		{Shares, Quadratic, "A B", "A B A×B"},
		{Shares, SpecialCubic, "A B C", "A B C A×B A×C B×C A×B×C"},
		{Shares, SpecialCubic, "A B C D", "A B C D A×B A×C A×D B×C B×D C×D A×B×C A×B×D A×C×D B×C×D"},
		{Percent, Linear, "Cu", "constant Cu"},
		{Percent, Cubic, "Cu", "constant Cu Cu² Cu³"},
		{Percent, Quadratic, "Cu Ti", "constant Cu Ti Cu² Cu×Ti Ti²"},
		{Percent, Cubic, "Cu Ti", "constant Cu Ti Cu² Cu×Ti Ti² Cu³ Cu²×Ti Cu×Ti² Ti³"},
	} {
		names := strings.Fields(c.names)
		var got []string
		for _, term := range terms(c.space, len(names), c.kind) {
			got = append(got, term.name(c.kind, names))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s of %s: %v, want %s", c.kind, c.names, got, c.want)
		}
	}
	if n := len(terms(Percent, 3, Cubic)); n != 20 {
		t.Errorf("a cubic in three series has %d terms, want C(6, 3) = 20", n)
	}
}

// pure error and lack of fit of the linear model from two fits alone: on the
// yarn's lattice the quadratic's residuals are the pure error.
func TestLackOfFit(t *testing.T) {
	d := reference(t, "mixture_yarn.csv")
	linear, quadratic := fit(t, d, Linear), fit(t, d, Quadratic)
	pure := quadratic.S * quadratic.S * 9
	lack := linear.S*linear.S*12 - pure
	got := linear.Lack
	if got.DF != 3 || got.PureDF != 9 || !near(got.PureSumSquares, pure, 1e-9) || !near(got.SumSquares, lack, 1e-9) || !near(got.F, lack/3/(pure/9), 1e-9) || got.Gap != NoGap {
		t.Fatalf("lack of fit %+v, want %.6f on 3 and %.6f on 9", got, lack, pure)
	}
	if want := tailF(got.F, 3, 9); !near(got.P, want, 1e-9) {
		t.Errorf("P(F ≥ %.4f) = %.3g, by integration %.3g", got.F, got.P, want)
	}
	// Table value of the F distribution, 5 % on 3 and 9 degrees: 3.86.
	if p := tailF(3.8625, 3, 9); !near(p, 0.05, 1e-5) {
		t.Errorf("the integration gives %.6f at the 5 %% point", p)
	}
}

// tailF is P(F ≥ f) by Simpson's rule over the density of the F distribution
// in x = d1·F/(d1·F + d2), which has the density of a beta distribution.
func tailF(f, d1, d2 float64) float64 {
	lg := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	scale := math.Exp(lg((d1+d2)/2) - lg(d1/2) - lg(d2/2))
	density := func(x float64) float64 {
		return scale * math.Pow(x, d1/2-1) * math.Pow(1-x, d2/2-1)
	}
	const n = 20000
	from := d1 * f / (d1*f + d2)
	h := (1 - from) / n
	sum := density(from) + density(1)
	for i := 1; i < n; i++ {
		sum += density(from+float64(i)*h) * float64(2+2*(i%2))
	}
	return sum * h / 3
}

// LOO by leverages is what refitting without each reading gives.
func TestPRESS_refits(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 2))
	for _, c := range []struct {
		space  Space
		names  []string
		points [][]float64
	}{
		{Shares, abc, lattice(3, 4)},
		{Shares, []string{"A", "B"}, lattice(2, 8)},
		{Shares, []string{"A", "B", "C", "D"}, lattice(4, 4)},
		{Percent, []string{"Cu"}, [][]float64{{0}, {0.5}, {1}, {2}, {3}, {4}, {4}}},
		{Percent, []string{"Cu", "Ti"}, grid2(5, 5, 1, 2)},
	} {
		y := make([]float64, len(c.points))
		for i := range y {
			y[i] = 10 + random.NormFloat64()
		}
		d := design(t, c.space, c.names, c.points, y)
		for _, kind := range Kinds(c.space, len(c.names)) {
			m, err := d.Fit(kind)
			if err != nil {
				t.Logf("%s of %d ends: %v", kind, len(c.names), err)
				continue
			}
			var press float64
			for i := range y {
				var x [][]float64
				for _, cup := range slices.Delete(slices.Clone(d.Cups), i, i+1) {
					x = append(x, row(m.terms, cup.Point))
				}
				beta, _ := factorise(rows(x)).solve(slices.Delete(slices.Clone(y), i, i+1))
				out := y[i] - floats.Dot(beta, row(m.terms, d.Cups[i].Point))
				press += out * out
			}
			if !near(m.PRESS, press, 1e-9*press) || !near(m.LOO, math.Sqrt(press/float64(len(y))), 1e-9*press) {
				t.Errorf("%s of %d: PRESS %.12g, by refitting %.12g", kind, len(c.names), m.PRESS, press)
			}
		}
	}
}

// Readings made by a model give its coefficients back, and it, or a simpler
// one that is equal to it, is chosen.
func TestFit_recovers(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 3))
	for _, c := range []struct {
		space  Space
		names  []string
		points [][]float64
	}{
		{Shares, []string{"A", "B"}, lattice(2, 6)},
		{Shares, abc, lattice(3, 6)},
		{Shares, []string{"A", "B", "C", "D"}, lattice(4, 4)},
		{Shares, abc, zoomed(lattice(3, 6), []float64{0.3, 0.2, 0.4})},
		{Percent, []string{"Cu"}, grid2(8, 1, 0.5, 0)},
		{Percent, []string{"Cu", "Ti"}, grid2(5, 6, 0.25, 4)},
		{Percent, abc, lattice3(4)},
	} {
		points := c.points
		if len(c.names) == 1 {
			points = nil
			for _, p := range c.points {
				points = append(points, p[:1])
			}
		}
		for _, kind := range Kinds(c.space, len(c.names))[1:] {
			terms := terms(c.space, len(c.names), kind)
			truth := make([]float64, len(terms))
			for i := range truth {
				truth[i] = math.Round(random.NormFloat64()*100) + 0.5
			}
			y := make([]float64, len(points))
			for i, p := range points {
				y[i] = floats.Dot(truth, row(terms, p))
			}
			d := design(t, c.space, c.names, points, y)
			m := fit(t, d, kind)
			for i, term := range m.Terms {
				if !near(term.Coef, truth[i], 1e-6*math.Abs(truth[i])) {
					t.Errorf("%s %s: %s is %.12g, made with %g", c.names, kind, term.Name, term.Coef, truth[i])
				}
			}
			if choice := d.Choose(); choice.Chosen == nil || choice.Chosen.Kind != kind {
				t.Errorf("%s: readings made by the %s model chose %+v", c.names, kind, choice.Chosen)
			}
		}
	}
}

// The order of the ends makes no difference to any prediction.
func TestPredict_reordered(t *testing.T) {
	d := reference(t, "mixture_etch.csv")
	order := []int{2, 0, 1}
	turn := func(p []float64) []float64 { return []float64{p[order[0]], p[order[1]], p[order[2]]} }
	var points [][]float64
	var y []float64
	for _, cup := range d.Cups {
		points, y = append(points, turn(cup.Point)), append(y, cup.Mean)
	}
	turned := design(t, Shares, turnNames(d.Names, order), points, y)
	for _, kind := range Kinds(Shares, 3) {
		a, b := fit(t, d, kind), fit(t, turned, kind)
		if !near(a.LOO, b.LOO, 1e-9) || !near(a.R2, b.R2, 1e-12) {
			t.Errorf("%s: LOO %g and %g, R² %g and %g", kind, a.LOO, b.LOO, a.R2, b.R2)
		}
		for _, p := range lattice(3, 7) {
			u, v := a.Predict(p), b.Predict(turn(p))
			if !near(u.Mean, v.Mean, 1e-8) || !near(u.SE, v.SE, 1e-8) || u.Inside != v.Inside {
				t.Errorf("%s at %v: %+v, reordered %+v", kind, p, u, v)
			}
		}
	}
}

func turnNames(names []string, order []int) []string {
	var turned []string
	for _, i := range order {
		turned = append(turned, names[i])
	}
	return turned
}

// Readings that a model fits exactly leave nothing to print but zeros: no
// scatter, no error, no term that is not there.
func TestFit_exact(t *testing.T) {
	points := append(lattice(3, 6), lattice(3, 2)...)
	exact, off := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		exact[i] = 0.3*p[0] - 0.7*p[1] + 0.1*p[2]
		off[i] = exact[i] + 1e-9*float64(i%3)
	}
	for _, kind := range Kinds(Shares, 3)[1:] {
		m := fit(t, design(t, Shares, abc, points, exact), kind)
		if m.S != 0 || m.PRESS != 0 || m.LOO != 0 || m.R2 != 1 || m.AdjR2 != 1 {
			t.Errorf("%s: S %g, PRESS %g, LOO %g, R² %v, adjusted %v", kind, m.S, m.PRESS, m.LOO, m.R2, m.AdjR2)
		}
		for i, term := range m.Terms {
			if term.SE != 0 || i >= 3 && term.Coef != 0 {
				t.Errorf("%s: term %s is %g with standard error %g", kind, term.Name, term.Coef, term.SE)
			}
		}
		// 0.3 a − 0.7 b is nothing at a = 0.7, b = 0.3.
		if p := m.Predict([]float64{0.7, 0.3, 0}); p.Mean != 0 || p.SE != 0 {
			t.Errorf("%s: %+v, want nothing", kind, p)
		}
		// What is read to nine digits is no rounding of the arithmetic.
		if m := fit(t, design(t, Shares, abc, points, off), kind); !(m.S > 1e-10) || !(m.LOO > 1e-10) || m.Terms[0].SE == 0 {
			t.Errorf("%s: scatter in the ninth digit is gone: %+v", kind, m)
		}
	}
}
