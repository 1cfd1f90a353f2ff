package xlsx

import (
	"bufio"
	"bytes"
	"fmt"
	"html"
	"io"
	"unicode"
	"unicode/utf8"
)

// token is what a scanner comes to.
type token uint8

const (
	startTag token = iota + 1
	endTag
	characters
)

// scanner reads a part token by token. It refuses what a workbook never has: document
// types, another encoding than UTF-8, elements out of order or too deep, and tokens
// that are longer than any that a spreadsheet writes. What it reads, encoding/xml reads
// the same (FuzzTokens), but makes strings and structs of every tag.
type scanner struct {
	*archive
	part string
	text *bufio.Scanner // cuts the part into tokens

	// Of the token that was read last. Bytes are valid until the next one.
	name  []byte // without its prefix
	attrs []attribute
	chars []byte

	path   []byte // names of the elements around, each behind a slash
	depth  int    // how many there are
	closes bool   // a tag <a/> was read, and its end comes next
	long   []byte // room for texts in several pieces
}

type attribute struct{ name, value []byte }

func newScanner(a *archive, part string, file io.Reader) *scanner {
	s := &scanner{archive: a, part: part, text: bufio.NewScanner(file)}
	s.text.Buffer(nil, maxToken)
	s.text.Split(cutToken)
	return s
}

// enclosed are the tokens that begin and end with more than brackets.
var enclosed = []struct{ begin, end []byte }{
	{[]byte("<?"), []byte("?>")}, {[]byte("<!--"), []byte("-->")}, {cdata, []byte("]]>")},
}

var cdata = []byte("<![CDATA[")

// cutToken cuts a tag, or the text before the next one, off the data (bufio.SplitFunc).
func cutToken(data []byte, atEnd bool) (length int, token []byte, err error) {
	switch {
	case len(data) < len(cdata) && !atEnd:
		return 0, nil, nil
	case len(data) > 0 && data[0] == '<':
		length = tagLength(data)
	default:
		length = bytes.IndexByte(data, '<')
	}
	if length <= 0 && atEnd {
		length = len(data)
	}
	if length <= 0 {
		return 0, nil, nil
	}
	return length, data[:length], nil
}

// tagLength is the length of the tag that data begins with, 0 where it does not end. A
// value in quotes may hold a ">".
func tagLength(data []byte) int {
	for _, t := range enclosed {
		if rest, is := bytes.CutPrefix(data, t.begin); is {
			if end := bytes.Index(rest, t.end); end >= 0 {
				return len(t.begin) + end + len(t.end)
			}
			return 0
		}
	}
	quote := byte(0)
	for i, c := range data {
		switch {
		case c == quote:
			quote = 0
		case quote == 0 && c == '>':
			return i + 1
		case quote == 0 && (c == '"' || c == '\''):
			quote = c
		}
	}
	return 0
}

// next is the next token; io.EOF at the end of a whole part.
func (s *scanner) next() (token, error) {
	if s.closes {
		s.closes = false
		return endTag, s.leave()
	}
	for s.text.Scan() {
		text := s.text.Bytes()
		switch rest, isTag := bytes.CutPrefix(text, []byte("<")); {
		case !isXML(text):
			return 0, s.broken("is not XML in UTF-8")
		case !isTag:
			s.chars = decoded(text)
			return characters, nil
		case text[len(text)-1] != '>', bytes.HasPrefix(text, cdata) && !bytes.HasSuffix(rest[len(cdata)-1:], []byte("]]>")):
			return 0, s.broken("ends in the middle")
		case bytes.HasPrefix(text, cdata):
			s.chars = lineFeeds(text[len(cdata) : len(text)-len("]]>")])
			return characters, nil
		case bytes.HasPrefix(text, []byte("<!D")):
			return 0, s.broken("declares a document type, which workbooks never do")
		case rest[0] == '/':
			s.name = local(rest[1 : len(rest)-1])
			return endTag, s.leave()
		case rest[0] != '!' && rest[0] != '?':
			return startTag, s.enter(rest[:len(rest)-1])
		}
	}
	return 0, s.end()
}

// end is io.EOF behind a whole part, else why it ends.
func (s *scanner) end() error {
	switch err := s.text.Err(); {
	case err == bufio.ErrTooLong:
		return s.broken(fmt.Sprintf("has a text longer than %d characters, or an element of more than %s",
			maxText, byteCount(maxToken)))
	case err != nil:
		return s.broken("cannot be unpacked")
	case s.depth > 0:
		return s.broken("ends in the middle")
	}
	return io.EOF
}

func (s *scanner) broken(how string) error {
	return damaged(fmt.Sprintf("its part %.60q %s", s.part, how))
}

// enter begins the element of a tag, which is given without its brackets.
func (s *scanner) enter(tag []byte) error {
	if s.depth++; s.depth > maxDepth {
		return s.broken(fmt.Sprintf("nests elements deeper than %d", maxDepth))
	}
	tag, s.closes = bytes.CutSuffix(tag, []byte("/"))
	end := bytes.IndexFunc(tag, unicode.IsSpace)
	if end < 0 {
		end = len(tag)
	}
	s.name, s.attrs = local(tag[:end]), s.attrs[:0]
	s.path = append(append(s.path, '/'), s.name...)
	for rest := bytes.TrimSpace(tag[end:]); len(rest) > 0; rest = bytes.TrimSpace(rest) {
		name, value, _ := bytes.Cut(rest, []byte("="))
		value = bytes.TrimSpace(value)
		if len(value) == 0 || value[0] != '"' && value[0] != '\'' {
			return s.broken("has an attribute without quotes")
		}
		value, rest, _ = bytes.Cut(value[1:], value[:1])
		s.attrs = append(s.attrs, attribute{local(name), decoded(value)})
	}
	return nil
}

// leave ends the element of the name that was read last.
func (s *scanner) leave() error {
	last := bytes.LastIndexByte(s.path, '/')
	if last < 0 || !bytes.Equal(s.path[last+1:], s.name) {
		return s.broken("closes an element that is not open")
	}
	s.depth--
	s.path = s.path[:last]
	return nil
}

// attribute is an attribute of the tag that was read last, "" when it has none of
// that name.
func (s *scanner) attribute(name string) string {
	for _, a := range s.attrs {
		if string(a.name) == name {
			return string(a.value)
		}
	}
	return ""
}

// local is a name without its prefix.
func local(name []byte) []byte {
	name = bytes.TrimSpace(name)
	if prefix, local, _ := bytes.Cut(name, []byte(":")); len(prefix) > 0 && len(local) > 0 {
		return local
	}
	return name
}

// decoded is a text with its entities and line ends as they are meant.
func decoded(text []byte) []byte {
	if bytes.IndexByte(text, '&') < 0 { // nearly all
		return lineFeeds(text)
	}
	return []byte(html.UnescapeString(string(lineFeeds(text))))
}

// lineFeeds is a text with line feeds for all line ends.
func lineFeeds(text []byte) []byte {
	if bytes.IndexByte(text, '\r') < 0 {
		return text
	}
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
}

// isXML reports whether a text is in UTF-8 and has no characters that XML forbids.
func isXML(text []byte) bool {
	for _, c := range text {
		if c < ' ' && c != '\n' && c != '\t' && c != '\r' {
			return false
		}
	}
	return utf8.Valid(text)
}
