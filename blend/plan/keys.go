package plan

import (
	"strings"
	"sync"

	"pourboard/blend"
	"pourboard/blend/spell"
)

// heading is a group of keys as the file has it.
type heading struct {
	path    string
	several bool // [[path]], one for each
	keys    []string
}

// headings is every key that a plan can have. The keys of the top come first.
var headings = sync.OnceValue(func() []heading {
	return []heading{
		{"", false, []string{"title", "mark", "cup", "measure", "glaze", "blend", "tiles", "board", "labels", "log", "chemistry", "material"}},
		{"cup", false, []string{"dry", "volume", "weight", "diameter"}},
		{"measure", false, []string{"scale", "capacity", "fine", "pour", "syringe", "fill", "dead", "loss", "extra", "worst"}},
		{"glaze", true, []string{"name", "recipe", "additions", "specific-gravity", "water", "solids-density"}},
		{"blend", false, []string{"kind", "ends", "basis", "cells", "columns", "rows", "divisions", "tiles", "interior", "bounds", "base", "method", "series"}},
		{"blend.series", true, []string{"material", "percent", "from", "to", "cells", "spacing"}},
		{"tiles", false, []string{"bodies", "size", "thickness", "coats", "repeats", "dip", "hold", "bands"}},
		{"board", false, []string{"paper", "scale", "gap", "bodies-as-rows", "order", "seed"}},
		{"labels", false, []string{"columns", "rows", "width", "height", "left", "top", "gap-x", "gap-y", "sheet"}},
		{"log", false, []string{"numbers"}},
		{"chemistry", false, []string{"colourants-in-unity", "maps"}},
		{"material", true, []string{"name", "analysis", "density"}},
	}
})

// form is how the value of a key is written.
type form int

const (
	inWords    form = iota // a text in quotes, an amount with its unit too
	inDigits               // a plain number
	yesOrNo                // true or false
	nameList               // ["A", "B"]
	digitList              // [0, 1, 2]
	rowList                // [[70, 30], [50, 50]]
	pairList               // [["Silica", 40], ["Kaolin", 60]]
	pairGroup              // { SiO2 = 60, LOI = 15 }
	rangeGroup             // { "Wood ash" = [20, 60] }
)

// written is the form of a key's value, with an example, for a line that has to
// be guessed at. A key that is not known takes words.
func written(key string) (f form, example string) {
	switch key {
	case "title":
		return inWords, `"Copper over a magnesia matte"`
	case "mark":
		return inWords, `"MR"`
	case "dry":
		return inWords, `"100 g"`
	case "volume":
		return inWords, `"180 mL"`
	case "weight":
		return inWords, `"250 g"`
	case "diameter":
		return inWords, `"70 mm"`
	case "scale":
		return inWords, `"0.1 g"`
	case "pour":
		return inWords, `"5 mL"`
	case "extra":
		return inWords, `"10 %"`
	case "worst":
		return inWords, `"5 %"`
	case "size":
		return inWords, `"50 x 100 mm"`
	case "paper":
		return inWords, `"A4"`
	case "kind":
		return inWords, `"triaxial"`
	case "specific-gravity":
		return inDigits, "1.45"
	case "solids-density", "density":
		return inDigits, "2.6"
	case "columns", "rows", "divisions", "tiles", "coats", "repeats", "from", "to", "seed":
		return inDigits, "3"
	case "interior", "bodies-as-rows", "colourants-in-unity":
		return yesOrNo, "true"
	case "ends":
		return nameList, `["Magnesia matte", "Soda blue"]`
	case "bodies":
		return nameList, `["Porcelain", "Buff"]`
	case "numbers":
		return nameList, `["Gloss"]`
	case "maps":
		return nameList, `["SiO2", "CaO"]`
	case "percent":
		return digitList, "[0, 0.5, 1, 2]"
	case "cells":
		return rowList, "6"
	case "recipe":
		return pairList, `[["Potash feldspar", 44], ["Silica", 22], …]`
	case "additions":
		return pairList, `[["Bentonite", 2]]`
	case "analysis":
		return pairGroup, "{ SiO2 = 60, Al2O3 = 25, LOI = 15 }"
	case "bounds":
		return rangeGroup, `{ "Wood ash" = ["20 %", "60 %"] }`
	}
	return inWords, `"…"`
}

// longestKey is more bytes than any spelling of a key has.
const longestKey = 100

// alike is the key of any heading that a key is another spelling of, or "".
func alike(key string) string {
	if len(key) > longestKey {
		return ""
	}
	if k := bareKeys()[spell.Bare(key)]; k != "" {
		return k
	}
	return slang(key)
}

// bareKeys is the keys of all headings by what Bare leaves of them.
var bareKeys = sync.OnceValue(func() map[string]string {
	keys := map[string]string{}
	for _, h := range headings() {
		for _, k := range h.keys {
			keys[spell.Bare(k)] = k
		}
	}
	return keys
})

// keysOf is the keys under a heading.
func keysOf(path string) []string {
	for _, h := range headings() {
		if h.path == path {
			return h.keys
		}
	}
	return nil
}

// known reports whether there is a heading of this path.
func known(path string) bool { return keysOf(path) != nil }

// repeated reports whether a heading takes double brackets.
func repeated(path string) bool {
	for _, h := range headings() {
		if h.path == path {
			return h.several
		}
	}
	return false
}

// home is the heading, in brackets, under which a key that stands elsewhere
// belongs, or "" when there is none or more than one.
func home(key, elsewhere string) string {
	at := ""
	for _, h := range headings() {
		if h.path == elsewhere {
			continue
		}
		for _, k := range h.keys {
			if k == key {
				if at != "" {
					return ""
				}
				at = bracketed(h.path)
			}
		}
	}
	return at
}

// bracketed is a heading as it has to be written.
func bracketed(path string) string {
	if path == "" {
		return "the top of the file"
	}
	return inBrackets(path, repeated(path))
}

// inBrackets is a heading in single or double brackets.
func inBrackets(path string, double bool) string {
	if double {
		return "[[" + path + "]]"
	}
	return "[" + path + "]"
}

// meantPath is the heading that one which there is not was surely meant for, or
// "": another spelling, or one under the wrong other.
func meantPath(path string) string {
	if known(path) {
		return ""
	}
	last := path[strings.LastIndex(path, ".")+1:]
	var paths []string
	for _, h := range headings() {
		if h.path != "" && h.path[strings.LastIndex(h.path, ".")+1:] == strings.ToLower(last) {
			return h.path
		}
		if h.path != "" {
			paths = append(paths, h.path)
		}
	}
	return spell.Nearest(path, paths)
}

// slang is what else people call a key.
func slang(key string) string {
	switch spell.Bare(key) {
	case "sg", "density", "gravity", "litreweight", "literweight":
		return "specific-gravity"
	case "materials", "ingredients", "batch", "recipes":
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

// fitting is the keys of [blend] that a kind of design takes.
func fitting(kind blend.Kind, series bool) []string {
	switch {
	case series && kind == blend.Triaxial:
		return []string{"base", "method", "series", "divisions", "tiles"}
	case series:
		return []string{"base", "method", "series"}
	}
	switch kind {
	case blend.Line:
		return []string{"ends", "basis", "cells", "tiles", "interior", "bounds"}
	case blend.Biaxial:
		return []string{"ends", "basis", "columns", "rows"}
	case blend.Triaxial, blend.Quadraxial:
		return []string{"ends", "basis", "divisions", "tiles", "interior", "bounds"}
	case blend.List:
		return []string{"ends", "basis", "cells"}
	default:
		return []string{"ends", "basis"}
	}
}
