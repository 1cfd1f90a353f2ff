package page

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
)

// language of the sheets, for those who have them read aloud.
const language = "en-GB"

// update is an incremental update of what gopdf wrote, to be appended to it:
// its catalog is fixed, so a second one has the language, bookmarks, page labels
// and what viewers should do. The identifier comes from the content and no date
// is written, so the same sheets are the same bytes.
//
// Objects and their fields are those of ISO 32000-1:2008: the catalog 7.7.2,
// incremental updates 7.5.6, viewer preferences 12.2, bookmarks 12.3.3, page
// labels 12.4.2, properties 14.3.3, identifier 14.4.
func (d *Doc) update(raw []byte) ([]byte, error) {
	malformed := fmt.Errorf("the PDF library wrote a file that cannot be read back")
	table, ok := after(raw, "startxref\n")
	size, ok2 := after(raw, "/Size ")
	kids, err := pageObjects(raw)
	if !ok || !ok2 || err != nil || len(kids) != len(d.pages) {
		return nil, malformed
	}
	var out bytes.Buffer
	offsets := map[int]int{}
	object := func(n int, body string) {
		offsets[n] = len(raw) + out.Len()
		fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", n, body)
	}
	info, root := size, size+1
	sides := ""
	if d.OneSided {
		sides = " /Duplex /Simplex"
	}
	catalog := "<< /Type /Catalog /Pages 2 0 R /Lang (" + language + ")\n" +
		"/ViewerPreferences << /PrintScaling /None /DisplayDocTitle true" + sides + " >>\n" + d.labels()
	if len(d.marks) > 0 {
		catalog += fmt.Sprintf("\n/PageMode /UseOutlines /Outlines %d 0 R", root)
		for i, body := range d.outline(root, kids) {
			object(root+i, body)
		}
	}
	object(1, catalog+" >>")
	object(info, fmt.Sprintf("<< /Title %s /Subject %s /Creator %s /Producer %s >>",
		textString(d.title), textString(d.subject), textString("pourboard"), textString("gopdf")))
	id := sha256.Sum256(append(raw[:len(raw):len(raw)], out.Bytes()...))
	begin := len(raw) + out.Len()
	out.WriteString("xref\n")
	fmt.Fprintf(&out, "1 1\n%010d 00000 n \n%d %d\n", offsets[1], size, len(offsets)-1)
	for n := size; n < size+len(offsets)-1; n++ {
		fmt.Fprintf(&out, "%010d 00000 n \n", offsets[n])
	}
	fmt.Fprintf(&out, "trailer\n<< /Size %d /Root 1 0 R /Info %d 0 R /Prev %d /ID [<%x> <%x>] >>\nstartxref\n%d\n%%%%EOF\n",
		size+len(offsets)-1, info, table, id[:16], id[:16], begin)
	return out.Bytes(), nil
}

// after is the number behind the last occurrence of a word.
func after(raw []byte, word string) (int, bool) {
	at := bytes.LastIndex(raw, []byte(word))
	if at < 0 {
		return 0, false
	}
	rest := raw[at+len(word):]
	end := bytes.IndexFunc(rest, func(r rune) bool { return r < '0' || r > '9' })
	n, err := strconv.Atoi(string(rest[:max(end, 0)]))
	return n, err == nil
}

// pageObjects are the object numbers of the pages, from the page tree.
func pageObjects(raw []byte) ([]int, error) {
	_, rest, _ := bytes.Cut(raw, []byte("/Kids ["))
	list, _, _ := bytes.Cut(rest, []byte("]"))
	var numbers []int
	for i, word := range strings.Fields(string(list)) {
		if i%3 == 0 { // "5 0 R"
			n, err := strconv.Atoi(word)
			if err != nil {
				return nil, err
			}
			numbers = append(numbers, n)
		}
	}
	return numbers, nil
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

// outline is the bookmarks' objects, the root first, which gets the number root.
func (d *Doc) outline(root int, kids []int) []string {
	last := root + len(d.marks)
	objects := []string{fmt.Sprintf("<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>", root+1, last, len(d.marks))}
	for i, m := range d.marks {
		n := root + 1 + i
		text := fmt.Sprintf("<< /Title %s /Parent %d 0 R /Dest [%d 0 R /XYZ 0 %.2f null]",
			textString(m.title), root, kids[m.page.Number()-1], m.page.H/MMPerPt)
		if n > root+1 {
			text += fmt.Sprintf(" /Prev %d 0 R", n-1)
		}
		if n < last {
			text += fmt.Sprintf(" /Next %d 0 R", n+1)
		}
		objects = append(objects, text+" >>")
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
