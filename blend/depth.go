package blend

import "math"

// What is taken where a plan does not say (common practice, no source).
const (
	usualThicknessMM = 6       // of a test tile
	usualDip         = 2.0 / 3 // of the tile's height
)

// Thickness is the tile's thickness in mm, or the usual one.
func (t Tiles) Thickness() float64 {
	if t.ThicknessMM > 0 {
		return t.ThicknessMM
	}
	return usualThicknessMM
}

// Dip is how far the first coat reaches up the tile, in mm.
func (t Tiles) Dip() float64 {
	if t.DipMM > 0 {
		return t.DipMM
	}
	return math.Round(usualDip * t.HeightMM)
}

// bath is a cup of slip with a tile standing in it.
type bath struct {
	DiameterMM  float64
	WidthMM     float64 // of the tile
	ThicknessMM float64
}

// narrowestMM is the diameter of the narrowest cup that takes the tile: its
// diagonal seen from above.
func (b bath) narrowestMM() float64 { return math.Hypot(b.WidthMM, b.ThicknessMM) }

// levelMM is how high ml of slip stand with the tile on the bottom: the tile
// takes its own section away from the cup's.
func (b bath) levelMM(ml float64) float64 { return 1000 * ml / b.section() }

// needML is the slip that stands mm high with the tile in it.
func (b bath) needML(mm float64) float64 { return mm * b.section() / 1000 }

func (b bath) section() float64 {
	return math.Pi/4*b.DiameterMM*b.DiameterMM - b.WidthMM*b.ThicknessMM
}

// widestMM is the diameter of the widest cup in which ml of slip stand mm high.
func (b bath) widestMM(ml, mm float64) float64 {
	return math.Sqrt(4 / math.Pi * (1000*ml/mm + b.WidthMM*b.ThicknessMM))
}
