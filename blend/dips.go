package blend

import (
	"cmp"
	"math"
	"slices"
)

// Defaults of keys that a plan leaves out (common practice, no source).
const (
	usualThicknessMM = 6       // of a test tile
	usualDip         = 2.0 / 3 // of the tile's height
)

// What a coat takes up of dry glaze, in g on a cm² of dipped tile: the usual
// figure, and how far it may be off (testdata/reference/pickup.toml, which calls
// it an estimate: no published table was found).
const (
	usualPickup = 0.06
	PickupLow   = 0.03
	PickupHigh  = 0.12
)

// Thickness is the tile's thickness in mm, or the usual one.
func (t Tiles) Thickness() float64 { return cmp.Or(t.ThicknessMM, usualThicknessMM) }

// Dip is how far the first coat reaches up the tile, in mm.
func (t Tiles) Dip() float64 { return cmp.Or(t.DipMM, math.Round(usualDip*t.HeightMM)) }

// pickup is what a coat takes up, in g of dry glaze on a cm².
func (t Tiles) pickup() float64 { return cmp.Or(t.Pickup, usualPickup) }

// Coat is one dip of a tile into wet glaze.
type Coat struct {
	Across bool    // the tile goes in sideways: MM runs along its width, else along its height
	MM     float64 // of the tile that the coat covers, from the edge that goes in first
}

// Dips are the coats of a tile in the order of dipping, each covering less than
// the one before by equal steps, so that the tile shows every thickness from
// all coats to none (common practice, no source).
//
// Straight coats all go in from the lower edge: of n coats the first covers
// Dip() and coat k the part (n−k+1)/n of it. Corner coats go in by a long side
// and by a short one in turn, a long one first; those of each direction step
// likewise, from Dip() along the height and from the same part of the width.
func (t Tiles) Dips() []Coat {
	coats := make([]Coat, t.Coats)
	turns, long := 1, false // the directions that coats go in by, and whether the first is across
	if t.Bands == Corner {
		turns, long = 2, t.HeightMM >= t.WidthMM // the long side down measures across the width
	}
	for k := range coats {
		turn := k % turns
		alike := (t.Coats - turn + turns - 1) / turns // coats that go in as this one does
		c := Coat{Across: long != (turn == 1), MM: t.Dip() * float64(alike-k/turns) / float64(alike)}
		if c.Across {
			c.MM *= t.WidthMM / t.HeightMM
		}
		coats[k] = c
	}
	return coats
}

// bath is a cup of wet glaze with a tile in it as a coat is dipped.
type bath struct{ diameterMM, widthMM, thicknessMM, deepMM float64 }

func (t Tiles) bath(diameterMM float64, c Coat) bath {
	b := bath{diameterMM, t.WidthMM, t.Thickness(), c.MM}
	if c.Across {
		b.widthMM = t.HeightMM
	}
	return b
}

// narrowestMM is the diameter of the narrowest cup that takes the tile: its
// diagonal seen from above.
func (b bath) narrowestMM() float64 { return math.Hypot(b.widthMM, b.thicknessMM) }

// takes reports whether the tile goes into the cup.
func (b bath) takes() bool { return b.diameterMM >= b.narrowestMM() }

// section is the cup's area around the tile, seen from above, in mm².
func (b bath) section() float64 {
	return math.Pi/4*b.diameterMM*b.diameterMM - b.widthMM*b.thicknessMM
}

// needML is the wet glaze that reaches as high as the coat does.
func (b bath) needML() float64 { return b.deepMM * b.section() / 1000 }

// coatCM2 is the area that the coat covers: both faces and the edges up to its line.
func (b bath) coatCM2() float64 {
	return (2*(b.widthMM+b.thicknessMM)*b.deepMM + b.widthMM*b.thicknessMM) / 100
}

// DishMM is how wide a cup or dish must be for every one of the dips: a coat by
// a long side takes more than the tile's width.
func (t Tiles) DishMM() float64 {
	widest := 0.0
	for _, c := range t.Dips() {
		widest = max(widest, t.bath(0, c).narrowestMM())
	}
	return widest
}

