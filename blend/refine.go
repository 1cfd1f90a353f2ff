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

// Steps of a refined design: few enough to mix in an afternoon.
const (
	refinedCells     = 7 // line
	refinedDivisions = 4 // triaxial: 15 cells
	refinedLayers    = 3 // quadraxial: 20 cells
	refinedSide      = 4 // biaxial: 16 cells
	refinedParts     = 4 // line of a series: quarters of each step beside a cell, 7 cells
	refinedPartsEach = 2 // biaxial of two series: halves, 9 cells
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
	for n, i := range cells {
		if err := t.there(i); err != nil {
			return nil, err
		}
		if slices.Contains(cells[:n], i) {
			return nil, fmt.Errorf("cup %d is named twice", i+1)
		}
	}
	if len(cells) == 1 {
		return t.narrowed(cells[0], view, mark)
	}
	kinds := map[int]Kind{2: Line, 3: Triaxial, 4: four}
	kind, ok := kinds[len(cells)]
	if !ok {
		return nil, errors.New("name two, three or four cups, or one cup of a series")
	}
	names := make([]string, len(cells))
	for n, i := range cells {
		names[n] = fmt.Sprint(i + 1)
	}
	p := t.refinedPlan(mark, betweenCups+quantity.Listed(names, "and"))
	if series := t.onlySeries(cells); series >= 0 {
		p.Cup.Size = t.askedSize()
		return p, t.refineSeries(p, cells, series, view)
	}
	p.Cup.BatchG = 0 // no base goes into every cup
	p.Board.BodiesAsRows = p.Board.BodiesAsRows && kind == Line
	p.Blend = Blend{Kind: kind, Basis: cmp.Or(t.Plan.Blend.Basis, Dry)}
	for n := range cells {
		p.Blend.Ends = append(p.Blend.Ends, n)
	}
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
	if !t.Plan.Blend.HasSeries() && slices.ContainsFunc(cells, func(i int) bool { return t.WithoutRecipe(i) != nil }) {
		return p, t.refineShares(p, cells, view)
	}
	var err error
	p.Glazes, err = t.refinedGlazes(cells, view)
	return p, err
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
	rounded := 0.0
	for n, i := range cells {
		d := t.Cells[i].Doses[series]
		if view == Measured && d.AsMade {
			rounded = roundStep
		}
		if n > 0 {
			low := t.Cells[cells[n-1]].Doses[series].labelled(view)
			if low == d.labelled(view) {
				return t.nothingBetween(cells[n-1], i, view)
			}
			percents = append(percents, between(low, d.labelled(view), refinedParts, rounded)...)
		}
		percents = append(percents, d.labelled(view))
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
	if len(cells) > 2 {
		if a, b, ok := design.Collinear(shares, onLine); ok {
			return t.onOneLineError(cells, a, b)
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
	return &p
}

// askedSize is the size of cup that the plan asks for, nothing where it follows
// from a batch.
func (t *Test) askedSize() Amount {
	if t.Plan.Cup.BatchG > 0 {
		return Amount{Of: Dry}
	}
	return t.Plan.Cup.Size
}

// refinedGlazes are the recipes of cells as glazes of their own. It is an error
// when two are one, or when they lie on one line.
func (t *Test) refinedGlazes(cells []int, view View) ([]Glaze, error) {
	var glazes []Glaze
	for _, i := range cells {
		g, err := t.refinedGlaze(i, view)
		if err != nil {
			return nil, err
		}
		for n, other := range glazes {
			if sameParts(g.Recipe, other.Recipe) && sameParts(g.Additions, other.Additions) {
				return nil, t.nothingBetween(cells[n], i, view)
			}
		}
		glazes = append(glazes, g)
	}
	if len(cells) > 2 {
		if a, b, ok := t.onOneLine(cells, glazes); ok {
			return nil, t.onOneLineError(cells, a, b)
		}
	}
	return glazes, nil
}

// there is an error when t has no cell of that index.
func (t *Test) there(i int) error {
	if i < 0 || i >= len(t.Cells) {
		return fmt.Errorf("cup %d does not exist (cups are 1 to %d)", i+1, len(t.Cells))
	}
	return nil
}

// What a refined test's title has after that of the first.
const (
	betweenCups = ": between cups "
	aboutCup    = ": about cup "
)

// narrowed is the same base with finer steps of its series about a cell. Of what
// was made noticeably other than asked, the steps lie about what was made.
func (t *Test) narrowed(i int, view View, mark string) (*Plan, error) {
	b := t.Plan.Blend
	if !t.CanNarrow() {
		return nil, errors.New("one cup is not enough here (name two, three or four; one is enough in a line, biaxial or rows of colourants)")
	}
	if view == Measured && !t.Cells[i].Poured() {
		return nil, nothingIn(i)
	}
	p := t.refinedPlan(mark, fmt.Sprint(aboutCup, i+1))
	p.Cup.Size = t.askedSize()
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
	best, others := t.beside(i, series, Asked)
	percents := about(best, others, parts, 0)
	how := ""
	if madeBest, made := t.beside(i, series, view); madeBest != best || !slices.Equal(made, others) {
		if len(percents) > 1 {
			how = " as measured (use the plan's steps with --asked)"
		}
		percents = about(madeBest, made, parts, roundStep)
	}
	if len(percents) < 2 {
		return nil, fmt.Errorf("the series of %s has no other step near that of cup %d%s", material, i+1, how)
	}
	return percents, nil
}

// CanNarrow reports whether one cell alone can be refined.
func (t *Test) CanNarrow() bool {
	return t.Plan.Blend.HasSeries() && t.Plan.Blend.Kind != Triaxial
}

// beside is the percentage of a series in a cell, and those in the cells that
// are asked to differ from it in this series alone. One that was made the same
// is no neighbour of what was made.
func (t *Test) beside(i, series int, view View) (best float64, others []float64) {
	c := t.Cells[i]
	for _, other := range t.Cells {
		differs := other.Doses[series].Percent != c.Doses[series].Percent
		for s, d := range other.Doses {
			differs = differs && (s == series || d.Percent == c.Doses[s].Percent)
		}
		if view == Measured && math.Abs(other.Doses[series].GotPercent-c.Doses[series].GotPercent) < 1e-9 {
			continue
		}
		if differs {
			others = append(others, other.Doses[series].labelled(view))
		}
	}
	return c.Doses[series].labelled(view), others
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

// roundStep is by how much steps about what was made may be rounded, as a part
// of a step: such percentages have no end of digits.
const roundStep = 0.02

// about is finer steps from the next lower of percents to the next higher, each
// side of best in as many parts, rounded by no more than so much of a step. The
// neighbours themselves are left out: they were fired.
func about(best float64, percents []float64, parts int, rounded float64) []float64 {
	lower, higher := best, best
	for _, x := range percents {
		if x < best && (lower == best || x > lower) {
			lower = x
		}
		if x > best && (higher == best || x < higher) {
			higher = x
		}
	}
	all := append(between(lower, best, parts, rounded), best) // as it is: it is what was chosen
	return append(all, between(best, higher, parts, rounded)...)
}

// between is the steps inside two percentages, rounded by no more than so much
// of a step.
func between(from, to float64, parts int, rounded float64) (all []float64) {
	part := (to - from) / float64(parts)
	for k := 1; k < parts; k++ {
		x := inFewDigits(from+part*float64(k), part*rounded)
		if x > from && x < to && !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}

// nothingBetween is the error that two cells, by their indexes, are one mixture.
func (t *Test) nothingBetween(a, b int, view View) error {
	how := "are identical as measured (name one of them, or use the plan's recipes with --asked)"
	x, overX := t.Recipe(a, Asked)
	y, overY := t.Recipe(b, Asked)
	if view == Asked || sameParts(readable(x), readable(y)) && sameParts(readable(overX), readable(overY)) {
		how = "have the same recipe (name one of them)"
	}
	return fmt.Errorf("cups %d and %d %s", a+1, b+1, how)
}

// nothingIn says that a cell, by its index, is empty.
func nothingIn(i int) error { return fmt.Errorf("cup %d is empty: nothing was measured into it", i+1) }

// refinedGlaze is a cell's recipe as a glaze of its own, at the cell's specific
// gravity.
func (t *Test) refinedGlaze(i int, view View) (Glaze, error) {
	recipe, additions := t.Recipe(i, view)
	if without := t.WithoutRecipe(i); without != nil {
		return Glaze{}, t.noRecipe(i, without[0])
	}
	if recipe == nil {
		return Glaze{}, nothingIn(i)
	}
	c := t.Cells[i]
	sg := c.SG
	if view == Measured {
		sg = c.Got.SG
	}
	g := Glaze{Name: fmt.Sprintf("Cup %d", c.Number), Recipe: Written(recipe, view), Additions: readable(additions)}
	assumed := false
	for e, p := range c.Pours {
		assumed = assumed || p.ML > 0 && t.Ends[e].Assumed
	}
	if !assumed { // what was not measured is not made out to be
		g.SG, g.Solids = math.Round(sg*1000)/1000, math.Round(t.cellSolids(i, view)*1000)/1000
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
