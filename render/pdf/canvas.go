package pdf

import (
	"fmt"
	"math"

	"pourboard/layout"
)

// A doc is a packet being drawn: pages with what was drawn on them, kept as
// plain values until write hands them to gopdf. So a page may be drawn on at
// any time, the footers can tell how many pages there are, a life-size page can
// be scaled as a whole, and tests can ask what lies where.
//
// Lengths and places are in millimetres, from the top left corner of the page.
type doc struct {
	title   string // of the test, in every footer and in the file's properties
	subject string // of the file, for its properties
	note    string // added to every footer, for instance the correction of the scale
	faces   faces
	pages   []*page
	marks   []bookmark

	points []point // room for those of ops

	missing   distinct // texts with a character that the fonts lack
	backward  distinct // texts with letters that are written from right to left
	long      longTexts
	lifeScale float64 // of pages at life size, for a printer that shrinks or stretches
}

// newDoc starts an empty packet.
func newDoc(title, subject string) (*doc, error) {
	fs, err := newFaces()
	if err != nil {
		return nil, err
	}
	d := &doc{faces: fs, subject: subject, lifeScale: 1}
	d.title = d.clean(title)
	return d, nil
}

// A page is a sheet of paper and the list of what is drawn on it.
type page struct {
	doc      *doc
	section  string // named in the footer
	wMM, hMM float64
	scale    float64     // of everything drawn, about the page's middle
	bare     bool        // no footer
	foot     layout.Rect // where the footer goes, if not along the lower margin
	toYou    bool        // the footer says that its edge is the reader's
	ops      []op
}

// addPage adds a page of the given size to a section. A section is a run of
// pages that can be handed out alone; its pages are numbered together.
func (d *doc) addPage(section string, wMM, hMM float64) *page {
	room := 64 // for what is drawn: about as much as on the page before
	if n := len(d.pages); n > 0 {
		room = len(d.pages[n-1].ops) + 16
	}
	p := &page{doc: d, section: d.clean(section), wMM: wMM, hMM: hMM, scale: 1, ops: make([]op, 0, room)}
	d.pages = append(d.pages, p)
	return p
}

// The 100 mm bar may be off by so much for the packet to be corrected; a
// printer that is further off was told to fit the page to the paper.
const mostOffMM = 5.0

// correctScale makes the pages at life size that are added after it come out
// right on a printer that printed the 100 mm bar measuredMM long, and says so
// in the footers.
func (d *doc) correctScale(measuredMM float64) error {
	if !(math.Abs(measuredMM-100) <= mostOffMM) {
		return fmt.Errorf("the 100 mm bar measured %g mm: at most %g mm more or less can be corrected; print with scaling off (100 %%), then measure again", measuredMM, mostOffMM)
	}
	d.lifeScale = 100 / measuredMM
	d.note = fmt.Sprintf("corrected: bar measured %g mm", measuredMM)
	return nil
}

// addLifePage adds a page that must measure right on paper. Places on it are
// those on the paper: all of it is scaled about its middle against the printer.
func (d *doc) addLifePage(section string, wMM, hMM float64) *page {
	p := d.addPage(section, wMM, hMM)
	p.scale = d.lifeScale
	return p
}

// lifeMarginMM is how near to the edges of a page of this width or height, in
// mm, a page at life size may be drawn on: not nearer than edgeMM, nor where a
// printer that shrinks has lost the edge of the page.
func (d *doc) lifeMarginMM(lengthMM float64) float64 {
	return max(edgeMM, lengthMM/2*(1-1/d.lifeScale))
}

// A bookmark leads to a page from the viewer's list of contents.
type bookmark struct {
	title string
	level int // 0 for a section, 1 for a part of the section before it
	page  int // index into pages
}

// bookmark marks the last page added.
func (d *doc) bookmark(level int, title string) {
	d.marks = append(d.marks, bookmark{d.clean(title), level, len(d.pages) - 1})
}

// A pen draws lines. Grey goes from 0, black, to 1, white; there is no colour,
// since packets are printed in black.
type pen struct {
	mm   float64 // width
	grey float64
	dash []float64 // lengths of line and gap by turns, mm; none is a whole line
}

