package mark

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/spell"
)

const (
	// legible are the letters that are read as no figure and as no other letter
	// of them, but for a lost stroke.
	legible = "ACDEFHJKLMNPRTUWXY"
	modulus = 11 // how many check letters there are: see the package's comment
	// ofBodies are those that new bodies have: X and Y are series' letters
	// (blend.SeriesLetter).
	ofBodies = "ACDEFHJKLMNPRTUW"
	// mostBodyLetters leaves eleven of the legible ones for check letters.
	mostBodyLetters = len(legible) - modulus
)

// checkOrder is in which order letters are taken for check letters.
const checkOrder = "FHJLNRUWXYPKMTDCEA"

// Letters are the letters and figures that a test's marks have behind their
// numbers. The zero value has none yet.
type Letters struct {
	Bodies string // the letters of bodies, in the order that the check sum counts them
	Check  string // eleven check letters
	first  int    // what the first of Bodies counts in the check sum
	copies []copyLetters
}

// copyLetters are the characters after the number on tiles of one body and repeat.
type copyLetters struct {
	body   string
	repeat int // from 0
	behind string
}

// behind returns the characters after the number for a body, by name, and a
// repeat, from 0.
func (l Letters) behind(body string, repeat int) (string, bool) {
	for _, c := range l.copies {
		if c.repeat == repeat && strings.EqualFold(c.body, body) {
			return c.behind, true
		}
	}
	return "", false
}

// Body is the body (by name) and the repeat, from 0, of tiles with something
// behind their number.
func (l Letters) Body(behind string) (body string, repeat int, ok bool) {
	for _, c := range l.copies {
		if c.behind == behind {
			return c.body, c.repeat, true
		}
	}
	return "", 0, false
}

// Earlier are the letters of the first version's marks: the tiles of a cup were
// counted, bodies before repeats, in seven letters.
func Earlier(bodies []string, repeats int) Letters {
	l := Letters{Bodies: "ACDEKMT", Check: "FHJLNPRUWXY"}
	repeats = max(repeats, 1)
	length := 0
	for reach := 1; reach < len(bodies)*repeats; reach *= len(l.Bodies) {
		length++
	}
	for b, body := range bodies {
		for repeat := range repeats {
			behind := make([]byte, length)
			n := b*repeats + repeat
			for j := length - 1; j >= 0; j-- {
				behind[j] = l.Bodies[n%len(l.Bodies)]
				n /= len(l.Bodies)
			}
			l.copies = append(l.copies, copyLetters{body, repeat, string(behind)})
		}
	}
	return l
}

// extend gives bodies and repeats letters that have none yet; those that have
// some keep them.
func (l Letters) extend(bodies []string, repeats int) Letters {
	if len(l.copies) == 0 {
		return choose(bodies, repeats)
	}
	l.copies = slices.Clone(l.copies)
	if was := l.bodyNames(); Renamed(was, bodies) >= 0 {
		at := Renamed(was, bodies)
		for i := range l.copies {
			if l.copies[i].body == was[at] {
				l.copies[i].body = bodies[at]
			}
		}
	}
	figures := slices.ContainsFunc(l.copies, func(c copyLetters) bool { return c.behind != stemOf(c.behind) })
	for _, body := range bodies {
		for repeat := range repeats {
			if _, there := l.behind(body, repeat); there {
				continue
			}
			first, _ := l.behind(body, 0)
			behind := stemOf(first)
			if behind == "" {
				behind = l.freeStem(body)
			}
			if repeat > 0 || figures || !l.clear(behind) {
				figures = true
				behind += strconv.Itoa(repeat + 1)
			}
			l.copies = append(l.copies, copyLetters{body, repeat, behind})
		}
	}
	return l
}

// bodyNames are the bodies that have letters, in the order that they got them.
func (l Letters) bodyNames() (names []string) {
	for _, c := range l.copies {
		if !slices.Contains(names, c.body) {
			names = append(names, c.body)
		}
	}
	return names
}

// Renamed is the index of the only body that has another name than it had, -1
// where more of them has changed: then nobody knows which one is which.
func Renamed(was, is []string) int {
	at := -1
	for i := range was {
		switch {
		case len(was) != len(is):
			return -1
		case strings.EqualFold(was[i], is[i]):
		case at >= 0:
			return -1
		default:
			at = i
		}
	}
	return at
}

// stemOf returns the letters after a number, without the figures.
func stemOf(behind string) string { return strings.TrimRight(behind, "0123456789") }

// clear reports whether a mark keeps its body when its check letter is read as a
// body's letter: P and PU are not clear of each other.
func (l Letters) clear(behind string) bool {
	return !slices.ContainsFunc(l.copies, func(c copyLetters) bool {
		longer, shorter := c.behind, behind
		if len(longer) < len(shorter) {
			longer, shorter = shorter, longer
		}
		more, ok := strings.CutPrefix(longer, shorter)
		return ok && len(more) == 1 && !isFigure(more[0])
	})
}

