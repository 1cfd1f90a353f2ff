package blend

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend/design"
	"pourboard/blend/quantity"
)

// Size of a refined design: few enough cups to mix in an afternoon.
var refined = map[Kind]Blend{
	Line:       {Cells: 7},
	Triaxial:   {Divisions: 4},        // 15 cells
	Quadraxial: {Divisions: 3},        // 20 cells
	Biaxial:    {Columns: 4, Rows: 4}, // 16 cells
}

// How many parts each step of a series beside a cell is split into.
const (
	refinedParts   = 4 // line: 7 cells
	refinedBiaxial = 2 // 9 cells
)

// What follows the first test's title in that of a refined one.
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
		return narrow(t, cells[0], view, mark)
	}
	if len(cells) < 2 || len(cells) > 4 {
		return nil, errors.New("name two, three or four cups, or one cup of a series")
	}
	names, err := differentCups(t, cells, view)
	if err != nil {
		return nil, err
	}
	p := refinedPlan(t, mark, betweenCups+quantity.Listed(names, "and"))
	if series := onlySeries(t, cells); series >= 0 {
		var percents []float64
		for _, i := range cells {
			percents = append(percents, t.Cells[i].Doses[series].labelled(view))
		}
		line := Series{Material: t.Plan.Blend.Series[series].Material, Percents: finerSteps(percents, refinedParts)}
		p.Blend.Kind, p.Blend.SharedZero, p.Blend.Series = Line, false, []Series{line}
		return p, nil
	}
	if err := onOneLine(t, cells, names); err != nil {
		return nil, err
	}
	p.Cup.Size, p.Cup.BatchG = t.Plan.Cup.Size, 0 // no base goes into every cup
	p.Board.BodiesAsRows = p.Board.BodiesAsRows && len(cells) == 2
	kind := []Kind{Line, Triaxial, four}[len(cells)-2]
	p.Blend = refined[kind]
	p.Blend.Kind, p.Blend.Ends, p.Blend.Basis = kind, []int{0, 1, 2, 3}[:len(cells)], cmp.Or(t.Plan.Blend.Basis, Dry)
	if !t.Plan.Blend.HasSeries() && slices.ContainsFunc(cells, func(i int) bool { return t.WithoutRecipe(i) != nil }) {
		return p, refineShares(t, p, cells, view)
	}
	p.Glazes = nil
	for _, i := range cells {
		g, err := refinedGlaze(t, i, view)
		if err != nil {
			return nil, err
		}
		p.Glazes = append(p.Glazes, g)
	}
	return p, nil
}

// differentCups are the numbers of cells. It is an error when two are one mixture.
func differentCups(t *Test, cells []int, view View) (names []string, err error) {
	for n, i := range cells {
		for _, j := range cells[:n] {
			switch {
			case i == j:
				return nil, fmt.Errorf("cup %d is named twice", i+1)
			case t.sign(t.Cells[i], view) != t.sign(t.Cells[j], view):
			case view == Measured:
				return nil, fmt.Errorf("cups %d and %d are identical as measured "+
					"(name one of them, or use the plan's recipes with --asked)", j+1, i+1)
			default:
				return nil, fmt.Errorf("cups %d and %d have the same recipe (name one of them)", j+1, i+1)
			}
		}
		names = append(names, fmt.Sprint(i+1))
	}
	return names, nil
}

// onOneLine is an error where three cells or more are asked to lie on one line: the line
// between the outer two has all that lies between them.
func onOneLine(t *Test, cells []int, names []string) error {
	points := make([][]float64, len(cells))
	for n, i := range cells {
		points[n] = slices.Clone(t.Cells[i].Shares)
		for _, d := range t.Cells[i].Doses {
			points[n] = append(points[n], d.Percent)
		}
	}
	a, b, ok := design.Collinear(points)
	if !ok || len(cells) < 3 {
		return nil
	}
	return fmt.Errorf("the recipes of cups %s lie on one line (name its ends, cups %s and %s)",
		quantity.Listed(names, "and"), names[a], names[b])
}

