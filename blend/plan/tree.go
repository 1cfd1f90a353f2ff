package plan

import (
	"bytes"
	"errors"
	"sort"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
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
	group // a table: under a heading of its own, or in braces
)

// value is what a key has, with the line that it begins on.
type value struct {
	text        string   // a text itself; a figure, truth or date as it was written
	items       []*value // of a list
	mixedCommas bool     // of a list: [1, 2,5]
	table       *table   // of a group
	line        int
	kind        kind
}

// entry is a key with its value.
type entry struct {
	key   string
	line  int
	value *value
}

// table is the keys of a group in the order of the file.
type table struct {
	headed  bool // has had a heading of its own
	entries []*entry
	byKey   map[string]*entry
}

func newTable() *table { return &table{byKey: map[string]*entry{}} }

func (t *table) add(key string, line int, v *value) {
	e := &entry{key: key, line: line, value: v}
	t.entries = append(t.entries, e)
	t.byKey[key] = e
}

// syntax is a place where a text is not TOML.
type syntax struct {
	start int    // offset of the line on which its statement begins
	at    int    // offset where the parser stopped
	what  string // the library's words
}

// faultIn is the first place where a text is not TOML, nil when there is none.
func faultIn(src []byte) *syntax {
	var toml unstable.Parser
	toml.Reset(src)
	start := 0
	for toml.NextExpression() {
		start = lineAfter(src, end(toml.Expression()))
	}
	var err *unstable.ParserError
	if !errors.As(toml.Error(), &err) {
		return nil
	}
	s := &syntax{at: int(toml.Range(err.Highlight).Offset), what: err.Error()}
	for next := lineAfter(src, start); next < s.at; next = lineAfter(src, start) {
		if line := bytes.TrimSpace(src[start:next]); len(line) > 0 && line[0] != '#' {
			break
		}
		start = next
	}
	s.start = start
	return s
}

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

// parser makes a tree of a text.
type parser struct {
	toml     unstable.Parser
	src      []byte
	newlines []int // offsets
	root     *table
	here     *table // that the last heading opened
	problem  func(line int, what, right string)
}

// mostHeadings is how many sections are read.
const mostHeadings = 2000

// parse makes a tree of a text, as far as it is TOML; ok is false when it is cut
// short. Keys and headings that are given twice go to problem.
func parse(src []byte, problem func(line int, what, right string)) (root *table, ok bool) {
	p := &parser{src: src, problem: problem, root: newTable()}
	p.here = p.root
	for i, c := range src {
		if c == '\n' {
			p.newlines = append(p.newlines, i)
		}
	}
	p.toml.Reset(src)
	headings := 0
	for p.toml.NextExpression() {
		if p.toml.Expression().Kind != unstable.KeyValue {
			if headings++; headings > mostHeadings {
				p.problem(p.line(end(p.toml.Expression())), "more than "+strconv.Itoa(mostHeadings)+" sections", "is it the right file?")
				return p.root, true
			}
		}
		switch e := p.toml.Expression(); e.Kind {
		case unstable.Table, unstable.ArrayTable:
			p.heading(e)
		case unstable.KeyValue:
			p.keyed(p.here, e)
		}
	}
	return p.root, p.toml.Error() == nil
}

// line is the line of an offset, from 1.
func (p *parser) line(offset int) int { return 1 + sort.SearchInts(p.newlines, offset) }

// keys is the parts of a key or a heading, and its line; nil when it has more
// than any that a plan has, which is a problem.
func (p *parser) keys(e *unstable.Node) (keys []string, line int) {
	for it := e.Key(); it.Next(); {
		keys = append(keys, string(it.Node().Data))
		line = p.line(int(it.Node().Raw.Offset))
	}
	const deepest = 4 // [[blend.series]] has two
	if len(keys) > deepest {
		p.problem(line, "a key has "+strconv.Itoa(len(keys))+" parts", "no key of a plan is made of so many")
		return nil, line
	}
	return keys, line
}

// heading opens the table of a [heading] or [[heading]].
func (p *parser) heading(e *unstable.Node) {
	p.here = newTable() // for what follows a heading that cannot be opened
	keys, line := p.keys(e)
	if keys == nil {
		return
	}
	path := strings.Join(keys, ".")
	many := e.Kind == unstable.ArrayTable
	if meant := meantPath(path); meant != nil {
		p.problem(line, "unknown section "+inBrackets(path, many), "did you mean "+meant.heading()+"?")
		path, keys, many = meant.Path, strings.Split(meant.Path, "."), meant.Several
	}
	if s := section(path); s != nil && many != s.Several {
		brackets, right := "single", "there can be several, so it takes double ones: "
		if many {
			brackets, right = "double", "there is one of it: "
		}
		p.problem(line, inBrackets(path, many)+" has "+brackets+" brackets", right+s.heading())
		many = !many
	}
	if t := p.within(p.root, keys, line); t != nil {
		p.here = p.open(t, keys[len(keys)-1], path, line, many)
	}
}