// freeStem is the letters of a body that is new to a test with letters: one that
// no body has, or else two of those in use. Where all have two, it has two.
func (l *Letters) freeStem(body string) string {
	// Without one of its letters the check sum must be another one.
	counts := func(c byte) int { return strings.IndexByte(l.Bodies, c) + l.first }
	used := func(stem string) bool {
		return slices.ContainsFunc(l.copies, func(c copyLetters) bool { return strings.HasPrefix(c.behind, stem) })
	}
	for _, c := range namesLetters(body) + l.Bodies + ofBodies {
		stem, has := string(c), strings.ContainsRune(l.Bodies, c)
		if used(stem) || strings.ContainsRune(l.Check, c) || !has && len(l.Bodies) >= mostBodyLetters || len(stemOf(l.copies[0].behind)) > 1 {
			continue
		}
		if !has {
			l.Bodies += stem
		}
		if counts(stem[0]) > 0 {
			return stem
		}
	}
	for i := range len(l.Bodies) {
		for k := range len(l.Bodies) {
			a, b := l.Bodies[i], l.Bodies[k]
			if stem := string([]byte{a, b}); !used(stem) && (counts(a)+counts(b))%modulus != 0 && counts(a) > 0 && counts(b) > 0 {
				return stem
			}
		}
	}
	return body // more bodies than a plan can have
}

// choose gives bodies their letters, and repeats their figures.
func choose(bodies []string, repeats int) Letters {
	l := Letters{first: 1}
	stems := make([]string, len(bodies))
	switch {
	case len(bodies) == 1 && repeats <= 1:
	case len(bodies) <= mostBodyLetters:
		for i, body := range bodies {
			for _, c := range namesLetters(body) + ofBodies {
				if !strings.ContainsRune(l.Bodies, c) {
					stems[i] = string(c)
					l.Bodies += stems[i]
					break
				}
			}
		}
	default:
		for _, body := range bodies {
			if c := (namesLetters(body) + ofBodies)[:1]; len(l.Bodies) < mostBodyLetters && !strings.Contains(l.Bodies, c) {
				l.Bodies += c
			}
		}
		for _, c := range ofBodies {
			if len(l.Bodies) < mostBodyLetters && !strings.ContainsRune(l.Bodies, c) {
				l.Bodies += string(c)
			}
		}
		for i, body := range bodies {
			stems[i] = l.pair(body, stems[:i])
		}
	}
	for _, c := range checkOrder {
		if len(l.Check) < modulus && !strings.ContainsRune(l.Bodies, c) {
			l.Check += string(c)
		}
	}
	for i, body := range bodies {
		for repeat := range max(repeats, 1) {
			behind := stems[i]
			if repeats > 1 {
				behind += fmt.Sprintf("%0*d", len(strconv.Itoa(repeats)), repeat+1)
			}
			l.copies = append(l.copies, copyLetters{body, repeat, behind})
		}
	}
	return l
}

// pair is two of the bodies' letters that no body has yet, those of its name
// first.
func (l Letters) pair(body string, taken []string) string {
	named := ""
	for _, c := range namesLetters(body) {
		if strings.ContainsRune(l.Bodies, c) {
			named += string(c)
		}
	}
	for i, a := range named + l.Bodies {
		after := named[min(i+1, len(named)):]
		for _, b := range after + l.Bodies {
			if stem := string(a) + string(b); !slices.Contains(taken, stem) {
				return stem
			}
		}
	}
	return ""
}

// namesLetters are the letters of a name that a body can have, in capitals.
func namesLetters(name string) string {
	letters := ""
	for _, r := range strings.ToUpper(spell.Bare(name)) {
		if strings.ContainsRune(ofBodies, r) {
			letters += string(r)
		}
	}
	return letters
}

// Lines are the letters as a log keeps them, for ParseLetters.
func (l Letters) Lines() []string {
	lines := []string{
		fmt.Sprintf("letters of bodies %q from %d", l.Bodies, l.first),
		fmt.Sprintf("check letters %q", l.Check),
	}
	for _, c := range l.copies {
		lines = append(lines, fmt.Sprintf("%q repeat %d is %q", c.body, c.repeat+1, c.behind))
	}
	return lines
}

// ParseLetters reads what Lines wrote; it is not ok where something is missing
// or cannot be.
func ParseLetters(lines []string) (l Letters, ok bool) {
	if len(lines) < 3 {
		return Letters{}, false
	}
	if n, _ := fmt.Sscanf(lines[0], "letters of bodies %q from %d", &l.Bodies, &l.first); n != 2 {
		return Letters{}, false
	}
	if n, _ := fmt.Sscanf(lines[1], "check letters %q", &l.Check); n != 1 || len(l.Check) != modulus {
		return Letters{}, false
	}
	for i, c := range l.Bodies + l.Check {
		if !strings.ContainsRune(legible, c) || strings.IndexRune(l.Bodies+l.Check, c) != i {
			return Letters{}, false
		}
	}
	seen := map[string]bool{}
	for _, line := range lines[2:] {
		var c copyLetters
		if n, _ := fmt.Sscanf(line, "%q repeat %d is %q", &c.body, &c.repeat, &c.behind); n != 3 || c.repeat < 1 || seen[c.behind] {
			return Letters{}, false
		}
		for _, r := range c.behind {
			if !strings.ContainsRune(l.Bodies+"0123456789", r) {
				return Letters{}, false
			}
		}
		seen[c.behind] = true
		c.repeat--
		l.copies = append(l.copies, c)
	}
	return l, len(l.Bodies) <= mostBodyLetters && (l.first == 0 || l.first == 1)
}
