package xlsx

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"
)

// libraryTokens is what encoding/xml reads, a line for each token; read is false
// where it refuses the text or where a workbook may not have it.
func libraryTokens(text []byte) (lines string, read bool) {
	var b strings.Builder
	var open []string
	for d := xml.NewDecoder(bytes.NewReader(text)); ; {
		t, err := d.RawToken()
		if err == io.EOF {
			return b.String(), len(open) == 0
		}
		if err != nil {
			return "", false
		}
		switch t := t.(type) {
		case xml.Directive:
			return "", false
		case xml.ProcInst: // what the library does not look at in a declaration is of no matter
			if t.Target == "xml" && string(t.Inst) != `version="1.0" encoding="UTF-8"` {
				return "", false
			}
		case xml.StartElement:
			if open = append(open, t.Name.Local); len(open) > maxDepth || len(t.Attr) > maxAttributes {
				return "", false
			}
			fmt.Fprintf(&b, "<%s", t.Name.Local)
			for _, a := range t.Attr {
				fmt.Fprintf(&b, " %s=%q", a.Name.Local, a.Value)
			}
			b.WriteString(">\n")
		case xml.EndElement:
			if len(open) == 0 || open[len(open)-1] != t.Name.Local {
				return "", false
			}
			open = open[:len(open)-1]
			fmt.Fprintf(&b, "</%s>\n", t.Name.Local)
		case xml.CharData:
			if len(t) > 0 {
				fmt.Fprintf(&b, "%q\n", t)
			}
		}
	}
}

func ownTokens(text []byte) (lines string, err error) {
	var b strings.Builder
	s := newScanner(&archive{tags: len(text)}, "x", io.NopCloser(nil), bytes.NewReader(text))
	for {
		kind, err := s.next()
		switch {
		case err == io.EOF:
			return b.String(), nil
		case err != nil:
			return "", err
		case kind == startTag:
			fmt.Fprintf(&b, "<%s", s.name)
			for _, a := range s.attrs {
				fmt.Fprintf(&b, " %s=%q", a.name, a.value)
			}
			b.WriteString(">\n")
		case kind == endTag:
			fmt.Fprintf(&b, "</%s>\n", s.name)
		case len(s.chars) > 0:
			fmt.Fprintf(&b, "%q\n", s.chars)
		}
	}
}

// FuzzTokens holds the scanner against encoding/xml: whatever the library reads,
// it reads as the same tokens.
func FuzzTokens(f *testing.F) {
	for _, part := range goodParts() {
		f.Add([]byte(part))
	}
	for _, text := range []string{
		"", " ", "<a/>", "<a></a>", "<a b='1' c = \"2\"d='>'/>", "<x:a y:b='1'/>", "<a:/>", "<:a/>", "<a:b:c/>", "<>", "</>", "<a", "<a b>", "<a b=c/>",
		"<a>&lt;&gt;&amp;&quot;&apos;&#65;&#x4e2d;&#13;</a>", "<a>&no;</a>", "<a>&#0;</a>", "<a>&#xD800;</a>", "<a>&#1114112;</a>", "<a>& b</a>", "<a>&lt</a>",
		"<a>1\r\n2\r3\n</a>", "<a b='1\r\n2&#10;&lt;'/>", "<a b='<'/>", "<a><![CDATA[<b>&amp;]]]]></a>", "<![CDATA[", "<!-- x -->", "<!-->", "<!DOCTYPE a>", "<!a",
		"<?xml version='1.0' encoding='utf-8'?><a/>", "<?xml version='1.0' encoding='latin1'?><a/>", "<?x?><a/>", "<?", "<a>\xE9</a>", "<a>\x00</a>", "<a>\uFFFE</a>", "<ä/>",
		"<a ></a >", "<a/ >", "</a>", "<a></b>", "\uFEFF<a/>", "<a1.2-3/>", "<1/>", "<a>]]></a>",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		want, read := libraryTokens(text)
		if !read {
			return
		}
		got, err := ownTokens(text)
		if err != nil {
			t.Fatalf("%q is refused: %v", text, err)
		}
		if got != want {
			t.Errorf("%q is read as\n%s\nwant\n%s", text, got, want)
		}
	})
}
