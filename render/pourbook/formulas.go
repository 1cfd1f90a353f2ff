package pourbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/measure"
	"pourboard/render/xlsx"
)

// column is one column of a table that has a row for each cup. In a formula
// "#" stands for the number of the row.
type column struct {
	head     string
	width    float64 // in digits; 0 for that of a number
	look     xlsx.Look
	format   xlsx.Format
	formatOf func(cup int) xlsx.Format // where it goes by the value
	nought   string                    // what is shown for 0, "" for 0
	formula  string                    // "" writes the value alone
	value    func(cup int) float64
	none     func(cup int) bool // where nothing is planned: 0, shown as a dash
	noneNow  string             // formula there of a column that has none
}

// formatAt is the number format of a cup's cell.
func (c *column) formatAt(cup int) xlsx.Format {
	format := c.format
	if c.formatOf != nil {
		format = c.formatOf(cup)
	}
	switch {
	case c.none != nil && c.none(cup):
		return xlsx.WithNought(format, "–")
	case c.nought != "":
		return xlsx.WithNought(format, c.nought)
	}
	return format
}

// valueAt is what a cup's cell holds.
func (c *column) valueAt(cup int) float64 {
	if c.none != nil && c.none(cup) {
		return 0
	}
	return c.value(cup)
}

// numberWidth is the width of a column that holds a number.
const numberWidth = 11

// grid is a sheet with a table that has a row for each cup. Tables of all
// sheets begin in the same row, so that a cup has one row number everywhere.
type grid struct {
	sheet    *xlsx.Sheet
	columns  []column
	parts    []gridPart // over the heads, in place of a remark
	troubles []trouble
}

// gridPart is columns of a table that belong together, under a title. Where all
// are too many for a page that can be read, each part begins one.
type gridPart struct {
	title   string
	columns int
}

// trouble is what can be wrong with the table: a formula for whether it is, and
// one for what stands behind the title then.
type trouble struct{ is, says string }

// titleOr is the formula for a title, with the first of the troubles that there
// is behind it.
func titleOr(title string, troubles []trouble) string {
	formula := xlsx.Quoted(title)
	for _, t := range slices.Backward(troubles) {
		formula = "IF(" + t.is + "," + xlsx.Quoted(title+": ") + "&" + t.says + "," + formula + ")"
	}
	return formula
}

// rowsOf is the address of a column of a table, all its cups.
func rowsOf(sheet string, column, cups int) string {
	c := xlsx.Letters(column)
	return fmt.Sprintf("%[1]s$%[2]s$%[3]d:$%[2]s$%[4]d", sheet, c, firstRow, firstRow+cups-1)
}

// Rows of a sheet with a table: a title, a remark, the heads, the cups.
const (
	headRow  = 3
	firstRow = 4
)

// measuredHeight is the height in points of a row with an amount to measure:
// room to tick it off.
const measuredHeight = 21

// add adds a column and returns its index.
func (g *grid) add(c column) int {
	g.columns = append(g.columns, c)
	return len(g.columns) - 1
}

// write writes title, remark, heads and so many rows.
func (g *grid) write(title, remark string, rows int) {
	s := g.sheet
	if g.parts != nil {
		g.breakParts()
	}
	if g.troubles == nil {
		s.Title(title)
	} else {
		s.TitleFormula(titleOr(title, g.troubles), title)
	}
	first := headRow // of the rows that every page repeats
	if g.parts == nil {
		g.writeRemark(remark)
	} else {
		g.writeParts()
		first--
	}
	g.writeHeads()
	begin := s.Row
	if slices.ContainsFunc(g.columns, func(c column) bool { return c.look == xlsx.Measured }) {
		begin = func() int { return s.TallRow(measuredHeight) }
	}
	var buf []byte
	pieces := make([][]string, len(g.columns))
	shared := make([]int, len(g.columns)) // number of the column's formula
	for i, c := range g.columns {
		pieces[i] = strings.Split(c.formula, "#")
		shared[i] = -1
	}
	for cup := range rows {
		if cup == 2 { // room for all rows, by the second one, which shares its formulas already
			s.Grow(rows)
		}
		row := begin()
		for i := range g.columns {
			c := &g.columns[i]
			format, value := c.formatAt(cup), c.valueAt(cup)
			switch {
			case c.formula == "" && c.noneNow != "" && c.none(cup):
				s.Formula(c.look, format, strings.ReplaceAll(c.noneNow, "#", strconv.Itoa(row)), value)
				continue
			case c.formula == "":
				s.Number(c.look, format, value)
				continue
			case shared[i] >= 0:
				s.Share(c.look, format, shared[i], value)
				continue
			}
			buf = buf[:0]
			for k, piece := range pieces[i] {
				if k > 0 {
					buf = strconv.AppendInt(buf, int64(row), 10)
				}
				buf = append(buf, piece...)
			}
			// A formula that refers to other sheets is written out in every
			// row: not all programs take it for one that is shared.
			if strings.Contains(c.formula, "!") {
				s.Formula(c.look, format, string(buf), value)
			} else {
				shared[i] = s.Shared(c.look, format, string(buf), firstRow+rows-1, value)
			}
		}
	}
	s.Page.HeadRows = [2]int{first, headRow}
	s.Freeze(1, headRow)
}

