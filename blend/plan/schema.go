package plan

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"github.com/pelletier/go-toml/v2"

	"pourboard/blend"
)

// schemaText is the table of sections and keys; it explains itself at its top.
//
//go:embed schema.toml
var schemaText []byte

// Section is a group of keys of the plan file.
type Section struct {
	Path    string // "cup", "blend.series"; "" for the top of the file
	Several bool   // [[path]], one for each
	Help    string
	Needed  string // what to write in a plan that lacks it, "" when it may
	Keys    []*Key `toml:"key"`
}

// Key is one key of a section: everything that its reader, its writer, the
// hints and the commented plans have to know of it.
type Key struct {
	Name    string
	Place   string // the field for its value, of a draft or an item
	Help    string
	Example string     // a value as the file has it
	Default string     // the value that is taken when the key is left out, "" for none
	Range   [2]float64 // least and most, in Unit; equal when there is no range
	None    bool       // 0 is allowed too, and means none
	Unit    string     // "g", "mL", "mm", "s", "%", "mL or g" or ""
	Plain   bool       // a plain number will do too
	Low     string     // what to do about a number below the range
	High    string     // and above it
	Choices []string   // the words that it takes, nil for any
	Designs []string   // names of the designs that take it, nil for all
	Needed  bool       // the section cannot do without it, or one of Instead
	Instead []string   // keys that say the same: one of them is given
	Also    []string   // what else people call it, as spell.Bare leaves it
}

// schema is the table.
var schema = sync.OnceValue(func() (all struct {
	Section []*Section
	Design  []Design
}) {
	if err := toml.Unmarshal(schemaText, &all); err != nil {
		panic(err) // a test reads it
	}
	return all
})

func sections() []*Section { return schema().Section }

// section is the section of a path, nil when there is none.
func section(path string) *Section {
	for _, s := range sections() {
		if s.Path == path {
			return s
		}
	}
	return nil
}

// find is a key of the section, nil when there is none.
func (s *Section) find(key string) *Key {
	for _, k := range s.Keys {
		if k.Name == key {
			return k
		}
	}
	return nil
}

// names is the keys and the sections that a section can have.
func (s *Section) names() []string {
	var all []string
	for _, k := range s.Keys {
		all = append(all, k.Name)
	}
	for _, sub := range sections() {
		if in, name := parted(sub.Path); in == s.Path && name != "" {
			all = append(all, name)
		}
	}
	return all
}

// parted is the section that a path is in, and its name there.
func parted(path string) (in, name string) {
	if at := strings.LastIndex(path, "."); at >= 0 {
		return path[:at], path[at+1:]
	}
	return "", path
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

// isSeries reports whether a design doses one base, isBlend whether it blends end
// glazes; both are false for a name that is no design's.
func isSeries(design string) bool {
	return slices.Contains(section("blend").find("base").Designs, design)
}
func isBlend(design string) bool {
	return slices.Contains(section("blend").find("ends").Designs, design)
}
