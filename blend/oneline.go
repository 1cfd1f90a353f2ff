package blend

import (
	"fmt"
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
func (t *Test) onOneLine(cells []int, which Which) (a, b int, ok bool) {
	near := onLine
	var asked, meant []Glaze
	for _, i := range cells {
		g, errAsked := t.refinedGlaze(i, Asked)
		h, err := t.refinedGlaze(i, which)
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
// given, and which are its ends. Amounts are compared as parts of the most that
// one of them has of a material, for a little of a strong colourant counts as
// much as a lot of a weak one.
func lined(glazes []Glaze, near float64) (a, b int, ok bool) {
	points := make([]map[Part]float64, len(glazes)) // by material; Amount 1 for one over the 100
	most := map[Part]float64{}
	for i, g := range glazes {
		points[i] = map[Part]float64{}
		for over, parts := range [][]Part{g.Recipe, g.Additions} {
			for _, p := range parts {
				axis := Part{p.Material, float64(over)}
				points[i][axis] += p.Amount
				most[axis] = max(most[axis], points[i][axis])
			}
		}
	}
	// dot is the product of the differences of two points from that at a.
	dot := func(a, i, j int) float64 {
		sum := 0.0
		for axis, full := range most {
			from := points[a][axis]
			sum += (points[i][axis] - from) * (points[j][axis] - from) / (full * full)
		}
		return sum
	}
	longest := 0.0 // squared
	for i := range points {
		for j := range i {
			if d := dot(j, i, i); d > longest {
				longest, a, b = d, j, i
			}
		}
	}
	for i := range points {
		along := dot(a, i, b)
		if dot(a, i, i)-along*along/longest > near*near*longest {
			return a, b, false
		}
	}
	return a, b, true
}

// onOneLineError says that cells, by their numbers, have nothing between them
// that two of them have not.
func (t *Test) onOneLineError(all []string, a, b string) error {
	alone := ""
	if t.canNarrow() {
		alone = ", or one cup alone"
	}
	last := len(all) - 1
	return fmt.Errorf("the recipes of cups %s and %s lie on one line, so that what is between them is all between cups %s and %s; name these two%s",
		strings.Join(all[:last], ", "), all[last], a, b, alone)
}
