package mixmodel

import (
	"math"
	"math/big"
	"testing"

	"gonum.org/v1/gonum/floats"
)

// wampler1 is Wampler1 of the NIST Statistical Reference Datasets, made from
// its definition: y = 1 + x + x² + x³ + x⁴ + x⁵ for x = 0 … 20. All certified
// coefficients are 1, all certified standard errors 0.
func wampler1() (x [][]float64, y []float64) {
	for v := 0.0; v <= 20; v++ {
		row := []float64{1, v, v * v, v * v * v, v * v * v * v, v * v * v * v * v}
		var sum float64
		for _, power := range row {
			sum += power
		}
		x, y = append(x, row), append(y, sum)
	}
	return x, y
}

// longley is Longley of the NIST Statistical Reference Datasets (J. W.
// Longley, J. Amer. Statist. Assoc. 62 (1967) 819-841), from memory of the
// published file: employed; price index in tenths, GNP, unemployed, armed
// forces, population, year. The index is taken in tenths because tenths are
// integers, which a float64 holds exactly. That the exact solution of these
// figures has every certified digit confirms that they are remembered right.
var longley = [][7]float64{
	{60323, 830, 234289, 2356, 1590, 107608, 1947},
	{61122, 885, 259426, 2325, 1456, 108632, 1948},
	{60171, 882, 258054, 3682, 1616, 109773, 1949},
	{61187, 895, 284599, 3351, 1650, 110929, 1950},
	{63221, 962, 328975, 2099, 3099, 112075, 1951},
	{63639, 981, 346999, 1932, 3594, 113270, 1952},
	{64989, 990, 365385, 1870, 3547, 115094, 1953},
	{63761, 1000, 363112, 3578, 3350, 116219, 1954},
	{66019, 1012, 397469, 2904, 3048, 117388, 1955},
	{67857, 1046, 419180, 2822, 2857, 118734, 1956},
	{68169, 1084, 442769, 2936, 2798, 120445, 1957},
	{66513, 1108, 444546, 4681, 2637, 121950, 1958},
	{68655, 1126, 482704, 3813, 2552, 123366, 1959},
	{69564, 1142, 502601, 3931, 2514, 125368, 1960},
	{69331, 1157, 518173, 4806, 2572, 127852, 1961},
	{70551, 1169, 554894, 4007, 2827, 130081, 1962},
}

// Certified values of Longley, NIST StRD, from memory of the published file.
var (
	longleyCoef = []float64{-3482258.63459582, 15.0618722713733, -0.358191792925910e-1, -2.02022980381683, -1.03322686717359, -0.511041056535807e-1, 1829.15146461355}
	longleySE   = []float64{890420.383607373, 84.9149257747669, 0.334910077722432e-1, 0.488399681651699, 0.214274163161675, 0.226073200069370, 455.478499142212}
)

const longleyS = 304.854073561965

func longleyXY(indexUnit float64) (x [][]float64, y []float64) {
	for _, row := range longley {
		x = append(x, []float64{1, row[1] / indexUnit, row[2], row[3], row[4], row[5], row[6]})
		y = append(y, row[0])
	}
	return x, y
}

// exactLeastSquares solves the normal equations in rational numbers, where
// nothing is lost, and returns β and the diagonal of (XᵀX)⁻¹.
func exactLeastSquares(x [][]float64, y []float64) (beta, inverse []*big.Rat) {
	p := len(x[0])
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	a := make([][]*big.Rat, p) // XᵀX | Xᵀy | I
	for j := range a {
		a[j] = make([]*big.Rat, 2*p+1)
		for k := range a[j] {
			a[j][k] = new(big.Rat)
		}
		for i := range x {
			for k := range p {
				a[j][k].Add(a[j][k], new(big.Rat).Mul(rat(x[i][j]), rat(x[i][k])))
			}
			a[j][p].Add(a[j][p], new(big.Rat).Mul(rat(x[i][j]), rat(y[i])))
		}
		a[j][p+1+j].SetInt64(1)
	}
	for j := range a { // XᵀX is positive definite: no pivoting needed
		pivot := new(big.Rat).Inv(a[j][j])
		for k := range a[j] {
			a[j][k].Mul(a[j][k], pivot)
		}
		for i := range a {
			if i == j {
				continue
			}
			factor := new(big.Rat).Set(a[i][j])
			for k := range a[i] {
				a[i][k].Sub(a[i][k], new(big.Rat).Mul(factor, a[j][k]))
			}
		}
	}
	for j := range a {
		beta, inverse = append(beta, a[j][p]), append(inverse, a[j][p+1+j])
	}
	return beta, inverse
}