// The pens of the packet.
var (
	thin   = pen{mm: 0.2}
	medium = pen{mm: 0.35}
	thick  = pen{mm: 0.7}
	faint  = pen{mm: 0.12, grey: 0.55}
)

func (p pen) dashed(mm ...float64) pen {
	p.dash = mm
	return p
}

type point struct{ x, y float64 }

type opKind int

const (
	opLine    opKind = iota // at[0] to at[1]
	opRect                  // corners at[0] and at[1], outline
	opFill                  // polygon, filled with grey pen.grey
	opPolygon               // outline
	opCircle                // about at[0], of radius mm, outline
	opText                  // baseline begins at at[0] and is turned by degrees
)

// An op is one thing drawn. Nothing depends on the ops before it.
type op struct {
	kind     opKind
	at       []point
	pen      pen     // of lines; for a filled polygon and for text, its grey
	radiusMM float64 // of a circle
	text     string
	font     font
	degrees  float64 // counter-clockwise, of text
	widthMM  float64 // of text
}

func (p *page) add(o op) { p.ops = append(p.ops, o) }

// keep copies points to where those of the doc's ops are kept, many together.
func (d *doc) keep(at ...point) []point {
	if len(d.points) < len(at) {
		d.points = make([]point, max(1024, len(at)))
	}
	kept := d.points[:len(at):len(at)]
	d.points = d.points[len(at):]
	copy(kept, at)
	return kept
}

// line draws a straight line.
func (p *page) line(x1, y1, x2, y2 float64, with pen) {
	p.add(op{kind: opLine, at: p.doc.keep(point{x1, y1}, point{x2, y2}), pen: with})
}

// rect draws the outline of a rectangle; the line runs half inside, half out.
func (p *page) rect(x, y, w, h float64, with pen) {
	p.add(op{kind: opRect, at: p.doc.keep(point{x, y}, point{x + w, y + h}), pen: with})
}

// fillRect fills a rectangle with a grey.
func (p *page) fillRect(x, y, w, h, grey float64) {
	p.fill([]point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, grey)
}

// polygon draws the outline of a closed polygon.
func (p *page) polygon(at []point, with pen) {
	p.add(op{kind: opPolygon, at: p.doc.keep(at...), pen: with})
}

// fill fills a polygon with a grey.
func (p *page) fill(at []point, grey float64) {
	p.add(op{kind: opFill, at: p.doc.keep(at...), pen: pen{grey: grey}})
}

// circle draws the outline of a circle.
func (p *page) circle(x, y, radius float64, with pen) {
	p.add(op{kind: opCircle, at: p.doc.keep(point{x, y}), radiusMM: radius, pen: with})
}

// fillCircle fills a circle with a grey. It is a polygon whose sides stray
// from the circle by less than 0.01 mm, so that fills are of one kind.
func (p *page) fillCircle(x, y, radius, grey float64) {
	n := 8
	if radius > 0.02 {
		n = max(n, 4*int(math.Ceil(math.Pi/math.Acos(1-0.01/radius)/4)))
	}
	at := make([]point, n)
	for i := range at {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		at[i] = point{x + radius*cos, y + radius*sin}
	}
	p.fill(at, grey)
}

// arrow draws a line with a filled head at its second end.
func (p *page) arrow(x1, y1, x2, y2 float64, with pen) {
	length := math.Hypot(x2-x1, y2-y1)
	if length == 0 {
		return
	}
	ux, uy := (x2-x1)/length, (y2-y1)/length
	head := min(length, max(2.5, 5*with.mm))
	bx, by := x2-ux*head, y2-uy*head // the middle of the head's back
	p.line(x1, y1, bx, by, with)
	p.fill([]point{{x2, y2}, {bx - uy*head*0.4, by + ux*head*0.4}, {bx + uy*head*0.4, by - ux*head*0.4}}, with.grey)
}

// cross draws a registration cross: a thin cross in a circle, whose arms reach
// armX and armY mm from the middle.
func (p *page) cross(x, y, armX, armY float64) {
	p.line(x-armX, y, x+armX, y, thin)
	p.line(x, y-armY, x, y+armY, thin)
	p.circle(x, y, min(armX, armY)/2, thin)
}

// checkbox draws an empty square to tick, with its top left corner at x, y.
func (p *page) checkbox(x, y, side float64) { p.rect(x, y, side, side, medium) }

