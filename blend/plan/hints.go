package plan

import (
	"cmp"
	"strings"
	"sync"

	"pourboard/blend/spell"
)

// meantText is the fix of a message about an unknown value in quotes: the likely one,
// or the list of all, "" where there are none.
func meantText(name string, options []string) string {
	if near := spell.Nearest(name, options); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	const most = 12
	switch {
	case len(options) == 0:
		return ""
	case len(options) > most:
		return "one of " + strings.Join(quoteAll(options[:most]), ", ") + " …"
	}
	return "one of " + listed(quoteAll(options), "or")
}

// longestKey is more bytes than any spelling of a key has.
const longestKey = 100

// sectionKey is a key with its section.
type sectionKey struct {
	s *Section
	k *Key
}

// knownKey is the key of any section that a name is a spelling of, or that people
// call so; nil for none.
func knownKey(name string) (known *Key) {
	for _, x := range spelledLike(name) {
		if spell.Bare(x.k.Name) == spell.Bare(name) {
			return x.k
		}
		known = cmp.Or(known, x.k)
	}
	return known
}

// spelledLike is the keys of all sections that a name is a spelling of, or that people
// call so.
func spelledLike(name string) []sectionKey {
	if len(name) > longestKey || strings.Contains(name, "/") { // a comment of another language
		return nil
	}
	return keysByName()[spell.Bare(name)]
}

var keysByName = sync.OnceValue(func() map[string][]sectionKey {
	all := map[string][]sectionKey{}
	for _, s := range sections() {
		for _, k := range s.Keys {
			for _, name := range append([]string{spell.Bare(k.Name)}, k.Also...) {
				all[name] = append(all[name], sectionKey{s, k})
			}
		}
	}
	return all
})

// meantKey is the key of the section that an unknown one was surely meant for, or
// else where it belongs: "[tiles]" or "[blend], as cells"; "" for neither.
func (s *Section) meantKey(name string, options []string) (key, elsewhere string) {
	like := spelledLike(name)
	for _, x := range like {
		if x.s == s {
			return x.k.Name, ""
		}
	}
	if len(like) == 0 {
		return spell.Nearest(name, options), ""
	}
	meant := like[0]
	for _, x := range like { // few write the sections that there may be several of
		if x.k.Name == name && !x.s.Several {
			meant = x
		}
	}
	elsewhere = meant.s.heading()
	if meant.k.Name != name {
		elsewhere += ", as " + meant.k.Name
	}
	return "", elsewhere
}

// meantPath is the section that an unknown one was surely meant for, nil for none:
// another spelling, or one under the wrong other.
func meantPath(path string) *Section {
	if section(path) != nil {
		return nil
	}
	var names []string
	byName := map[string]*Section{}
	for _, s := range sections()[1:] {
		_, name := parted(s.Path)
		names, byName[name] = append(names, name), s
	}
	_, typed := parted(path)
	return byName[spell.Nearest(typed, names)]
}
