package oxide

import (
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

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

// Library looks materials up by name. It does not change after it is made;
// the slices in its materials must not be written to. The zero value is empty.
type Library struct {
	list  []Material
	index map[string]int // by key
	names []string       // all names and aliases, in order of the list
}

// Builtin is the list of generic raw materials of this package.
func Builtin() Library { return builtin() }

var builtin = sync.OnceValue(func() Library { return newLibrary(nil, builtinMaterials()) })

// builtinKeys are the keys of all built-in names. Every plan makes a library of
// its own, and folding the names anew took a fifth of reading a studio.
var builtinKeys = sync.OnceValue(func() map[string]string {
	keys := map[string]string{}
	for _, m := range builtinMaterials() {
		for _, name := range append([]string{m.Name, m.Formula}, m.Aliases...) {
			keys[name] = lettersOf(name)
		}
	}
	return keys
})

// With is the library with a maker's own materials, which are found before
// the ones it has. What an own material leaves open, its analysis or its
// density, is taken from the material of the same name, if there is one. An
// own material with the name of another takes its place and its other names;
// one with only an alias of another takes that alias.
func (l Library) With(own ...Material) Library {
	if len(own) == 0 {
		return l
	}
	mine := make([]Material, 0, len(own))
	taken := map[string]bool{}
	for _, m := range own {
		if old, ok := l.Find(m.Name); ok {
			if m.Analysis.Empty() {
				m.Analysis, m.Basis, m.Source, m.Formula = old.Analysis, old.Basis, old.Source, old.Formula
			}
			if m.Density == 0 {
				m.Density, m.DensitySource = old.Density, old.DensitySource
			}
			if key(m.Name) == key(old.Name) {
				m.Aliases = append(slices.Clone(m.Aliases), old.Aliases...)
			}
		}
		mine = append(mine, m)
		taken[key(m.Name)] = true
	}
	var rest []Material
	for _, m := range l.list {
		if !taken[key(m.Name)] {
			rest = append(rest, m)
		}
	}
	return newLibrary(mine, rest)
}

// newLibrary indexes the materials: of own before those of rest, names before
// aliases, formulas last.
func newLibrary(own, rest []Material) Library {
	l := Library{list: slices.Concat(own, rest), index: map[string]int{}}
	enter := func(name string, i int) bool {
		k := key(name)
		if _, ok := l.index[k]; ok || k == "" {
			return false
		}
		l.index[k] = i
		return true
	}
	for _, span := range [][2]int{{0, len(own)}, {len(own), len(l.list)}} {
		for i := span[0]; i < span[1]; i++ {
			if enter(l.list[i].Name, i) {
				l.names = append(l.names, l.list[i].Name)
			}
		}
		for i := span[0]; i < span[1]; i++ {
			for _, a := range l.list[i].Aliases {
				if enter(a, i) {
					l.names = append(l.names, a)
				}
			}
		}
	}
	for i, m := range l.list {
		enter(m.Formula, i)
	}
	return l
}

// Find looks a material up by its name, one of its other names, or its
// formula. Case, accents, spaces, hyphens and other marks make no difference,
// nor does sulfate for sulphate or aluminum for aluminium.
func (l Library) Find(name string) (Material, bool) {
	i, ok := l.index[key(name)]
	if !ok {
		return Material{}, false
	}
	return l.list[i], true
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
func (l Library) All() []Material { return slices.Clone(l.list) }

// Containing lists the materials with a word in their name: the copper compounds
// for "copper".
func (l Library) Containing(word string) []Material {
	word = key(word)
	return slices.DeleteFunc(l.All(), func(m Material) bool {
		return word == "" || !strings.Contains(key(m.Name), word)
	})
}

// longestName is the longest name that Nearest compares, in letters.
const longestName = 60

// Nearest is the known name that is most like name, to ask "did you mean",
// or "" when none is close.
func (l Library) Nearest(name string) string {
	typed := key(name)
	letters := utf8.RuneCountInString(typed)
	if letters == 0 || letters > longestName {
		return ""
	}
	best, distance := "", 1+allowedEdits(letters)
	for _, n := range l.names {
		if d := spell.Distance(typed, key(n), distance); d < distance {
			best, distance = n, d
		}
	}
	if best != "" {
		return best
	}
	// "Silica 325 mesh" and "Feldspar": one name inside the other.
	const shortest = 4
	longest := shortest - 1
	for _, n := range l.names {
		k := key(n)
		inside := min(len(k), len(typed))
		if inside > longest && (strings.Contains(typed, k) || strings.Contains(k, typed)) {
			best, longest = n, inside
		}
	}
	return best
}

// allowedEdits is how many letters can be wrong in a name of n letters.
func allowedEdits(n int) int {
	switch {
	case n < 4:
		return 0
	case n < 6:
		return 1
	case n < 10:
		return 2
	}
	return 3
}

// key is what of a name is compared.
func key(name string) string {
	if k, ok := builtinKeys()[name]; ok {
		return k
	}
	return lettersOf(name)
}

// lettersOf is a name's letters and figures alone, small and without accents, as
// formulas have subscripts.
func lettersOf(name string) string {
	var b strings.Builder
	for _, r := range name {
		r = unicode.ToLower(r)
		switch {
		case r < unicode.MaxASCII:
			if isLower(byte(r)) || isDigit(byte(r)) {
				b.WriteByte(byte(r))
			}
		case '₀' <= r && r <= '₉':
			b.WriteByte(byte('0' + r - '₀'))
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if plain, ok := spell.Unaccented(r); ok {
				b.WriteString(plain)
			} else {
				b.WriteRune(r)
			}
		}
	}
	return spellings.Replace(b.String())
}

// spellings are differences between American and British names.
var spellings = strings.NewReplacer("sulf", "sulph", "aluminum", "aluminium", "haematite", "hematite")
