package page

import (
	"fmt"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"pourboard/blend/readable"
)

// The sizes of type, each about a quarter larger than the one before: what is
// looked up, what is read, what heads a table, what is acted on, and what a
// sheet is called. Nothing is below Least.
const (
	Least  = 8.0
	Small  = 8.5
	Body   = 10.5
	Head   = 13.0
	Amount = 16.0
	Title  = 24.0
)

// MMPerPt is a point in mm.
const MMPerPt = 25.4 / 72

// Parts of the size of type. Capitals and figures of the Go fonts are 0.72 em
// high (their OS/2 table, sCapHeight 1480 of 2048); lines 1.24 apart never touch.
const (
	capEm     = 0.72
	ascentEm  = 0.95
	descentEm = 0.23
	leadingEm = 1.24
)

// Align says where a text lies in its rectangle.
type Align int

// The alignments.
const (
	Left Align = iota
	Centre
	Right
	Decimal // in a column of a grid: the points of numbers below each other
)

// Style is how a text is set: black, upright, regular or bold.
type Style struct {
	Pt    float64
	Bold  bool
	Align Align
}

// Regular and Bold are the two faces in a size.
func Regular(pt float64) Style { return Style{Pt: pt} }

// Bold is described at Regular.
func Bold(pt float64) Style { return Style{Pt: pt, Bold: true} }

// To is the style with another alignment.
func (s Style) To(a Align) Style { s.Align = a; return s }

// At is the style in another size.
func (s Style) At(pt float64) Style { s.Pt = pt; return s }

// LineH is the distance from one baseline to the next, mm.
func (s Style) LineH() float64 { return s.Pt * leadingEm * MMPerPt }

// CapMM is the height of capitals and figures in a style, mm.
func (s Style) CapMM() float64 { return capEm * s.Pt * MMPerPt }

// A face is one of the document's fonts.
type face struct {
	name   string
	ttf    []byte
	parsed *sfnt.Font
	buffer sfnt.Buffer
}

// faces are the Go fonts for nearly everything, and DejaVu Sans for the
// characters that they lack: upright, then bold. At the same width of a column the
// Go fonts' figures are a quarter larger than DejaVu's; zero is slashed, and 1, l
// and I differ, which they do not in Liberation Sans.
func faces() [2][2]face {
	return [2][2]face{
		{{name: "Go", ttf: goregular.TTF}, {name: "DejaVu", ttf: dejavusans.TTF}},
		{{name: "GoBold", ttf: gobold.TTF}, {name: "DejaVuBold", ttf: dejavusansbold.TTF}},
	}
}

// A glyph is how a character is drawn.
type glyph struct {
	face    *face
	code    [4]byte // its number in the font, in hexadecimal
	advance float64 // mm in 1 pt
	lacking bool    // no font has it
	used    bool    // on some page
}

// find looks a character up. The fonts are part of the program, so that reading them
// does not fail.
func (f *face) find(r rune) glyph {
	if f.parsed == nil {
		f.parsed, _ = sfnt.Parse(f.ttf)
	}
	at, _ := f.parsed.GlyphIndex(&f.buffer, r)
	units := f.parsed.UnitsPerEm()
	advance, _ := f.parsed.GlyphAdvance(&f.buffer, at, fixed.Int26_6(units), font.HintingNone)
	g := glyph{face: f, lacking: at == 0}
	copy(g.code[:], fmt.Sprintf("%04X", at))
	// The file's table of widths has whole thousandths of an em.
	g.advance = float64(int(advance)*1000/int(units)) / 1000 * MMPerPt
	return g
}

// replacement is drawn for a character that no font has: a question mark in a
// diamond, which cannot be taken for one in the plan.
const replacement = '\uFFFD'

// glyph finds a character in the fonts, the Go fonts first.
func (d *Doc) glyph(r rune, bold bool) *glyph {
	b := 0
	if bold {
		b = 1
	}
	if r < 128 && d.ascii[b][r] != nil {
		return d.ascii[b][r]
	}
	g := d.glyphs[b][r]
	if g == nil {
		g = d.find(r, b)
		d.glyphs[b][r] = g
	}
	if r < 128 {
		d.ascii[b][r] = g
	}
	return g
}

// find is glyph for a character that was not asked for before.
func (d *Doc) find(r rune, b int) *glyph {
	for k := range d.faces[b] {
		if g := d.faces[b][k].find(r); !g.lacking && r <= 0xFFFF { // gopdf writes a wrong text for others
			return &g
		}
	}
	g := d.faces[b][0].find(' ')
	g.lacking = true
	return &g
}

// lacks reports whether a character cannot be printed as itself.
func (d *Doc) lacks(r rune) bool {
	return readable.Hidden(r) || d.glyph(r, false).lacking || d.glyph(r, true).lacking
}

// Width is the width of a text in mm, on one line.
func (d *Doc) Width(text string, s Style) float64 { return d.width(d.clean(text), s) }

func (d *Doc) width(text string, s Style) float64 {
	sum := 0.0
	for _, r := range text {
		sum += d.glyph(r, s.Bold).advance
	}
	return sum * s.Pt
}

// Widest is the width of the widest of some texts, mm.
func (d *Doc) Widest(texts []string, s Style) float64 {
	w := 0.0
	for _, t := range texts {
		w = max(w, d.Width(t, s))
	}
	return w
}
