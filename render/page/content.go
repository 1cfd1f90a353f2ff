package page

import (
	"math"
	"slices"
	"strconv"
)

// content is what a page shows, as the operators of a PDF (ISO 32000-1:2008,
// tables 59, 60, 74, 105 and 107), and the state that they have left. A
// coordinate has two decimals of a point: 0.002 mm.
type content struct {
	bytes []byte
	pen   Pen
	grey  float64 // of what is filled
	font  *face
	pt    float64
}

// x and y are a place on the page in points from its lower left corner.
func (p *Page) x(mm float64) float64 { return (p.W/2 + (mm-p.W/2)*p.scale) / MMPerPt }
func (p *Page) y(mm float64) float64 { return (p.H/2 - (mm-p.H/2)*p.scale) / MMPerPt }

// operator writes numbers and the operator that takes them.
func (c *content) operator(name string, numbers ...float64) {
	for _, n := range numbers {
		hundredths := int64(math.Round(100 * n))
		if hundredths < 0 {
			c.bytes = append(c.bytes, '-')
			hundredths = -hundredths
		}
		c.bytes = strconv.AppendInt(c.bytes, hundredths/100, 10)
		if rest := byte(hundredths % 100); rest > 0 {
			c.bytes = append(c.bytes, '.', '0'+rest/10, '0'+rest%10)
		}
		c.bytes = append(c.bytes, ' ')
	}
	c.bytes = append(append(c.bytes, name...), '\n')
}

// stroke sets the pen, if it is another than the one before.
func (p *Page) stroke(pen Pen) {
	c := &p.content
	if pen.MM != c.pen.MM {
		c.operator("w", pen.MM*p.scale/MMPerPt)
	}
	if !slices.Equal(pen.Dash, c.pen.Dash) {
		c.bytes = append(c.bytes, '[')
		for _, mm := range pen.Dash {
			c.operator("", mm*p.scale/MMPerPt)
		}
		c.bytes = append(c.bytes, "] 0 d\n"...)
	}
	c.pen = pen
}

// fill sets the grey that shapes and texts are filled with.
func (c *content) fill(grey float64) {
	if grey != c.grey {
		c.operator("g", grey)
		c.grey = grey
	}
}

// path goes through some points.
func (p *Page) path(at []Point) {
	operator := "m"
	for _, q := range at {
		p.content.operator(operator, p.x(q.X), p.y(q.Y))
		operator = "l"
	}
}

// show writes a text with its baseline from x, y, in runs of one font each;
// upwards, if it is turned.
func (p *Page) show(x, y float64, s Style, text string, turned bool) {
	c := &p.content
	c.fill(0)
	var run *face
	for _, r := range text {
		g := p.doc.glyph(r, s.Bold)
		g.used = true
		if g.face != run {
			if run != nil {
				c.bytes = append(c.bytes, "> Tj\nET\n"...)
			}
			run = g.face
			p.beginText(x, y, s.Pt*p.scale, run, turned)
		}
		c.bytes = append(c.bytes, g.code[:]...)
		if turned {
			y -= g.advance * s.Pt
		} else {
			x += g.advance * s.Pt
		}
	}
	if run != nil {
		c.bytes = append(c.bytes, "> Tj\nET\n"...)
	}
}

// beginText begins a run of glyphs of a font.
func (p *Page) beginText(x, y, pt float64, font *face, turned bool) {
	c := &p.content
	c.bytes = append(c.bytes, "BT\n"...)
	if font != c.font || pt != c.pt {
		c.bytes = append(append(append(c.bytes, '/'), font.name...), ' ')
		c.operator("Tf", pt)
		c.font, c.pt = font, pt
	}
	if turned {
		c.operator("Tm", 0, 1, -1, 0, p.x(x), p.y(y))
	} else {
		c.operator("Td", p.x(x), p.y(y))
	}
	c.bytes = append(c.bytes, '<')
}
