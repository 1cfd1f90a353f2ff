package blend

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend/design"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// Size of a refined design: few enough cups to mix in an afternoon.
const (
	refinedCells     = 7 // line
	refinedDivisions = 4 // triaxial: 15 cells
	refinedLayers    = 3 // quadraxial: 20 cells
	refinedSide      = 4 // biaxial: 16 cells
	refinedParts     = 4 // line of a series: quarters of each step beside a cell, 7 cells
	refinedPartsEach = 2 // biaxial of two series: halves, 9 cells
)

// What a refined test's title has after that of the first.
const (
	betweenCups = ": between cups "
	aboutCup    = ": about cup "
)

// Refine is the next test: the recipes of the chosen cells (indexes into
// t.Cells) become the ends of a new plan, a line of two, a triaxial of three
// or, of four, the kind asked for (Biaxial or Quadraxial). One cell alone, of
// a line or a biaxial of series, gives the same base with finer steps about it;
// cells that differ in one colourant alone, the same base with finer steps
// between them. Where a cell has no recipe, the same glazes are blended in the
// shares between the cells.
// Cup, basis, instruments, tiles, board and log stay; mark is the new test's.
func (t *Test) Refine(cells []int, view View, four Kind, mark string) (*Plan, error) {
	if len(cells) == 1 {
		return t.narrowed(cells[0], view, mark)
	}
	if len(cells) < 2 || len(cells) > 4 {
		return nil, errors.New("name two, three or four cups, or one cup of a series")
	}
	names := make([]string, len(cells))
	for n, i := range cells {
		if slices.Contains(cells[:n], i) {
			return nil, fmt.Errorf("cup %d is named twice", i+1)
		}
		names[n] = fmt.Sprint(i + 1)
	}
	p := t.refinedPlan(mark, betweenCups+quantity.Listed(names, "and"))
	if series := t.onlySeries(cells); series >= 0 {
		return p, t.refineSeries(p, cells, series, view)
	}
	if err := t.onOneLine(cells, names); err != nil {
		return nil, err
	}
	p.Cup.Size, p.Cup.BatchG = t.Plan.Cup.Size, 0 // no base goes into every cup
	b := Blend{Basis: cmp.Or(t.Plan.Blend.Basis, Dry), Ends: []int{0, 1, 2, 3}[:len(cells)]}
	switch len(cells) {
	case 2:
		b.Kind, b.Cells = Line, refinedCells
	case 3:
		b.Kind, b.Divisions = Triaxial, refinedDivisions
	default:
		if b.Kind = four; four == Quadraxial {
			b.Divisions = refinedLayers
		} else {
			b.Columns, b.Rows = refinedSide, refinedSide
		}
	}
	p.Blend = b
	p.Board.BodiesAsRows = p.Board.BodiesAsRows && b.Kind == Line
	if !t.Plan.Blend.HasSeries() && slices.ContainsFunc(cells, func(i int) bool { return t.WithoutRecipe(i) != nil }) {
		return p, t.refineShares(p, cells, view)
	}
	p.Glazes = nil
	for n, i := range cells {
		g, err := t.refinedGlaze(i, view)
		if err != nil {
			return nil, err
		}
		for m, other := range p.Glazes {
			if sameRecipe(g.Recipe, other.Recipe, g.Additions, other.Additions) {
				return nil, nothingBetween(names[m], names[n], view)
			}
		}
		p.Glazes = append(p.Glazes, g)
	}
	return p, nil
}

// nothingBetween is the error that two cups are one mixture.
func nothingBetween(a, b string, view View) error {
	if view == Measured {
		return fmt.Errorf("cups %s and %s are identical as measured (name one of them, or use the plan's recipes with --asked)", a, b)
	}
	return fmt.Errorf("cups %s and %s have the same recipe (name one of them)", a, b)
}

// onOneLine is an error when three cells or more are asked to lie on one line:
// there is nothing between them that two of them have not.
func (t *Test) onOneLine(cells []int, names []string) error {
	if len(cells) < 3 {
		return nil
	}
	points := make([][]float64, len(cells))
	for n, i := range cells {
		points[n] = slices.Clone(t.Cells[i].Shares)
		for _, d := range t.Cells[i].Doses {
			points[n] = append(points[n], d.Percent)
		}
	}
	a, b, ok := design.Collinear(points)
	if !ok {
		return nil
	}
	alone := ""
	if t.CanNarrow() {
		alone = ", or one cup"
	}
	return fmt.Errorf("the recipes of cups %s lie on one line (name its ends, cups %s and %s%s)",
		quantity.Listed(names, "and"), names[a], names[b], alone)
}