type align int

const (
	left align = iota
	centre
	right
)

// text draws one line of text with its baseline at y; x is its left end, its
// middle or its right end as the alignment says.
func (p *page) text(x, y float64, text string, f font, a align) {
	p.textAt(x, y, text, f, a, 0, 0)
}

// textUp draws a line of text turned to be read from the right: it runs
// upwards, with its baseline on the vertical at x.
func (p *page) textUp(x, y float64, text string, f font, a align) {
	p.textAt(x, y, text, f, a, 90, 0)
}

// textAt draws a line of text turned counter-clockwise about x, y, in a grey.
func (p *page) textAt(x, y float64, text string, f font, a align, degrees, grey float64) {
	text = p.doc.clean(text)
	if text == "" {
		return
	}
	w := p.doc.faces.widthMM(text, f)
	back := [...]float64{left: 0, centre: w / 2, right: w}[a]
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	p.add(op{
		kind: opText, at: p.doc.keep(point{x - back*cos, y + back*sin}), text: text, font: f,
		degrees: degrees, widthMM: w, pen: pen{grey: grey},
	})
}

// width is the width in mm that a text will have when drawn.
func (d *doc) width(text string, f font) float64 {
	return d.faces.widthMM(d.clean(text), f)
}

// rulerHalfMM is what a ruler takes on either side of its line.
const rulerHalfMM = 3.5

// ruler draws a ruler along the x axis (or downwards, if vertical) from x, y,
// where it reads fromMM: millimetres on its right hand side going along, inches
// on the other. Numbers stand behind the marks of every 10 mm and of every inch.
func (p *page) ruler(x, y, fromMM, lengthMM float64, vertical bool) {
	const (
		short, middle, long = 0.9, 1.25, 3.2
		near                = 1.35 // from the line to a number
	)
	f := regular(6.5)
	figures := 0.73 * f.pt * mmPerPt // height of figures: DejaVu's cap height
	place := func(along, across float64) point {
		if vertical {
			return point{x - across, y + along}
		}
		return point{x + along, y + across}
	}
	number := func(along, side float64, text string) {
		width := p.doc.width(text, f)
		along += 0.6
		if along+width > lengthMM {
			return
		}
		across := near // to the baseline, on the side where figures hang below the line
		if (side > 0) != vertical {
			across += figures
		}
		at := place(along, side*across)
		if vertical { // read from the right: it ends where it would begin
			p.textUp(at.x, at.y+width, text, f, left)
		} else {
			p.text(at.x, at.y, text, f, left)
		}
	}
	// Marks are drawn as dashed lines, as wide as the marks are long: a stroke
	// for each of them would be most of the packet.
	comb := func(side, start, step, tick float64) {
		first := start + step*math.Ceil((fromMM-start-1e-9)/step) - fromMM
		count := int(math.Floor((lengthMM-first+1e-9)/step)) + 1
		stroke := func(from, to float64) {
			a, b := place(from, side*tick/2), place(to, side*tick/2)
			p.line(a.x, a.y, b.x, b.y, pen{mm: tick}.dashed(thin.mm, step-thin.mm))
		}
		if count > 0 && first < thin.mm/2 { // the ruler begins in the midst of a mark
			stroke(0, first+thin.mm/2)
			first += step
			count--
		}
		if count > 0 {
			stroke(first-thin.mm/2, min(lengthMM, first+float64(count-1)*step+thin.mm/2))
		}
	}
	marks := func(side, unit float64, parts float64, name func(n int) string) {
		comb(side, 0, unit/parts, short)
		comb(side, unit/2, unit, middle)
		comb(side, 0, unit, long)
		for n := max(1, int(math.Ceil((fromMM-1e-9)/unit))); float64(n)*unit <= fromMM+lengthMM+1e-9; n++ {
			number(float64(n)*unit-fromMM, side, name(n))
		}
	}
	a, b := place(0, 0), place(lengthMM, 0)
	p.line(a.x, a.y, b.x, b.y, thin)
	marks(1, 10, 10, func(n int) string { return fmt.Sprint(10 * n) })
	marks(-1, 25.4, 8, func(n int) string { return fmt.Sprintf("%d in", n) })
}
