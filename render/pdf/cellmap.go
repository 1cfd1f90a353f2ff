package pdf

import (
	"fmt"
	"math"

	"pourboard/blend"
)

// Sizes of the figures in a place of a map; below the least there is none.
const (
	mostMapPt  = 11.0
	leastMapPt = 4.5
)

// A cellMap is where the cups stand in a drawing of the design.
type cellMap struct {
	layers   [][]mapCell
	layerMM  []float64 // height of each
	wMM, hMM float64   // of a cup
	heightMM float64   // of all layers
	pt       float64   // of the figures
}

// A mapCell is one cup, in widths and heights of a cup from the top left.
type mapCell struct {
	cell int
	x, y float64
}

// newMap lays the cups out in the width, none of the layers higher than mostMM.
func (s *sheets) newMap(width, mostMM float64) cellMap {
	t := s.test
	kind := s.plan.Blend.Kind
	const cupMM = 22.0
	m := cellMap{layers: make([][]mapCell, t.Layers)}
	perRow := max(1, int(width/16)) // cups in a row that the design does not give
	for _, c := range t.Cells {
		at := mapCell{c.Number, float64(c.Column), float64(c.Row)}
		switch kind {
		case blend.Triaxial, blend.Quadraxial:
			at.x -= float64(c.Row) / 2
		case blend.Line, blend.List:
			at.x, at.y = float64((c.Number-1)%perRow), float64((c.Number-1)/perRow)
		}
		m.layers[c.Layer] = append(m.layers[c.Layer], at)
	}
	columns, rows := 0.0, 0.0
	for _, cells := range m.layers {
		loX, loY, hiX, hiY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, c := range cells {
			loX, hiX = min(loX, c.x), max(hiX, c.x)
			loY, hiY = min(loY, c.y), max(hiY, c.y)
		}
		for i := range cells {
			cells[i].x -= loX
			cells[i].y -= loY
		}
		if len(cells) == 0 {
			hiX, loX, hiY, loY = 0, 0, 0, 0
		}
		m.layerMM = append(m.layerMM, hiY-loY+1)
		columns, rows = max(columns, hiX-loX+1), max(rows, hiY-loY+1)
	}
	m.wMM = min(cupMM, width/columns)
	m.hMM = min(0.6*m.wMM, mostMM/rows)
	for i := range m.layerMM {
		m.layerMM[i] = m.layerMM[i]*m.hMM + 10
		m.heightMM += m.layerMM[i]
	}
	const digits = 5.0 // of the widest value
	m.pt = min(mostMapPt, (m.wMM-0.6)/(digits*0.7*mmPerPt), m.hMM/((ascentEm+descentEm+0.75*leadingEm)*mmPerPt))
	return m
}

// cells draws a map, layer by layer: place draws a cup with its top left corner
// at x, y.
func (f *flow) cells(m cellMap, place func(x, y float64, cup int)) {
	for layer, cells := range m.layers {
		f.need(m.layerMM[layer])
		if len(m.layers) > 1 {
			f.lines(fmt.Sprintf("Layer %d of %d", layer+1, len(m.layers)), bold(benchPt), left, 0)
			f.space(1)
		}
		top := f.y
		for _, c := range cells {
			x, y := f.left()+c.x*m.wMM, top+c.y*m.hMM
			place(x, y, c.cell)
			f.y = max(f.y, y+m.hMM)
		}
		f.y += 4
	}
}