// onlySeries is the one series whose dose differs between cells, -1 where
// another is dosed into one of them.
func (t *Test) onlySeries(cells []int) int {
	only := -1
	for s := range t.Plan.Blend.Series {
		if slices.ContainsFunc(cells, func(i int) bool { return t.Cells[i].Doses[s].Percent > 0 }) {
			if only >= 0 {
				return -1
			}
			only = s
		}
	}
	return only
}

// refineSeries makes p a line of one series, in quarters of each step between
// the cells, which are in it themselves.
func (t *Test) refineSeries(p *Plan, cells []int, series int, view View) error {
	cells = slices.Clone(cells)
	slices.SortFunc(cells, func(a, b int) int {
		return cmp.Compare(t.Cells[a].Doses[series].labelled(view), t.Cells[b].Doses[series].labelled(view))
	})
	var percents []float64
	for n, i := range cells {
		percent := t.Cells[i].Doses[series].labelled(view)
		if n > 0 {
			low := percents[len(percents)-1]
			if low == percent {
				return nothingBetween(fmt.Sprint(cells[n-1]+1), fmt.Sprint(i+1), view)
			}
			percents = append(percents, between(low, percent, refinedParts)...)
		}
		percents = append(percents, percent)
	}
	p.Blend.Kind, p.Blend.SharedZero = Line, false
	p.Blend.Series = []Series{{Material: t.Plan.Blend.Series[series].Material, Percents: percents}}
	return nil
}

// refineShares makes p, a blend of the cells, one of the glazes in them: a list
// of the shares that it has of each.
func (t *Test) refineShares(p *Plan, cells []int, view View) error {
	points, err := p.Blend.Design().Points()
	if err != nil {
		return err
	}
	shares := make([][]float64, len(cells))
	for n, i := range cells {
		for _, pour := range t.Cells[i].Pours {
			percent := pour.Percent
			if view == Measured && t.Cells[i].AsMade {
				percent = pour.GotPercent
			}
			shares[n] = append(shares[n], percent)
		}
		for m := range n {
			if slices.Equal(shares[m], shares[n]) {
				return fmt.Errorf("cups %d and %d hold the same shares (name one of them)", cells[m]+1, i+1)
			}
		}
	}
	p.Board.BodiesAsRows = false
	p.Blend = Blend{Kind: List, Basis: p.Blend.Basis, Parts: make([][]float64, len(points))}
	for e, glaze := range t.Plan.Blend.Ends {
		if !slices.ContainsFunc(shares, func(of []float64) bool { return of[e] > 0 }) {
			continue
		}
		p.Blend.Ends = append(p.Blend.Ends, glaze)
		for k, point := range points {
			part := 0.0
			for n := range cells {
				part += point.Shares[n] * shares[n][e] / 100
			}
			p.Blend.Parts[k] = append(p.Blend.Parts[k], part)
		}
	}
	for k, parts := range p.Blend.Parts {
		p.Blend.Parts[k] = Hundred(parts)
	}
	if len(p.Blend.Ends) > 4 {
		return fmt.Errorf("these cups hold %d glazes without recipe; 4 can be blended (choose cups of fewer glazes, or write their recipes into the plan)",
			len(p.Blend.Ends))
	}
	return nil
}

// refinedPlan is a copy of the plan for a next test, without what it says of
// single cups and of batches that were there. Tests of several generations have
// the title of the first; cups says from which it goes on.
func (t *Test) refinedPlan(mark, cups string) *Plan {
	p := *t.Plan
	title, _, _ := strings.Cut(p.Title, betweenCups)
	title, _, _ = strings.Cut(title, aboutCup)
	p.Title = title + cups
	if p.Mark != "" {
		p.Title += " of " + p.Mark
	}
	p.Mark = mark
	p.Poured, p.Have, p.ShareAll, p.Blend.Repeat, p.Log.Check = nil, nil, false, nil, nil
	if p.Cup.BatchG > 0 { // it gives the size of the cups
		p.Cup.Size = Amount{Of: Dry}
	}
	return &p
}

// narrowed is the same base with finer steps of its series about a cell. Of what
// was made noticeably other than asked, the steps lie about what was made.
func (t *Test) narrowed(i int, view View, mark string) (*Plan, error) {
	b := t.Plan.Blend
	if !t.CanNarrow() {
		return nil, errors.New("one cup is not enough here (name two, three or four; one is enough in a line, biaxial or rows of colourants)")
	}
	if view == Measured && !t.Cells[i].Poured() {
		return nil, emptyCup(i)
	}
	p := t.refinedPlan(mark, fmt.Sprint(aboutCup, i+1))
	p.Blend.Series = nil
	for n := range b.Series {
		if b.Kind == Rows && t.Cells[i].Doses[n].Percent == 0 {
			continue // of the rows, the cup's own becomes a line
		}
		percents, err := t.finerSteps(i, n, view)
		if err != nil {
			return nil, err
		}
		p.Blend.Series = append(p.Blend.Series, Series{Material: b.Series[n].Material, Percents: percents})
	}
	if b.Kind == Rows {
		p.Blend.Kind, p.Blend.SharedZero = Line, false
		if p.Blend.Series == nil {
			return nil, fmt.Errorf("cup %d is the base alone (name a cup with a colourant)", i+1)
		}
	}
	return p, nil
}

