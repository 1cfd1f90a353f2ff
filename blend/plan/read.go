package plan

import (
	"bytes"
	"cmp"
	"errors"
	"strconv"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// A plan has at most 1 MiB, and 20 000 cups of four parts written out: the library
// takes some hundred bytes for each value, also of a plan that is then refused.
const (
	largestFile = 1 << 20
	mostCommas  = 80_000
)

// Read checks the text of a plan and turns it into blend's types; name is only
// for messages. What deserves a question comes back as warnings. A plan that is
// wrong gives Problems, all that could be found, in the order of the lines.
func Read(name string, src []byte) (*blend.Plan, []string, error) {
	r := &reader{file: name}
	p := r.text(src)
	if len(r.problems) == 0 {
		return p, r.warnings, nil
	}
	r.problems.inOrder()
	return nil, nil, r.problems
}

func (r *reader) text(src []byte) *blend.Plan {
	src, foreign := quantity.Text(src)
	commas := bytes.Count(src, []byte(","))
	odd := bytes.IndexFunc(src, func(c rune) bool { return c == 0 || c == utf8.RuneError })
	switch {
	case foreign != "":
		r.problem(1, "this is "+foreign+", not a text file",
			"open it in its own program and save it as text (.txt), encoding UTF-8")
	case len(src) > largestFile:
		r.problem(1, "the file is "+strconv.Itoa(len(src)>>10)+" KiB long",
			"a plan has at most 1024 KiB; is it the right file?")
	case odd >= 0:
		r.problem(1+bytes.Count(src[:odd], []byte("\n")), "a character is not UTF-8 text",
			"save the file again, in the editor's Save as, with the encoding UTF-8")
	case commas > mostCommas:
		r.problem(1, "the file lists about "+strconv.Itoa(commas)+" values",
			"a plan has at most "+strconv.Itoa(mostCommas)+"; is it the right file?")
	}
	if len(r.problems) > 0 {
		return nil
	}
	r.src = src
	root := r.tree(src)
	if len(r.problems) > mostProblems {
		return nil
	}
	return r.plan(root)
}

// plan reads every section by the schema, and then what holds between keys.
func (r *reader) plan(root *value) *blend.Plan {
	r.design = cmp.Or(r.design, designOf(root))
	r.d.Cup.Size.Of = blend.Dry
	r.in = map[string]fields{}
	for _, s := range sections() {
		r.section(s, root)
	}
	r.in[""].mark()
	r.in["measure"].kit()
	r.materials()
	r.recipes()
	r.in["blend"].blend()
	r.in["tiles"].tiles()
	r.in["board"].board()
	r.in["labels"].labels()
	r.in["log"].log()
	r.in["chemistry"].chemistry()
	r.pours()
	if len(r.problems) == 0 {
		library := oxide.Builtin().With(r.d.Materials...)
		r.density(library)
		r.extent()
		var fault *blend.Fault
		if _, err := r.d.SharedCup(); errors.As(err, &fault) {
			r.problem(r.in["cup"].at("batch"), fault.What, fault.Fix)
		}
		r.questions(library)
	}
	return &r.d.Plan
}

// designOf is the design of a file by its name in the schema, as far as it can
// be told before anything is read. Ends make it a blend of them.
func designOf(root *value) string {
	has := func(key string) bool { return root.below("blend."+key) != nil }
	kind := root.below("blend.kind")
	if kind == nil || kind.kind != text {
		return ""
	}
	return designName(blend.Kind(kind.text), (has("base") || has("series")) && !has("ends"))
}
