package pdf

import (
	"encoding/binary"
	"slices"
)

// A subset is a font cut down to the characters in use.
type subset struct {
	ttf    []byte // nil if none are
	family string
	name   string // in the content of pages
	runes  []rune
	glyphs []uint16 // by character
}

// subsets are the two faces, cut down to what the pages have.
func (d *doc) subsets() (regular, bold subset) {
	var used [2][0x10000]bool // clean leaves none beyond the first plane
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
	name := "/F1"
	cut := func(f *face, family string, used *[0x10000]bool) subset {
		s := subset{family: family, name: name}
		for r, is := range used {
			if is {
				s.runes = append(s.runes, rune(r))
			}
		}
		if s.runes == nil {
			return s
		}
		ttf, glyphs := f.subset(s.runes)
		s.ttf, s.glyphs = ttf, make([]uint16, s.runes[len(s.runes)-1]+1)
		for i, r := range s.runes {
			s.glyphs[r] = uint16(glyphs[i])
		}
		name = "/F2"
		return s
	}
	regular = cut(d.faces.regular, regularFamily, &used[0])
	bold = cut(d.faces.bold, boldFamily, &used[1])
	return regular, bold
}

// subset cuts the font down to the given characters, with glyph numbers of its
// own, so that gopdf has a hundred glyphs to parse and embed in place of six
// thousand: 2.5 MB and 6 ms less for each packet. Instructions, which fit glyphs
// to the dots of a coarse screen and are half of this font, are left out: paper
// needs none. Tables and their fields are those of the OpenType specification, 1.9.
//
// The characters must be in the font, and are taken in order of their code;
// their glyphs are given in that order too.
func (f *face) subset(runes []rune) ([]byte, []int) {
	be := binary.BigEndian
	runes = slices.Clone(runes)
	slices.Sort(runes)
	runes = slices.Compact(runes)

	// Glyph 0 is "not defined"; parts of composed glyphs come in as they are met.
	old := []int{0}
	number := map[int]int{0: 0}
	keep := func(g int) int {
		n, ok := number[g]
		if !ok {
			n = len(old)
			number[g] = n
			old = append(old, g)
		}
		return n
	}
	mapped := make([]int, len(runes))
	for i, r := range runes {
		mapped[i] = keep(f.glyph(r))
	}

	var glyf, loca, hmtx []byte
	for i := 0; i < len(old); i++ { // old grows while parts are found
		loca = be.AppendUint32(loca, uint32(len(glyf)))
		glyf = append(glyf, f.bare(old[i], keep)...)
		glyf = pad4(glyf)
		g := min(old[i], f.longMetric-1)
		hmtx = append(hmtx, f.tables["hmtx"][4*g:4*g+4]...)
	}
	loca = be.AppendUint32(loca, uint32(len(glyf)))

	hhea, maxp := slices.Clone(f.tables["hhea"]), slices.Clone(f.tables["maxp"])
	be.PutUint16(hhea[34:], uint16(len(old)))
	be.PutUint16(maxp[4:], uint16(len(old)))
	post := make([]byte, 32) // version 3: no glyph names
	copy(post, f.tables["post"][:32])
	be.PutUint32(post, 0x00030000)

	tables := map[string][]byte{
		"OS/2": f.tables["OS/2"], "cmap": cmapTable(runes, mapped), "glyf": glyf,
		"head": f.tables["head"], "hhea": hhea, "hmtx": hmtx, "loca": loca, "maxp": maxp,
		"name": nameTable(f.name), "post": post,
	}
	return assemble(tables), mapped
}

// A component is a glyph as part of another: where it stands and how it is
// scaled. Flags and fields are those of the table glyf.
type component struct {
	flags uint16
	glyph int
	x, y  int16
	scale []byte
}

const (
	wordArguments    = 1 << 0
	argumentsAreXY   = 1 << 1
	oneScale         = 1 << 3
	moreComponents   = 1 << 5
	twoScales        = 1 << 6
	twoByTwo         = 1 << 7
	haveInstructions = 1 << 8
)

// outline is a glyph's entry in the table glyf, empty for a blank.
func (f *face) outline(g int) []byte {
	be := binary.BigEndian
	loca := f.tables["loca"]
	return f.tables["glyf"][be.Uint32(loca[4*g:]):be.Uint32(loca[4*g+4:])]
}

// composed reports whether an outline is made of other glyphs: its number of
// contours is negative.
func composed(outline []byte) bool {
	return len(outline) > 0 && int16(binary.BigEndian.Uint16(outline)) < 0
}