// onlySeries is the one series whose dose differs between cells, -1 where
// another is dosed into one of them.
func onlySeries(t *Test, cells []int) int {
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

// refineShares makes p, a blend of the cells, one of the glazes in them: a list
// of the shares that it has of each.
func refineShares(t *Test, p *Plan, cells []int, view View) error {
	points, err := p.Blend.Points()
	if err != nil {
		return err
	}
	p.Board.BodiesAsRows = false
	p.Blend = Blend{Kind: List, Basis: p.Blend.Basis, Parts: make([][]float64, len(points))}
	for e, glaze := range t.Plan.Blend.Ends {
		if !slices.ContainsFunc(cells, func(i int) bool { return t.Cells[i].Pours[e].ML > 0 }) {
			continue
		}
		p.Blend.Ends = append(p.Blend.Ends, glaze)
		for k, point := range points {
			part := 0.0
			for n, i := range cells {
				pour := t.Cells[i].Pours[e]
				if view == Measured && t.Cells[i].AsMade {
					pour.Percent = pour.GotPercent
				}
				part += point.Shares[n] * pour.Percent / 100
			}
			p.Blend.Parts[k] = append(p.Blend.Parts[k], part)
		}
	}
	for k, parts := range p.Blend.Parts {
		p.Blend.Parts[k] = Hundred(parts)
	}
	if n := len(p.Blend.Ends); n > 4 {
		return fmt.Errorf("these cups hold %d glazes, not all with a recipe; a list blends 4 "+
			"(choose cups of fewer glazes, or write the recipes into the plan)", n)
	}
	return nil
}

// refinedPlan is a copy of the plan for a next test, without what it says of
// single cups and of batches that were there. Tests of several generations have
// the title of the first; cups says from which it goes on.
func refinedPlan(t *Test, mark, cups string) *Plan {
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

// narrow is the same base with finer steps of its series about a cell. Of what
// was made noticeably other than asked, the steps lie about what was made.
func narrow(t *Test, i int, view View, mark string) (*Plan, error) {
	c, kind, parts := t.Cells[i], t.Plan.Blend.Kind, refinedParts
	switch {
	case !t.CanNarrow():
		return nil, errors.New("one cup is not enough here " +
			"(name two, three or four; one is enough in a line, biaxial or rows of colourants)")
	case view == Measured && !c.Poured():
		return nil, emptyCup(i)
	case kind == Biaxial:
		parts = refinedBiaxial
	}
	p := refinedPlan(t, mark, fmt.Sprint(aboutCup, i+1))
	p.Blend.Series = nil
	for s, series := range t.Plan.Blend.Series {
		d := c.Doses[s]
		if kind == Rows && d.Percent == 0 {
			continue // of the rows, the cup's own becomes a line
		}
		if view == Measured && d.None() {
			return nil, fmt.Errorf("cup %d holds no %s: %s %% is too little for your instrument "+
				"(choose another cup, or use the plan's steps with --asked)", i+1, series.Material, quantity.PercentText(d.Percent))
		}
		percents := stepsAbout(t, c, s, view, parts)
		if len(percents) < 2 {
			return nil, fmt.Errorf("the series of %s has no other step near that of cup %d (name two cups)",
				series.Material, i+1)
		}
		p.Blend.Series = append(p.Blend.Series, Series{Material: series.Material, Percents: percents})
	}
	if kind == Rows {
		p.Blend.Kind, p.Blend.SharedZero = Line, false
	}
	if p.Blend.Series == nil {
		return nil, fmt.Errorf("cup %d is the base alone (name a cup with a colourant)", i+1)
	}
	return p, nil
}

// CanNarrow reports whether one cell alone can be refined.
func (t *Test) CanNarrow() bool {
	return t.Plan.Blend.HasSeries() && t.Plan.Blend.Kind != Triaxial
}

// labelled is the percentage of a dose on a tile's label: as asked, unless the dose
// as measured is noticeably off.
func (d Dose) labelled(view View) float64 {
	if view == Asked || !d.AsMade {
		return d.Percent
	}
	return inFewDigits(d.GotPercent, d.GotPercent/200)
}

// inFewDigits rounds a percentage to as few decimals as move it by at most within, or to
// the six that a plan is read with.
func inFewDigits(x, within float64) float64 {
	for unit := 1.0; ; unit *= 10 { // parts of a percent
		if short := math.Round(x*unit) / unit; unit == 1e6 || math.Abs(short-x) <= within {
			return short
		}
	}
}

// stepsAbout is finer steps of a series from the next lower percentage to the next
// higher of the cells that are asked to differ from a cell in this series alone.
// The neighbours themselves are left out: they were fired. A cell that was made
// the same is no neighbour of what was made.
func stepsAbout(t *Test, c Cell, series int, view View, parts int) []float64 {
	best := c.Doses[series].labelled(view)
	lower, higher := math.Inf(-1), math.Inf(1)
	for _, other := range t.Cells {
		alone := true
		for s, d := range other.Doses {
			alone = alone && (s == series || d.Percent == c.Doses[s].Percent)
		}
		alike := math.Abs(other.Doses[series].GotPercent-c.Doses[series].GotPercent) < noiseOff
		x := other.Doses[series].labelled(view)
		switch {
		case !alone || view == Measured && alike:
		case x < best:
			lower = max(lower, x)
		case x > best:
			higher = min(higher, x)
		}
	}
	fired := func(x float64) bool { return x <= lower || x >= higher }
	return slices.DeleteFunc(finerSteps([]float64{lower, best, higher}, parts), fired)
}

// finerSteps returns percentages in ascending order, each step between two of them split
// into so many parts and rounded to few digits. A step without an end is not split.
func finerSteps(percents []float64, parts int) (all []float64) {
	const rounded = 0.02 // of a step
	slices.Sort(percents)
	for n, to := range percents {
		if n > 0 {
			from := percents[n-1]
			part := (to - from) / float64(parts)
			for k := 1; k < parts && !math.IsInf(part, 0); k++ {
				x := inFewDigits(from+part*float64(k), part*rounded)
				if x > from && x < to && !slices.Contains(all, x) {
					all = append(all, x)
				}
			}
		}
		all = append(all, to)
	}
	return all
}

// refinedGlaze is a cell's recipe as a glaze of its own, at the cell's specific
// gravity.
func refinedGlaze(t *Test, i int, view View) (Glaze, error) {
	recipe, additions := t.Recipe(i, view)
	if err := noRecipe(t, i, recipe); err != nil {
		return Glaze{}, err
	}
	for k, a := range additions { // hundredths; a strong colourant needs its digits
		additions[k].Percent = inFewDigits(a.Percent, min(0.005, a.Percent/200))
	}
	c := t.Cells[i]
	g := Glaze{Name: fmt.Sprintf("Cup %d", c.Number), Recipe: Written(recipe, view), Additions: additions}
	assumed := false
	for e, p := range c.Pours {
		assumed = assumed || p.ML > 0 && t.Ends[e].Assumed
	}
	if !assumed { // what was not measured is not made out to be
		g.SG, g.Solids = math.Round(c.contents(view).SG*1000)/1000, math.Round(t.solids(c, view)*1000)/1000
	}
	if t.Plan.Mark != "" {
		g.Name += " of " + t.Plan.Mark
	}
	return g, nil
}
