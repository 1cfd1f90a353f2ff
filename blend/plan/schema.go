package plan

import (
	"slices"
	"strings"

	"pourboard/blend"
)

// Section is a group of keys of the plan file.
type Section struct {
	Path    string // "cup", "blend.series"; "" for the top of the file
	Several bool   // [[path]], one for each
	Help    string // what the section is about, one or two sentences
	Keys    []Key
}

// Key is one key of a section: everything that its reader, its writer, the
// hints, the commented plans and a form have to know of it.
type Key struct {
	Name    string
	Label   string   // of its field in a form, one to three words
	Help    string   // one line
	Example string   // a value as the file has it
	Default string   // the value that is taken when the key is left out, "" for none
	Least   float64  // range of the number, in Unit; Least is Most when there is none
	Most    float64  //
	Unit    string   // "g", "mL", "mm", "s", "%" or ""
	Choices []string // the words that it takes, nil for any
	Designs []string // names of the designs that take it, nil for all
	Needed  bool     // the section cannot do without it

	form form
	at   func(d *draft) any // where a draft holds its value
}

// Sections is the whole schema in the order of the file, the keys of the top
// first.
func Sections() []Section { return sections() }

// section is the section of a path, nil when there is none.
func section(path string) *Section {
	all := sections()
	for i := range all {
		if all[i].Path == path {
			return &all[i]
		}
	}
	return nil
}

// Find is the key of a section, nil when there is none.
func Find(path, key string) *Key {
	if s := section(path); s != nil {
		return s.find(key)
	}
	return nil
}

func (s *Section) find(key string) *Key {
	for i := range s.Keys {
		if s.Keys[i].Name == key {
			return &s.Keys[i]
		}
	}
	return nil
}

// names is the keys of a section and, at the top, the sections.
func (s *Section) names() []string {
	var all []string
	for _, k := range s.Keys {
		all = append(all, k.Name)
	}
	for _, sub := range sections() {
		if name, ok := s.child(sub.Path); ok {
			all = append(all, name)
		}
	}
	return all
}

// child is the name that a section has under s.
func (s *Section) child(path string) (name string, ok bool) {
	if s.Path != "" {
		path, ok = strings.CutPrefix(path, s.Path+".")
		return path, ok
	}
	return path, path != "" && !strings.Contains(path, ".")
}

// heading is the section as the file has it, in brackets.
func (s *Section) heading() string {
	if s.Path == "" {
		return "the top of the file"
	}
	return inBrackets(s.Path, s.Several)
}

func inBrackets(path string, double bool) string {
	if double {
		return "[[" + path + "]]"
	}
	return "[" + path + "]"
}

// line is a key with its example, as the file has it.
func (k *Key) line() string { return k.Name + " = " + k.Example }

// Design is a shape of test by the name that `new` knows it by.
type Design struct {
	Name   string // "line", "line-series"
	Line   string // what it is, for a list of designs
	Kind   blend.Kind
	Series bool // one base is dosed (family B)
	Method blend.Method
}

// Designs is every shape of test that a plan can start from.
func Designs() []Design {
	return []Design{
		{"line", "two glazes blended in steps", blend.Line, false, ""},
		{"biaxial", "four glazes at the corners of a rectangle", blend.Biaxial, false, ""},
		{"triaxial", "three glazes on a triangle", blend.Triaxial, false, ""},
		{"quadraxial", "four glazes on triangles in layers", blend.Quadraxial, false, ""},
		{"list", "blends that you write out one by one", blend.List, false, ""},
		{"centroid", "each glaze alone, each pair, each three in equal shares", blend.Centroid, false, ""},
		{"pairs", "3 to 12 glazes, each blended with each", blend.Pairs, false, ""},
		{"weigh", "three glazes on a triangle, weighed dry cup by cup", blend.Triaxial, false, blend.ByWeigh},
		{"line-series", "one base with a colourant in steps", blend.Line, true, blend.ByDose},
		{"rows", "one base, each row a colourant in its own steps", blend.Rows, true, blend.ByDose},
		{"biaxial-series", "one base with two colourants, across and down", blend.Biaxial, true, blend.ByDose},
		{"triaxial-series", "one base with three colourants on a triangle", blend.Triaxial, true, blend.ByDose},
	}
}

// designName is the name under which the schema knows a design.
func designName(kind blend.Kind, series bool) string {
	if series && kind != blend.Rows {
		return string(kind) + "-series"
	}
	return string(kind)
}

// kinds is the kinds of design in the order of Designs, each once.
func kinds() []string {
	var all []string
	for _, d := range Designs() {
		if !slices.Contains(all, string(d.Kind)) {
			all = append(all, string(d.Kind))
		}
	}
	return all
}

// fits reports whether a design takes the key.
func (k *Key) fits(design string) bool {
	return k.Designs == nil || slices.Contains(k.Designs, design)
}
