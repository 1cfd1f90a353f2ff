package pdf

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
)

// Language of the packet, for those who have it read to them.
const language = "en-GB"

// finish turns what gopdf wrote into the file that is wanted. gopdf's catalog
// is fixed, its bookmarks go by the height of the wrong page, and its pages are
// empty; its objects are therefore written over one by one, the catalog and the
// pages' content replaced, and bookmarks, properties and an identifier added. The
// identifier comes from the content and no date is written, so the same packet
// is the same bytes.
//
// Objects and their fields are those of ISO 32000-1:2008: the catalog 7.7.2,
// viewer preferences 12.2, bookmarks 12.3.3, properties 14.3.3, identifier 14.4.
func (d *doc) finish(raw []byte, pageObjects []int, contents [][]byte) ([]byte, error) {
	objects, err := splitObjects(raw)
	if err != nil {
		return nil, err
	}
	for i, n := range pageObjects {
		objects[n] = contents[i] // the object after the page's own
	}

	catalog := "<< /Type /Catalog /Pages 2 0 R /Lang (" + language + ")\n" +
		"/ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>"
	if len(d.marks) > 0 {
		root := len(objects) + 1
		objects = append(objects, d.outline(root, pageObjects)...)
		catalog += fmt.Sprintf("\n/PageMode /UseOutlines /Outlines %d 0 R", root)
	}
	objects[0] = []byte(catalog + " >>\n")
	objects = append(objects, fmt.Appendf(nil, "<< /Title %s /Subject %s /Creator %s /Producer %s >>\n",
		textString(d.title), textString(d.subject), textString("pourboard"), textString("gopdf")))

	size := 1000
	for _, body := range objects {
		size += len(body) + 50 // for its number, and its line in the table
	}
	var out bytes.Buffer
	out.Grow(size)
	out.WriteString("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n")
	offsets := make([]int, len(objects))
	for i, body := range objects {
		offsets[i] = out.Len()
		fmt.Fprintf(&out, "%d 0 obj\n", i+1)
		out.Write(body)
		out.WriteString("endobj\n")
	}
	id := sha256.Sum256(out.Bytes())
	table := out.Len()
	fmt.Fprintf(&out, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, offset := range offsets {
		fmt.Fprintf(&out, "%010d 00000 n \n", offset)
	}
	fmt.Fprintf(&out, "trailer\n<< /Size %d /Root 1 0 R /Info %d 0 R /ID [<%x> <%x>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(objects)+1, len(objects), id[:16], id[:16], table)
	return out.Bytes(), nil
}

// splitObjects gives the bodies of the objects of a file by gopdf, from object
// 1 on, as its cross-reference table tells where they begin.
func splitObjects(raw []byte) ([][]byte, error) {
	malformed := fmt.Errorf("the PDF library wrote a file that cannot be read back")
	_, after, ok := bytes.Cut(raw[max(0, bytes.LastIndex(raw, []byte("startxref"))):], []byte("startxref\n"))
	if !ok {
		return nil, malformed
	}
	digits, _, _ := bytes.Cut(after, []byte("\n"))
	table, err := strconv.Atoi(string(digits))
	if err != nil || table < 0 || table > len(raw) {
		return nil, malformed
	}
	var count int
	if _, err := fmt.Sscanf(string(raw[table:min(table+40, len(raw))]), "xref\n0 %d\n", &count); err != nil {
		return nil, malformed
	}
	const entry = 20 // bytes of one line of the table
	lines := raw[table+len(fmt.Sprintf("xref\n0 %d\n", count)):]
	if count < 2 || len(lines) < entry*count {
		return nil, malformed
	}
	starts := make([]int, 0, count)
	for i := 1; i < count; i++ {
		at, err := strconv.Atoi(string(lines[entry*i : entry*i+10]))
		if err != nil || at > table {
			return nil, malformed
		}
		starts = append(starts, at)
	}
	starts = append(starts, table)
	objects := make([][]byte, count-1)
	for i := range objects {
		if starts[i] > starts[i+1] {
			return nil, malformed
		}
		body, ok := bytes.CutPrefix(raw[starts[i]:starts[i+1]], fmt.Appendf(nil, "%d 0 obj\n", i+1))
		if !ok {
			return nil, malformed
		}
		if body, ok = bytes.CutSuffix(body, []byte("endobj\n\n")); !ok {
			return nil, malformed
		}
		objects[i] = body
	}
	return objects, nil
}

// outline is the bookmarks' objects, the root first, which gets the number
// root. Parts of a section are folded away under it until asked for.
func (d *doc) outline(root int, pageObjects []int) [][]byte {
	number := func(i int) int { return root + 1 + i }
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
	objects := make([][]byte, 1+len(d.marks))
	objects[0] = fmt.Appendf(nil, "<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>\n",
		number(tops[0]), number(tops[len(tops)-1]), len(tops))
	list := func(parent int, marks []int) {
		for k, i := range marks {
			m := d.marks[i]
			var b strings.Builder
			fmt.Fprintf(&b, "<< /Title %s /Parent %d 0 R", textString(m.title), parent)
			if k > 0 {
				fmt.Fprintf(&b, " /Prev %d 0 R", number(marks[k-1]))
			}
			if k < len(marks)-1 {
				fmt.Fprintf(&b, " /Next %d 0 R", number(marks[k+1]))
			}
			if below := parts[i]; len(below) > 0 {
				fmt.Fprintf(&b, " /First %d 0 R /Last %d 0 R /Count %d", number(below[0]), number(below[len(below)-1]), -len(below))
			}
			fmt.Fprintf(&b, " /Dest [%d 0 R /XYZ 0 %.2f null] >>\n", pageObjects[m.page], d.pages[m.page].hMM/mmPerPt)
			objects[1+i] = []byte(b.String())
		}
	}
	list(root, tops)
	for _, top := range tops {
		list(number(top), parts[top])
	}
	return objects
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