// digits is −log₁₀ of the relative error, at most 17.
func digits(got, want float64) float64 {
	if got == want {
		return 17
	}
	return -math.Log10(math.Abs(got-want) / math.Abs(want))
}

func TestSolve_wampler1(t *testing.T) {
	x, y := wampler1()
	beta, _ := factorise(rows(x)).solve(y)
	least := 17.0
	for j, b := range beta {
		least = min(least, digits(b, 1))
		if digits(b, 1) < 9 {
			t.Errorf("coefficient of x^%d is %.15g, certified 1: %.1f digits, want 9", j, b, digits(b, 1))
		}
	}
	t.Logf("Wampler1: %.1f correct digits at least", least)
}

func TestSolve_longley(t *testing.T) {
	x, y := longleyXY(10)
	f := factorise(rows(x))
	beta, residuals := f.solve(y)
	s := floats.Norm(residuals, 2) / math.Sqrt(float64(len(y)-len(beta)))
	if digits(s, longleyS) < 12 {
		t.Errorf("s = %.15g, certified %.15g", s, longleyS)
	}
	least, leastSE := 17.0, 17.0
	for j, b := range beta {
		least = min(least, digits(b, longleyCoef[j]))
		if digits(b, longleyCoef[j]) < 10 {
			t.Errorf("coefficient %d = %.15g, certified %.15g: %.1f digits, want 10", j, b, longleyCoef[j], digits(b, longleyCoef[j]))
		}
		unit := make([]float64, len(beta))
		unit[j] = 1
		if se := s * f.spread(unit); digits(se, longleySE[j]) < 12 {
			t.Errorf("standard error %d = %.15g, certified %.15g: %.1f digits, want 12", j, se, longleySE[j], digits(se, longleySE[j]))
		} else {
			leastSE = min(leastSE, digits(se, longleySE[j]))
		}
	}
	t.Logf("Longley: at least %.1f correct digits of coefficients, %.1f of standard errors, %.1f of s", least, leastSE, digits(s, longleyS))
}

// The exact solution is a reference that owes nothing to memory or to
// rounding, and shows that the certified values and the data belong together.
func TestSolve_exact(t *testing.T) {
	x, y := longleyXY(1)
	beta, _ := factorise(rows(x)).solve(y)
	exact, inverse := exactLeastSquares(x, y)
	for j := range beta {
		want, _ := exact[j].Float64()
		certified := longleyCoef[j]
		if j == 1 {
			certified /= 10
		}
		if digits(want, certified) < 14 {
			t.Errorf("exact coefficient %d is %.16g, certified %.15g: the data are not Longley's", j, want, certified)
		}
		if digits(beta[j], want) < 10 {
			t.Errorf("coefficient %d = %.17g, exactly %.17g: %.1f digits, want 10", j, beta[j], want, digits(beta[j], want))
		}
		root, _ := inverse[j].Float64()
		unit := make([]float64, len(beta))
		unit[j] = 1
		if got := factorise(rows(x)).spread(unit); digits(got, math.Sqrt(root)) < 12 {
			t.Errorf("spread %d = %.17g, exactly %.17g", j, got, math.Sqrt(root))
		}
		t.Logf("%d: solver %.1f, certified %.1f digits of the exact solution", j, digits(beta[j], want), digits(certified, want))
	}
}
