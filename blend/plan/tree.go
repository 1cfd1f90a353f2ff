package plan

import (
	"bytes"
	"errors"
	"regexp"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// This is the one file that leans on the parser inside the TOML library: its
// interface is not promised, and the version is pinned in go.mod.

// kind is what sort of value a key has.
type kind uint8

const (
	text   kind = iota
	figure      // a number, integer or not
	truth       // true or false
	date        // of no use in a plan
	list
	group // of keys: under a heading of its own, or in braces
)

// value is what a key has, or an entry of a list, with the line that it begins on.
type value struct {
	key    string // "" in a list
	line   int
	kind   kind
	text   string            // a text itself; a figure, truth or date as it was written
	items  []*value          // of a list; of a group its keys in the order of the file
	byKey  map[string]*value // of a group
	headed bool              // a group that has had a heading of its own
}

func newGroup(key string, line int) *value {
	return &value{key: key, line: line, kind: group, byKey: map[string]*value{}}
}

// put gives a key of the group a value, in place of one that it has.
func (v *value) put(entry *value) *value {
	if v.byKey[entry.key] == nil {
		v.items = append(v.items, entry)
	}
	v.byKey[entry.key] = entry
	return entry
}

// below is the value at the end of a path of keys, nil where there is none.
func (v *value) below(path string) *value {
	for key := range strings.SplitSeq(path, ".") {
		if key != "" && v != nil {
			v = v.byKey[key]
		}
	}
	return v
}

// parser makes a tree of a text that is added to it piece by piece.
type parser struct {
	root, here *value // here is the group that the last heading opened
	problem    func(line int, what, right string)
	headings   int

	toml unstable.Parser
	src  []byte // the piece at work
	at   int    // a place in it
	row  int    // and its line
}

func newParser(problem func(line int, what, right string)) *parser {
	root := newGroup("", 1)
	return &parser{root: root, here: root, problem: problem}
}

// parse makes a tree of a text that is known to be right.
func parse(text string) *value {
	p := newParser(ignore)
	p.add([]byte(text), 1)
	return p.root
}

// syntax is a place where a text is not TOML.
type syntax struct {
	start int    // offset of the line on which its statement begins
	at    int    // offset where the parser stopped
	what  string // the library's words
}

// mostHeadings is how many sections are read.
const mostHeadings = 2000

// add reads a piece of text that begins on a line, as far as it is TOML. Keys and
// headings that are given twice are problems.
func (p *parser) add(src []byte, line int) *syntax {
	p.src, p.at, p.row = src, 0, line
	p.toml.Reset(src)
	start := 0
	for p.toml.NextExpression() && p.headings <= mostHeadings {
		e := p.toml.Expression()
		start = lineAfter(src, end(e))
		if e.Kind == unstable.KeyValue {
			p.keyed(p.here, e)
		} else if p.headings++; p.headings > mostHeadings {
			p.problem(p.line(end(e)), "more than "+strconv.Itoa(mostHeadings)+" sections", "is it the right file?")
		} else {
			p.heading(e)
		}
	}
	var err *unstable.ParserError
	if !errors.As(p.toml.Error(), &err) {
		return nil
	}
	at := int(p.toml.Range(err.Highlight).Offset)
	start += len(commentLines.Find(src[start:max(start, at)]))
	return &syntax{start, at, err.Error()}
}

// commentLines are lines of blanks and comments.
var commentLines = regexp.MustCompile(`^(\s*(#.*)?\n)+`)

// lineAfter is where the line below an offset begins.
func lineAfter(src []byte, offset int) int {
	if n := bytes.IndexByte(src[offset:], '\n'); n >= 0 {
		return offset + n + 1
	}
	return len(src)
}

// end is where an expression ends: a heading with the last of its keys.
func end(e *unstable.Node) int {
	raw := e.Raw
	if e.Kind != unstable.KeyValue {
		for it := e.Key(); it.Next(); {
			raw = it.Node().Raw
		}
	}
	return int(raw.Offset + raw.Length)
}

// line is the line of an offset.
func (p *parser) line(offset int) int {
	if offset < p.at {
		p.row -= bytes.Count(p.src[offset:p.at], []byte("\n"))
	} else {
		p.row += bytes.Count(p.src[p.at:offset], []byte("\n"))
	}
	p.at = offset
	return p.row
}

// mostParts is how many parts of a key or a heading are read: no plan has as many.
const mostParts = 8

// keys is the parts of a key or a heading, and its line.
func (p *parser) keys(e *unstable.Node) (keys []string, line int) {
	for it := e.Key(); it.Next() && len(keys) < mostParts; {
		keys = append(keys, string(it.Node().Data))
		line = p.line(int(it.Node().Raw.Offset))
	}
	return keys, line
}

// heading opens the group of a [heading] or [[heading]].
func (p *parser) heading(e *unstable.Node) {
	p.here = newGroup("", 0) // for what follows a heading that cannot be opened
	keys, line := p.keys(e)
	path := strings.Join(keys, ".")
	many := e.Kind == unstable.ArrayTable
	if meant := meantPath(path); meant != nil {
		p.problem(line, "unknown section "+inBrackets(path, many), "did you mean "+meant.heading()+"?")
		path, keys, many = meant.Path, strings.Split(meant.Path, "."), meant.Several
	}
	if s := section(path); s != nil && many != s.Several {
		p.problem(line, inBrackets(path, many)+" has the wrong brackets", "write "+s.heading())
		many = s.Several
	}
	if in := p.within(p.root, keys, line); in != nil {
		p.here = p.open(in, keys[len(keys)-1], line, many)
	}
}

// open is the group that a heading opens.
func (p *parser) open(in *value, key string, line int, many bool) *value {
	old := in.byKey[key]
	fresh := newGroup(key, line)
	switch {
	case !many && old != nil && old.kind == group && !old.headed:
		fresh = old
	case !many && old != nil, old != nil && old.kind != list:
		p.twice(line, key, old)
	case !many:
		in.put(fresh)
	default:
		if old == nil {
			old = in.put(&value{key: key, line: line, kind: list})
		}
		old.items = append(old.items, fresh)
	}
	fresh.headed = true
	return fresh
}

func (p *parser) twice(line int, key string, first *value) {
	p.problem(line, quote(key)+" is given twice", "keep one; the first is on line "+strconv.Itoa(first.line))
}

// within is the group in which the last of a dotted key's parts is, or nil when
// one before has a value, which is a problem.
func (p *parser) within(in *value, keys []string, line int) *value {
	for _, key := range keys[:len(keys)-1] {
		v := in.byKey[key]
		if v != nil && v.kind == list && len(v.items) > 0 {
			v = v.items[len(v.items)-1]
		}
		if v == nil {
			v = in.put(newGroup(key, line))
		} else if v.kind != group {
			p.problem(line, quote(key)+" cannot hold further keys", "it has a value on line "+strconv.Itoa(v.line))
			return nil
		}
		in = v
	}
	return in
}

// keyed puts a key and its value into a group.
func (p *parser) keyed(in *value, e *unstable.Node) {
	keys, line := p.keys(e)
	if in = p.within(in, keys, line); in == nil {
		return
	}
	key := keys[len(keys)-1]
	if old := in.byKey[key]; old != nil {
		p.twice(line, key, old)
		return
	}
	v := p.value(e.Value(), line)
	v.key, v.line = key, line
	in.put(v)
}

// value copies a node of the library's tree, which does not outlive its
// expression. line is that of what is before it, for what has no place of its own.
func (p *parser) value(n *unstable.Node, line int) *value {
	if n.Raw.Length > 0 {
		line = p.line(int(n.Raw.Offset))
	}
	v := &value{line: line, text: string(n.Data)}
	switch n.Kind {
	case unstable.String:
		v.kind = text
	case unstable.Bool:
		v.kind = truth
	case unstable.Integer, unstable.Float:
		v.kind = figure
	case unstable.Array:
		v.kind = list
		for it := n.Children(); it.Next(); {
			item := p.value(it.Node(), line)
			v.items = append(v.items, item)
			line = item.line
		}
		if len(v.items) > 0 {
			v.line = v.items[0].line
		}
	case unstable.InlineTable:
		v = newGroup("", line)
		v.headed = true
		for it := n.Children(); it.Next(); {
			p.keyed(v, it.Node())
		}
	default:
		v.kind = date
	}
	return v
}
