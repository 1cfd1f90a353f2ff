package mixmodel

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// independentLength is the length that a column, scaled to length 1, must have left
// when its part along the columns before it is taken away. Rounding leaves some
// 1e-15 of a column that depends on the others exactly; Longley's data, the
// textbook case of near dependence, leave 8e-5.
const independentLength = 1e-10

// leastSquares is a factorised matrix X of n rows and p columns, n ≥ p:
// X = Q·R·diag(scale), by Householder reflections. XᵀX is never formed, as that
// would lose half of the digits.
type leastSquares struct {
	qr    mat.QR
	r     mat.Dense
	scale []float64 // lengths of the columns of X
}

// factorise prepares the solution of x·β ≈ y.
func factorise(x [][]float64) *leastSquares {
	f := &leastSquares{scale: make([]float64, len(x[0]))}
	a := mat.NewDense(len(x), len(x[0]), nil)
	for j := range f.scale {
		for i := range x {
			f.scale[j] = math.Hypot(f.scale[j], x[i][j])
		}
		if f.scale[j] == 0 {
			f.scale[j] = 1
		}
		for i := range x {
			a.Set(i, j, x[i][j]/f.scale[j])
		}
	}
	f.qr.Factorize(a)
	f.qr.RTo(&f.r)
	return f
}

// dependent is the first column that the columns before it make up, or −1.
func (f *leastSquares) dependent() int {
	for j := range f.scale {
		if math.Abs(f.r.At(j, j)) < independentLength {
			return j
		}
	}
	return -1
}

// solve finds the β that makes the sum of squares of y − x·β least. No column may
// be dependent.
func (f *leastSquares) solve(y []float64) []float64 {
	var beta mat.VecDense
	if err := f.qr.SolveVecTo(&beta, false, mat.NewVecDense(len(y), y)); err != nil {
		panic(err) // a dependent column
	}
	solution := beta.RawVector().Data
	for j, s := range f.scale {
		solution[j] /= s
	}
	return solution
}

// spread is the standard error of row·β for readings of standard deviation 1: the
// length of the z with Rᵀz = row. Of a row of X its square is the row's leverage.
func (f *leastSquares) spread(row []float64) float64 {
	z := make([]float64, len(row))
	var norm float64
	for j := range z {
		z[j] = row[j] / f.scale[j]
		for k := range j {
			z[j] -= f.r.At(k, j) * z[k]
		}
		z[j] /= f.r.At(j, j)
		norm = math.Hypot(norm, z[j])
	}
	return norm
}

// inner is Σ aᵢ·bᵢ.
func inner(a, b []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// unit is a row of n zeros but for a 1 at an index.
func unit(n, at int) []float64 {
	row := make([]float64, n)
	row[at] = 1
	return row
}
