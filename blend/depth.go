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

// shallow says where a tile cannot be dipped as far as its coats want, if that
// is so anywhere. A coat by a long side that the cup is too narrow for is dipped
// in a dish, and wants nothing of the cup.
func (t *Test) shallow() (n Note, ok bool) {
	tiles, cup := t.Plan.Tiles, t.Plan.Cup
	if cup.DiameterMM == 0 || tiles.WidthMM == 0 || tiles.Coats == 0 {
		return nil, false
	}
	in, coat, number := t.deepestDip()
	if number == 0 {
		return t.narrowCup()
	}
	found := ShallowCup{ML: math.Inf(1), Coat: number, WantMM: coat.MM}
	need := in.needML(coat.MM)
	for _, c := range t.Cells {
		if in.levelMM(c.Got.ML) < coat.MM {
			found.Cups = append(found.Cups, c.Number)
			found.ML = min(found.ML, c.Got.ML)
		}
	}
	if found.Cups == nil {
		return nil, false
	}
	found.LevelMM = in.levelMM(found.ML)
	// What is proposed must be enough for the last tile too; a narrower cup,
	// rounded down, must still take the tile.
	widest := math.Floor(in.widestMM(found.ML, coat.MM))
	fits := widest >= in.narrowestMM()
	for _, n := range found.Cups {
		c := t.Cells[n-1].Got
		if !(c.DryG > 0) {
			fits = false
			continue
		}
		need = max(need, t.dipAll(c.DryG/c.ML, cup.DiameterMM).needML)
		fits = fits && t.dipAll(c.DryG/c.ML, widest).needML <= c.ML
	}
	found.NeedML = math.Ceil(need/5) * 5
	if fits {
		found.WidestMM = widest
	}
	return found, true
}

// deepestDip is the coat that wants the most wet glaze in the cup, and its
// number from 1, 0 where the cup takes the tile for none.
func (t *Test) deepestDip() (in bath, coat Coat, number int) {
	for k, c := range t.Plan.Tiles.Dips() {
		b := t.Plan.Tiles.in(t.Plan.Cup.DiameterMM, c)
		if b.DiameterMM >= b.narrowestMM() && (number == 0 || b.needML(c.MM) > in.needML(coat.MM)) {
			in, coat, number = b, c, k+1
		}
	}
	return in, coat, number
}

// narrowCup is about a cup that does not take the tile, unless it would by the
// short side and the only coat is one by a long side.
func (t *Test) narrowCup() (n Note, narrow bool) {
	tiles, cup := t.Plan.Tiles, t.Plan.Cup.DiameterMM
	width := math.Inf(1)
	for _, c := range tiles.Dips() {
		width = min(width, tiles.downMM(c))
	}
	short := bath{cup, min(tiles.WidthMM, tiles.HeightMM), tiles.Thickness()}
	if tiles.Bands == Corner && cup >= short.narrowestMM() {
		return nil, false
	}
	need := bath{cup, width, tiles.Thickness()}.narrowestMM()
	return NarrowCup{width, tiles.Thickness(), cup, math.Ceil(need/5) * 5}, true
}

// in is a cup of a diameter with a tile in it as a coat is dipped.
func (t Tiles) in(diameterMM float64, c Coat) bath {
	return bath{diameterMM, t.downMM(c), t.Thickness()}
}
