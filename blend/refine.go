package blend

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend/measure"
)

// Steps of a refined design: few enough to mix in an afternoon.
const (
	refinedCells     = 7 // line
	refinedDivisions = 4 // triaxial: 15 cells
	refinedLayers    = 3 // quadraxial: 20 cells
	refinedSide      = 4 // biaxial: 16 cells
)

// Refine is the next test: the recipes of the chosen cells (indexes into
// t.Cells) become the ends of a new plan, a line of two, a triaxial of three
// or, of four, the kind asked for (Biaxial or Quadraxial). Cup, instruments,
// tiles, board and log stay; mark is the new test's.
func (t *Test) Refine(cells []int, which Which, four Kind, mark string) (*Plan, error) {
	kinds := map[int]Kind{2: Line, 3: Triaxial, 4: four}
	kind, ok := kinds[len(cells)]
	if !ok {
		return nil, errors.New("a new test is made from two, three or four cells")
	}
	p := *t.Plan
	p.Mark = mark
	p.Glazes = nil
	p.Blend = Blend{Kind: kind, Basis: Dry}
	p.Board.BodiesAsRows = p.Board.BodiesAsRows && kind == Line
	var names []string
	for n, i := range cells {
		if i < 0 || i >= len(t.Cells) {
			return nil, fmt.Errorf("there is no cell %d; they go from 1 to %d", i+1, len(t.Cells))
		}
		if slices.Contains(cells[:n], i) {
			return nil, fmt.Errorf("cell %d is named twice", i+1)
		}
		g, err := t.refinedGlaze(i, which)
		if err != nil {
			return nil, err
		}
		p.Glazes = append(p.Glazes, g)
		p.Blend.Ends = append(p.Blend.Ends, n)
		names = append(names, fmt.Sprint(i+1))
	}
	title, _, _ := strings.Cut(t.Plan.Title, ": between cells ") // of a refined test, the first one's
	p.Title = fmt.Sprintf("%s: between cells %s and %s", title,
		strings.Join(names[:len(names)-1], ", "), names[len(names)-1])
	switch kind {
	case Line:
		p.Blend.Cells = refinedCells
	case Triaxial:
		p.Blend.Divisions = refinedDivisions
	case Quadraxial:
		p.Blend.Divisions = refinedLayers
	case Biaxial:
		p.Blend.Columns, p.Blend.Rows = refinedSide, refinedSide
	}
	return &p, nil
}

// refinedGlaze is a cell's recipe as a glaze of its own, at the cell's specific
// gravity.
func (t *Test) refinedGlaze(i int, which Which) (Glaze, error) {
	recipe, additions := t.Recipe(i, which)
	if recipe == nil {
		return Glaze{}, fmt.Errorf("nothing was measured into cup %d", i+1)
	}
	c := t.Cells[i]
	sg := c.SG
	if which == Measured {
		sg = c.Got.SG
	}
	g := Glaze{Name: fmt.Sprintf("Cell %d", c.Number), Recipe: readable(recipe), Additions: readable(additions)}
	assumed := false
	for e, p := range c.Pours {
		assumed = assumed || p.ML > 0 && t.Ends[e].Assumed
	}
	if !assumed { // what was not measured is not made out to be
		g.SG, g.Solids = math.Round(sg*1000)/1000, math.Round(t.cellSolids(i, which)*1000)/1000
	}
	if t.Plan.Mark != "" {
		g.Name += " of " + t.Plan.Mark
	}
	return g, nil
}

// readable rounds a recipe to hundredths, and what is little of to three digits:
// a strong colourant is told by them.
func readable(parts []Part) []Part {
	var all []Part
	for _, p := range parts {
		unit := min(0.01, math.Pow(10, math.Floor(math.Log10(p.Amount))-2))
		all = append(all, Part{p.Material, measure.Step{Size: unit}.Amount(int64(math.Round(p.Amount / unit)))})
	}
	return all
}
