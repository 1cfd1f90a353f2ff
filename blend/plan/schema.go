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
	Needed  string // what to write in a plan that lacks it, "" when it may
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
	None    bool     // 0 is allowed too, and means none
	Unit    string   // "g", "mL", "mm", "s", "%" or ""
	Choices []string // the words that it takes, nil for any
	Designs []string // names of the designs that take it, nil for all
	Needed  bool     // the section cannot do without it, or one of Instead
	Instead []string // keys that say the same: one of them is given

	at func(d *draft) place // its value in a draft
}

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

// find is a key of the section, nil when there is none.
func (s *Section) find(key string) *Key {
	for i := range s.Keys {
		if s.Keys[i].Name == key {
			return &s.Keys[i]
		}
	}
	return nil
}

// names is the keys of a section that a design takes and, at the top, the
// sections; of every design for "".
func (s *Section) names(design string) []string {
	var all []string
	for i := range s.Keys {
		if k := &s.Keys[i]; design == "" || k.fits(design) {
			all = append(all, k.Name)
		}
	}
	for _, sub := range sections() {
		if name, ok := s.child(sub.Path); ok && design == "" {
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

// fits reports whether a design takes the key.
func (k *Key) fits(design string) bool {
	return k.Designs == nil || slices.Contains(k.Designs, design)
}

// designName is the name under which the schema knows a design.
func designName(kind blend.Kind, series bool) string {
	if series && kind != blend.Rows {
		return string(kind) + "-series"
	}
	return string(kind)
}
