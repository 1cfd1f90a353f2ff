// Package design lays out the cups of a test: how many there are, what each is
// asked to be, where it is in the shape of the design, and which cups are
// neighbours. It knows shares and percentages, and nothing of glazes.
//
// Start with Spec and its method Points.
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

// Spec describes a design. Either Ends is above 0 and glazes are blended, or
// Series is filled and one base is dosed.
type Spec struct {
	Kind       Kind
	Ends       int         // number of end glazes, 0 for a base with series
	Series     [][]float64 // percentages of each series in the order given; for a Triaxial only their number counts
	Cells      int         // Line of ends: how many cups there will be
	Columns    int         // Biaxial of ends
	Rows       int         // Biaxial of ends
	Divisions  int         // Triaxial, Quadraxial: m of {q,m}
	Interior   bool        // leave out cups that lack an end
	Shares     []float64   // Pairs: of the first of the two, percent
	Alone      bool        // Pairs: each end alone as well, last
	SharedZero bool        // Rows: one cup of base alone, first, in place of each row's 0
	Repeat     []int       // these cups, by number, are made again, numbered after the last
	Bounds     []Bound     // by end, nil when not bounded
	Parts      [][]float64 // List: parts of each cup, one for each end
}

// Point is one cup of a design before anything is poured.
type Point struct {
	Row, Column, Layer int       // places in the shape of the design, from 0
	Shares             []float64 // by end, sum 1; of a dosed base by series: percent, of a Triaxial share of its corner
	Again              int       // number of the earlier cup that is asked to be the same, 0 for none
}

// dosed reports whether one base is dosed.
func (s Spec) dosed() bool { return len(s.Series) > 0 }

// parts is the length of a point's shares.
func (s Spec) parts() int {
	if s.dosed() {
		return len(s.Series)
	}
	return s.Ends
}

// Count returns how many cups there are before bounds and Interior take any
// away. It is computed, not counted, so that a plan of a million cups costs
// nothing; more than MaxCups is given as MaxCups+1.
func (s Spec) Count() int {
	n := 0
	switch s.Kind {
	case Line:
		n = s.Cells
		if s.dosed() {
			n = len(s.Series[0])
		}
	case Biaxial:
		c, r := s.grid()
		n = int(min(int64(c)*int64(min(r, MaxCups+1)), MaxCups+1))
	case Triaxial:
		n = LatticeCount(3, s.Divisions)
	case Quadraxial:
		n = LatticeCount(4, s.Divisions)
	case List:
		n = len(s.Parts)
	case Centroid:
		n = 1<<s.Ends - 1
	case Pairs:
		n = s.Ends * (s.Ends - 1) / 2 * len(s.Shares)
		if s.Alone {
			n += s.Ends
		}
	case Rows:
		if s.SharedZero {
			n = 1
		}
		for _, percents := range s.Series {
			n += len(s.inRow(percents))
		}
	}
	return min(n+len(s.Repeat), MaxCups+1)
}

// grid is the columns and rows of a biaxial.
func (s Spec) grid() (columns, rows int) {
	if s.dosed() {
		return len(s.Series[0]), len(s.Series[1])
	}
	return s.Columns, s.Rows
}

// inRow is the percentages of a series in its row of a Rows.
func (s Spec) inRow(percents []float64) []float64 {
	return slices.DeleteFunc(slices.Clone(percents), func(x float64) bool { return x == 0 && s.SharedZero })
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
func (s Spec) check() error {
	if s.parts() == 0 {
		return fmt.Errorf("a %s without ends", s.Kind)
	}
	n := s.Count()
	if n > MaxCups {
		return fmt.Errorf("more than %d cups", MaxCups)
	}
	if n-len(s.Repeat) < 1 || (s.Kind == Triaxial || s.Kind == Quadraxial) && s.Divisions < 1 {
		return fmt.Errorf("a %s without cups", s.Kind)
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
