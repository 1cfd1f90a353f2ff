package xlsx

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// token is what a scanner comes to.
type token uint8

const (
	startTag token = iota + 1
	endTag
	characters
)

// scanner reads a part token by token and refuses what a workbook never has. It
// reads the XML that parts are written in: no document types, no entities but
// the five of XML, names by what is behind their prefix. encoding/xml takes
// a value apart into structs and strings for every tag, which was a third of the
// time of reading a thousand logs.
type scanner struct {
	*archive
	part string
	file io.Closer
	in   *bufio.Scanner

	// Of the token that was read last. Bytes are valid until the next one.
	name  []byte
	attrs []attr
	chars []byte

	path   []byte // names of the elements around, each behind a slash
	depth  int    // how many there are
	closes bool   // a tag <a/> was read, and its end comes next
	room   []byte // for texts in which something is written out
	long   []byte // for texts in several pieces
}

type attr struct{ name, value []byte }

func newScanner(a *archive, part string, file io.Closer, in io.Reader) *scanner {
	s := &scanner{archive: a, part: part, file: file, in: bufio.NewScanner(in)}
	s.in.Buffer(nil, maxToken)
	s.in.Split(cutToken)
	return s
}

func (s *scanner) close() { s.file.Close() }

var errCut = errors.New("ends in the middle")

// cutToken is a bufio.SplitFunc: a tag with its brackets, or a text between two.
func cutToken(data []byte, atEOF bool) (advance int, token []byte, err error) {
	const longestBegin = len("<![CDATA[")
	end := -1
	switch {
	case len(data) == 0 || data[0] == '<' && len(data) < longestBegin && !atEOF:
		return 0, nil, nil
	case data[0] != '<':
		if end = bytes.IndexByte(data, '<'); end < 0 && atEOF {
			end = len(data)
		}
	case bytes.HasPrefix(data, []byte("<!--")):
		end = endOf(data, 4, "-->")
	case bytes.HasPrefix(data, []byte("<![CDATA[")):
		end = endOf(data, longestBegin, "]]>")
	case bytes.HasPrefix(data, []byte("<?")):
		end = endOf(data, 2, "?>")
	case bytes.HasPrefix(data, []byte("<!")):
		end = 2 // a document type, which is refused
	default:
		end = endOfTag(data)
	}
	if end < 0 && atEOF {
		return 0, nil, errCut
	}
	if end < 0 {
		return 0, nil, nil
	}
	return end, data[:end], nil
}

// endOf is the place behind the next stop from a place on, -1 where there is none.
func endOf(data []byte, from int, stop string) int {
	if i := bytes.Index(data[from:], []byte(stop)); i >= 0 {
		return from + i + len(stop)
	}
	return -1
}

// endOfTag is the place behind the > that ends a tag, which is none in quotes.
func endOfTag(data []byte) int {
	quote := byte(0)
	for i, c := range data {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '>':
			return i + 1
		case c == '"' || c == '\'':
			quote = c
		}
	}
	return -1
}

// next is the next token; io.EOF at the end of a whole part.
func (s *scanner) next() (token, error) {
	if s.closes {
		s.closes = false
		return endTag, s.leave()
	}
	for s.in.Scan() {
		b := s.in.Bytes()
		switch {
		case b[0] != '<':
			return characters, s.setChars(b)
		case b[1] == '/':
			name, rest := cutName(b[2 : len(b)-1])
			if s.name = name; len(name) == 0 || len(bytes.TrimLeft(rest, " \t\r\n")) > 0 {
				return 0, s.invalid()
			}
			return endTag, s.leave()
		case b[1] == '?':
			if err := s.checkDeclaration(b[2 : len(b)-2]); err != nil {
				return 0, err
			}
		case b[1] != '!':
			return startTag, s.enter(b[1 : len(b)-1])
		case bytes.HasPrefix(b, []byte("<![")):
			s.chars = b[len("<![CDATA[") : len(b)-len("]]>")]
			if !validText(s.chars) {
				return 0, s.invalid()
			}
			return characters, nil
		case !bytes.HasPrefix(b, []byte("<!--")):
			return 0, s.broken("declares a document type, which workbooks never do")
		}
	}
	switch err := s.in.Err(); {
	case err == nil && s.depth == 0:
		return 0, io.EOF
	case err == nil, err == errCut:
		return 0, s.broken("ends in the middle")
	case errors.Is(err, bufio.ErrTooLong):
		return 0, s.broken(fmt.Sprintf("has a text longer than %d characters, or an element of more than %s", maxText, byteCount(maxToken)))
	}
	return 0, s.broken("cannot be unpacked")
}

func (s *scanner) invalid() error { return s.broken("is not valid XML") }

func (s *scanner) broken(how string) error {
	return damaged(fmt.Sprintf("its part %.60q %s", s.part, how))
}

// setChars sets the characters of a text.
func (s *scanner) setChars(b []byte) (err error) {
	s.room = s.room[:0]
	s.chars, err = s.written(b)
	return err
}