// finerSteps are the percentages of a series about that of a cell.
func (t *Test) finerSteps(i, series int, view View) ([]float64, error) {
	b := t.Plan.Blend
	material := b.Series[series].Material
	if d := t.Cells[i].Doses[series]; view == Measured && d.None() {
		return nil, fmt.Errorf("cup %d holds no %s: %s %% is too little for your instrument (choose another cup, or use the plan's steps with --asked)",
			i+1, material, quantity.PercentText(d.Percent))
	}
	parts := refinedParts
	if len(b.Series) > 1 && b.Kind != Rows {
		parts = refinedPartsEach
	}
	percents := t.about(i, series, view, parts)
	if len(percents) > 1 {
		return percents, nil
	}
	how := ""
	if view == Measured && len(t.about(i, series, Asked, parts)) > 1 {
		how = " as measured (use the plan's steps with --asked)"
	}
	return nil, fmt.Errorf("the series of %s has no other step near that of cup %d%s", material, i+1, how)
}

// CanNarrow reports whether one cell alone can be refined.
func (t *Test) CanNarrow() bool {
	return t.Plan.Blend.HasSeries() && t.Plan.Blend.Kind != Triaxial
}

// labelled is the percentage of a dose on a tile's label: what is asked, unless
// what was made strays from it.
func (d Dose) labelled(view View) float64 {
	if view == Asked || !d.AsMade {
		return d.Percent
	}
	return inFewDigits(d.GotPercent, d.GotPercent/200)
}

// inFewDigits is a percentage with as few decimals as leave it within so much of
// what it was, at most with those that a plan is read with.
func inFewDigits(x, within float64) float64 {
	unit := 1.0 // parts of a percent
	for ; unit < 1e6; unit *= 10 {
		if math.Abs(math.Round(x*unit)/unit-x) <= within {
			break
		}
	}
	return math.Round(x*unit) / unit
}

// roundStep is by how much a step may be rounded, as a part of it.
const roundStep = 0.02

// about is finer steps of a series from the next lower percentage to the next
// higher of the cells that are asked to differ from a cell in this series alone,
// each side of the cell's own in as many parts. The neighbours themselves are
// left out: they were fired. A cell that was made the same is no neighbour of
// what was made.
func (t *Test) about(i, series int, view View, parts int) []float64 {
	c := t.Cells[i]
	best := c.Doses[series].labelled(view)
	lower, higher := math.Inf(-1), math.Inf(1)
	for _, other := range t.Cells {
		alone := true
		for s, d := range other.Doses {
			alone = alone && (s == series || d.Percent == c.Doses[s].Percent)
		}
		if !alone || view == Measured && math.Abs(other.Doses[series].GotPercent-c.Doses[series].GotPercent) < noiseOff {
			continue
		}
		if x := other.Doses[series].labelled(view); x < best {
			lower = max(lower, x)
		} else if x > best {
			higher = min(higher, x)
		}
	}
	all := append(between(lower, best, parts), best) // as it is: it is what was chosen
	return append(all, between(best, higher, parts)...)
}

// between is the steps inside two percentages, rounded to few digits; none where
// there is no end.
func between(from, to float64, parts int) (all []float64) {
	part := (to - from) / float64(parts)
	for k := 1; k < parts && !math.IsInf(part, 0); k++ {
		x := inFewDigits(from+part*float64(k), part*roundStep)
		if x > from && x < to && !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}

// refinedGlaze is a cell's recipe as a glaze of its own, at the cell's specific
// gravity.
func (t *Test) refinedGlaze(i int, view View) (Glaze, error) {
	recipe, additions := t.Recipe(i, view)
	if err := t.noRecipe(i, recipe); err != nil {
		return Glaze{}, err
	}
	c := t.Cells[i]
	g := Glaze{Name: fmt.Sprintf("Cup %d", c.Number), Recipe: Written(recipe, view), Additions: readable(additions)}
	assumed := false
	for e, p := range c.Pours {
		assumed = assumed || p.ML > 0 && t.Ends[e].Assumed
	}
	if !assumed { // what was not measured is not made out to be
		g.SG, g.Solids = math.Round(c.contents(view).SG*1000)/1000, math.Round(t.cellSolids(i, view)*1000)/1000
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
		unit := min(0.01, math.Pow(10, math.Floor(math.Log10(p.Percent))-2))
		all = append(all, Part{p.Material, measure.Step{Size: unit}.Amount(int64(math.Round(p.Percent / unit)))})
	}
	return all
}
