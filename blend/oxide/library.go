package oxide

import (
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

// Library looks materials up by name: a maker's own before the built-in ones,
// which are all that the zero value has. The slices in its materials must not be
// written to.
type Library struct {
	own   []Material
	index map[string]int // of own, by key
}

// Builtin is the list of generic raw materials of this package.
func Builtin() Library { return Library{} }

// builtin is the index of the built-in materials, by key.
var builtin = sync.OnceValue(func() map[string]int { return indexed(builtinMaterials()) })

// indexed finds materials by key: by names before aliases, by formulas last, and
// the first where two share one.
func indexed(list []Material) map[string]int {
	index := map[string]int{}
	enter := func(i int, names ...string) {
		for _, name := range names {
			k := key(name)
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

// With is the built-in library with a maker's own materials. What an own material
// leaves open, its analysis or its density, is taken from the built-in material of
// the same name, if there is one. An own material with the name of another takes
// its place and its other names; one with only an alias of another takes that alias.
func (l Library) With(own ...Material) Library {
	l.own = slices.Clone(l.own)
	for _, m := range own {
		if old, ok := Builtin().Find(m.Name); ok {
			if m.Analysis.Empty() {
				m.Analysis, m.Basis, m.Source, m.Formula = old.Analysis, old.Basis, old.Source, old.Formula
			}
			if m.Density == 0 {
				m.Density, m.DensitySource = old.Density, old.DensitySource
			}
		}
		l.own = append(l.own, m)
	}
	l.index = indexed(l.own)
	return l
}

// Find looks a material up by its name, one of its other names, or its
// formula. Case, accents, spaces, hyphens and other marks make no difference,
// nor does sulfate for sulphate or aluminum for aluminium.
func (l Library) Find(name string) (Material, bool) {
	k := key(name)
	if i, ok := l.index[k]; ok {
		return l.own[i], true
	}
	i, ok := builtin()[k]
	if !ok {
		return Material{}, false
	}
	m := builtinMaterials()[i]
	if own, ok := l.instead(m); ok {
		return own, true
	}
	return m, true
}

// instead is the own material that has the name of a built-in one.
func (l Library) instead(m Material) (Material, bool) {
	i, ok := l.index[key(m.Name)]
	if !ok || key(l.own[i].Name) != key(m.Name) {
		return Material{}, false
	}
	return l.own[i], true
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

// All lists the materials, a maker's own first.
func (l Library) All() []Material {
	list := slices.Clone(l.own)
	for _, m := range builtinMaterials() {
		if _, taken := l.instead(m); !taken {
			list = append(list, m)
		}
	}
	return list
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

// key is what of a material's name is compared.
func key(name string) string {
	if k, ok := keys()[name]; ok {
		return k
	}
	return compared(name)
}

// keys has those of the built-in names, for most plans use them as they are written
// here, and every cup asks for each.
var keys = sync.OnceValue(func() map[string]string {
	keys := map[string]string{}
	for _, m := range builtinMaterials() {
		for _, name := range slices.Concat(m.Aliases, []string{m.Name, m.Formula}) {
			keys[name] = compared(name)
		}
	}
	return keys
})

// compared is a name without what makes no difference.
func compared(name string) string {
	bare := spell.Bare(name)
	for _, s := range spellings {
		bare = strings.ReplaceAll(bare, s[0], s[1])
	}
	return bare
}

// spellings are differences between American and British names.
var spellings = [][2]string{{"sulf", "sulph"}, {"aluminum", "aluminium"}, {"haematite", "hematite"}}
