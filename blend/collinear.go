package blend

import (
	"fmt"
	"pourboard/blend/design"
	"strings"
)

// How far a recipe may lie from the line through two others, as a part of their
// distance, and still count as one of those between them.
const (
	onLine   = 0.005 // for what rounding a recipe to be read leaves
	nearLine = 0.2   // for what whole steps leave of cups that are asked to lie on a line
)

// onOneLine reports whether cells, by index, differ in one direction alone, and
// which two of them are the ends then. Cups that are asked to lie on a line and
// were made beside it by what the instruments do not show have no triangle
// between them either.
func (t *Test) onOneLine(cells []int, view View) (a, b int, ok bool) {
	near := onLine
	var asked, meant []Glaze
	for _, i := range cells {
		g, errAsked := t.refinedGlaze(i, Asked)
		h, err := t.refinedGlaze(i, view)
		if errAsked != nil || err != nil {
			return 0, 0, false
		}
		asked, meant = append(asked, g), append(meant, h)
	}
	if _, _, line := lined(asked, onLine); line {
		near = nearLine
	}
	return lined(meant, near)
}

// lined reports whether the recipes of glazes lie on one line, as near to it as
// given, and which are its ends.
func lined(glazes []Glaze, near float64) (a, b int, ok bool) {
	places := map[Part]int{} // by material; Amount 1 for one over the 100
	points := make([][]float64, len(glazes))
	for _, g := range glazes {
		for over, parts := range [][]Part{g.Recipe, g.Additions} {
			for _, p := range parts {
				axis := Part{p.Material, float64(over)}
				if _, ok := places[axis]; !ok {
					places[axis] = len(places)
				}
			}
		}
	}
	for i, g := range glazes {
		points[i] = make([]float64, len(places))
		for over, parts := range [][]Part{g.Recipe, g.Additions} {
			for _, p := range parts {
				points[i][places[Part{p.Material, float64(over)}]] += p.Percent
			}
		}
	}
	return design.Collinear(points, near)
}

// onOneLineError says that cells, by their numbers, have nothing between them
// that two of them have not.
func (t *Test) onOneLineError(all []string, a, b string) error {
	alone := ""
	if t.canNarrow() {
		alone = ", or one cup"
	}
	last := len(all) - 1
	return fmt.Errorf("the recipes of cups %s and %s lie on one line (name its ends, cups %s and %s%s)",
		strings.Join(all[:last], ", "), all[last], a, b, alone)
}
