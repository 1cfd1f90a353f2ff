package blend

import (
	"fmt"

	"pourboard/blend/design"
	"pourboard/blend/quantity"
)

// How far a recipe may lie from the line through two others, as a part of their
// distance, and still count as one of those between them.
const (
	onLine   = 0.005 // for what rounding a recipe to be read leaves
	nearLine = 0.2   // for what whole steps leave of cups that are asked to lie on a line
)

// onOneLine reports whether cells, by index, differ in one direction alone, and
// which two of them are the ends then; glazes are their recipes. Cups that are
// asked to lie on a line and were made beside it by what the instruments do not
// show have no triangle between them either.
func (t *Test) onOneLine(cells []int, glazes []Glaze) (a, b int, ok bool) {
	near := onLine
	var asked []Glaze
	for _, i := range cells {
		g, err := t.refinedGlaze(i, Asked)
		if err != nil {
			return 0, 0, false
		}
		asked = append(asked, g)
	}
	if _, _, line := lined(asked, onLine); line {
		near = nearLine
	}
	return lined(glazes, near)
}

// lined reports whether the recipes of glazes lie on one line, as near to it as
// given, and which are its ends.
func lined(glazes []Glaze, near float64) (a, b int, ok bool) {
	type axis struct {
		material string
		addition bool
	}
	place := map[axis]int{}
	for _, g := range glazes {
		for over, parts := range [][]Part{g.Recipe, g.Additions} {
			for _, p := range parts {
				x := axis{p.Material, over == 1}
				if _, ok := place[x]; !ok {
					place[x] = len(place)
				}
			}
		}
	}
	points := make([][]float64, len(glazes))
	for i, g := range glazes {
		points[i] = make([]float64, len(place))
		for over, parts := range [][]Part{g.Recipe, g.Additions} {
			for _, p := range parts {
				points[i][place[axis{p.Material, over == 1}]] += p.Percent
			}
		}
	}
	return design.Collinear(points, near)
}

// onOneLineError says that cells, by index, have nothing between them that two of
// them have not.
func (t *Test) onOneLineError(cells []int, a, b int) error {
	numbers := make([]string, len(cells))
	for n, i := range cells {
		numbers[n] = fmt.Sprint(i + 1)
	}
	alone := ""
	if t.CanNarrow() {
		alone = ", or one cup"
	}
	return fmt.Errorf("the recipes of cups %s lie on one line (name its ends, cups %d and %d%s)",
		quantity.Listed(numbers, "and"), cells[a]+1, cells[b]+1, alone)
}
