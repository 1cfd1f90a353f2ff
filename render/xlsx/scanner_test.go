package xlsx

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"
	"unicode"
)

// libraryTokens is what encoding/xml reads, a line for each token; read is false
// where it refuses the text, or a workbook may not have it.
func libraryTokens(text []byte) (lines string, read bool) {
	var b strings.Builder
	var open []string
	for d := xml.NewDecoder(bytes.NewReader(text)); ; {
		t, err := d.RawToken()
		if err != nil {
			return b.String(), err == io.EOF && len(open) == 0
		}
		switch t := t.(type) {
		case xml.Directive:
			return "", false
		case xml.StartElement:
			if open = append(open, t.Name.Local); len(open) > maxDepth {
				return "", false
			}
			fmt.Fprintf(&b, "<%s", t.Name.Local)
			for _, a := range t.Attr {
				fmt.Fprintf(&b, " %s=%q", a.Name.Local, a.Value)
			}
			b.WriteString(">\n")
		case xml.EndElement:
			last := len(open) - 1
			if last < 0 || open[last] != t.Name.Local {
				return "", false
			}
			open = open[:last]
			fmt.Fprintf(&b, "</%s>\n", t.Name.Local)
		case xml.CharData:
			fmt.Fprintf(&b, "%q\n", t)
		}
	}
}

// scannerTokens is what the scanner reads, in the same lines.
func scannerTokens(text []byte) (string, error) {
	var b strings.Builder
	var err error
	for s := newScanner(&archive{}, "x", bytes.NewReader(text)); err == nil; {
		var kind token
		switch kind, err = s.next(); {
		case err != nil:
		case kind == startTag:
			fmt.Fprintf(&b, "<%s", s.name)
			for _, a := range s.attrs {
				fmt.Fprintf(&b, " %s=%q", a.name, a.value)
			}
			b.WriteString(">\n")
		case kind == endTag:
			fmt.Fprintf(&b, "</%s>\n", s.name)
		default:
			fmt.Fprintf(&b, "%q\n", s.chars)
		}
	}
	if err == io.EOF {
		err = nil
	}
	return b.String(), err
}

// FuzzTokens holds the scanner against encoding/xml: what the library reads, the scanner
// reads to the same tokens. The library writes &#x80; to &#x9f; as control characters,
// which no program means by them; the scanner reads them as HTML does. The library lets
// control characters pass in instructions.
func FuzzTokens(f *testing.F) {
	for _, part := range goodParts() {
		f.Add([]byte(part))
	}
	long := strings.Repeat("<a b=\"c\">d</a>", 1000)
	for _, text := range []string{
		"", " ", "<a/>", "<a />", "<a></a>", "<a b='1' c = \"2\"d='>'/>", "<a b=\"1\" c=\"2\"/>", "<a b=\"1\"c=\"2\"/>", "<x:a y:b=\"1\"/>",
		"<a:/>", "<:a/>", "<a:b:c/>", "<>", "</>", "< a/>", "<a", "<a b>", "<a b=c/>", "<a b=\">\">x</a>", "<a b=\"/\"/>", "<a =\"b\"/>",
		"<a>&lt;&gt;&amp;&quot;&apos;&#65;&#x4e2d;&#13;</a>x", "<a>&no;</a>", "<a>&#0;</a>", "<a>& b</a>", "<a>1\r\n2\r3\n</a>",
		"<a b=\"1\r\n2&#10;&lt;\"/>", "<a b=\"<\"/>", "<a><![CDATA[<b>&amp;]]]]></a>", "<a><![CDATA[1\r\n2\r]]></a>", "<![CDATA[>", "<![CDATA[", "<!-- x --><a/>", "<!DOCTYPE a>",
		"<?xml version='1.0' encoding='utf-8'?><a/>", "<?xml version='1.0' encoding='latin1'?><a/>", "<a>\xE9</a>", "<a>é</a>", "<a>\x00</a>", "<a>\uFFFE</a>",
		"<ä/>", "<a ></a >", "<a/ >", "</a>", "<a></b>", "\uFEFF<a/>", "<a1.2-3/>", "<1/>", "<a>]]></a>", "<a>]</a>", "<a>é<b/>c</a>", "<a b='1'><c d=\"2\"/></a>",
		long, long[1:], strings.ReplaceAll(long, "d", strings.Repeat("d", 3000)), strings.ReplaceAll(long, "d", strings.Repeat("é", 700)),
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		want, read := libraryTokens(text)
		got, err := scannerTokens(text)
		if !read || !isXML(text) || bytes.Contains(text, []byte("&#")) && strings.ContainsFunc(want, unicode.IsControl) {
			return
		}
		if err != nil || got != want {
			t.Errorf("%q is read as\n%s (%v)\nwant\n%s", text, got, err, want)
		}
	})
}
