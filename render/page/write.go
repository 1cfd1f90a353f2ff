package page

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf16"

	"github.com/signintech/gopdf"
)

// language of the sheets, for those who have them read aloud.
const language = "en-GB"

// Write sets the footers and writes the document. A document is written once.
//
// gopdf writes the fonts and the file. Pages are objects that it is given, since
// it writes them slowly (an fmt call for each number); and so is the catalog,
// since its own has no language, bookmarks, page labels, or wishes for viewers. The
// identifier comes from the content and no date is written, so the same sheets
// are the same bytes. Objects and their fields are those of ISO 32000-1:2008: the
// catalog 7.7.2, pages 7.7.3, viewer preferences 12.2, bookmarks 12.3.3, page
// labels 12.4.2, trailer 7.5.5, properties 14.3.3, identifier 14.4.
func (d *Doc) Write(w io.Writer) error {
	for i, p := range d.pages {
		p.footer(i+1, len(d.pages))
	}
	f := file{}
	f.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: *gopdf.PageSizeA4})
	fonts, err := d.embed(&f)
	if err != nil {
		return err
	}
	tree, kids := d.write(&f, fonts)
	catalog := fmt.Sprintf("<< /Type /Catalog /Pages %d 0 R /Lang (%s)", tree, language)
	if len(d.marks) > 0 {
		catalog += fmt.Sprintf("\n/PageMode /UseOutlines /Outlines %d 0 R", d.outline(&f, kids))
	}
	sides := ""
	if d.OneSided {
		sides = " /Duplex /Simplex"
	}
	catalog += "\n/ViewerPreferences << /PrintScaling /None /DisplayDocTitle true" + sides + " >>\n" + d.labels()
	root := f.object(catalog + " >>")
	info := f.object(fmt.Sprintf("<< /Title %s /Subject %s /Creator %s /Producer %s >>",
		textString(d.title), textString(d.subject), textString("pourboard"), textString("gopdf")))
	raw, err := f.finish(root, info)
	if err != nil {
		return err
	}
	_, err = w.Write(raw)
	return err
}

// file is a PDF file whose objects are put in one by one.
type file struct{ gopdf.GoPdf }

// object adds an object and gives its number.
func (f *file) object(body string) int {
	n := f.GetNextObjectID()
	f.ImportObjects(map[int]string{n: body + "\n"}, n)
	return n
}

// finish writes the file, with a trailer that names a catalog and properties.
func (f *file) finish(root, info int) ([]byte, error) {
	var raw bytes.Buffer // gopdf ignores the errors of what it writes to
	size := f.GetNextObjectID()
	if _, err := f.WriteTo(&raw); err != nil {
		return nil, err
	}
	start := string(raw.Bytes()[bytes.LastIndex(raw.Bytes(), []byte("startxref\n")):])
	raw.Truncate(bytes.LastIndex(raw.Bytes(), []byte("trailer\n")))
	id := sha256.Sum256(raw.Bytes())
	fmt.Fprintf(&raw, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%x> <%[4]x>] >>\n%[5]s",
		size, root, info, id[:16], start)
	return raw.Bytes(), nil
}

// embed puts in of each font the characters that are used, and gives the
// fonts by name, as pages refer to them.
func (d *Doc) embed(f *file) (fonts string, err error) {
	for b := range d.faces {
		for k := range d.faces[b] {
			face := &d.faces[b][k]
			var used []rune
			for r, g := range d.glyphs[b] {
				if g.used && g.face == face {
					used = append(used, r)
				}
			}
			if used == nil {
				continue
			}
			slices.Sort(used)
			if err := f.AddTTFFontData(face.name, face.ttf); err != nil {
				return "", fmt.Errorf("font %s: %w", face.name, err)
			}
			fonts += fmt.Sprintf("/%s %d 0 R ", face.name, f.GetNextObjectID()-1)
			if err := f.SetFont(face.name, "", 1); err != nil {
				return "", err
			}
			if _, err := f.MeasureTextWidth(string(used)); err != nil { // this makes them part of the font
				return "", err
			}
		}
	}
	return fonts, nil
}

// write puts in all pages, and gives the number of their tree and their own.
func (d *Doc) write(f *file, fonts string) (tree int, kids []int) {
	tree = f.GetNextObjectID() + 2*len(d.pages)
	var packed bytes.Buffer
	packer, _ := zlib.NewWriterLevel(&packed, zlib.BestSpeed) // the level is valid
	list := ""
	for _, p := range d.pages {
		packed.Reset()
		packer.Reset(&packed)
		packer.Write(p.bytes) // a buffer takes all
		packer.Close()
		content := f.object(fmt.Sprintf("<< /Filter /FlateDecode /Length %d >>\nstream\n%s\nendstream",
			packed.Len(), packed.Bytes()))
		kid := f.object(fmt.Sprintf("<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %.2f %.2f] /Contents %d 0 R >>",
			tree, p.W/MMPerPt, p.H/MMPerPt, content))
		kids, list = append(kids, kid), list+fmt.Sprintf("%d 0 R ", kid)
	}
	f.object(fmt.Sprintf("<< /Type /Pages /Count %d /Kids [ %s] /Resources << /Font << %s>> >> >>",
		len(kids), list, fonts))
	return tree, kids
}

// labels name each page by its part and its number: "Map 4".
func (d *Doc) labels() string {
	var b strings.Builder
	b.WriteString("/PageLabels << /Nums [")
	for i, p := range d.pages {
		if i == 0 || p.part != d.pages[i-1].part {
			fmt.Fprintf(&b, " %d << /S /D /St %d /P %s >>", i, i+1, textString(p.part+" "))
		}
	}
	b.WriteString(" ] >>")
	return b.String()
}

// outline puts in the bookmarks, and gives the number of their root.
func (d *Doc) outline(f *file, kids []int) int {
	root := f.GetNextObjectID()
	last := root + len(d.marks)
	f.object(fmt.Sprintf("<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>", root+1, last, len(d.marks)))
	for i, m := range d.marks {
		beside := ""
		if i > 0 {
			beside += fmt.Sprintf(" /Prev %d 0 R", root+i)
		}
		if i < len(d.marks)-1 {
			beside += fmt.Sprintf(" /Next %d 0 R", root+i+2)
		}
		f.object(fmt.Sprintf("<< /Title %s /Parent %d 0 R /Dest [%d 0 R /XYZ 0 %.2f null]%s >>",
			textString(m.title), root, kids[m.page.Number()-1], m.page.H/MMPerPt, beside))
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

// footer sets the page's own line on the left, and test and number on the right.
func (p *Page) footer(number, of int) {
	if p.Bare {
		return
	}
	s, side, low := Regular(Least), Margin, Margin
	if p.scale != 1 {
		side, low = p.doc.LifeMargin(p.W), p.doc.LifeMargin(p.H)
	}
	text := fmt.Sprintf("page %d of %d", number, of)
	for _, before := range []string{p.doc.foot, p.doc.note} {
		if before != "" {
			text = before + " · " + text
		}
	}
	r := Rect{X: side, Y: p.H - low - s.LineH(), W: p.W - 2*side, H: s.LineH()}
	left := r.W - p.doc.Width(text, s)
	p.Text(r.After(max(0, left)), s.To(Right), text)
	if p.Foot != "" && left-4 > 20 {
		p.Text(r.Before(left-4), s, p.Foot)
	}
}
