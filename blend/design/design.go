// Package design lays out the cups of a test: how many there are, what each is
// asked to be, where it is in the shape of the design, and which cups are
// neighbours. It knows shares and percentages, and nothing of glazes.
//
// Start with Blend and its method Points.
package design

import (
	"fmt"
	"slices"
)

// Kind is the shape of a design, by its trade name.
type Kind string

// The kinds of design.
const (
	Line       Kind = "line"       // 2 ends, or one series
	Biaxial    Kind = "biaxial"    // 4 ends at the corners of a rectangle, or two series
	Triaxial   Kind = "triaxial"   // the simplex lattice {3,m}, or three series
	Quadraxial Kind = "quadraxial" // the simplex lattice {4,m} in layers by the fourth end
	List       Kind = "list"       // shares written out one by one, 2 to 4 ends
	Centroid   Kind = "centroid"   // the simplex-centroid design, 2^q − 1 cups of q ends
	Pairs      Kind = "pairs"      // 3 to 12 ends, every two of them at given shares
	Rows       Kind = "rows"       // one base, each series a row of its own
)

// Limits of a design.
const (
	MaxCups = 100_000
	MaxEnds = 12 // of pairs
)

// Ends returns how few and how many end glazes a kind is blended from; a Rows
// has none.
func (k Kind) Ends() (least, most int) {
	switch k {
	case Line:
		return 2, 2
	case Triaxial:
		return 3, 3
	case Biaxial, Quadraxial:
		return 4, 4
	case Pairs:
		return 3, MaxEnds
	case Rows:
		return 0, 0
	}
	return 2, 4
}

// Bound limits an end's share, as fractions of the whole.
type Bound struct{ Lo, Hi float64 }

// Basis says what a share or a cup's size is counted in.
type Basis string

// The bases of a share and of a cup's size.
const (
	Dry    Basis = "dry"    // g of dry glaze
	Volume Basis = "volume" // mL of wet glaze
	Weight Basis = "weight" // g of wet glaze
)

// Method is how the additions of a series get into the cups.
type Method string

// The methods of a series.
const (
	ByDose  Method = "dose"  // each weighed dry into its cup
	ByStock Method = "stock" // poured from a stock, the colourant in water
	ByPour  Method = "pour"  // end glazes with the colourant mixed in are blended
	ByWeigh Method = "weigh" // no batch: every cup's dry materials are weighed into it; of a blend of end glazes too
)

// Series is one dry addition in steps.
type Series struct {
	Name     string // kind rows: what the row is called, may be empty
	Material string
	Percents []float64 // of the dry base in the cup; for line and biaxial, in order
	To       float64   // percent at the series' own corner of a triaxial
}

// Label is what a series is called: its material, behind its name if it has one.
func (s Series) Label() string {
	if s.Name == "" {
		return s.Material
	}
	return s.Name + ": " + s.Material
}

// Blend describes a design: a blend of end glazes when Ends is filled, a series on
// one base when Series is. Base, Method and Basis say how its cups are made.
type Blend struct {
	Kind      Kind
	Ends      []int    // end glazes: indexes into the plan's glazes
	Base      int      // series: index into the plan's glazes
	Series    []Series // 1 for a line, 2 for a biaxial, 3 for a triaxial, one for each of rows
	Method    Method   // series; of end glazes ByWeigh or ""
	Basis     Basis    // what the shares of end glazes are shares of
	Cells     int      // line of ends: how many cups there will be, interior or not
	Columns   int      // biaxial of ends
	Rows      int      // biaxial of ends
	Divisions int      // triaxial, quadraxial: m of {q,m}
	Interior  bool     // leave out cups that lack an end

	PairShares []float64   // pairs: shares of the first of the two, percent
	Alone      bool        // pairs: each end alone as well, last
	SharedZero bool        // rows: one cup of base alone, cup 1, in place of each row's 0
	Repeat     []int       // these cups, by number, are made again, numbered after the last
	Bounds     []Bound     // by end, nil when not bounded
	Parts      [][]float64 // list: parts of each cup, one for each end
}

