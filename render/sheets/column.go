package sheets

import (
	"slices"

	"pourboard/render/page"
)

// Widths of a field, mm.
const (
	fieldPad  = 2.5 // before the amount
	tickGap   = 1.3
	leastRoom = 7.5 // to write another amount in, behind the box
	nameLines = 2
)

// nameStyle is the name of a glaze over its column, the largest word there.
var nameStyle = page.Bold(page.Head)

// A fieldColumn is a field as a column of a grid: percentages or names if it has
// them, and its amounts with a box and room to write behind each.
type fieldColumn struct {
	field
	d       *drawer
	percent page.Column
	leadMM  float64 // of what is before the amounts
	wideMM  float64 // of the amounts
	starMM  float64
}

// column is a field with so much room, mm, behind each box.
func (d *drawer) column(f field, room float64) page.Column {
	k := fieldColumn{field: f, d: d, wideMM: d.doc.Widest(f.texts, amount)}
	if slices.Contains(f.stars, true) {
		k.starMM = d.doc.Width("*", amount)
	}
	switch {
	case f.percent != nil:
		k.percent = d.doc.Figures("%", f.percent, body, 2.5)
		k.leadMM = k.percent.W + 1
	case f.names != nil:
		k.leadMM = min(46, d.doc.Widest(f.names, strong)) + 1
	}
	w := k.leadMM + fieldPad + k.wideMM + k.starMM + tickGap + page.Tick + room
	for d.broken(f.name, w) {
		w++
	}
	return page.Column{W: w, Grow: 1, Head: k.head, Cell: k.cell}
}

// head draws the field's name, the largest word over its column, and its unit.
func (k fieldColumn) head(p *page.Page, r page.Rect) {
	name := k.name
	if k.letter != "" {
		name = k.letter + " " + name
	}
	named := page.Rect{X: r.X + fieldPad, Y: r.Y, W: r.W - fieldPad - 1, H: r.H - fine.LineH() - 0.3}
	if k.d.doc.Width(name, nameStyle) <= named.W { // names of one line are on one line
		named.Y, named.H = named.Bottom()-nameStyle.LineH(), nameStyle.LineH()
	}
	p.Fitted(named, nameStyle, name)
	unit := page.Rect{X: r.X + k.leadMM + fieldPad, Y: r.Bottom() - fine.LineH() - 0.2, W: k.wideMM + k.starMM, H: fine.LineH()}
	if more := k.d.doc.Width(k.unit, fine) - unit.W; more > 0 {
		unit.X, unit.W = unit.X-min(more, k.leadMM+fieldPad), unit.W+more
	}
	p.Text(unit, fine.To(page.Right), k.unit)
	if k.field.percent != nil {
		p.Text(page.Rect{X: r.X + 1, Y: unit.Y, W: k.percent.W - 2.5, H: unit.H}, fine.To(page.Right), "%")
	}
}

func (k fieldColumn) cell(p *page.Page, r page.Rect, row int) {
	switch {
	case k.field.percent != nil && k.field.percent[row] != "":
		k.percent.Cell(p, page.Rect{X: r.X + 1, Y: r.Y, W: k.percent.W, H: r.H}, row)
	case k.names != nil:
		p.Fitted(page.Rect{X: r.X + fieldPad, Y: r.Y, W: k.leadMM - 1, H: r.H}, strong, k.names[row])
	}
	at := page.Rect{X: r.X + k.leadMM + fieldPad, Y: r.Y, W: k.wideMM, H: r.H}
	text := k.texts[row]
	if text == dash || text == none {
		p.Text(at, body.To(page.Right), text)
		return
	}
	p.Text(at, amount.To(page.Right), text)
	if k.stars != nil && k.stars[row] {
		p.At(at.Right(), r.Y+r.H/2+amount.CapMM()/2, amount, "*")
	}
	p.Tick(page.Rect{X: at.Right() + k.starMM + tickGap, Y: r.Y, W: page.Tick, H: r.H})
}

// broken reports whether a name would be broken in a word, in its least size,
// or does not go into the lines that a head has.
func (d *drawer) broken(name string, w float64) bool {
	if w > 34 {
		return false
	}
	least := nameStyle.At(page.Small)
	return len(d.doc.Lines(name, least, w-fieldPad-1)) > nameLines
}