// enter takes a start tag apart, given without its brackets.
func (s *scanner) enter(b []byte) error {
	b, s.closes = bytes.CutSuffix(b, []byte("/"))
	if err := s.takeApart(b); err != nil {
		return err
	}
	if s.depth >= maxDepth {
		return s.broken(fmt.Sprintf("nests elements deeper than %d", maxDepth))
	}
	if s.tags--; s.tags < 0 {
		return tooLarge("its parts have more than %d elements", s.limits.Elements)
	}
	s.depth++
	s.path = append(append(s.path, '/'), s.name...)
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

// takeApart reads the name of a tag and its attributes.
func (s *scanner) takeApart(b []byte) error {
	s.attrs, s.room = s.attrs[:0], s.room[:0]
	s.name, b = cutName(b)
	if len(s.name) == 0 {
		return s.invalid()
	}
	for {
		if b = bytes.TrimLeft(b, " \t\r\n"); len(b) == 0 {
			return nil
		}
		name, rest := cutName(b)
		value, isSet := bytes.CutPrefix(bytes.TrimLeft(rest, " \t\r\n"), []byte("="))
		value = bytes.TrimLeft(value, " \t\r\n")
		if len(name) == 0 || !isSet || len(value) < 2 || value[0] != '"' && value[0] != '\'' {
			return s.invalid()
		}
		value, b, _ = bytes.Cut(value[1:], value[:1])
		if bytes.IndexByte(value, '<') >= 0 {
			return s.invalid()
		}
		if len(s.attrs) >= maxAttributes {
			return s.broken(fmt.Sprintf("has an element with more than %d attributes", maxAttributes))
		}
		value, err := s.written(value)
		if err != nil {
			return err
		}
		s.attrs = append(s.attrs, attr{name, value})
	}
}

// cutName takes a name off b, without its prefix; nothing where b begins with none.
func cutName(b []byte) (local, rest []byte) {
	end, colon := 0, -1
	for ; end < len(b); end++ {
		switch c := b[end]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', c == '_', c >= utf8.RuneSelf:
		case c == ':':
			if colon >= 0 {
				return nil, b
			}
			colon = end
		case end > 0 && ('0' <= c && c <= '9' || c == '-' || c == '.'):
		default:
			return nameBehind(b[:end], colon), b[end:]
		}
	}
	return nameBehind(b, colon), nil
}

// nameBehind is what is behind the colon of a name, or all of it.
func nameBehind(name []byte, colon int) []byte {
	if colon > 0 && colon < len(name)-1 {
		name = name[colon+1:]
	}
	if !validText(name) {
		return nil
	}
	return name
}

// checkDeclaration refuses the declaration of another encoding than UTF-8.
func (s *scanner) checkDeclaration(b []byte) error {
	if name, _ := cutName(b); string(name) != "xml" {
		return nil // not the declaration
	}
	if err := s.takeApart(b); err != nil {
		return err
	}
	if encoding := s.attribute("encoding"); len(encoding) > 0 && !strings.EqualFold(string(encoding), "utf-8") {
		return s.broken("is not written in UTF-8")
	}
	return nil
}

// attribute is an attribute of the tag that was read last, empty when it has
// none of that name.
func (s *scanner) attribute(name string) []byte {
	for _, a := range s.attrs {
		if string(a.name) == name {
			return a.value
		}
	}
	return nil
}

// written is a text with what is written out in it, &lt; and line ends, as it is
// meant. It is b itself or is in s.room.
func (s *scanner) written(b []byte) ([]byte, error) {
	if !validText(b) {
		return nil, s.invalid()
	}
	if bytes.IndexByte(b, '&') < 0 && bytes.IndexByte(b, '\r') < 0 {
		return b, nil
	}
	from := len(s.room)
	for len(b) > 0 {
		i := bytes.IndexAny(b, "&\r")
		if i < 0 {
			i = len(b)
		}
		s.room = append(s.room, b[:i]...)
		if b = b[i:]; len(b) == 0 {
			break
		}
		if b[0] == '\r' {
			s.room = append(s.room, '\n')
			b = bytes.TrimPrefix(b[1:], []byte("\n"))
			continue
		}
		entity, rest, ended := bytes.Cut(b[1:], []byte(";"))
		r := entityRune(string(entity))
		if !ended || r < 0 {
			return nil, s.invalid()
		}
		s.room = utf8.AppendRune(s.room, r)
		b = rest
	}
	return s.room[from:], nil
}

// entityRune is the character of an entity, -1 of one that XML does not have.
func entityRune(entity string) rune {
	switch entity {
	case "lt":
		return '<'
	case "gt":
		return '>'
	case "amp":
		return '&'
	case "quot":
		return '"'
	case "apos":
		return '\''
	}
	number, isNumber := strings.CutPrefix(entity, "#")
	base := 10
	if hex, isHex := strings.CutPrefix(number, "x"); isHex {
		number, base = hex, 16
	}
	if n, err := strconv.ParseUint(number, base, 32); isNumber && err == nil && n <= utf8.MaxRune && validText(utf8.AppendRune(nil, rune(n))) {
		return rune(n)
	}
	return -1
}

// validText reports whether all characters of b may be in XML (XML 1.0, 2.2).
func validText(b []byte) bool {
	isASCII := true
	for _, c := range b {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' {
			return false
		}
		isASCII = isASCII && c < utf8.RuneSelf
	}
	return isASCII || utf8.Valid(b) && !bytes.Contains(b, []byte("\uFFFE")) && !bytes.Contains(b, []byte("\uFFFF"))
}
