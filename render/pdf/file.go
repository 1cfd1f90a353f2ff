package pdf

import (
	"crypto/sha256"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf16"
)

// Language of the packet, for those who have it read to them.
const language = "en-GB"

// write draws the footers and writes the packet as a PDF file. Nothing is
// written if anything is wrong. A doc can be written once.
//
// The objects of the file and their fields are those of ISO 32000-1:2008: the
// catalog 7.7.2, pages 7.7.3, viewer preferences 12.2, bookmarks 12.3.3,
// properties 14.3.3, identifier 14.4. The identifier comes from the content and
// no date is written, so the same packet is the same bytes.
func (d *doc) write(w io.Writer) error {
	d.footers()
	if err := d.sound(); err != nil {
		return err
	}
	fonts := d.subsets()
	streams, err := d.streams(fonts)
	if err != nil {
		return err
	}

	var f file
	f.start(streams)
	catalog, tree, resources := f.reserve(), f.reserve(), f.reserve()
	var names strings.Builder
	for i := range fonts {
		if s := fonts[i]; s != nil {
			fmt.Fprintf(&names, "%s %d 0 R ", s.name, s.embed(&f, streams[i]))
		}
	}
	f.object(resources, "<< /Font << %s>> >>", names.String())
	pages := make([]int, len(d.pages))
	var kids strings.Builder
	for i, p := range d.pages {
		content := f.stream(streams[len(fonts)+i], "")
		pages[i] = f.reserve()
		f.object(pages[i], "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %.2f %.2f] /Resources %d 0 R /Contents %d 0 R >>",
			tree, p.wMM/mmPerPt, p.hMM/mmPerPt, resources, content)
		fmt.Fprintf(&kids, "%d 0 R ", pages[i])
	}
	f.object(tree, "<< /Type /Pages /Count %d /Kids [ %s] >>", len(pages), kids.String())
	contents := ""
	if len(d.marks) > 0 {
		contents = fmt.Sprintf(" /PageMode /UseOutlines /Outlines %d 0 R", d.outline(&f, pages))
	}
	f.object(catalog, "<< /Type /Catalog /Pages %d 0 R /Lang (%s) /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>%s >>",
		tree, language, contents)
	info := f.reserve()
	f.object(info, "<< /Title %s /Subject %s /Creator %s >>", textString(d.title), textString(d.subject), textString("pourboard"))
	_, err = w.Write(f.end(catalog, info))
	return err
}

// sound refuses what would be no number in the file, and a viewer then choke on.
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

// A file is a PDF file being put together: its objects one after the other, and
// the table of where they begin (ISO 32000-1, 7.5).
type file struct {
	out     []byte
	offsets []int // of objects, by their number less 1
}

// start begins the file, with room for the streams and for what goes around them.
func (f *file) start(streams [][]byte) {
	size := 1 << 14
	for _, s := range streams {
		size += len(s) + 300
	}
	f.out = append(make([]byte, 0, size), "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n"...)
}

// reserve gives out the next number for an object, which may be written later.
func (f *file) reserve() int {
	f.offsets = append(f.offsets, 0)
	return len(f.offsets)
}

// object writes an object.
func (f *file) object(number int, format string, args ...any) {
	f.begin(number)
	f.out = fmt.Appendf(f.out, format, args...)
	f.out = append(f.out, "\nendobj\n"...)
}

func (f *file) begin(number int) {
	f.offsets[number-1] = len(f.out)
	f.out = fmt.Appendf(f.out, "%d 0 obj\n", number)
}

// stream writes a compressed stream, whose dictionary has more fields than any
// stream needs, and gives its number.
func (f *file) stream(packed []byte, more string) int {
	number := f.reserve()
	f.begin(number)
	f.out = fmt.Appendf(f.out, "<< /Filter /FlateDecode /Length %d%s >>\nstream\n", len(packed), more)
	f.out = append(f.out, packed...)
	f.out = append(f.out, "\nendstream\nendobj\n"...)
	return number
}

// end writes the table of the objects and the trailer, and gives the file.
func (f *file) end(catalog, info int) []byte {
	id := sha256.Sum256(f.out)
	table := len(f.out)
	f.out = fmt.Appendf(f.out, "xref\n0 %d\n0000000000 65535 f \n", len(f.offsets)+1)
	for _, offset := range f.offsets {
		f.out = fmt.Appendf(f.out, "%010d 00000 n \n", offset)
	}
	return fmt.Appendf(f.out, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%x> <%x>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(f.offsets)+1, catalog, info, id[:16], id[:16], table)
}

// outline writes the bookmarks and gives the number of their root. Parts of a
// section are folded away under it until asked for. The pages' objects are given.
func (d *doc) outline(f *file, pages []int) int {
	root := f.reserve()
	numbers := make([]int, len(d.marks))
	for i := range numbers {
		numbers[i] = f.reserve()
	}
	var tops []int               // bookmarks of level 0
	parts := make(map[int][]int) // bookmarks under one of them
	for i, m := range d.marks {
		if m.level == 0 || len(tops) == 0 {
			tops = append(tops, i)
		} else {
			top := tops[len(tops)-1]
			parts[top] = append(parts[top], i)
		}
	}
	f.object(root, "<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>",
		numbers[tops[0]], numbers[tops[len(tops)-1]], len(tops))
	list := func(parent int, marks []int) {
		for k, i := range marks {
			m := d.marks[i]
			var b strings.Builder
			fmt.Fprintf(&b, "<< /Title %s /Parent %d 0 R", textString(m.title), parent)
			if k > 0 {
				fmt.Fprintf(&b, " /Prev %d 0 R", numbers[marks[k-1]])
			}
			if k < len(marks)-1 {
				fmt.Fprintf(&b, " /Next %d 0 R", numbers[marks[k+1]])
			}
			if below := parts[i]; len(below) > 0 {
				fmt.Fprintf(&b, " /First %d 0 R /Last %d 0 R /Count %d", numbers[below[0]], numbers[below[len(below)-1]], -len(below))
			}
			fmt.Fprintf(&b, " /Dest [%d 0 R /XYZ 0 %.2f null] >>", pages[m.page], d.pages[m.page].hMM/mmPerPt)
			f.object(numbers[i], "%s", b.String())
		}
	}
	list(root, tops)
	for _, top := range tops {
		list(numbers[top], parts[top])
	}
	return root
}

// textString writes a text as UTF-16 in hexadecimal (ISO 32000-1, 7.9.2.2).
func textString(text string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, unit := range utf16.Encode([]rune(text)) {
		fmt.Fprintf(&b, "%04X", unit)
	}
	b.WriteString(">")
	return b.String()
}
