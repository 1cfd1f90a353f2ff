package pdf

import (
	"encoding/binary"
	"slices"
)

// A subset is a face cut down to the characters in use, with glyph numbers of
// its own: a hundred glyphs to embed in place of six thousand. Tables and their
// fields are those of the OpenType specification, 1.9.
type subset struct {
	name    string // in the content of pages
	base    string // the font's name; six letters say that it is a subset (ISO 32000-1, 9.6.4)
	face    *face
	runes   []rune   // in order
	glyphs  []uint16 // by character
	whole   []int    // by glyph, its number in the whole font
	program []byte   // a TrueType font with the tables that a PDF file needs (ISO 32000-1, 9.9)
}

// subsets are the regular and the bold face, cut down to what the pages have;
// nil where they have nothing.
func (d *doc) subsets() [2]*subset {
	var used [2][0x10000]bool // clean leaves no character beyond the first plane
	for _, p := range d.pages {
		for i := range p.ops {
			o := &p.ops[i]
			in := &used[0]
			if o.font.bold {
				in = &used[1]
			}
			for _, r := range o.text {
				in[r] = true
			}
		}
	}
	var cut [2]*subset
	for i, f := range []*face{d.faces.regular, d.faces.bold} {
		var runes []rune
		for r, is := range used[i] {
			if is {
				runes = append(runes, rune(r))
			}
		}
		if runes != nil {
			cut[i] = f.subset(runes)
			cut[i].name = [...]string{"/F1", "/F2"}[i]
			cut[i].base = [...]string{"PBREGU+", "PBBOLD+"}[i] + f.name
		}
	}
	return cut
}

// subset cuts the face down to characters that it has, given in order.
func (f *face) subset(runes []rune) *subset {
	be := binary.BigEndian
	s := &subset{face: f, runes: runes, glyphs: make([]uint16, runes[len(runes)-1]+1)}

	// Glyph 0 is "not defined"; parts of composed glyphs come in as they are met.
	s.whole = []int{0}
	number := map[int]int{0: 0}
	keep := func(g int) int {
		n, ok := number[g]
		if !ok {
			n = len(s.whole)
			number[g] = n
			s.whole = append(s.whole, g)
		}
		return n
	}
	for _, r := range runes {
		s.glyphs[r] = uint16(keep(f.glyph(r)))
	}
	var glyf, loca, hmtx []byte
	for i := 0; i < len(s.whole); i++ { // it grows while parts are found
		loca = be.AppendUint32(loca, uint32(len(glyf)))
		glyf = append(glyf, f.renumbered(s.whole[i], keep)...)
		glyf = pad4(glyf)
		g := min(s.whole[i], f.longMetric-1)
		hmtx = append(hmtx, f.tables["hmtx"][4*g:4*g+4]...)
	}
	loca = be.AppendUint32(loca, uint32(len(glyf)))

	hhea, maxp := slices.Clone(f.tables["hhea"]), slices.Clone(f.tables["maxp"])
	be.PutUint16(hhea[34:], uint16(len(s.whole)))
	be.PutUint16(maxp[4:], uint16(len(s.whole)))
	s.program = assemble(map[string][]byte{
		"cvt ": f.tables["cvt "], "fpgm": f.tables["fpgm"], "glyf": glyf, "head": f.tables["head"], "hhea": hhea,
		"hmtx": hmtx, "loca": loca, "maxp": maxp, "prep": f.tables["prep"],
	})
	return s
}

// outline is the description of a glyph in the font.
func (f *face) outline(g int) []byte {
	loca := f.tables["loca"][4*g:]
	return f.tables["glyf"][binary.BigEndian.Uint32(loca):binary.BigEndian.Uint32(loca[4:])]
}

// renumbered is the outline of a glyph; if it is composed of others (its
// number of contours is negative), the numbers of its parts are exchanged for
// those that keep gives them.
func (f *face) renumbered(g int, keep func(int) int) []byte {
	const (
		wordArguments  = 1 << 0
		oneScale       = 1 << 3
		moreComponents = 1 << 5
		twoScales      = 1 << 6
		twoByTwo       = 1 << 7
	)
	be := binary.BigEndian
	outline := f.outline(g)
	if len(outline) == 0 || int16(be.Uint16(outline)) >= 0 {
		return outline
	}
	outline = slices.Clone(outline)
	for at := 10; ; {
		flags := be.Uint16(outline[at:])
		be.PutUint16(outline[at+2:], uint16(keep(int(be.Uint16(outline[at+2:])))))
		at += 6
		if flags&wordArguments != 0 {
			at += 2
		}
		switch {
		case flags&oneScale != 0:
			at += 2
		case flags&twoScales != 0:
			at += 4
		case flags&twoByTwo != 0:
			at += 8
		}
		if flags&moreComponents == 0 {
			return outline
		}
	}
}

// assemble joins tables into a font file.
func assemble(tables map[string][]byte) []byte {
	be := binary.BigEndian
	tags := make([]string, 0, len(tables))
	for tag := range tables {
		tags = append(tags, tag)
	}
	slices.Sort(tags)

	b := []byte{0, 1, 0, 0}
	b = be.AppendUint16(b, uint16(len(tags)))
	b = append(b, 0, 128, 0, 3, 0, byte(16*len(tags)-128)) // searching fields for 8 to 15 tables
	offset := 12 + 16*len(tags)
	for _, tag := range tags {
		data := tables[tag]
		b = append(b, tag...)
		b = be.AppendUint32(b, checksum(data))
		b = be.AppendUint32(b, uint32(offset))
		b = be.AppendUint32(b, uint32(len(data)))
		offset += (len(data) + 3) &^ 3
	}
	for _, tag := range tags {
		b = pad4(append(b, tables[tag]...))
	}
	return b
}

func pad4(b []byte) []byte {
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}

// checksum is the sum of a table's big-endian words.
func checksum(data []byte) uint32 {
	var sum uint32
	for len(data) >= 4 {
		sum += binary.BigEndian.Uint32(data)
		data = data[4:]
	}
	var last [4]byte
	copy(last[:], data)
	return sum + binary.BigEndian.Uint32(last[:])
}