// open is the table that a heading opens.
func (p *parser) open(t *table, last, path string, line int, many bool) *table {
	old := t.byKey[last]
	fresh := newTable()
	fresh.headed = true
	v := &value{kind: group, line: line, table: fresh}
	switch {
	case old == nil && many:
		t.add(last, line, &value{kind: list, line: line, items: []*value{v}})
	case old == nil:
		t.add(last, line, v)
	case many && old.value.kind == list:
		old.value.items = append(old.value.items, v)
	case !many && old.value.kind == group:
		if old.value.table.headed {
			p.problem(line, "["+path+"] is given twice", "put its keys under one heading; the first is on line "+strconv.Itoa(old.line))
		}
		old.value.table.headed = true
		return old.value.table
	default:
		p.problem(line, quote(path)+" is given twice", "it has a value on line "+strconv.Itoa(old.line)+" already")
	}
	return fresh
}

// within is the table in which the last of a dotted key's parts is, or nil when
// one before has a value, which is a problem.
func (p *parser) within(t *table, keys []string, line int) *table {
	for i, key := range keys[:len(keys)-1] {
		old := t.byKey[key]
		if old == nil {
			next := newTable()
			t.add(key, line, &value{kind: group, line: line, table: next})
			t = next
			continue
		}
		v := old.value
		if v.kind == list && len(v.items) > 0 {
			v = v.items[len(v.items)-1]
		}
		if v.kind != group {
			p.problem(line, quote(strings.Join(keys[:i+1], "."))+" cannot hold further keys", "it has a value of its own on line "+strconv.Itoa(old.line))
			return nil
		}
		t = v.table
	}
	return t
}

// keyed puts a key and its value into t.
func (p *parser) keyed(t *table, e *unstable.Node) {
	keys, line := p.keys(e)
	if keys == nil {
		return
	}
	if t = p.within(t, keys, line); t == nil {
		return
	}
	last := keys[len(keys)-1]
	if old := t.byKey[last]; old != nil {
		p.problem(line, quote(last)+" is given twice", "keep one of them; the first is on line "+strconv.Itoa(old.line))
		return
	}
	v := p.value(e.Value(), line)
	if v.kind == list {
		v.line = line // a list has no place of its own; one inside another is where its first entry is
	}
	t.add(last, line, v)
}

// value copies a node of the library's tree, which does not outlive its
// expression. line is that of its key, for what has no place of its own.
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
		p.list(v, n)
	case unstable.InlineTable:
		v.kind = group
		v.table = newTable()
		v.table.headed = true
		for it := n.Children(); it.Next(); {
			p.keyed(v.table, it.Node())
		}
	default:
		v.kind = date
	}
	return v
}

// list copies a list. A comma between two whole numbers with no blank behind it,
// where others have one, may be a decimal comma.
func (p *parser) list(v *value, n *unstable.Node) {
	v.kind = list
	line, bare, spaced, last := v.line, false, false, 0
	for it := n.Children(); it.Next(); {
		node := it.Node()
		item := p.value(node, line)
		v.items = append(v.items, item)
		line = item.line
		if first := int(node.Raw.Offset); last > 0 && node.Kind == unstable.Integer {
			between := string(p.src[last:first])
			bare = bare || between == ","
			spaced = spaced || between != ","
		}
		last = 0
		if node.Kind == unstable.Integer {
			last = int(node.Raw.Offset + node.Raw.Length)
		}
	}
	v.mixedCommas = bare && spaced
	if len(v.items) > 0 {
		v.line = v.items[0].line
	}
}

// unsound is the line of what the library finds wrong with a text that parse
// accepts: numbers out of range, tables that the standard does not let be
// reopened. It is 0 when the library finds nothing.
func unsound(src []byte) (line int) {
	var all map[string]any
	err := toml.Unmarshal(src, &all)
	var at *toml.DecodeError
	switch {
	case err == nil:
		return 0
	case errors.As(err, &at):
		line, _ = at.Position()
	}
	return max(line, 1)
}
