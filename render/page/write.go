package page

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/signintech/gopdf"
)

// Write sets the footers and writes the document. A document is written once.
func (d *Doc) Write(w io.Writer) error {
	for i, p := range d.pages {
		p.footer(i+1, len(d.pages))
	}
	d.pdf.SetTextColor(0, 0, 0)
	for _, p := range d.pages {
		if err := d.emit(p); err != nil {
			return err
		}
	}
	var raw bytes.Buffer // gopdf ignores the errors of what it writes to
	if _, err := d.pdf.WriteTo(&raw); err != nil {
		return err
	}
	update, err := d.update(raw.Bytes())
	if err != nil {
		return err
	}
	raw.Write(update)
	_, err = w.Write(raw.Bytes())
	return err
}

// footer sets the page's own line on the left, and test and number on the right.
func (p *Page) footer(number, of int) {
	if p.Bare {
		return
	}
	r := p.FootRect
	if r.W == 0 {
		r = Rect{X: Margin, Y: p.H - Margin - FootH, W: p.W - 2*Margin, H: FootH}
	}
	r.Y, r.H = r.Bottom()-Regular(Least).LineH(), Regular(Least).LineH()
	text := fmt.Sprintf("page %d of %d", number, of)
	if p.doc.foot != "" {
		text = p.doc.foot + " · " + text
	}
	if p.doc.note != "" {
		text = p.doc.note + " · " + text
	}
	w := min(r.W, p.doc.Width(text, Regular(Least)))
	p.Text(Rect{X: r.Right() - w, Y: r.Y, W: w, H: r.H}, Regular(Least).To(Right), text)
	if room := r.W - w - 4; p.Foot != "" && room > 20 {
		p.Text(Rect{X: r.X, Y: r.Y, W: room, H: r.H}, Regular(Least), p.Foot)
	}
}

// emit draws a page by gopdf.
func (d *Doc) emit(p *Page) error {
	g := d.pdf
	g.AddPageWithOption(gopdf.PageOption{PageSize: &gopdf.Rect{W: p.W, H: p.H}})
	g.SetStrokeColor(0, 0, 0)
	g.SetFillColor(0, 0, 0)
	place := func(q Point) (float64, float64) {
		return p.W/2 + (q.X-p.W/2)*p.scale, p.H/2 + (q.Y-p.H/2)*p.scale
	}
	width, dashed := 0.0, false
	stroke := func(pen Pen) {
		if pen.MM != width {
			width = pen.MM
			g.SetLineWidth(width * p.scale)
		}
		if pen.Dash != nil {
			dash := make([]float64, len(pen.Dash))
			for i, mm := range pen.Dash {
				dash[i] = mm * p.scale
			}
			g.SetCustomLineType(dash, 0)
			dashed = true
		} else if dashed {
			g.SetLineType("solid")
			dashed = false
		}
	}
	grey := 0.0
	var at []gopdf.Point
	for _, i := range p.items {
		at = at[:0]
		for _, q := range i.at {
			if math.IsNaN(q.X+q.Y) || math.IsInf(q.X+q.Y, 0) {
				return fmt.Errorf("page %d: a place on it is not a number", p.Number())
			}
			x, y := place(q)
			at = append(at, gopdf.Point{X: x, Y: y})
		}
		switch i.kind {
		case lineItem:
			stroke(i.pen)
			g.Line(at[0].X, at[0].Y, at[1].X, at[1].Y)
		case boxItem:
			stroke(i.pen)
			g.RectFromUpperLeftWithStyle(at[0].X, at[0].Y, at[1].X-at[0].X, at[1].Y-at[0].Y, "D")
		case polyItem:
			stroke(i.pen)
			g.Polygon(slices.Clone(at), "D")
		case circleItem:
			stroke(i.pen)
			r := i.radius * p.scale
			g.Oval(at[0].X-r, at[0].Y-r, at[0].X+r, at[0].Y+r)
		case fillItem:
			if i.grey != grey {
				grey = i.grey
				level := uint8(math.Round(255 * grey))
				g.SetFillColor(level, level, level)
			}
			g.Polygon(slices.Clone(at), "F")
		case textItem:
			if err := d.emitText(i, at[0], p.scale); err != nil {
				return err
			}
		}
	}
	return nil
}

// emitText draws a text in runs of one font each.
func (d *Doc) emitText(i item, at gopdf.Point, scale float64) error {
	g, b := d.pdf, 0
	if i.style.Bold {
		b = 1
	}
	if i.style.Grey > 0 {
		level := uint8(math.Round(255 * i.style.Grey))
		g.SetTextColor(level, level, level)
		defer g.SetTextColor(0, 0, 0)
	}
	if i.turn != 0 {
		g.Rotate(i.turn, at.X, at.Y)
		defer g.RotateReset()
	}
	x := at.X
	runes := []rune(i.text)
	for from := 0; from < len(runes); {
		family := d.glyph(runes[from], i.style.Bold).family
		to, w := from, 0.0
		for ; to < len(runes); to++ {
			next := d.glyph(runes[to], i.style.Bold)
			if next.family != family {
				break
			}
			w += next.advance
		}
		if err := g.SetFont(families[b][max(family, 0)].name, "", i.style.Pt*scale); err != nil {
			return err
		}
		g.SetXY(x, at.Y)
		if err := g.Text(string(runes[from:to])); err != nil {
			return err
		}
		x += w * i.style.Pt * scale
		from = to
	}
	return nil
}
