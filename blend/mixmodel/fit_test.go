package mixmodel

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var abc = []string{"A", "B", "C"}

// reference reads a table of points and readings with fractions like 1/3.
func reference(t testing.TB, name string) (*Design, []float64) {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) float64 {
		above, below, fraction := strings.Cut(s, "/")
		a, err := strconv.ParseFloat(above, 64)
		if err != nil {
			t.Fatal(err)
		}
		if !fraction {
			return a
		}
		b, err := strconv.ParseFloat(below, 64)
		if err != nil {
			t.Fatal(err)
		}
		return a / b
	}
	var points [][]float64
	var y []float64
	for _, r := range rows[1:] {
		points = append(points, []float64{number(r[0]), number(r[1]), number(r[2])})
		y = append(y, number(r[3]))
	}
	return design(t, Shares, abc, points), y
}

func design(t testing.TB, space Space, names []string, points [][]float64) *Design {
	t.Helper()
	d, err := NewDesign(space, names, points)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func fit(t testing.TB, d *Design, kind Kind, y []float64) *Model {
	t.Helper()
	m, err := d.Fit(kind, y)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

func TestFit_yarn(t *testing.T) {
	// J. A. Cornell, Experiments with Mixtures; NIST/SEMATECH e-Handbook of
	// Statistical Methods 5.5.4.2. Coefficients, standard errors and s as
	// printed; the centred R² and F of the handbook are from memory.
	d, y := reference(t, "mixture_yarn.csv")
	m := fit(t, d, Quadratic, y)
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
	if m.Lack.DF != 0 || m.Lack.PureDF != 9 || m.Lack.Missing == "" || !near(m.Lack.SumSquares, 0, 1e-20) {
		t.Errorf("lack of fit %+v, want none on the model's own lattice", m.Lack)
	}
	p, err := m.Predict([]float64{0.5, 0.5, 0})
	if err != nil || !near(p.Mean, 15.3, 1e-9) || !near(p.SE, 0.85375/math.Sqrt(3), 1e-5) || !p.Inside {
		t.Errorf("prediction at A:B %+v, want the mean of its three readings 15.3 ± s/√3", p)
	}
}

func TestFit_etch(t *testing.T) {
	// Plasma etch rate, R. H. Myers, D. C. Montgomery, Response Surface
	// Methodology: the printed coefficients are from memory.
	d, y := reference(t, "mixture_etch.csv")
	m := fit(t, d, SpecialCubic, y)
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
		d := &Design{Space: c.space, Names: strings.Fields(c.names)}
		exponents, err := d.exponents(c.kind)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, e := range exponents {
			got = append(got, termName(c.kind, d.Names, e))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s of %s: %v, want %s", c.kind, c.names, got, c.want)
		}
	}
	d := &Design{Space: Percent, Names: abc}
	if exponents, _ := d.exponents(Cubic); len(exponents) != 20 {
		t.Errorf("a cubic in three series has %d terms, want C(6, 3) = 20", len(exponents))
	}
}

// pure error and lack of fit of the linear model from two fits alone: on the
// yarn's lattice the quadratic's residuals are the pure error.
func TestLackOfFit(t *testing.T) {
	d, y := reference(t, "mixture_yarn.csv")
	linear, quadratic := fit(t, d, Linear, y), fit(t, d, Quadratic, y)
	pure := quadratic.S * quadratic.S * 9
	lack := linear.S*linear.S*12 - pure
	got := linear.Lack
	if got.DF != 3 || got.PureDF != 9 || !near(got.PureSumSquares, pure, 1e-9) || !near(got.SumSquares, lack, 1e-9) || !near(got.F, lack/3/(pure/9), 1e-9) || got.Missing != "" {
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
		d := design(t, c.space, c.names, c.points)
		y := make([]float64, len(c.points))
		for i := range y {
			y[i] = 10 + random.NormFloat64()
		}
		for _, kind := range Kinds(c.space) {
			m, err := d.Fit(kind, y)
			if err != nil {
				t.Logf("%s of %d ends: %v", kind, len(c.names), err)
				continue
			}
			var press float64
			for i := range y {
				var x [][]float64
				for _, p := range slices.Delete(slices.Clone(d.Points), i, i+1) {
					x = append(x, row(m.exponents, p))
				}
				beta, _ := factorise(x).solve(slices.Delete(slices.Clone(y), i, i+1))
				out := y[i] - dot(beta, row(m.exponents, d.Points[i]))
				press += out * out
			}
			if !near(m.PRESS, press, 1e-9*press) || !near(m.LOO, math.Sqrt(press/float64(len(y))), 1e-9*press) {
				t.Errorf("%s of %d: PRESS %.12g, by refitting %.12g", kind, len(c.names), m.PRESS, press)
			}
		}
	}
}

// grid2 is the points of a rectangle in percent, row by row.
func grid2(columns, rows int, across, down float64) [][]float64 {
	var points [][]float64
	for r := range rows {
		for c := range columns {
			points = append(points, []float64{float64(c) * across, float64(r) * down})
		}
	}
	return points
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
		d := design(t, c.space, c.names, points)
		for _, kind := range Kinds(c.space) {
			exponents, err := d.exponents(kind)
			if err != nil {
				continue
			}
			truth := make([]float64, len(exponents))
			for i := range truth {
				truth[i] = math.Round(random.NormFloat64()*100) + 0.5
			}
			y := make([]float64, len(points))
			for i, p := range d.Points {
				y[i] = dot(truth, row(exponents, p))
			}
			if kind == Mean {
				if _, err := d.Fit(kind, y); err == nil {
					t.Error("equal readings were modelled")
				}
				continue
			}
			m := fit(t, d, kind, y)
			for i, term := range m.Terms {
				if !near(term.Coef, truth[i], 1e-6*math.Abs(truth[i])) {
					t.Errorf("%s %s: %s is %.12g, made with %g", c.names, kind, term.Name, term.Coef, truth[i])
				}
			}
			if choice, err := d.Choose(y); err != nil || choice.Chosen == nil || choice.Chosen.Kind != kind {
				t.Errorf("%s: readings made by the %s model chose %+v, %v", c.names, kind, choice.Chosen, err)
			}
		}
	}
}

