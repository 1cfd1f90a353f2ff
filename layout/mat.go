package layout

import (
	"fmt"

	"pourboard/blend"
)

// Mat lays out the places of the cups, or none when the plan does not give the
// cup's diameter: in the shape of the design, one mat for each layer. Cups stand
// in the order of the design, also where tiles are in random order. A cup's number
// and a line for each dose or pour go below its circle, where it does not cover
// them.
func Mat(t *blend.Test) []Board {
	d, plan := t.Plan.Cup.DiameterMM, t.Plan.Blend
	if d <= 0 {
		return nil
	}
	parts := len(plan.Ends)
	if plan.HasSeries() {
		parts = len(plan.Series)
		if plan.Method != blend.ByPour {
			parts++ // the base
		}
	}
	g := gauge{w: d, h: d, capW: max(d, doseRoom), capH: CaptionMark + captionLine*float64(max(parts, 1))}
	g.pitchX, g.pitchY = g.capW+normalGap, g.high()+cupGap
	var mats []Board
	for i, cells := range cellsByLayer(t) {
		b := g.board(t, cells, cells)
		b.Number, b.Name = i+1, "Cups"
		if t.Layers > 1 {
			b.Name = fmt.Sprintf("Cups, layer %d of %d", t.Cells[cells[0]].Layer+1, t.Layers)
		}
		mats = append(mats, b)
	}
	return mats
}
