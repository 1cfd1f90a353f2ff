package pdf

import (
	"encoding/binary"
	"fmt"
	"strings"
)

// embed writes a face with the characters in use into a file, and gives the
// number of its font object. packed is its program, compressed. The objects are
// those of a composite font with TrueType outlines, whose codes are its glyphs'
// numbers (ISO 32000-1, 9.7 and 9.8), and of a map from them to characters, for
// those who search or copy (9.10.3).
func (s *subset) embed(f *file, packed []byte) int {
	program := f.stream(packed, fmt.Sprintf(" /Length1 %d", len(s.program)))
	descriptor, descendant, text, number := f.reserve(), f.reserve(), f.reserve(), f.reserve()

	// A thousandth of the size of the text is the unit of lengths in a font.
	be := binary.BigEndian
	head, hhea := s.face.tables["head"], s.face.tables["hhea"]
	capital := s.face.outline(s.face.glyph('H'))
	em := func(table []byte, at int) int {
		return int(int16(be.Uint16(table[at:]))) * 1000 / s.face.unitsPerEm
	}
	const symbolic = 4 // glyphs go by number, not by a standard set of letters
	f.object(descriptor, "<< /Type /FontDescriptor /FontName /%s /Flags %d /FontBBox [%d %d %d %d] "+
		"/ItalicAngle 0 /Ascent %d /Descent %d /CapHeight %d /StemV 0 /FontFile2 %d 0 R >>", s.base, symbolic,
		em(head, 36), em(head, 38), em(head, 40), em(head, 42), em(hhea, 4), em(hhea, 6), em(capital, 8), program)

	widths := make([]int, len(s.whole))
	for i, g := range s.whole {
		widths[i] = s.face.glyphAdvance(g)
	}
	f.object(descendant, "<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /FontDescriptor %d 0 R\n"+
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /W [0 %d] >>", s.base, descriptor, widths)

	m := s.textMap()
	f.object(text, "<< /Length %d >>\nstream\n%s\nendstream", len(m), m)
	f.object(number, "<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H "+
		"/DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>", s.base, descendant, text)
	return number
}

// textMap tells the character of each glyph.
func (s *subset) textMap() string {
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	const most = 100 // characters in one list
	for rest := s.runes; len(rest) > 0; {
		list := rest[:min(most, len(rest))]
		rest = rest[len(list):]
		fmt.Fprintf(&b, "%d beginbfchar\n", len(list))
		for _, r := range list {
			fmt.Fprintf(&b, "<%04X> <%04X>\n", s.glyphs[r], r)
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend")
	return b.String()
}
