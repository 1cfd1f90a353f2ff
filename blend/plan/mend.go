package plan

import (
	"bytes"
	"strings"
	"unicode"

	"pourboard/blend/spell"
)

// mended is a statement of a plan, a line or some, that is no TOML, as its
// maker will have meant it.
type mended struct {
	text  string // to be read in its place, with as many lines
	line  int    // that is wrong, from 0 within the statement
	what  string // is wrong, "" when the reader of the tree will say so
	right string
	lost  bool // a part of it was left out
}

// mend looks for what will have been meant by the statement that the parser
// stopped at. It gives the text with that in place of it, and from which line.
func mend(src []byte, fault *syntax) (text []byte, first int, m mended, ok bool) {
	first = fault.start
	start, end := lineAt(src, first)
	statement := strings.TrimRight(string(src[start:end]), "\r")
	if strings.ContainsFunc(statement, func(r rune) bool { return unicode.IsControl(r) && r != '\t' }) ||
		strings.Contains(statement, `"""`) || strings.Contains(statement, "'''") || len(statement) > 10_000 {
		return nil, 0, m, false
	}
	p := parted(statement)
	f, _ := written(alike(p.key))
	switch {
	case remark(statement) != "":
		m = mended{text: remark(statement), what: "a remark begins with #", right: remark(statement)}
	case p.separator == "" || strings.HasPrefix(strings.TrimSpace(statement), "[") || strings.TrimSpace(p.value) == "" && known(p.key):
		m = headed(statement)
	case alike(p.key) == "" && startsList(p.value):
		if m.text = asKey(p.key) + " = " + strings.TrimSpace(p.value); p.separator != "=" {
			return nil, 0, m, false
		}
	case f == inWords || f == inDigits || f == yesOrNo || f == rowList && !strings.ContainsAny(p.value, "[({;"):
		m = scalar(p)
	default:
		if end = extent(src, end, p.value); end-start > longestList {
			return nil, 0, m, false
		}
		m = listing(parted(strings.ReplaceAll(string(src[start:end]), "\r", "")), f)
	}
	if m.text == "" {
		return nil, 0, m, false
	}
	if _, still := parse([]byte(m.text), func(int, string, string) {}); still != nil {
		return nil, 0, m, false
	}
	m.what, m.right = strings.ReplaceAll(m.what, "\t", " "), strings.ReplaceAll(m.right, "\t", " ")
	return bytes.Join([][]byte{src[:start], []byte(m.text), src[end:]}, nil), first, m, true
}

// startsList reports whether a value is, or was meant for, a list or a group in
// some kind of brackets.
func startsList(value string) bool {
	value = strings.TrimSpace(value)
	return value != "" && strings.ContainsAny(value[:1], "[{(")
}

// remark is a line that people of other trades take for a remark, as one.
func remark(line string) string {
	line = strings.TrimSpace(line)
	for _, sign := range []string{"//", ";", "--", "/*"} {
		if rest, ok := strings.CutPrefix(line, sign); ok {
			return "# " + strings.TrimSpace(strings.TrimRight(rest, "*/"))
		}
	}
	return ""
}

// pair is a statement parted into key and value. Without = or : between them
// the key must be one that there is.
type pair struct {
	typed, key string // the key as it stands there, and without signs that no key has
	value      string
	separator  string // "" when the statement is no key with a value
}

// parted parts a statement.
func parted(statement string) pair {
	line, _, _ := strings.Cut(statement, "\n")
	at := func(end int, separator string) pair {
		p := pair{typed: strings.TrimSpace(line[:end]), value: statement[end+len(separator):], separator: separator}
		if separator == "" {
			p.separator = " "
		}
		p.key = strings.TrimFunc(p.typed, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(`-*•–"“”'`, r) })
		p.key = strings.NewReplacer("–", "-", "‑", "-", "—", "-", "−", "-", "\u00a0", " ", "\t", " ").Replace(p.key)
		return p
	}
	for i, r := range line {
		switch {
		case i > longestKey:
			return pair{}
		case r == '=' || r == ':':
			if p := at(i, string(r)); p.key != "" {
				return p
			}
			return pair{}
		case strings.ContainsRune("[({#", r):
			return pair{}
		case r == '"' && i > 0 || strings.ContainsRune("“„«", r) || r >= '0' && r <= '9':
			if p := at(i, ""); alike(p.key) != "" {
				return p
			}
		}
	}
	return pair{}
}

// headed is a statement without a value: a heading, or none.
func headed(line string) mended {
	name, _, _ := strings.Cut(line, "#")
	bare := strings.Trim(name, "[](){}<>: \t\u00a0\"“”")
	path := bare
	if !known(path) {
		path = meantPath(bare)
	}
	bracketless := strings.TrimSpace(name) == bare
	switch {
	case path == "" && (bracketless || bare == "" || strings.ContainsAny(bare, "[](),")):
		return mended{}
	case path == "":
		path = "[" + quoteKey(bare) + "]"
	default:
		path = bracketed(path)
	}
	what := "the brackets of the heading do not match"
	switch {
	case strings.HasPrefix(strings.TrimSpace(name), "[") && !strings.Contains(name, "]"):
		what = "a heading is not closed"
	case !strings.ContainsAny(name, "[]"):
		what = strings.TrimSpace(name) + " is no heading without square brackets"
	}
	return mended{text: path, what: what, right: path}
}

// asKey is a key as it is to be written: the one that there is, if it is known.
func asKey(key string) string {
	if known := alike(key); known != "" && spell.Bare(known) == spell.Bare(key) {
		return known
	}
	return quoteKey(key)
}

// noSuchKey is what is wrong with a key that is there in another spelling.
func noSuchKey(p pair) string {
	if strings.ContainsAny(p.typed, "–‑—−") {
		return "the dash in the key " + quote(p.typed) + " is no hyphen"
	}
	return "there is no key " + quote(p.typed)
}
