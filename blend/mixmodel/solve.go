package mixmodel

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// independent is the length that a column, scaled to a length between 0.7 and
// 1.5, must have left when its part along the columns before it is taken away.
// Rounding leaves some 1e-15 of a column that depends on the others exactly;
// Longley's data, the textbook case of near dependence, leave 8e-5.
const independent = 1e-10

// refinements of the first solution: plain QR has 10.9 digits right of Longley's
// data, one refinement has all that the certified values can confirm.
const refinements = 1

// leastSquares is a factorised matrix X of n rows and p columns, n ≥ p:
// X·diag(scale) = Q·R with Q of n rows and p orthonormal columns, by
// Householder reflections. XᵀX is never formed, as that would lose half of
// the digits.
type leastSquares struct {
	x     [][]float64 // scaled rows
	scale []float64   // powers of two, so that scaling rounds nothing
	q     [][]float64
	r     blas64.Triangular
}

// factorise prepares the solution of x·β ≈ y. The rows of x are not kept.
func factorise(x [][]float64) leastSquares {
	n, p := len(x), len(x[0])
	f := leastSquares{x: make([][]float64, n), scale: make([]float64, p), q: make([][]float64, n)}
	for j := range f.scale {
		var norm float64
		for i := range x {
			norm = math.Hypot(norm, x[i][j])
		}
		f.scale[j] = 1
		if norm > 0 {
			f.scale[j] = math.Exp2(-math.Round(math.Log2(norm)))
		}
	}
	a := blas64.General{Rows: n, Cols: p, Stride: p, Data: make([]float64, n*p)}
	for i := range x {
		f.x[i] = make([]float64, p)
		for j, v := range x[i] {
			f.x[i][j] = v * f.scale[j]
		}
		copy(a.Data[i*p:], f.x[i])
	}
	tau := make([]float64, p)
	work := make([]float64, max(n, 32*p))
	lapack64.Geqrf(a, tau, work, len(work))
	f.r = blas64.Triangular{Uplo: blas.Upper, Diag: blas.NonUnit, N: p, Stride: p, Data: slices.Clone(a.Data[:p*p])}
	lapack64.Orgqr(a, tau, work, len(work))
	for i := range f.q {
		f.q[i] = a.Data[i*p : (i+1)*p]
	}
	return f
}

// dependent is the first column that the columns before it make up, or −1.
func (f leastSquares) dependent() int {
	for j := range f.r.N {
		if math.Abs(f.r.Data[j*f.r.Stride+j]) < independent {
			return j
		}
	}
	return -1
}

// solve finds the β that makes the sum of squares of y − x·β least, and those
// residuals. The solution by QR is refined on the equations
// e + Xβ = y, Xᵀe = 0, whose own residuals are summed in twice the working
// precision (Å. Björck, Iterative refinement of linear least squares
// solutions I, BIT 7 (1967) 257-278).
func (f leastSquares) solve(y []float64) (beta, residual []float64) {
	n, p := len(f.x), len(f.scale)
	beta = make([]float64, p)
	residual = make([]float64, n)
	gap := make([]float64, n) // y − e − Xβ; with the first e = y and β = 0 the first step is plain QR
	skew := make([]float64, p)
	row := make([]float64, p+2)
	weights := make([]float64, p+2)
	column := make([]float64, n)
	copy(gap, y)
	for step := range refinements + 1 {
		if step > 0 {
			weights[p], weights[p+1] = 1, -1
			for j, b := range beta {
				weights[j] = -b
			}
			for i := range gap {
				copy(row, f.x[i])
				row[p], row[p+1] = y[i], residual[i]
				gap[i] = dot(row, weights)
			}
			for j := range skew {
				for i := range column {
					column[i] = f.x[i][j]
				}
				skew[j] = -dot(column, residual)
			}
		}
		along := f.under(blas.Trans, skew)
		for j := range along {
			along[j] = -along[j]
		}
		for i, g := range gap {
			for j, q := range f.q[i] {
				along[j] += q * g
			}
		}
		for i, g := range gap {
			for j, q := range f.q[i] {
				g -= q * along[j]
			}
			residual[i] += g
		}
		for j, d := range f.under(blas.NoTrans, along) {
			beta[j] += d
		}
	}
	for j, s := range f.scale {
		beta[j] *= s
	}
	return beta, residual
}

// leverage of row i: how much of its own reading is in its fitted value,
// between 0 and 1.
func (f leastSquares) leverage(i int) float64 {
	var h float64
	for _, q := range f.q[i] {
		h += q * q
	}
	return h
}

// spread is the standard error of row·β for readings of standard deviation 1.
func (f leastSquares) spread(row []float64) float64 {
	scaled := make([]float64, len(row))
	for j, v := range row {
		scaled[j] = v * f.scale[j]
	}
	var norm float64
	for _, v := range f.under(blas.Trans, scaled) {
		norm = math.Hypot(norm, v)
	}
	return norm
}

// under solves R·z = b, or Rᵀ·z = b, in place of b.
func (f leastSquares) under(side blas.Transpose, b []float64) []float64 {
	blas64.Trsv(side, f.r, blas64.Vector{N: len(b), Inc: 1, Data: b})
	return b
}

// dot is Σ aᵢ·bᵢ as if summed in twice the working precision, then rounded
// (T. Ogita, S. M. Rump, S. Oishi, Accurate sum and dot product, SIAM J. Sci.
// Comput. 26 (2005) 1955-1988, algorithm Dot2).
func dot(a, b []float64) float64 {
	var sum, low float64
	for i, x := range a {
		product := x * b[i]
		lowProduct := math.FMA(x, b[i], -product)
		next := sum + product
		back := next - sum
		low += (sum - (next - back)) + (product - back) + lowProduct
		sum = next
	}
	return sum + low
}
