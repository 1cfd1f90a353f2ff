package plan

import (
	"strings"
	"sync"

	"pourboard/blend"
	"pourboard/blend/spell"
)

// meantText is the fix of a message about an unknown value in quotes: the
// likely one, or the list of all.
func meantText(name string, options []string) string {
	if near := spell.Nearest(name, options); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	const most = 12
	if len(options) > most {
		return "one of " + strings.Join(quoteAll(options[:most]), ", ") + " …"
	}
	return "one of " + listed(quoteAll(options), "or")
}

// choiceMeant is meantText for a key that takes one of few words: people have
// other words for some of them.
func choiceMeant(key, name string, options []string) string {
	if other := synonym(key, name); other != "" {
		return "did you mean " + quote(other) + "?"
	}
	if key == "method" && spell.Nearest(name, options) == "" {
		return `"dose" weighs each dose, "stock" pours a suspension of the colourant, "pour" blends end glazes, "weigh" weighs every cup dry`
	}
	return meantText(name, options)
}

// synonym is the word that a plan has for another one, or "".
func synonym(key, word string) string {
	switch key + " " + spell.Bare(word) {
	case "method weighing", "method weighed", "method weight", "method dry":
		return string(blend.ByWeigh)
	case "method dosing", "method dosed":
		return string(blend.ByDose)
	case "method suspension", "method solution", "method liquid":
		return string(blend.ByStock)
	case "method pouring", "method poured", "method blend", "method blending", "method ends":
		return string(blend.ByPour)
	case "kind lineblend", "kind linear", "kind series", "kind lineseries":
		return string(blend.Line)
	case "kind triangle", "kind triangular", "kind ternary", "kind triaxialblend", "kind triaxialseries":
		return string(blend.Triaxial)
	case "kind rectangle", "kind square", "kind grid", "kind biaxialblend", "kind biaxialseries":
		return string(blend.Biaxial)
	case "kind tetrahedron", "kind quaternary", "kind quadraxialblend":
		return string(blend.Quadraxial)
	case "scale 1:1", "scale 100%", "scale lifesize", "scale full", "scale actual", "scale actualsize":
		return string(blend.Life)
	case "scale page", "scale onepage":
		return string(blend.Fit)
	case "basis slip", "basis slipweight":
		return string(blend.Weight)
	case "basis ml":
		return string(blend.Volume)
	}
	return ""
}

// slang is what else people call a key.
func slang(key string) string {
	switch spell.Bare(key) {
	case "sg", "density", "gravity", "litreweight", "literweight":
		return "specific-gravity"
	case "materials", "ingredients", "recipes":
		return "recipe"
	case "glazes", "endpoints", "corners":
		return "ends"
	case "clays", "clay", "body", "claybody", "claybodies", "tilebodies":
		return "bodies"
	case "tilesize":
		return "size"
	case "papersize", "format":
		return "paper"
	case "percentage", "percentages", "percents", "amounts":
		return "percent"
	case "colourant", "colorant", "oxide":
		return "material"
	case "size", "amount", "cupsize", "dryweight":
		return "dry"
	case "prefix", "code":
		return "mark"
	case "type", "shape", "design":
		return "kind"
	case "steps", "count", "cups", "number":
		return "cells"
	case "oxides", "chemistry":
		return "analysis"
	}
	return ""
}

// longestKey is more bytes than any spelling of a key has.
const longestKey = 100

// hyphens puts a hyphen for the dashes that word processors put for it.
var hyphens = strings.NewReplacer("–", "-", "‑", "-", "—", "-", "−", "-")

// knownKey is the key of any section that a key is another spelling of, nil
// for none.
func knownKey(key string) *Key {
	if len(key) > longestKey {
		return nil
	}
	return keysByName()[spell.Bare(hyphens.Replace(key))]
}

// keysByName is the keys of all sections by what spell.Bare leaves of them. Of
// keys with one name the first stands for all: their values look alike.
var keysByName = sync.OnceValue(func() map[string]*Key {
	all := map[string]*Key{}
	for i := range sections() {
		for j := range sections()[i].Keys {
			k := &sections()[i].Keys[j]
			if bare := spell.Bare(k.Name); all[bare] == nil {
				all[bare] = k
			}
		}
	}
	return all
})

// home is the heading of the section that a key stands in elsewhere, "" when
// there is none or more than one.
func home(key, elsewhere string) string {
	at := ""
	for i := range sections() {
		s := &sections()[i]
		if s.Path == elsewhere || s.find(key) == nil {
			continue
		}
		if at != "" {
			return ""
		}
		at = s.heading()
	}
	return at
}

// meantPath is the section that an unknown one was surely meant for, nil for
// none: another spelling, or one under the wrong other.
func meantPath(path string) *Section {
	if section(path) != nil {
		return nil
	}
	last := path[strings.LastIndex(path, ".")+1:]
	var paths []string
	for _, s := range sections() {
		if s.Path == "" {
			continue
		}
		if s.Path[strings.LastIndex(s.Path, ".")+1:] == strings.ToLower(last) {
			return section(s.Path)
		}
		paths = append(paths, s.Path)
	}
	if near := spell.Nearest(path, paths); near != "" {
		return section(near)
	}
	return nil
}
