package layout

import (
	"fmt"

	"pourboard/blend"
)

// Mat lays out the places of the cups, or none when the plan does not give the
// cup's diameter: in the shape of the design, one mat for each layer. Cups stand
// in the order of the design, also where tiles are in random order.
func Mat(t *blend.Test) []Board {
	if t.Plan.Cup.DiameterMM <= 0 {
		return nil
	}
	g := cupGauge(t)
	var mats []Board
	for _, cells := range cellsByLayer(t) {
		b := g.mat(g.slots(t, cells), cells[0])
		b.Number, b.Layer = len(mats)+1, t.Cells[cells[0]].Layer
		if t.Layers > 1 {
			b.Name = fmt.Sprintf("Cups, layer %d of %d", b.Layer+1, t.Layers)
		}
		mats = append(mats, b)
	}
	return mats
}

// mat is a board of cups, the first of which is that of a cell (index).
func (g gauge) mat(slots []slot, first int) Board {
	b := g.board(slots)
	b.Body, b.Name = -1, "Cups"
	for i := range b.Spots {
		b.Spots[i].Tile, b.Spots[i].Cell = -1, first+i+1
	}
	return b
}

// cupGauge is the measures of a place for a cup: its number and a line for each
// dose or pour go below the circle, where the cup does not cover them.
func cupGauge(t *blend.Test) gauge {
	d, b := t.Plan.Cup.DiameterMM, t.Plan.Blend
	parts := len(b.Ends)
	if b.HasSeries() {
		parts = len(b.Series)
		if b.Method != blend.ByPour {
			parts++ // the base
		}
	}
	g := gauge{w: d, h: d, capW: max(d, doseRoom), capH: CaptionMark + captionLine*float64(max(parts, 1)), round: true}
	g.pitchX = g.capW + normalGap
	g.pitchY = g.h + g.capH + cupGap
	return g
}