// zoomed lays points over the sub-simplex with the corner at least[i] shares.
func zoomed(points [][]float64, least []float64) [][]float64 {
	free := 1.0
	for _, v := range least {
		free -= v
	}
	var all [][]float64
	for _, p := range points {
		q := slices.Clone(least)
		for i := range q {
			q[i] += free * p[i]
		}
		all = append(all, q)
	}
	return all
}

// lattice3 is a cube of points in percent.
func lattice3(n int) [][]float64 {
	var points [][]float64
	for i := range n * n * n {
		points = append(points, []float64{float64(i % n), 2 * float64(i/n%n), 0.1 * float64(i/n/n)})
	}
	return points
}

// The order of the ends makes no difference to any prediction.
func TestPredict_reordered(t *testing.T) {
	d, y := reference(t, "mixture_etch.csv")
	order := []int{2, 0, 1}
	turn := func(p []float64) []float64 { return []float64{p[order[0]], p[order[1]], p[order[2]]} }
	var points [][]float64
	for _, p := range d.Points {
		points = append(points, turn(p))
	}
	turned := design(t, Shares, turnNames(d.Names, order), points)
	for _, kind := range Kinds(Shares) {
		a, b := fit(t, d, kind, y), fit(t, turned, kind, y)
		if !near(a.LOO, b.LOO, 1e-9) || !near(a.R2, b.R2, 1e-12) {
			t.Errorf("%s: LOO %g and %g, R² %g and %g", kind, a.LOO, b.LOO, a.R2, b.R2)
		}
		for _, p := range lattice(3, 7) {
			u, _ := a.Predict(p)
			v, _ := b.Predict(turn(p))
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

func TestFit_refused(t *testing.T) {
	biaxial := [][]float64{}
	for i := range 25 {
		u, v := float64(i%5)/4, float64(i/5)/4
		biaxial = append(biaxial, []float64{(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v})
	}
	count := func(n int) []float64 {
		y := make([]float64, n)
		for i := range y {
			y[i] = float64(i * i % 7)
		}
		return y
	}
	edges := slices.DeleteFunc(lattice(3, 6), func(p []float64) bool { return p[0] > 0 && p[1] > 0 && p[2] > 0 })
	noC := slices.DeleteFunc(lattice(3, 9), func(p []float64) bool { return p[2] > 0 })
	lone := append(slices.Clone(edges), []float64{1. / 3, 1. / 3, 1. / 3})
	diagonal := [][]float64{{0, 0}, {1, 2}, {2, 4}, {3, 6}, {4, 8}}
	for _, c := range []struct {
		name   string
		space  Space
		ends   string
		points [][]float64
		kind   Kind
		want   string
	}{
		{"too few cells", Shares, "A B C", append(lattice(3, 1), lattice(3, 1)...), Quadratic, "the quadratic model needs readings of 6 different cells or more; there are 3"},
		{"too few readings", Shares, "A B C", lattice(3, 2), Quadratic, "the quadratic model has 6 terms and needs 7 readings or more; there are 6"},
		{"no interior", Shares, "A B C", edges, SpecialCubic, "the special cubic model cannot be fitted: no cell read has A, B and C together"},
		{"no C", Shares, "A B C", noC, Linear, "the linear model cannot be fitted: no cell read has any C"},
		{"biaxial", Shares, "A B C D", biaxial, Quadratic, "the quadratic model cannot be fitted: in the cells read, B×C follows from its other terms"},
		{"leverage 1", Shares, "A B C", lone, SpecialCubic, "reading 19 (A 0.3333, B 0.3333, C 0.3333) settles a term of the special cubic model alone and cannot be predicted from the others; read that cell twice"},
		{"two series that go together", Percent, "Cu Ti", diagonal, Linear, "the linear model cannot be fitted: in the cells read, Ti follows from its other terms"},
		{"two ends", Shares, "A B", lattice(2, 5), SpecialCubic, "the special cubic model needs 3 ends or more; there are 2"},
		{"cubic in shares", Shares, "A B", lattice(2, 5), Cubic, "there is no cubic model in shares; there are mean, linear, quadratic and special cubic"},
		{"special cubic in percent", Percent, "Cu Ti", diagonal, SpecialCubic, "there is no special cubic model in percent; there are mean, linear, quadratic and cubic"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := design(t, c.space, strings.Fields(c.ends), c.points)
			m, err := d.Fit(c.kind, count(len(c.points)))
			if err == nil || err.Error() != c.want {
				t.Errorf("got %v, %v\nwant %s", m, err, c.want)
			}
		})
	}
}

func TestReadings_refused(t *testing.T) {
	d := design(t, Shares, []string{"A", "B"}, lattice(2, 3))
	for _, c := range []struct {
		y    []float64
		want string
	}{
		{[]float64{1, 2, 3}, "there are 3 readings for 4 points"},
		{[]float64{1, 2, math.NaN(), 4}, "reading 3 is NaN and must be a number"},
		{[]float64{1, 2, 3, math.Inf(-1)}, "reading 4 is -Inf and must be a number"},
		{[]float64{1, 2, 3, 1e200}, "reading 4 is 1e+200, too large to compute with"},
		{[]float64{5, 5, 5, 5}, "all 4 readings are 5: there is nothing to model"},
		{[]float64{0, 0, 0, 0}, "all 4 readings are 0: there is nothing to model"},
	} {
		if _, err := d.Fit(Linear, c.y); err == nil || err.Error() != c.want {
			t.Errorf("Fit: got %v, want %s", err, c.want)
		}
		if _, err := d.Choose(c.y); err == nil || err.Error() != c.want {
			t.Errorf("Choose: got %v, want %s", err, c.want)
		}
	}
}

func TestNewDesign_refused(t *testing.T) {
	for _, c := range []struct {
		space  Space
		ends   string
		points [][]float64
		want   string
	}{
		{Shares, "A", [][]float64{{1}}, "a mixture model needs 2 to 4 ends, not 1"},
		{Percent, "A B C D", nil, "a model in percent needs 1 to 3 series, not 4"},
		{Shares, "A B", nil, "there are no readings to model"},
		{Shares, "A B", [][]float64{{1, 0}, {0.5}}, "reading 2: the point has 1 coordinates and must have 2"},
		{Shares, "A B", [][]float64{{0.5, 0.4}}, "reading 1: the shares add up to 0.9 and must add up to 1"},
		{Shares, "A B", [][]float64{{1.5, -0.5}}, "reading 1: the amount of B is -0.5 and must be 0 or more"},
		{Percent, "Cu", [][]float64{{math.NaN()}}, "reading 1: the amount of Cu is NaN and must be a number"},
		{Percent, "Cu", [][]float64{{1001}}, "reading 1: the amount of Cu is 1001 % and must be 1000 % or less"},
	} {
		if _, err := NewDesign(c.space, strings.Fields(c.ends), c.points); err == nil || err.Error() != c.want {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
}

func TestChoose(t *testing.T) {
	d, y := reference(t, "mixture_yarn.csv")
	choice, err := d.Choose(y)
	if err != nil {
		t.Fatal(err)
	}
	if choice.Chosen == nil || choice.Chosen.Kind != Quadratic {
		t.Errorf("chosen %+v, want the quadratic model", choice.Chosen)
	}
	if last := choice.Candidates[3]; last.Kind != SpecialCubic || last.Model != nil || last.Refused == "" {
		t.Errorf("the special cubic model was not refused on six cells: %+v", last)
	}
	for _, c := range choice.Candidates[:3] {
		if c.Model == nil || c.Model.LOO < choice.Chosen.LOO {
			t.Errorf("%s: %+v", c.Kind, c)
		}
	}

	// Three cells, two of them alike: even the mean can be carried, no more.
	few := design(t, Shares, abc, [][]float64{{1, 0, 0}, {0, 1, 0}, {0, 1, 0}})
	choice, err = few.Choose([]float64{1, 2, 3})
	if err != nil || choice.Chosen == nil || choice.Chosen.Kind != Mean {
		t.Errorf("chosen %+v, %v; want the mean", choice.Chosen, err)
	}

	// Scatter without pattern: no model beats the mean. Alternating signs, so
	// that nothing of low degree fits.
	line := design(t, Percent, []string{"Cu"}, [][]float64{{0}, {1}, {2}, {3}, {4}, {5}, {6}, {7}})
	choice, err = line.Choose([]float64{1, -1, 1, -1, 1, -1, 1, -1})
	if err != nil || choice.Chosen.Kind != Mean {
		t.Errorf("chosen %+v, %v; want the mean", choice.Chosen, err)
	}
}

func TestTerm_T(t *testing.T) {
	if v, ok := (Term{"A", 12, 4}).T(); v != 3 || !ok {
		t.Errorf("T = %v, %v", v, ok)
	}
	if _, ok := (Term{"A", 12, 0}).T(); ok {
		t.Error("a term without standard error has a T")
	}
}

// Whatever points and readings come, they are used or refused with a
// sentence: nothing panics, and nothing that is printed is not a number.
func FuzzChoose(f *testing.F) {
	f.Add(uint8(0), uint8(3), []byte{6, 0, 0, 1, 0, 6, 0, 2, 0, 0, 6, 3, 3, 3, 0, 4, 2, 2, 2, 5, 2, 2, 2, 6, 1, 1, 4, 9})
	f.Add(uint8(1), uint8(1), []byte{0, 1, 1, 2, 2, 4, 3, 9, 4, 15, 4, 16})
	f.Add(uint8(1), uint8(2), []byte{0, 0, 1, 0, 1, 2, 1, 0, 4, 1, 1, 15, 2, 2, 16, 3, 1, 4, 2, 0, 4, 0, 2, 7})
	f.Fuzz(func(t *testing.T, space, ends uint8, data []byte) {
		q := int(ends%4) + 1
		names := []string{"A", "B", "C", "D"}[:q]
		var points [][]float64
		var y []float64
		for len(data) > q && len(points) < 60 {
			p := make([]float64, q)
			var sum float64
			for i := range p {
				p[i] = float64(data[i]) / 8
				sum += p[i]
			}
			if Space(space%2) == Shares && sum > 0 {
				for i := range p {
					p[i] /= sum
				}
			}
			points, y, data = append(points, p), append(y, float64(int8(data[q]))/4), data[q+1:]
		}
		d, err := NewDesign(Space(space%2), names, points)
		if err != nil {
			return
		}
		for _, p := range d.Points {
			if !d.region.contains(p) {
				t.Errorf("%v lies outside the region of %v", p, d.Points)
			}
		}
		choice, err := d.Choose(y)
		if err != nil {
			return
		}
		for _, c := range choice.Candidates {
			if c.Model == nil {
				continue
			}
			numbers := []float64{c.Model.S, c.Model.R2, c.Model.AdjR2, c.Model.LOO, c.Model.Lack.F, c.Model.Lack.P}
			for _, term := range c.Model.Terms {
				numbers = append(numbers, term.Coef, term.SE)
			}
			if high, err := c.Model.Highest(); err == nil {
				low, _ := c.Model.Lowest()
				numbers = append(numbers, high.Mean, high.SE, low.Mean)
				if !high.Inside || !low.Inside {
					t.Errorf("best %+v or worst %+v outside %v", high, low, d.Points)
				}
				aim, err := c.Model.NearestTo((high.Mean + low.Mean) / 2)
				if slack := 1e-6 * (1 + high.Mean - low.Mean); err != nil || !near(aim.Mean, (high.Mean+low.Mean)/2, slack) {
					t.Errorf("half way between %v and %v: %+v, %v", low.Mean, high.Mean, aim, err)
				}
			}
			if s, err := c.Model.Surface(8); err == nil {
				s.MeanContours([]float64{-1, 0, 1})
			}
			for _, v := range numbers {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s of %v, %v: %v", c.Kind, d.Points, y, numbers)
				}
			}
		}
	})
}

// A test of 66 cells, four models with leave-one-out.
func BenchmarkChoose(b *testing.B) {
	points := lattice(3, 10)
	random := rand.New(rand.NewPCG(7, 4))
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = 40*p[0] + 20*p[1] + 30*p[2] + 25*p[0]*p[1] + random.NormFloat64()
	}
	for b.Loop() {
		d, err := NewDesign(Shares, abc, points)
		if err != nil {
			b.Fatal(err)
		}
		choice, err := d.Choose(y)
		if err != nil || choice.Candidates[3].Model == nil {
			b.Fatal(err, choice)
		}
	}
}

func ExampleDesign_Choose() {
	d, err := NewDesign(Shares, []string{"Matte", "Ash"}, [][]float64{{1, 0}, {0.75, 0.25}, {0.5, 0.5}, {0.5, 0.5}, {0.25, 0.75}, {0, 1}})
	if err != nil {
		fmt.Println(err)
		return
	}
	choice, err := d.Choose([]float64{10, 22, 31, 29, 28, 20})
	if err != nil {
		fmt.Println(err)
		return
	}
	best, err := choice.Chosen.Highest()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.0f ± %.0f at %.0f %% ash\n", choice.Chosen.Kind, best.Mean, best.PlusMinus(), 100*best.Point[1])
	// Output: quadratic: 30 ± 1 at 59 % ash
}
