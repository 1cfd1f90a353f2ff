package page

import (
	"fmt"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/signintech/gopdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

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
)

// Style is how a text is set: black, upright, regular or bold.
type Style struct {
	Pt    float64
	Bold  bool
	Align Align
	Grey  float64 // 0 black to 1 white; white stands on black only
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

// The families: the Go fonts for nearly everything, and DejaVu Sans for the
// characters that they lack. At the same width of a column the Go fonts' figures
// are a quarter larger than DejaVu's; zero is slashed, and 1, l and I differ,
// which they do not in Liberation Sans.
var families = [2][2]struct {
	name string
	ttf  []byte
}{
	{{"Go", goregular.TTF}, {"DejaVu", dejavusans.TTF}},
	{{"GoBold", gobold.TTF}, {"DejaVuBold", dejavusansbold.TTF}},
}

// A glyph is how a character is drawn.
type glyph struct {
	family  int     // index into families' second, -1 where no font has it
	advance float64 // mm in 1 pt
}

// loadFonts makes the Go fonts known to gopdf. The others follow on demand:
// reading one takes 2 ms.
func (d *Doc) loadFonts() error {
	for bold := range families {
		d.glyphs[bold] = map[rune]glyph{}
		f := families[bold][0]
		if err := d.pdf.AddTTFFontData(f.name, f.ttf); err != nil {
			return fmt.Errorf("font %s: %w", f.name, err)
		}
	}
	return nil
}

// replacement is drawn for a character that no font has: a question mark in a
// diamond, which cannot be taken for one in the plan.
const replacement = '\uFFFD'

// glyph finds a character in the fonts, the first family first.
func (d *Doc) glyph(r rune, bold bool) glyph {
	b := 0
	if bold {
		b = 1
	}
	if g, ok := d.glyphs[b][r]; ok {
		return g
	}
	g := glyph{family: -1}
	for k, f := range families[b] {
		if r > 0xFFFF { // gopdf writes a wrong text for these
			break
		}
		if d.pdf.SetFont(f.name, "", 1000) != nil {
			if d.pdf.AddTTFFontDataWithOption(f.name, f.ttf, gopdf.TtfOption{}) != nil || d.pdf.SetFont(f.name, "", 1000) != nil {
				break
			}
		}
		if has, err := d.pdf.IsCurrFontContainGlyph(r); err != nil || !has {
			continue
		}
		if w, err := d.pdf.MeasureTextWidth(string(r)); err == nil {
			g = glyph{k, w / 1000}
			break
		}
	}
	d.glyphs[b][r] = g
	return g
}

// lacks reports whether a character cannot be printed as itself.
func (d *Doc) lacks(r rune) bool {
	return readable.Hidden(r) || d.glyph(r, false).family < 0 || d.glyph(r, true).family < 0
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
