// Package page is the ground that sheets are drawn on: pages, texts, lines, and
// the PDF file that they make (gopdf). It knows paper and type, and nothing of
// glazes.
//
// Lengths are mm from the top left corner of a page, sizes of type are points.
// Pages may be drawn in any order, and are written when all are: so the first
// can name the number of the last.
package page

import (
	"fmt"
	"math"
	"slices"

	"pourboard/layout"
)

// Rect is an upright rectangle in mm by its top left corner.
type Rect = layout.Rect

// Margin is kept free along every edge, mm.
const Margin = 10.0

// FootH is the height in mm of the footer above the lower margin.
const FootH = 5.0

// Doc is a document being drawn.
type Doc struct {
	title   string
	subject string
	faces   [2][2]face         // upright and bold
	ascii   [2][128]*glyph     // upright and bold: nearly all that is asked for
	glyphs  [2]map[rune]*glyph // upright and bold
	pages   []*Page
	marks   []bookmark
	foot    string // right side of every footer, before the page's number

	scale float64 // of life-size pages, for a printer that shrinks or stretches
	note  string  // what every footer notes about that

	OneSided bool // viewers are asked to print on one side of the paper

	missing  distinct // characters that the fonts lack
	backward distinct // letters that are written from right to left
	cut      distinct // texts that were shortened
}

// New starts an empty document. Its title is shown by viewers; foot is in
// every footer before the page's number.
func New(title, subject, foot string) *Doc {
	d := &Doc{subject: subject, scale: 1, faces: faces(), glyphs: [2]map[rune]*glyph{{}, {}}}
	d.title, d.foot = d.clean(title), d.clean(foot)
	return d
}

// mostOffMM is how far the printed 100 mm bar may be off to be corrected. A
// printer that is further off was told to fit the page to the paper.
const mostOffMM = 5.0

// Correct makes life-size pages come out right on a printer that printed the
// 100 mm bar measuredMM long, and says so in every footer.
func (d *Doc) Correct(measuredMM float64) error {
	if !(math.Abs(measuredMM-100) <= mostOffMM) {
		return fmt.Errorf("the 100 mm bar measured %g mm: at most %g mm more or less can be corrected; "+
			"print with scaling off (100 %%), then measure again", measuredMM, mostOffMM)
	}
	d.scale = 100 / measuredMM
	d.note = fmt.Sprintf("corrected: bar measured %g mm", measuredMM)
	return nil
}

// Scale is what life-size lengths are multiplied by, see Correct.
func (d *Doc) Scale() float64 { return d.scale }

// Pages are the pages so far.
func (d *Doc) Pages() []*Page { return d.pages }

// Page is a sheet of paper and what is drawn on it.
type Page struct {
	doc   *Doc
	part  string // named in the page's label
	W, H  float64
	scale float64
	content

	Foot string // left side of the footer
	Bare bool   // no footer: the sheet is used to its edges
}

// Add adds a page at the end, w × h mm.
func (d *Doc) Add(part string, w, h float64) *Page {
	p := &Page{doc: d, part: part, W: w, H: h, scale: 1}
	d.pages = append(d.pages, p)
	return p
}

// AddLife adds a page that must measure right on paper.
func (d *Doc) AddLife(part string, w, h float64) *Page {
	p := d.Add(part, w, h)
	p.scale = d.scale
	return p
}

// Scrap is a page that is in no document: to measure what is drawn on it.
func (d *Doc) Scrap(w, h float64) *Page { return &Page{doc: d, W: w, H: h, scale: 1} }

// Next adds a page like p right behind it.
func (p *Page) Next() *Page {
	next := &Page{doc: p.doc, part: p.part, W: p.W, H: p.H, scale: p.scale, Foot: p.Foot}
	if n := p.Number(); n > 0 { // what follows scrap is scrap
		p.doc.pages = slices.Insert(p.doc.pages, n, next)
	}
	return next
}

// Clear takes away what is drawn on the page, and the n pages behind it.
func (p *Page) Clear(n int) {
	p.content = content{}
	at := p.Number()
	p.doc.pages = slices.Delete(p.doc.pages, at, at+n)
}

// Number is the page's number, from 1, as long as no page is added before it.
func (p *Page) Number() int { return slices.Index(p.doc.pages, p) + 1 }

// Inside is what lies within the margins and above the footer.
func (p *Page) Inside() Rect {
	return Rect{X: Margin, Y: Margin, W: p.W - 2*Margin, H: p.H - 2*Margin - FootH}
}

// LifeMargin is how near to the edges, in mm, a life-size page of this width
// or height may be drawn on: not nearer than Margin, nor where a printer that
// shrinks has lost the edge.
func (d *Doc) LifeMargin(lengthMM float64) float64 {
	return max(Margin, lengthMM/2*(1-1/d.scale))
}

// A bookmark leads to a page from the viewer's list of contents.
type bookmark struct {
	title string
	page  *Page
}

// Bookmark adds the page to the viewer's list of contents.
func (p *Page) Bookmark(title string) {
	p.doc.marks = append(p.doc.marks, bookmark{p.doc.clean(title), p})
}

// Part is the part that the page is of.
func (p *Page) Part() string { return p.part }
