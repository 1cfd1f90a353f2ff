package blend

import (
	"math"
	"slices"
)

// What a coat takes up of dry glaze, in g on a cm² of dipped tile: the usual
// figure, and how far it may be off (testdata/reference/pickup.toml, which calls
// it an estimate: no published table was found).
const (
	usualPickup = 0.06
	PickupLow   = 0.03
	PickupHigh  = 0.12
)

// pickup is what a coat takes up, in g of dry glaze on a cm².
func (t Tiles) pickup() float64 {
	if t.Pickup > 0 {
		return t.Pickup
	}
	return usualPickup
}

// dippedCM2 is the area of a tile that one coat covers: both faces and the
// edges up to its line.
func (t Tiles) dippedCM2(c Coat) float64 {
	wide, thick := t.downMM(c), t.Thickness()
	return (2*(wide+thick)*c.MM + wide*thick) / 100
}

// dipping is how the tiles of one cup use it up.
type dipping struct {
	takenML float64 // in all
	needML  float64 // so that the last tile of every coat is still covered
}

// dipAll goes through the coats of a cup's tiles as they are dipped, all tiles
// for one coat before the next. perML is the cup's dry glaze in g per mL. Where
// the cup's diameter is not known, a dip needs no more than it takes.
func (t *Test) dipAll(perML, diameterMM float64) dipping {
	tiles, n := t.Plan.Tiles, float64(t.tilesPerCup())
	var d dipping
	for _, coat := range tiles.Dips() {
		takes := tiles.dippedCM2(coat) * tiles.pickup() / perML
		need := takes
		in := tiles.in(diameterMM, coat)
		if in.DiameterMM >= in.narrowestMM() {
			need = max(need, in.needML(coat.MM))
		}
		d.needML = max(d.needML, d.takenML+(n-1)*takes+need)
		d.takenML += n * takes
	}
	return d
}

// tilesPerCup is how many tiles are dipped into each cup.
func (t *Test) tilesPerCup() int { return len(t.Plan.Tiles.Bodies) * max(1, t.Plan.Tiles.Repeats) }

// noteRunsShort is about cups that may not cover their last tile. Those that are
// too shallow for the first are left to ShallowCup.
func (t *Test) noteRunsShort() {
	tiles := t.Plan.Tiles
	if tiles.WidthMM == 0 || tiles.HeightMM == 0 || tiles.Coats == 0 {
		return
	}
	n := RunsShort{Tiles: t.tilesPerCup(), Coats: tiles.Coats, ML: math.Inf(1), PickupG: tiles.pickup(), Rough: tiles.Pickup == 0}
	var shallow []int
	if note, ok := t.shallow(); ok {
		if cup, is := note.(ShallowCup); is {
			shallow = cup.Cups
		}
	}
	for _, c := range t.Cells {
		if !(c.Got.ML > 0) || !(c.Got.DryG > 0) || slices.Contains(shallow, c.Number) {
			continue
		}
		d := t.dipAll(c.Got.DryG/c.Got.ML, t.Plan.Cup.DiameterMM)
		if c.Got.ML >= d.needML {
			continue
		}
		n.Cups = append(n.Cups, c.Number)
		if c.Got.ML < n.ML {
			n.ML, n.TakenML = c.Got.ML, d.takenML
		}
		n.NeedML = max(n.NeedML, math.Ceil(d.needML/5)*5)
	}
	if n.Cups != nil {
		t.note(n)
	}
}
