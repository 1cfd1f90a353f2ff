package pourbook

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"pourboard/render/xlsx"
)

// grid is a sheet with a table that has a row for each cup. The tables of all
// sheets begin in the same row, so that a cup has one row number everywhere.
type grid struct {
	*xlsx.Sheet
	columns  []column
	troubles []trouble
}

// column is one column of a grid. Formulas name other columns by their keys:
// {used1} is the cell of the same cup, {used1:used3} those from one column to
// another, {used1[]} the whole column.
type column struct {
	key     string
	head    string
	width   float64 // in digits; 0 for that of a number
	look    xlsx.Look
	format  xlsx.Format
	formula string // "" writes the value alone
	value   func(cup int) float64
	text    func(cup int) string // in place of value, for a text
	field   bool                 // a blank to fill in; value, where there is one, is what is there already
	dash    func(cup int) bool   // where nothing is planned, 0 shows as a dash; elsewhere as "none"
}

// trouble is what can be wrong with a table: a formula for whether it is, and
// one for what is behind the title then.
type trouble struct{ is, says string }

var incomplete = trouble{"Cup_used=0", xlsx.Quoted("amounts stay 0 until Inputs is complete")}

// Rows of a sheet with a table: a title, a remark, the heads, the cups.
const (
	headRow  = 3
	firstRow = 4
)

// numberWidth is the width of a column that holds a number, in digits;
// measuredHeight the height in points of a row with an amount to measure.
const (
	numberWidth    = 9
	measuredHeight = 20
)

// place is where the column of a key stands.
type place struct {
	grid  *grid
	index int
}

// add adds a column to a grid.
func (b *pourBook) add(g *grid, c column) {
	if c.key != "" {
		b.places[c.key] = place{g, len(g.columns)}
	}
	if c.width == 0 {
		c.width = numberWidth
	}
	c.width = max(c.width, xlsx.HeadWidth(c.head))
	g.columns = append(g.columns, c)
}

var keys = regexp.MustCompile(`\{(\w+)(:\w+|\[\])?\}`)

// resolve puts addresses in the place of keys, "#" for the row of the cup, as
// they are written in a sheet; nil is none of those with a table.
func (b *pourBook) resolve(formula string, in *grid) string {
	return keys.ReplaceAllStringFunc(formula, func(key string) string {
		m := keys.FindStringSubmatch(key)
		at, ok := b.places[m[1]]
		if !ok {
			b.Fail(fmt.Errorf("no column %s", key))
			return "0"
		}
		ref, column := "", xlsx.Letters(at.index)
		if at.grid != in {
			ref = at.grid.Ref()
		}
		switch {
		case m[2] == "":
			return ref + "$" + column + "#"
		case m[2] == "[]":
			return fmt.Sprintf("%s$%s$%d:$%s$%d", ref, column, firstRow, column, firstRow+len(b.t.Cells)-1)
		}
		return ref + "$" + column + "#:$" + xlsx.Letters(b.places[m[2][1:]].index) + "#"
	})
}

// inRow puts the number of a row in the place of "#".
func inRow(formula string, row int) string {
	return strings.ReplaceAll(formula, "#", strconv.Itoa(row))
}

// titleOr is the formula for a title, with the first of the troubles that there
// is behind it.
func (b *pourBook) titleOr(title string, troubles []trouble) string {
	formula := xlsx.Quoted(title)
	for _, t := range slices.Backward(troubles) {
		formula = "IF(" + b.resolve(t.is, nil) + "," + xlsx.Quoted(title+": ") + "&" + t.says + "," + formula + ")"
	}
	return formula
}

// printWidth is the width in digits of what is printed.
func (g *grid) printWidth() (digits float64) {
	for i, c := range g.columns {
		if n := g.Page.Columns; n == 0 || i < n {
			digits += c.width
		}
	}
	return digits
}

// write writes title, remark, heads and a row for each cup.
func (b *pourBook) write(g *grid, title, remark string) {
	g.TitleFormula(b.titleOr(title, g.troubles), title)
	printed := len(g.columns)
	if n := g.Page.Columns; n > 0 {
		printed = n
	}
	width := g.printWidth()
	g.Remark(remark, printed, width)
	var names []string
	for _, c := range g.columns {
		names = append(names, c.head)
	}
	g.Heads(names, func(i int) float64 { return g.columns[i].width }, 4, 1)
	begin := g.Row
	if slices.ContainsFunc(g.columns, func(c column) bool { return c.look == xlsx.Measured }) {
		begin = func() int { return g.TallRow(measuredHeight) }
	}
	formulas := make([][]string, len(g.columns)) // around the numbers of rows
	for i, c := range g.columns {
		formulas[i] = strings.Split(b.resolve(c.formula, g), "#")
	}
	for cup := range b.t.Cells {
		row := begin()
		for i, c := range g.columns {
			c.write(g.Sheet, cup, strings.Join(formulas[i], strconv.Itoa(row)))
		}
	}
	g.FitPages(width)
}

// write writes the cell of a cup, with a formula or none.
func (c *column) write(s *xlsx.Sheet, cup int, formula string) {
	format, value := c.format, 0.0
	if c.value != nil {
		value = c.value(cup)
	}
	if c.dash != nil && c.dash(cup) {
		format, value = orDash(format), 0
	} else if c.dash != nil {
		format = xlsx.WithNought(format, "none")
	}
	switch {
	case c.field && value == 0:
		s.Blank(xlsx.Field, format)
	case c.text != nil && formula == "":
		s.FormattedText(c.look, xlsx.AsText, c.text(cup))
	case c.text != nil:
		s.TextFormula(c.look, formula, c.text(cup))
	case formula == "":
		s.Number(c.look, format, value)
	default:
		s.Formula(c.look, format, formula, value)
	}
}

// labelled is a row with a label, a value that is worked out, and its unit.
type labelled struct {
	name    string // of the cell of the value, may be empty
	label   string
	unit    string
	look    xlsx.Look
	format  xlsx.Format
	formula string
	value   float64
}

// writeLabelled writes such a row of a height in points, and returns the address of
// the value in its sheet.
func (b *pourBook) writeLabelled(s *xlsx.Sheet, in *grid, height float64, r labelled) string {
	row := s.TallRow(height)
	s.Text(xlsx.Label, r.label)
	if r.name != "" {
		b.Define(r.name, s.At(1, row))
	}
	s.Formula(r.look, r.format, b.resolve(r.formula, in), r.value)
	if r.unit != "" {
		s.Text(xlsx.Unit, r.unit)
	}
	return fmt.Sprintf("$B$%d", row)
}
