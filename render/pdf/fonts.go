package pdf

import (
	"encoding/binary"
	"fmt"
	"slices"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
)

// A font is a face and a size. The packet has two faces of one family: more
// would only make it harder to read.
type font struct {
	bold bool
	pt   float64 // size in points
}

// The sizes of the packet. Sheets read at the bench are never under benchPt.
const (
	benchPt   = 11.0
	headingPt = 18.0
	footerPt  = 8.0
)

func regular(pt float64) font { return font{pt: pt} }
func bold(pt float64) font    { return font{bold: true, pt: pt} }

const mmPerPt = 25.4 / 72

// Heights of a line of text, as parts of its size: DejaVu rises 0.928 above
// the baseline and falls 0.236 below it (its OS/2 table, usWinAscent and
// usWinDescent over 2048), so lines 1.2 apart never touch.
const (
	ascentEm  = 0.928
	descentEm = 0.236
	leadingEm = 1.2
)

// lineMM is the distance from one baseline to the next, in mm.
func (f font) lineMM() float64 { return f.pt * leadingEm * mmPerPt }

// ascentMM is the height above the baseline, in mm.
func (f font) ascentMM() float64 { return f.pt * ascentEm * mmPerPt }

// descentMM is the depth below the baseline, in mm.
func (f font) descentMM() float64 { return f.pt * descentEm * mmPerPt }

// replacement is drawn for a character that the fonts lack: a question mark in
// a diamond, so that it cannot be taken for a question mark in the plan.
const replacement = '\uFFFD'

// A face reads the few tables of a TrueType font that measuring text and
// cutting a subset need. It reads them in place: gopdf takes 3 ms to parse the
// whole of one DejaVu face, and measures a text by walking two maps.
type face struct {
	name       string
	ttf        []byte
	tables     map[string][]byte
	unitsPerEm int
	longMetric int      // glyphs with an advance of their own in hmtx
	segments   []uint16 // of the cmap, format 4
	segCount   int
	latin      [256]int // advances of the commonest characters
}

// newFace reads a TrueType font with a Unicode cmap of format 4 and long loca
// offsets, as the DejaVu fonts have.
func newFace(name string, ttf []byte) (*face, error) {
	f := &face{name: name, ttf: ttf, tables: map[string][]byte{}}
	be := binary.BigEndian
	if len(ttf) < 12 {
		return nil, fmt.Errorf("font %s: too short", name)
	}
	for i := range int(be.Uint16(ttf[4:])) {
		entry := ttf[12+16*i:]
		start, length := be.Uint32(entry[8:]), be.Uint32(entry[12:])
		f.tables[string(entry[:4])] = ttf[start : start+length]
	}
	for _, tag := range []string{"head", "hhea", "hmtx", "maxp", "cmap", "loca", "glyf", "OS/2"} {
		if f.tables[tag] == nil {
			return nil, fmt.Errorf("font %s: no %s table", name, tag)
		}
	}
	if be.Uint16(f.tables["head"][50:]) != 1 {
		return nil, fmt.Errorf("font %s: short glyph offsets, want long ones", name)
	}
	f.unitsPerEm = int(be.Uint16(f.tables["head"][18:]))
	f.longMetric = int(be.Uint16(f.tables["hhea"][34:]))

	cmap := f.tables["cmap"]
	for i := range int(be.Uint16(cmap[2:])) {
		record := cmap[4+8*i:]
		sub := cmap[be.Uint32(record[4:]):]
		if be.Uint16(record) == 3 && be.Uint16(record[2:]) == 1 && be.Uint16(sub) == 4 {
			words := make([]uint16, be.Uint16(sub[2:])/2)
			for w := range words {
				words[w] = be.Uint16(sub[2*w:])
			}
			f.segCount = int(words[3]) / 2
			f.segments = words
		}
	}
	if f.segments == nil {
		return nil, fmt.Errorf("font %s: no Unicode character map of format 4", name)
	}
	for r := range rune(len(f.latin)) {
		f.latin[r] = f.glyphAdvance(f.glyph(r))
	}
	return f, nil
}

// glyph is the glyph of a character, 0 if the font has none. Characters beyond
// U+FFFF have none here: gopdf writes a wrong text for them (its ToUnicode map
// has five digits), so they are treated as missing.
func (f *face) glyph(r rune) int {
	if r < 0 || r > 0xFFFF {
		return 0
	}
	// Words: 0 format .. 7 endCode[n], pad, startCode[n], idDelta[n],
	// idRangeOffset[n], glyphIdArray (OpenType, cmap format 4).
	c, n := uint16(r), f.segCount
	ends := f.segments[7 : 7+n]
	seg, _ := slices.BinarySearch(ends, c)
	if seg == n {
		return 0
	}
	start := f.segments[8+n+seg]
	if c < start {
		return 0
	}
	delta := f.segments[8+2*n+seg]
	at := 8 + 3*n + seg
	offset := f.segments[at]
	if offset == 0 {
		return int(c + delta)
	}
	g := f.segments[at+int(offset)/2+int(c-start)]
	if g == 0 {
		return 0
	}
	return int(g + delta)
}

// glyphAdvance is a glyph's advance in whole thousandths of its size, cut off
// as gopdf cuts it when it writes the widths into the file.
func (f *face) glyphAdvance(g int) int {
	g = min(g, f.longMetric-1)
	return int(binary.BigEndian.Uint16(f.tables["hmtx"][4*g:])) * 1000 / f.unitsPerEm
}

func (f *face) advance(r rune) int {
	if r >= 0 && int(r) < len(f.latin) {
		return f.latin[r]
	}
	return f.glyphAdvance(f.glyph(r))
}

// faces are the two faces of the packet. They belong to one doc, since reading
// them is nearly free and a doc then shares nothing with another.
type faces struct{ regular, bold *face }

func newFaces() (faces, error) {
	r, err := newFace("DejaVuSans", dejavusans.TTF)
	if err != nil {
		return faces{}, err
	}
	b, err := newFace("DejaVuSans-Bold", dejavusansbold.TTF)
	return faces{r, b}, err
}

func (fs faces) of(f font) *face {
	if f.bold {
		return fs.bold
	}
	return fs.regular
}

// widthMM is the width of a cleaned text (see clean) in a font, in mm, without
// kerning: exactly what gopdf draws.
func (fs faces) widthMM(text string, f font) float64 {
	fc, sum := fs.of(f), 0
	for _, r := range text {
		sum += fc.advance(r)
	}
	return float64(sum) * f.pt / 1000 * mmPerPt
}