// noteDips is about cups that tiles cannot be dipped into: too narrow, too
// shallow for the first, or used up before the last.
func noteDips(t *Test) {
	tiles := t.Plan.Tiles
	if tiles.WidthMM == 0 || tiles.HeightMM == 0 || tiles.Coats == 0 {
		return
	}
	shallow := noteShallow(t)
	n := RunsShort{ML: math.Inf(1), Tiles: tiles.perCup(), Coats: tiles.Coats, PickupG: tiles.pickup()}
	n.Rough = tiles.Pickup == 0
	for _, c := range t.Cells {
		taken, need := dipAll(t, c, t.Plan.Cup.DiameterMM)
		if slices.Contains(shallow, c.Number) || c.Got.DryG == 0 || c.Got.ML >= need {
			continue
		}
		n.Cups = append(n.Cups, c.Number)
		if c.Got.ML < n.ML {
			n.ML, n.TakenML = c.Got.ML, taken
		}
		n.NeedML = max(n.NeedML, math.Ceil(need/5)*5)
	}
	t.note(n, n.Cups != nil)
}

// noteShallow is about a cup that does not take the tile, and about cups in
// which it cannot be dipped as far as its coats want; it returns these. A coat by
// a long side that the cup is too narrow for is dipped in a dish, and wants
// nothing of the cup. Nothing is known of a cup without diameter.
func noteShallow(t *Test) []int {
	tiles, diameter := t.Plan.Tiles, t.Plan.Cup.DiameterMM
	short := tiles.bath(diameter, Coat{Across: tiles.Bands == Corner && tiles.HeightMM < tiles.WidthMM})
	if !short.takes() {
		n := NarrowCup{short.widthMM, short.thicknessMM, diameter, math.Ceil(short.narrowestMM()/5) * 5}
		t.note(n, diameter > 0)
		return nil
	}
	var in bath // the coat that wants most
	n := ShallowCup{ML: math.Inf(1)}
	for k, c := range tiles.Dips() {
		if b := tiles.bath(diameter, c); b.takes() && b.needML() > in.needML() {
			in, n.Coat = b, k+1
		}
	}
	n.Cups = t.cups(func(c Cell) bool { return c.Got.ML < in.needML() })
	if n.Cups == nil {
		return nil
	}
	for _, cup := range n.Cups {
		n.ML = min(n.ML, t.Cells[cup-1].Got.ML)
	}
	n.WantMM, n.LevelMM, n.NeedML = in.deepMM, 1000*n.ML/in.section(), in.needML()
	// What is proposed must be enough for the last tile too; a narrower cup,
	// rounded down, must still take the tile.
	n.WidestMM = math.Floor(math.Sqrt(4 / math.Pi * (1000*n.ML/in.deepMM + in.widthMM*in.thicknessMM)))
	fits := n.WidestMM >= in.narrowestMM()
	for _, cup := range n.Cups {
		c := t.Cells[cup-1]
		_, need := dipAll(t, c, diameter)
		_, narrower := dipAll(t, c, n.WidestMM)
		n.NeedML = max(n.NeedML, need)
		fits = fits && narrower <= c.Got.ML && c.Got.DryG > 0
	}
	if n.NeedML = math.Ceil(n.NeedML/5) * 5; !fits {
		n.WidestMM = 0
	}
	t.note(n, true)
	return n.Cups
}

// dipAll goes through the coats of a cup's tiles as they are dipped, all tiles
// for one coat before the next: the mL of wet glaze that they take up, and those
// with which the last tile of every coat is still covered. Where the diameter is
// not known, a dip needs no more than it takes; an empty cup needs nothing.
func dipAll(t *Test, c Cell, diameterMM float64) (taken, need float64) {
	if c.Got.DryG == 0 {
		return 0, 0
	}
	tiles, n := t.Plan.Tiles, float64(t.Plan.Tiles.perCup())
	for _, coat := range tiles.Dips() {
		in := tiles.bath(diameterMM, coat)
		takes := in.coatCM2() * tiles.pickup() * c.Got.ML / c.Got.DryG
		last := takes
		if in.takes() {
			last = max(last, in.needML())
		}
		need = max(need, taken+(n-1)*takes+last)
		taken += n * takes
	}
	return taken, need
}

// perCup is how many tiles are dipped into each cup.
func (t Tiles) perCup() int { return len(t.Bodies) * max(1, t.Repeats) }
