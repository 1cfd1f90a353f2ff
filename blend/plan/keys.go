package plan

import (
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
func headings() []heading {
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
}

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

// bracketed is a heading as it is written.
func bracketed(path string) string {
	switch {
	case path == "":
		return "the top of the file"
	case repeated(path):
		return "[[" + path + "]]"
	default:
		return "[" + path + "]"
	}
}

// slang is what else people call a key.
func slang(key string) string {
	switch spell.Bare(key) {
	case "sg", "density", "gravity", "litreweight", "literweight":
		return "specific-gravity"
	case "materials", "ingredients", "batch":
		return "recipe"
	case "glazes", "endpoints", "corners":
		return "ends"
	case "clays", "clay", "body":
		return "bodies"
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
