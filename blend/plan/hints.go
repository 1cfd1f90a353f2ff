package plan

import (
	"cmp"
	"slices"
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

// called is the key of the section that people call so too, "" for none.
func (s *Section) called(name string) string {
	for _, k := range s.Keys {
		if slices.Contains(k.Also, spell.Bare(name)) {
			return k.Name
		}
	}
	return ""
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
	for _, s := range sections() {
		for _, k := range s.Keys {
			if bare := spell.Bare(k.Name); all[bare] == nil {
				all[bare] = k
			}
		}
	}
	return all
})

// home is the other section that a key belongs in: the first where people call
// a key so, else the only one that has it; "" for none.
func home(key, elsewhere string) string {
	var all []string
	for _, s := range sections() {
		if s.Path == elsewhere {
			continue
		}
		if k := s.called(key); k != "" {
			return s.heading() + ", as " + k
		}
		if s.find(key) != nil {
			all = append(all, s.heading())
		}
	}
	if len(all) != 1 {
		return ""
	}
	return all[0]
}

// meantPath is the section that an unknown one was surely meant for, nil for
// none: another spelling, or one under the wrong other.
func meantPath(path string) *Section {
	if section(path) != nil {
		return nil
	}
	_, typed := parted(strings.ToLower(path))
	var paths []string
	for _, s := range sections()[1:] {
		if _, name := parted(s.Path); name == typed {
			return s
		}
		paths = append(paths, s.Path)
	}
	return section(cmp.Or(spell.Nearest(path, paths), "none"))
}
