package plan

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// largestFile is 1 MiB: a plan of a hundred thousand written-out cells.
const largestFile = 1 << 20

// Read checks the text of a plan and turns it into blend's types; name is only
// for messages. What deserves a question comes back as warnings. A plan that is
// wrong gives Problems, all that could be found, in the order of the lines.
func Read(name string, src []byte) (*blend.Plan, []blend.Warning, error) {
	r := &reader{file: name, told: map[int]bool{}}
	src, foreign := plainText(src)
	if foreign != "" {
		r.problem(1, "this is "+foreign+" and no plain text", "a plan is plain text: open it in the program that it is from, and save it there as text (.txt), encoding UTF-8")
		return nil, nil, r.problems
	}
	var p *blend.Plan
	if root := r.tree(src); root != nil {
		p = r.plan(root)
	}
	if len(r.problems) == 0 {
		r.sound(src)
	}
	if len(r.problems) == 0 {
		return p, r.warnings, nil
	}
	r.problems.inOrder()
	return nil, nil, r.problems
}

// tree is the text as a tree, nil when nothing can be said about it.
func (r *reader) tree(src []byte) *table {
	if len(src) > largestFile {
		r.problem(1, "the file is "+strconv.Itoa(len(src)>>10)+" KiB long", "a plan has at most 1024 KiB; is it the right file?")
		return nil
	}
	if line := badUTF8(src); line > 0 {
		r.problem(line, "there is a sign that is not UTF-8", "save the file again, in the editor's Save as, with the encoding UTF-8")
		return nil
	}
	// A line that is no TOML is told of and read as it will have been meant, or
	// else left out, so that the rest of the file is looked at too.
	const mostMended = 40
	for range mostMended {
		var doubled Problems
		root, fault := parse(src, func(line int, what, right string) {
			doubled = append(doubled, Problem{Line: line, What: what, Right: right})
		})
		if fault != nil {
			if text, first, m, ok := mend(src, fault); ok {
				if m.what != "" {
					r.problem(first+m.line, m.what, m.right)
					r.told[first+m.line] = true
				}
				r.broken = r.broken || m.lost
				src = text
				continue
			}
			what, right := spoken(src, fault)
			r.problem(fault.line, what, right)
			r.told[fault.line] = true
			r.broken = true
			if text, ok := without(src, fault); ok {
				src = text
				continue
			}
		}
		for _, d := range doubled {
			r.problem(d.Line, d.What, d.Right)
		}
		return root
	}
	return nil
}

// without is the text without the statement that the parser stopped in; ok is
// false when what follows cannot be told from it, as after a heading.
func without(src []byte, fault *syntax) (text []byte, ok bool) {
	start, _ := lineAt(src, fault.start)
	_, end := lineAt(src, fault.line)
	lost := src[start:end]
	if bytes.HasPrefix(bytes.TrimSpace(lost), []byte("[")) || len(bytes.TrimSpace(lost)) == 0 {
		return nil, false
	}
	lines := bytes.Repeat([]byte("\n"), bytes.Count(lost, []byte("\n")))
	return bytes.Join([][]byte{src[:start], lines, src[end:]}, nil), true
}

// sound lets the library judge what the tree lets pass, such as a table that
// the standard does not let be reopened. It comes last: the library takes a
// time that grows with the square of the number of keys.
func (r *reader) sound(src []byte) {
	if fault := unsound(src); fault != nil {
		what, right := spoken(src, fault)
		r.problem(fault.line, what, right)
	}
}

// badUTF8 is the line of the first sign that is not UTF-8, 0 when all are.
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

// plan reads every group and then what holds between them.
func (r *reader) plan(root *table) *blend.Plan {
	f := fields{reader: r, t: root, line: 1}
	f.unknown()
	p := &blend.Plan{}
	if !f.has("title") {
		r.missing(1, "the plan has no title", `title = "Copper over a magnesia matte"`)
	}
	p.Title, _ = f.words("title", "Copper over a magnesia matte")
	p.Mark = f.mark()
	p.Cup = f.cup()
	materials := f.materials()
	p.Materials = materials.own
	p.Glazes = f.glazes(materials)
	p.Blend = f.blend(p.Glazes, materials)
	p.Kit = f.kit(p.Blend.HasSeries())
	p.Tiles = f.tiles()
	p.Board = f.board(p.Blend)
	p.Labels = f.labels(p.Board)
	p.Log = f.log()
	p.Chemistry = f.chemistry()
	if len(r.problems) == 0 {
		f.density(p)
		f.size(p)
		materials.unknown()
		materials.unused()
		f.unusedGlazes(p)
	}
	return p
}

