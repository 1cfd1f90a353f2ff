package xlsx

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

// token is what a scanner comes to.
type token uint8

const (
	startTag token = iota + 1
	endTag
	characters
)

// scanner reads a part token by token and refuses what a workbook never has: document
// types, another encoding than UTF-8, elements out of order, too deep or too many, and
// tokens that are longer than any that a spreadsheet writes. Nearly all tokens are
// plain, and are read here; encoding/xml reads the others from the same buffer.
type scanner struct {
	*archive
	part string
	file io.Closer
	in   rationed
	text *bufio.Reader
	xml  *xml.Decoder

	// Of the token that was read last. Bytes are valid until the next one.
	name  []byte // without its prefix
	attrs []attribute
	chars []byte

	path    []byte // names of the elements around, each behind a slash
	depth   int    // how many there are
	closes  bool   // a plain tag <a/> was read, and its end comes next
	ahead   bool   // encoding/xml may have read the beginning of the next token
	foreign bool   // another encoding is declared
	long    []byte // room for texts in several pieces
}

type attribute struct{ name, value []byte }

func newScanner(a *archive, part string, file io.ReadCloser) (*scanner, error) {
	s := &scanner{archive: a, part: part, file: file, in: rationed{file, maxToken}}
	s.text = bufio.NewReader(&s.in)
	start, _ := s.text.Peek(2) // a fault shows when it is read
	switch string(start) {
	case "\xFF\xFE", "\xFE\xFF", "<\x00", "\x00<":
		file.Close()
		return nil, s.broken("is not written in UTF-8")
	}
	s.xml = xml.NewDecoder(s.text)
	s.xml.CharsetReader = func(string, io.Reader) (io.Reader, error) {
		s.foreign = true
		return nil, errors.New("not UTF-8")
	}
	return s, nil
}

func (s *scanner) close() { s.file.Close() }

// rationed passes on what is read until a ration is spent.
type rationed struct {
	r    io.Reader
	left int
}

func (r *rationed) Read(p []byte) (int, error) {
	if r.left <= 0 {
		return 0, bufio.ErrTooLong
	}
	n, err := r.r.Read(p)
	r.left -= n
	return n, err
}

// next is the next token; io.EOF at the end of a whole part.
func (s *scanner) next() (token, error) {
	s.in.left = maxToken
	if s.closes {
		s.closes = false
		return endTag, s.leave()
	}
	kind := token(0)
	if !s.ahead {
		kind = s.plain()
	}
	for kind == 0 {
		t, err := s.xml.RawToken()
		if err != nil {
			return 0, s.fault(err)
		}
		s.ahead = false
		switch t := t.(type) {
		case xml.StartElement:
			kind, s.ahead, s.name, s.attrs = startTag, true, []byte(t.Name.Local), s.attrs[:0]
			for _, a := range t.Attr {
				s.attrs = append(s.attrs, attribute{[]byte(a.Name.Local), []byte(a.Value)})
			}
		case xml.EndElement:
			kind, s.name = endTag, []byte(t.Name.Local)
		case xml.CharData:
			kind, s.ahead, s.chars = characters, true, t
		case xml.Directive:
			return 0, s.broken("declares a document type, which workbooks never do")
		}
	}
	switch kind {
	case startTag:
		return kind, s.enter()
	case endTag:
		return kind, s.leave()
	}
	return kind, nil
}

// fault is the error of a part that cannot be read on; io.EOF at its end.
func (s *scanner) fault(err error) error {
	var syntax *xml.SyntaxError
	isSyntax := errors.As(err, &syntax)
	switch {
	case err == io.EOF && s.depth == 0:
		return err
	case err == io.EOF, isSyntax && syntax.Msg == "unexpected EOF":
		return s.broken("ends in the middle")
	case s.foreign:
		return s.broken("is not written in UTF-8")
	case err == bufio.ErrTooLong:
		return s.broken(fmt.Sprintf("has a text longer than %d characters, or an element of more than %s", maxText, byteCount(maxToken)))
	case isSyntax:
		return s.broken("is not valid XML")
	}
	return s.broken("cannot be unpacked")
}

func (s *scanner) broken(how string) error {
	return damaged(fmt.Sprintf("its part %.60q %s", s.part, how))
}

// enter begins the element of the name that was read last.
func (s *scanner) enter() error {
	if len(s.attrs) > maxAttributes {
		return s.broken(fmt.Sprintf("has an element with more than %d attributes", maxAttributes))
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
