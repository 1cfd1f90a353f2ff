package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/signintech/gopdf"
)

// write draws the footers and writes the packet as a PDF file. Nothing is
// written if anything is wrong. A doc can be written once.
func (d *doc) write(w io.Writer) error {
	d.footers()
	if err := d.sound(); err != nil {
		return err
	}
	raw, pageObjects, err := d.emit()
	if err != nil {
		return err
	}
	finished, err := d.finish(raw, pageObjects)
	if err != nil {
		return err
	}
	_, err = w.Write(finished)
	return err
}

// sound refuses what gopdf would write as it is, and a viewer then choke on.
func (d *doc) sound() error {
	if len(d.pages) == 0 {
		return fmt.Errorf("the packet has no pages")
	}
	finite := func(values ...float64) bool {
		return !slices.ContainsFunc(values, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
	}
	for i, p := range d.pages {
		fine := finite(p.wMM, p.hMM, p.scale) && p.wMM > 0 && p.hMM > 0 && p.scale > 0
		for _, o := range p.ops {
			fine = fine && finite(o.pen.mm, o.pen.grey, o.radiusMM, o.font.pt, o.degrees, o.widthMM) && finite(o.pen.dash...)
			for _, at := range o.at {
				fine = fine && finite(at.x, at.y)
			}
		}
		if !fine {
			return fmt.Errorf("page %d (%s): a size or a place on it is not a finite number; nothing was written", i+1, p.section)
		}
	}
	return nil
}

// leastPenMM is the thinnest line: gopdf writes two decimals of a point, and a
// width of 0.00 means the thinnest that a printer can do, which may be none.
const leastPenMM = 0.05

// An emitter hands the ops of a doc to gopdf, in points.
type emitter struct {
	pdf  *gopdf.GoPdf
	page *page
	// What the page's content says so far of its lines. gopdf does not repeat
	// it on a new page, so each page starts from nothing.
	pen     pen
	penSet  bool
	textIn  font
	fontSet bool
}

// emit returns the file as gopdf writes it, and the number of each page's object.
func (d *doc) emit() ([]byte, []int, error) {
	pdf := &gopdf.GoPdf{}
	first := d.pages[0]
	pdf.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: first.wMM / mmPerPt, H: first.hMM / mmPerPt}})
	pdf.SetNoCompression() // finish does it: gopdf would take a new compressor, of 1 MB, for each page
	if err := d.embedFonts(pdf); err != nil {
		return nil, nil, err
	}

	e := emitter{pdf: pdf}
	objects := make([]int, len(d.pages))
	for i, p := range d.pages {
		objects[i] = pdf.GetNextObjectID()
		pdf.AddPageWithOption(gopdf.PageOption{PageSize: &gopdf.Rect{W: p.wMM / mmPerPt, H: p.hMM / mmPerPt}})
		e.page, e.penSet = p, false
		pdf.SetGrayFill(0) // a page with no content at all would have no stream
		for _, o := range p.ops {
			if err := e.draw(o); err != nil {
				return nil, nil, fmt.Errorf("page %d (%s): %w", i+1, p.section, err)
			}
		}
	}
	var raw bytes.Buffer
	if _, err := pdf.WriteTo(&raw); err != nil {
		return nil, nil, err
	}
	return raw.Bytes(), objects, nil
}

// The names under which gopdf keeps the faces. The six letters say that a
// font is a subset (ISO 32000-1, 9.6.4).
const (
	regularFamily = "PBREGU+DejaVuSans"
	boldFamily    = "PBBOLD+DejaVuSans-Bold"
)

// embedFonts gives gopdf the faces, cut down to the characters in use.
func (d *doc) embedFonts(pdf *gopdf.GoPdf) error {
	used := map[bool]map[rune]bool{false: {}, true: {}}
	for _, p := range d.pages {
		for _, o := range p.ops {
			for _, r := range o.text {
				used[o.font.bold][r] = true
			}
		}
	}
	for _, isBold := range []bool{false, true} {
		var runes []rune
		for r := range used[isBold] {
			runes = append(runes, r)
		}
		if len(runes) == 0 {
			continue
		}
		f := font{bold: isBold}
		if err := pdf.AddTTFFontData(family(f), d.faces.of(f).subset(runes)); err != nil {
			return err
		}
	}
	return nil
}

func family(f font) string {
	if f.bold {
		return boldFamily
	}
	return regularFamily
}

// pt is a length in points, scaled as the page is.
func (e *emitter) pt(mm float64) float64 { return mm * e.page.scale / mmPerPt }

// place is a point of the page in gopdf's points.
func (e *emitter) place(at point) (x, y float64) {
	p := e.page
	x = p.wMM/2 + (at.x-p.wMM/2)*p.scale
	y = p.hMM/2 + (at.y-p.hMM/2)*p.scale
	return x / mmPerPt, y / mmPerPt
}

func (e *emitter) places(at []point) []gopdf.Point {
	points := make([]gopdf.Point, len(at))
	for i := range at {
		points[i].X, points[i].Y = e.place(at[i])
	}
	return points
}

func (e *emitter) draw(o op) error {
	switch o.kind {
	case opText:
		return e.text(o)
	case opFill:
		// Text changes the colour of fills too, so it is set each time.
		e.pdf.SetGrayFill(o.pen.grey)
		e.pdf.Polygon(e.places(o.at), "F")
		return nil
	}
	e.usePen(o.pen)
	x, y := e.place(o.at[0])
	switch o.kind {
	case opLine:
		x2, y2 := e.place(o.at[1])
		e.pdf.Line(x, y, x2, y2)
	case opRect:
		x2, y2 := e.place(o.at[1])
		e.pdf.RectFromUpperLeftWithStyle(min(x, x2), min(y, y2), math.Abs(x2-x), math.Abs(y2-y), "D")
	case opPolygon:
		e.pdf.Polygon(e.places(o.at), "D")
	case opCircle:
		r := e.pt(o.radiusMM)
		e.pdf.Oval(x-r, y-r, x+r, y+r)
	}
	return nil
}

// usePen sets what differs from the pen in use.
func (e *emitter) usePen(p pen) {
	p.mm = max(p.mm, leastPenMM)
	if !e.penSet || p.mm != e.pen.mm {
		e.pdf.SetLineWidth(e.pt(p.mm))
	}
	if !e.penSet || p.grey != e.pen.grey {
		e.pdf.SetGrayStroke(p.grey)
	}
	if !e.penSet || !slices.Equal(p.dash, e.pen.dash) {
		dash := make([]float64, len(p.dash))
		for i := range dash {
			dash[i] = e.pt(p.dash[i])
		}
		e.pdf.SetCustomLineType(dash, 0)
	}
	e.pen, e.penSet = p, true
}

func (e *emitter) text(o op) error {
	size := font{o.font.bold, o.font.pt * e.page.scale}
	if !e.fontSet || e.textIn != size {
		if err := e.pdf.SetFont(family(size), "", size.pt); err != nil {
			return err
		}
		e.textIn, e.fontSet = size, true
	}
	// SetGrayFill makes gopdf forget the colour of text, so it is set each time.
	level := uint8(math.Round(o.pen.grey * 255))
	e.pdf.SetTextColor(level, level, level)
	x, y := e.place(o.at[0])
	if o.degrees != 0 {
		e.pdf.Rotate(o.degrees, x, y)
		defer e.pdf.RotateReset()
	}
	e.pdf.SetXY(x, y)
	return e.pdf.Text(o.text)
}
