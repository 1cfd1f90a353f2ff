package xlsx

import "bytes"

// longestPlain is how many bytes a plain token has at most.
const longestPlain = 1 << 10

// plain reads the next token if it is a plain one, and is 0 where it is not. Plain is a
// text in ASCII, or a tag with its attributes in double quotes and a blank before each,
// without entities and carriage returns. encoding/xml reads the same, which FuzzTokens
// tests, but makes strings and structs for every tag.
func (s *scanner) plain() token {
	if s.text.Buffered() < longestPlain {
		s.text.Peek(longestPlain) // near the end there is less, and a fault shows later
	}
	all, _ := s.text.Peek(s.text.Buffered())
	kind, end := characters, bytes.IndexByte(all, '<')
	if end != 0 {
		if end < 0 || !isPlain(all[:end]) {
			return 0
		}
		s.chars = all[:end]
	} else {
		end = bytes.IndexByte(all, '>') + 1
		if end == 0 {
			return 0
		}
		if kind = s.plainTag(all[1 : end-1]); kind == 0 {
			return 0
		}
	}
	s.text.Discard(end)
	return kind
}

// plainTag takes a tag apart, given without its brackets; 0 where it is not plain.
func (s *scanner) plainTag(tag []byte) token {
	s.attrs = s.attrs[:0]
	if name, ends := bytes.CutPrefix(tag, []byte("/")); ends {
		s.name = plainName(name)
		if s.name == nil {
			return 0
		}
		return endTag
	}
	tag, closes := bytes.CutSuffix(tag, []byte("/"))
	name, tag, _ := bytes.Cut(bytes.TrimRight(tag, " "), []byte(" "))
	if s.name = plainName(name); s.name == nil {
		return 0
	}
	for len(tag) > 0 {
		name, rest, begins := bytes.Cut(tag, []byte(`="`))
		value, rest, ends := bytes.Cut(rest, []byte(`"`))
		a := attribute{plainName(name), value}
		if !begins || !ends || a.name == nil || !isPlain(value) {
			return 0
		}
		s.attrs = append(s.attrs, a)
		blank := false
		if tag, blank = bytes.CutPrefix(rest, []byte(" ")); !blank && len(rest) > 0 {
			return 0
		}
	}
	s.closes = closes
	return startTag
}

// plainName is a name without its prefix, nil where it has other characters than
// letters and digits of ASCII.
func plainName(name []byte) []byte {
	colon := -1
	for i, c := range name {
		switch {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9' && i > 0:
		case c == ':' && colon < 0 && 0 < i && i < len(name)-1:
			colon = i
		default:
			return nil
		}
	}
	if len(name) == 0 {
		return nil
	}
	return name[colon+1:]
}

// isPlain reports whether a text means what its bytes are.
func isPlain(text []byte) bool {
	for _, c := range text {
		if c < ' ' && c != '\n' && c != '\t' || c > '~' || c == '&' || c == '<' || c == ']' {
			return false
		}
	}
	return true
}