// clear is the letters of a mark that are like no other sign, upside down
// neither.
const clear = "ACDEFGHJKLMNPRTUVWXY"

// mark is what is painted on every tile before its number.
func (f fields) mark() string {
	v := f.get("mark")
	if v == nil {
		f.caution(1, "mark", "the plan has none", "its tiles bear numbers alone, and nobody can tell them from those of another test", `1 to 4 letters or digits, letters first: mark = "MR"`)
		return ""
	}
	const right = `1 to 4 of A-Z and 0-9, letters first: mark = "MR"`
	if v.kind != text {
		f.problem(v.line, "mark is "+describe(v), right)
		return ""
	}
	mark := strings.TrimSpace(v.text)
	if !wellMarked(mark) {
		if upper := strings.ToUpper(mark); wellMarked(upper) {
			f.problem(v.line, "mark = "+quote(mark)+" has small letters", "mark = "+quote(upper))
		} else {
			f.problem(v.line, "mark = "+quote(mark)+" cannot be painted", right)
		}
		return ""
	}
	alike := map[rune]string{'O': "0", 'I': "1", 'S': "5", 'Z': "2", 'B': "8", 'Q': "O"}
	better := []rune(mark)
	var why []string
	for i, c := range better {
		if other, ok := alike[c]; ok {
			if like := string(c) + " looks like " + other; !slices.Contains(why, like) {
				why = append(why, like)
			}
			next := strings.IndexFunc(clear, func(r rune) bool { return r > c })
			better[i] = rune(clear[max(next, 0)])
		}
	}
	if why != nil {
		f.caution(v.line, "mark "+mark, listed(why, "and"), "a fired mark is easily misread", "for instance "+string(better))
	}
	return mark
}

// wellMarked reports whether a mark is 1 to 4 signs, letters before figures.
func wellMarked(mark string) bool {
	letters := strings.TrimLeft(mark, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	return len(mark) <= 4 && mark != "" && letters != mark && strings.Trim(letters, "0123456789") == ""
}

// density holds each slip's specific gravity against that of its solids.
func (f fields) density(p *blend.Plan) {
	library := oxide.Builtin().With(p.Materials...)
	for i, g := range f.groups("glaze", "glaze") {
		glaze := p.Glazes[i]
		if solids := glaze.SolidsDensity(library); glaze.SG >= solids {
			f.problem(g.at("specific-gravity"), "specific-gravity = "+number(glaze.SG)+" is not below the density of the dry materials, "+strconv.FormatFloat(solids, 'f', 2, 64)+" g/mL",
				"a slip for dipping has about 1.4 to 1.5")
		}
	}
}

// size holds the design against what can be reckoned and painted.
func (f fields) size(p *blend.Plan) {
	b := f.group("blend")
	if p.Blend.Count() > blend.MaxCells {
		f.problem(b.counted(), "the design has more than "+strconv.Itoa(blend.MaxCells)+" cups", "fewer steps")
		return
	}
	cells, err := p.Blend.CellCount()
	if err != nil {
		line := b.counted()
		if b.has("bounds") {
			line = b.at("bounds")
		}
		f.problem(line, "the design has no cup: "+err.Error(), "more steps or wider bounds")
		return
	}
	const mostTiles = 200_000
	bodies := len(p.Tiles.Bodies)
	if tiles := cells * bodies * p.Tiles.Repeats; tiles > mostTiles {
		f.problem(b.counted(), strconv.Itoa(cells)+" cups x "+strconv.Itoa(bodies)+" bodies x "+strconv.Itoa(p.Tiles.Repeats)+" repeats are "+strconv.Itoa(tiles)+" tiles",
			"at most "+strconv.Itoa(mostTiles))
	}
}

// counted is the line of the key that says how many cells there are.
func (f fields) counted() int {
	for _, key := range []string{"tiles", "divisions", "cells", "columns", "series"} {
		if f.has(key) {
			return f.at(key)
		}
	}
	return f.line
}