// components are the parts of a composed glyph.
func (f *face) components(outline []byte) (parts []component) {
	be := binary.BigEndian
	for at := 10; ; {
		c := component{flags: be.Uint16(outline[at:]), glyph: int(be.Uint16(outline[at+2:]))}
		switch {
		case c.flags&wordArguments != 0:
			c.x, c.y = int16(be.Uint16(outline[at+4:])), int16(be.Uint16(outline[at+6:]))
			at += 8
		case c.flags&argumentsAreXY != 0:
			c.x, c.y = int16(int8(outline[at+4])), int16(int8(outline[at+5]))
			at += 6
		default: // numbers of points that are to meet
			c.x, c.y = int16(outline[at+4]), int16(outline[at+5])
			at += 6
		}
		size := 0
		switch {
		case c.flags&oneScale != 0:
			size = 2
		case c.flags&twoScales != 0:
			size = 4
		case c.flags&twoByTwo != 0:
			size = 8
		}
		c.scale = outline[at : at+size]
		at += size
		parts = append(parts, c)
		if c.flags&moreComponents == 0 {
			return parts
		}
	}
}

// simple takes apart the parts that are composed themselves, for gopdf embeds
// the parts of a glyph and not the parts of those: ế would lose its circumflex.
func (f *face) simple(parts []component) (all []component) {
	for _, c := range parts {
		inner := f.outline(c.glyph)
		if !composed(inner) || len(c.scale) > 0 || c.flags&argumentsAreXY == 0 {
			all = append(all, c)
			continue
		}
		for _, p := range f.simple(f.components(inner)) {
			if p.flags&argumentsAreXY != 0 {
				p.x, p.y = p.x+c.x, p.y+c.y
			}
			all = append(all, p)
		}
	}
	return all
}

// bare is the outline of a glyph without its instructions. If it is composed of
// others, the numbers of its parts are those that keep gives them.
func (f *face) bare(g int, keep func(int) int) []byte {
	be := binary.BigEndian
	outline := f.outline(g)
	if len(outline) == 0 {
		return nil
	}
	if !composed(outline) {
		// The ends of its contours, the length of its instructions, these, its points.
		at := 10 + 2*int(be.Uint16(outline))
		out := slices.Clone(outline[:at])
		out = append(out, 0, 0)
		return append(out, outline[at+2+int(be.Uint16(outline[at:])):]...)
	}
	parts := f.simple(f.components(outline))
	out := slices.Clone(outline[:10]) // the number of contours and the bounds
	for i, c := range parts {
		flags := (c.flags | wordArguments) &^ (moreComponents | haveInstructions)
		if i < len(parts)-1 {
			flags |= moreComponents
		}
		out = be.AppendUint16(out, flags)
		out = be.AppendUint16(out, uint16(keep(c.glyph)))
		out = be.AppendUint16(out, uint16(c.x))
		out = be.AppendUint16(out, uint16(c.y))
		out = append(out, c.scale...)
	}
	return out
}

// cmapTable maps sorted characters of the first plane to glyphs, as one
// subtable of format 4 with a segment for each character.
func cmapTable(runes []rune, glyphs []int) []byte {
	be := binary.BigEndian
	n := len(runes) + 1 // the last segment is U+FFFF, as the format demands
	var ends, starts, deltas []byte
	for i, r := range runes {
		ends = be.AppendUint16(ends, uint16(r))
		starts = be.AppendUint16(starts, uint16(r))
		deltas = be.AppendUint16(deltas, uint16(glyphs[i]-int(r)))
	}
	ends, starts = append(ends, 0xFF, 0xFF), append(starts, 0xFF, 0xFF)
	deltas = append(deltas, 0, 1) // U+FFFF to glyph 0

	b := []byte{0, 0, 0, 1, 0, 3, 0, 1, 0, 0, 0, 12} // one subtable, Windows Unicode
	for _, v := range []int{4, 16 + 8*n, 0, 2 * n} {
		b = be.AppendUint16(b, uint16(v))
	}
	power, log := 1, 0 // largest power of two within n, for the searching fields
	for power*2 <= n {
		power, log = power*2, log+1
	}
	for _, v := range []int{2 * power, log, 2 * (n - power)} {
		b = be.AppendUint16(b, uint16(v))
	}
	b = append(b, ends...)
	b = append(b, 0, 0)
	b = append(b, starts...)
	b = append(b, deltas...)
	return append(b, make([]byte, 2*n)...) // idRangeOffset
}

// nameTable holds the PostScript name alone, which gopdf asks for.
func nameTable(name string) []byte {
	be := binary.BigEndian
	b := []byte{0, 0, 0, 1, 0, 18, 0, 1, 0, 0, 0, 0, 0, 6} // Macintosh Roman, name 6
	b = be.AppendUint16(b, uint16(len(name)))
	b = append(b, 0, 0)
	return append(b, name...)
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
