package layout

import "pourboard/blend"

// layerGap is between the layers of a map, in places.
const layerGap = 0.35

// Map is the design in its own shape: a triangle is a triangle, 5 × 5 is 5 × 5, a
// line is wrapped. Lengths are in places.
type Map struct {
	W, H   float64
	Places []MapPlace // in the order of the cups
	Layers []MapLayer
}

// MapPlace is where a cup is on the map: X across, may be halves, and Y down.
type MapPlace struct {
	Cup  int // number, from 1
	X, Y float64
}

// MapLayer is one layer of a design on the map. Its places follow each other.
type MapLayer struct {
	X, Y  float64
	First int // index into Places
}

// MapOf is the map of a test no wider than wide places if that can be: layers
// are side by side, in rows. Rows and places that the design leaves free at its
// borders take no room.
func MapOf(t *blend.Test, wide float64) Map {
	var m Map
	x, y := 0.0, 0.0
	for _, cells := range cellsByLayer(t) {
		slots := shape(t, cells, max(1, int(wide)))
		left, top, right, bottom := slots[0].x, slots[0].row, slots[0].x, slots[0].row
		for _, s := range slots {
			left, top, right, bottom = min(left, s.x), min(top, s.row), max(right, s.x), max(bottom, s.row)
		}
		w, h := right-left+1, float64(bottom-top+1)
		if x > 0 && x+w > wide {
			x, y = 0, m.H+layerGap
		}
		m.Layers = append(m.Layers, MapLayer{X: x, Y: y, First: len(m.Places)})
		for k, s := range slots {
			m.Places = append(m.Places, MapPlace{Cup: t.Cells[cells[k]].Number, X: x + s.x - left, Y: y + float64(s.row-top)})
		}
		m.W, m.H = max(m.W, x+w), max(m.H, y+h)
		x += w + layerGap
	}
	return m
}