// writeRemark writes the remark over the columns that are printed.
func (g *grid) writeRemark(text string) {
	printed := len(g.columns)
	if n := g.sheet.Page.Columns; n > 0 {
		printed = min(printed, n)
	}
	g.sheet.Remark(text, printed, widthOf(g.columns[:printed]))
}

// widthOf is how wide columns are together.
func widthOf(columns []column) float64 {
	sum := 0.0
	for i := range columns {
		sum += columns[i].wide()
	}
	return sum
}

// wide is how wide a column is.
func (c *column) wide() float64 {
	width := c.width
	if width == 0 {
		width = numberWidth
	}
	return max(width, xlsx.HeadWidth(c.head))
}

// writeParts writes the titles of the parts.
func (g *grid) writeParts() {
	s, height := g.sheet, 0.0
	at := 0
	for _, p := range g.parts {
		height = max(height, xlsx.LineHeight(p.title, widthOf(g.columns[at:at+p.columns])))
		at += p.columns
	}
	s.TallRow(height + 4)
	at = 0
	for _, p := range g.parts {
		s.Text(xlsx.Head, p.title)
		for range p.columns - 1 {
			s.Text(xlsx.Head, "")
		}
		if p.columns > 1 {
			s.Merge(at, at+p.columns-1)
		}
		at += p.columns
	}
}

// smallestPrint is the size in percent below which the figures of a table are
// too small to read on paper: 7 points.
const smallestPrint = 65

// breakParts begins a page with each part that is wider than a column, where
// all that is printed is too small to read on one.
func (g *grid) breakParts() {
	s, width := g.sheet, 0.0
	room, _ := s.Page.Room()
	percent := func(digits float64) int { return min(100, int(100*room/(digits*xlsx.WidestDigit))) }
	if percent(widthOf(g.columns[:s.Page.Columns])) >= smallestPrint {
		return
	}
	first, widest := g.columns[0].wide(), 0.0
	at := 0
	for _, p := range g.parts {
		if at >= s.Page.Columns {
			break
		}
		if p.columns > 1 {
			if at > 1 { // behind the first column, which every page repeats
				s.BreakBefore(at)
			}
			width = first
		}
		width += widthOf(g.columns[at : at+p.columns])
		widest = max(widest, width)
		at += p.columns
	}
	s.Page.HeadColumns, s.Page.Percent = 1, percent(widest)
}

// writeHeads writes the heads in a row that is high enough for them.
func (g *grid) writeHeads() {
	lines := 1
	for i := range g.columns {
		c := &g.columns[i]
		c.width = c.wide()
		g.sheet.Width(i, i, c.width)
		lines = max(lines, xlsx.LinesOf(c.head, c.width))
	}
	g.sheet.TallRow(float64(15*lines + 4))
	for _, c := range g.columns {
		g.sheet.Text(xlsx.Head, c.head)
	}
}

// across is the address of n cells beside each other in a row, "#" for that of
// the cup.
func across(sheet string, first, n int, row string) string {
	return sheet + "$" + xlsx.Letters(first) + "$" + row + ":$" + xlsx.Letters(first+n-1) + "$" + row
}

// cupSpan is across in the row of the cup.
func cupSpan(sheet string, first, n int) string {
	return sheet + "$" + xlsx.Letters(first) + "#:$" + xlsx.Letters(first+n-1) + "#"
}

// stepsOf is the formula for an amount in whole steps, halves away from nought:
// the rule of measure.Step.Count.
func stepsOf(x, step string) string { return "ROUND(ROUND(" + x + "/" + step + ",9),0)" }

// amountOf is the formula for a number of steps as an amount: the rule of
// measure.Step.Amount.
func amountOf(steps, step string) string { return "ROUND(" + steps + "*" + step + ",9)" }

// upToConvenient is the formula for an amount rounded up to a convenient
// figure, the rule of measure.Convenient; unit is the cell that holds what it
// is rounded up in steps of.
func upToConvenient(x, unit string) string {
	return "IF(" + x + ">0,ROUND(ROUNDUP(ROUND(" + x + "/" + unit + ",9),0)*" + unit + ",9),0)"
}

// convenientUnit is the formula for the steps of upToConvenient.
func convenientUnit(x string) string {
	return "IF(" + x + ">0,10^INT(ROUND(LOG10(" + x + "),9))/20,0)"
}

// measuredFormat shows an amount in steps of an instrument. A step that is
// made finer later shows its further digits; one that is whole shows as it is,
// for a format with none but optional digits leaves a bare point behind.
func measuredFormat(s measure.Step) xlsx.Format {
	if n := s.Decimals(); n > 0 {
		return xlsx.Decimals(n) + "###"
	}
	return xlsx.General
}

// hundredths shows two digits after the point, and nothing as a dash.
const hundredths xlsx.Format = `0.00;-0.00;"–"`

// gotFormat shows a percentage as it came out as blend.GotText prints it.
const gotFormat xlsx.Format = "[<0.9995]0.000;[<9.995]0.00;0.0"
