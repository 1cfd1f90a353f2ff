package layout

import "pourboard/blend"

// LayerGap is above each layer of a map with several, in places: for its name.
const LayerGap = 0.42

// Map is the design in its own shape: a triangle is a triangle, 5 × 5 is 5 × 5, a
// line is wrapped. Lengths are in places.
type Map struct {
	W, H   float64
	Places []MapPlace // in the order of the cups
}

// MapPlace is where a cup is on the map: X across, may be halves, and Y down.
type MapPlace struct {
	Cup  int // number, from 1
	X, Y float64
}

// MapOf is the map of a test no wider than wide places if that can be: layers
// are side by side, in rows.
func MapOf(t *blend.Test, wide float64) Map {
	m := Map{Places: make([]MapPlace, 0, len(t.Cells))}
	layers := cellsByLayer(t)
	x, y, gap := 0.0, 0.0, LayerGap
	if len(layers) == 1 {
		gap = 0
	}
	for _, cells := range layers {
		slots, w, h := shape(t, cells, max(1, int(wide)))
		if x > 0 && x+w > wide {
			x, y = 0, m.H
		}
		for k, s := range slots {
			m.Places = append(m.Places, MapPlace{Cup: t.Cells[cells[k]].Number, X: x + s.x, Y: y + gap + float64(s.row)})
		}
		m.W, m.H = max(m.W, x+w), max(m.H, y+gap+h)
		x += w + LayerGap
	}
	return m
}