// HasSeries reports whether the design is a series on one base.
func (b Blend) HasSeries() bool { return len(b.Series) > 0 }

// Glazes are the glazes that the design is made from, as indexes into the plan's:
// its end glazes, or its base.
func (b Blend) Glazes() []int {
	if b.HasSeries() {
		return []int{b.Base}
	}
	return b.Ends
}

// Point is one cup of a design before anything is poured.
type Point struct {
	Row, Column, Layer int       // places in the shape of the design, from 0
	Shares             []float64 // by end, sum 1; of a dosed base by series: percent, of a Triaxial share of its corner
	Again              int       // number of the earlier cup that is asked to be the same, 0 for none
}

// Count returns how many cups there are before bounds and Interior take any
// away. It is computed, not counted, so that a plan of a million cups costs
// nothing; more than MaxCups is given as MaxCups+1.
func (b Blend) Count() int {
	n := 0
	switch b.Kind {
	case Line:
		n = b.Cells
		if b.HasSeries() {
			n = len(b.Series[0].Percents)
		}
	case Biaxial:
		c, r := b.grid()
		n = int(min(int64(c)*int64(min(r, MaxCups+1)), MaxCups+1))
	case Triaxial:
		n = LatticeCount(3, b.Divisions)
	case Quadraxial:
		n = LatticeCount(4, b.Divisions)
	case List:
		n = len(b.Parts)
	case Centroid:
		n = 1<<len(b.Ends) - 1
	case Pairs:
		n = len(b.Ends) * (len(b.Ends) - 1) / 2 * len(b.PairShares)
		if b.Alone {
			n += len(b.Ends)
		}
	case Rows:
		if b.SharedZero {
			n = 1
		}
		for _, series := range b.Series {
			n += len(b.inRow(series))
		}
	}
	return min(n+len(b.Repeat), MaxCups+1)
}

// CellCount returns how many cups there are after bounds and Interior have taken
// theirs away. The error says why there are none.
func (b Blend) CellCount() (int, error) {
	all, err := b.Points()
	return len(all), err
}

// grid is the columns and rows of a biaxial.
func (b Blend) grid() (columns, rows int) {
	if b.HasSeries() {
		return len(b.Series[0].Percents), len(b.Series[1].Percents)
	}
	return b.Columns, b.Rows
}

// inRow is the percentages of a series in its row of a Rows.
func (b Blend) inRow(s Series) []float64 {
	return slices.DeleteFunc(slices.Clone(s.Percents), func(x float64) bool { return x == 0 && b.SharedZero })
}

// LatticeCount returns the number of points of the simplex lattice {q,m},
// C(q+m−1, m), or MaxCups+1 when it is larger than that (NIST/SEMATECH
// e-Handbook of Statistical Methods, 5.5.4.2).
func LatticeCount(q, m int) int {
	if q < 1 || m < 0 {
		return 0
	}
	m = min(m, MaxCups+1)
	n := int64(1) // an int may have 32 bits
	for i := 1; i < q && n <= MaxCups; i++ {
		n = n * int64(m+i) / int64(i)
	}
	return int(min(n, MaxCups+1))
}

// check returns an error for a design that has no cups or too many.
func (b Blend) check() error {
	if len(b.Glazes()) == 0 {
		return fmt.Errorf("a %s without ends", b.Kind)
	}
	n := b.Count()
	if n > MaxCups {
		return fmt.Errorf("more than %d cups", MaxCups)
	}
	if n-len(b.Repeat) < 1 || (b.Kind == Triaxial || b.Kind == Quadraxial) && b.Divisions < 1 {
		return fmt.Errorf("a %s without cups", b.Kind)
	}
	return nil
}

// along is the place of step i of n between 0 and 1; a single step lies at 0.
func along(i, n int) float64 {
	if n < 2 {
		return 0
	}
	return of(i, n-1)
}

func of(part, whole int) float64 { return float64(part) / float64(whole) }
