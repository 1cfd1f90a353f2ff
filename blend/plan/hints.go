package plan

import (
	"strings"
	"sync"

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

// otherNames is what else people call a key, as spell.Bare leaves it.
var otherNames = map[string]string{
	"sg": "specific-gravity", "gravity": "specific-gravity", "density": "specific-gravity",
	"materials": "recipe", "ingredients": "recipe",
	"glazes": "ends", "colourant": "material", "colorant": "material",
	"clay": "bodies", "clays": "bodies", "body": "bodies",
	"size": "dry", "type": "kind", "cups": "cells", "oxides": "analysis",
}

// longestKey is more bytes than any spelling of a key has.
const longestKey = 100

// knownKey is the key of any section that a key is another spelling of, nil
// for none.
func knownKey(key string) *Key {
	if len(key) > longestKey || strings.Contains(key, "/") { // a comment of another language
		return nil
	}
	return keysByName()[spell.Bare(key)]
}

// keysByName is the keys of all sections by what spell.Bare leaves of them. Of
// keys with one name the first is taken: their values look alike.
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

// home is the heading of the other section that has a key, "" when
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
