package plan

import (
	"bytes"
	"errors"
	"regexp"
	"strconv"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// largestFile is 1 MiB: a plan of a hundred thousand written-out cups.
const largestFile = 1 << 20

// cellsKey is where the cups of a list begin.
var cellsKey = regexp.MustCompile(`(?m)^[ \t]*"?cells"?[ \t]*=`)

// Read checks the text of a plan and turns it into blend's types; name is only
// for messages. What deserves a question comes back as warnings. A plan that is
// wrong gives Problems, all that could be found, in the order of the lines.
func Read(name string, src []byte) (*blend.Plan, []Note, error) {
	r := &reader{file: name}
	p := r.read(src)
	if len(r.problems) == 0 {
		return p, r.warnings, nil
	}
	r.problems.inOrder()
	return nil, nil, r.problems
}

func (r *reader) read(src []byte) *blend.Plan {
	src, foreign := quantity.Text(src)
	if foreign != "" {
		r.problem(1, "this is "+foreign+", not a text file", "open it in its own program and save it as text (.txt), encoding UTF-8")
		return nil
	}
	if len(src) > largestFile {
		r.problem(1, "the file is "+strconv.Itoa(len(src)>>10)+" KiB long", "a plan has at most 1024 KiB; is it the right file?")
		return nil
	}
	if line := badUTF8(src); line > 0 {
		r.problem(line, "a character is not UTF-8", "save the file again, in the editor's Save as, with the encoding UTF-8")
		return nil
	}
	// Cups that are written out are counted before a tree is made of them.
	if bytes.Count(src, []byte("[")) > blend.MaxCells {
		at := 0
		if cells := cellsKey.FindIndex(src); cells != nil {
			at = cells[0]
		}
		if bytes.Count(src[at:at+extent(src[at:])], []byte("[")) > blend.MaxCells+1 {
			line := 1 + bytes.Count(src[:at], []byte("\n"))
			r.problem(line, "the plan lists more than "+strconv.Itoa(blend.MaxCells)+" cups", "at most "+strconv.Itoa(blend.MaxCells))
			return nil
		}
	}
	root := r.tree(src)
	if root == nil {
		return nil
	}
	p := r.plan(root)
	if len(r.problems) == 0 {
		// The library comes last: its time grows with the square of the number
		// of keys.
		if line := unsound(src); line > 0 {
			r.problem(line, "this line cannot be read", "each key and section once, and numbers such as 12.5")
		}
	}
	return p
}

// tree is the text as a tree, nil when nothing can be said about it. A
// statement that is not TOML is a problem; it is read as it was meant, or else
// left out, so that the rest of the file is looked at too.
func (r *reader) tree(src []byte) *table {
	root, ok := parse(src, r.problem)
	if ok {
		return root
	}
	r.problems = nil
	src = r.repair(src)
	if len(r.problems) > mostProblems {
		return nil
	}
	root, _ = parse(src, r.problem)
	return root
}

// badUTF8 is the line of the first byte that is not UTF-8, 0 when all are.
func badUTF8(src []byte) int {
	line := 1
	for len(src) > 0 {
		r, size := utf8.DecodeRune(src)
		if r == utf8.RuneError && size == 1 {
			return line
		}
		if r == '\n' {
			line++
		}
		src = src[size:]
	}
	return 0
}

// plan reads every section by the schema, and then what holds between keys.
func (r *reader) plan(root *table) *blend.Plan {
	d := &draft{plan: &blend.Plan{}}
	top := fields{reader: r, s: section(""), line: 1, t: root}
	r.design = designOf(root)
	top.read(d)
	p := d.plan
	f := map[string]fields{}
	for i := range sections() {
		s := &sections()[i]
		if s.Path != "" && s.Path != "blend.series" {
			f[s.Path] = top.section(s, d)
		}
	}
	top.mark(p)
	f["cup"].cup(d)
	f["measure"].kit(d)
	m := r.materials(d)
	top.glazes(d, m)
	f["blend"].blend(d, m)
	f["tiles"].tiles(d)
	f["board"].board(d)
	f["labels"].sheetOfLabels(d)
	f["log"].log(d)
	f["chemistry"].chemistry(d)
	p.Also = d.also.names
	r.pours(d)
	if len(r.problems) == 0 {
		top.density(d)
		f["blend"].extent(d)
		var fault *blend.Fault
		if _, err := p.SharedCup(); errors.As(err, &fault) {
			top.problem(f["cup"].at("batch"), fault.What, fault.Fix)
		}
		m.questions(d)
	}
	return p
}
