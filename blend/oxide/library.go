package oxide

import (
	"maps"
	"slices"
	"strings"
	"sync"

	"pourboard/blend/spell"
)

// What a material's analysis rests on.
const (
	Theoretical = "theoretical" // computed from the formula of the pure substance
	Typical     = "typical"     // round figures; a delivery differs
	Own         = "own"         // the maker's own analysis
)

// Material is a raw material by its trade name.
type Material struct {
	Name          string
	Aliases       []string
	Formula       string   // "" when it has none, as a clay
	Analysis      Analysis // empty when not known
	Density       float64  // of the particles, g/mL; 0 when not known
	Basis         string   // what the analysis rests on
	Source        string   // of the analysis
	DensitySource string
}

// Library looks materials up by name: a maker's own before the built-in ones. The
// slices in its materials must not be written to.
type Library struct {
	list  []Material        // the maker's own last
	own   int               // how many of them are
	index map[string]int    // by what of a name is compared
	keys  map[string]string // what that is of the built-in names
}

// Builtin is the list of generic raw materials of this package.
func Builtin() Library { return builtin() }

var builtin = sync.OnceValue(func() Library {
	l := Library{list: builtinMaterials(), keys: map[string]string{}}
	for _, m := range l.list {
		for _, name := range slices.Concat([]string{m.Name, m.Formula}, m.Aliases) {
			l.keys[name] = key(name)
		}
	}
	l.index = l.indexed(l.list)
	return l
})

// indexed finds materials by names before aliases, by formulas last, and the first
// where two share one.
func (l Library) indexed(list []Material) map[string]int {
	index := map[string]int{}
	enter := func(i int, names ...string) {
		for _, name := range names {
			k := l.key(name)
			if _, taken := index[k]; !taken && k != "" {
				index[k] = i
			}
		}
	}
	for i, m := range list {
		enter(i, m.Name)
	}
	for i, m := range list {
		enter(i, m.Aliases...)
	}
	for i, m := range list {
		enter(i, m.Formula)
	}
	return index
}

// With is the library with a maker's own materials. What an own material leaves
// open, its analysis or its density, is taken from the material that has its name, if
// there is one. An own material with the name of another takes its place and its
// other names; one with only an alias of another takes that alias.
func (l Library) With(own ...Material) Library {
	if len(own) == 0 {
		return l
	}
	var list []Material
	for _, m := range own {
		if old, ok := l.Find(m.Name); ok {
			if m.Analysis.Empty() {
				m.Analysis, m.Basis, m.Source, m.Formula = old.Analysis, old.Basis, old.Source, old.Formula
			}
			if m.Density == 0 {
				m.Density, m.DensitySource = old.Density, old.DensitySource
			}
			if key(old.Name) == key(m.Name) {
				m.Aliases = slices.Concat(m.Aliases, old.Aliases, []string{old.Formula})
			}
		}
		list = append(list, m)
	}
	index := maps.Clone(l.index)
	for k, i := range l.indexed(list) {
		index[k] = len(l.list) + i
	}
	return Library{slices.Concat(l.list, list), len(list), index, l.keys}
}

// Find looks a material up by its name, one of its other names, or its
// formula. Case, accents, spaces, hyphens and other marks make no difference,
// nor does sulfate for sulphate or aluminum for aluminium.
func (l Library) Find(name string) (Material, bool) {
	i, ok := l.index[l.key(name)]
	if !ok {
		return Material{}, false
	}
	return l.list[i], true
}

// key returns the key of a name, from the table where it has the name as it is
// written: most plans write names as the library does.
func (l Library) key(name string) string {
	if k, ok := l.keys[name]; ok {
		return k
	}
	return key(name)
}

// Unlisted names those of some materials that are not in the library, each once.
func (l Library) Unlisted(names []string) []string {
	var list []string
	for _, name := range names {
		if _, ok := l.Find(name); !ok && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

// All lists the materials, a maker's own first, without those that they replace.
func (l Library) All() []Material {
	builtins := len(l.list) - l.own
	all := slices.Clone(l.list[builtins:])
	for i, m := range l.list[:builtins] {
		if l.index[l.key(m.Name)] == i {
			all = append(all, m)
		}
	}
	return all
}

// Containing lists the materials with a word in their name: the copper compounds
// for "copper".
func (l Library) Containing(word string) []Material {
	word = key(word)
	return slices.DeleteFunc(l.All(), func(m Material) bool {
		return word == "" || !strings.Contains(key(m.Name), word)
	})
}

// Nearest is the known name that is most like name, to ask "did you mean",
// or "" when none is close.
func (l Library) Nearest(name string) string {
	var names []string
	for _, m := range l.All() {
		names = append(names, m.Name)
		names = append(names, m.Aliases...)
	}
	if near := spell.Nearest(name, names); near != "" {
		return near
	}
	// "Silica 325 mesh" and "Feldspar": one name inside the other.
	const shortest = 4
	typed, best, longest := key(name), "", shortest-1
	for _, n := range names {
		k := key(n)
		inside := min(len(k), len(typed))
		if inside > longest && (strings.Contains(typed, k) || strings.Contains(k, typed)) {
			best, longest = n, inside
		}
	}
	return best
}

// key returns a material's name as names are compared: bare, in British spelling.
func key(name string) string { return british.Replace(spell.Bare(name)) }

// british respells what American names have otherwise.
var british = strings.NewReplacer("sulf", "sulph", "aluminum", "aluminium", "haematite", "hematite")
