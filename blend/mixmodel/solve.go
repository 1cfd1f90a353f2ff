package mixmodel

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
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
	x     mat.Matrix
	qr    mat.QR
	r     *mat.TriDense
	scale []float64 // lengths of the columns of X
}

// factorise prepares the solution of X·β ≈ y.
func factorise(x mat.Matrix) *leastSquares {
	_, p := x.Dims()
	f := &leastSquares{x: x, r: mat.NewTriDense(p, mat.Upper, nil)}
	scaled := mat.DenseCopyOf(x)
	for j := range p {
		column := mat.Col(nil, j, x)
		length := floats.Norm(column, 2)
		if length > 0 {
			floats.Scale(1/length, column)
		} else {
			length = 1
		}
		scaled.SetCol(j, column)
		f.scale = append(f.scale, length)
	}
	f.qr.Factorize(scaled)
	var r mat.Dense
	f.qr.RTo(&r)
	f.r.Copy(&r)
	return f
}

// rows is a matrix of rows.
func rows(all [][]float64) *mat.Dense {
	return mat.NewDense(len(all), len(all[0]), slices.Concat(all...))
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

// solve finds the β that makes the sum of squares of y − X·β least, and what is left of
// y. No column may be dependent.
func (f *leastSquares) solve(y []float64) (beta, residuals []float64) {
	var solution, fitted mat.VecDense
	if err := f.qr.SolveVecTo(&solution, false, mat.NewVecDense(len(y), y)); err != nil {
		panic(err) // a dependent column
	}
	beta = solution.RawVector().Data
	floats.Div(beta, f.scale)
	fitted.MulVec(f.x, &solution)
	return beta, floats.SubTo(make([]float64, len(y)), y, fitted.RawVector().Data)
}

// spread is the standard error of row·β for readings of standard deviation 1: the
// length of the z with Rᵀz = row. Of a row of X its square is the row's leverage.
func (f *leastSquares) spread(row []float64) float64 {
	z := floats.DivTo(make([]float64, len(row)), row, f.scale)
	blas64.Trsv(blas.Trans, f.r.RawTriangular(), blas64.Vector{N: len(z), Data: z, Inc: 1})
	return floats.Norm(z, 2)
}

// unit is a row of n zeros but for a 1 at an index.
func unit(n, at int) []float64 {
	row := make([]float64, n)
	row[at] = 1
	return row
}
