package mark

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/spell"
)

const (
	// legible are the letters that nobody takes for a figure, or for another of
	// them unless a stroke is lost.
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
	var was []string // in the order that they got their letters
	for _, c := range l.copies {
		if !slices.Contains(was, c.body) {
			was = append(was, c.body)
		}
	}
	if at := Renamed(was, bodies); at >= 0 {
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
			behind := l.stemFor(body)
			if repeat > 0 || figures || !l.clear(behind) {
				figures = true
				behind += strconv.Itoa(repeat + 1)
			}
			l.copies = append(l.copies, copyLetters{body, repeat, behind})
		}
	}
	return l
}

// stemFor is the stem that a body has, or a new one as long as the others.
func (l *Letters) stemFor(body string) string {
	longest := 0
	var taken []string
	for _, c := range l.copies {
		stem := stemOf(c.behind)
		if stem != "" && strings.EqualFold(c.body, body) {
			return stem
		}
		taken, longest = append(taken, stem), max(longest, len(stem))
	}
	return l.stem(body, longest, taken)
}

// Renamed returns the index of the one body whose name has changed. It returns -1 where
// none has, and where several have or their number has, as nobody knows then which one
// is which.
func Renamed(was, is []string) int {
	at := -1
	for i := range min(len(was), len(is)) {
		if !strings.EqualFold(was[i], is[i]) {
			if at >= 0 {
				return -1
			}
			at = i
		}
	}
	if len(was) != len(is) {
		return -1
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

// stem is the letters of a body that has none yet: as many as asked, or two more. With
// one more, a letter of it that is read as a figure would leave a mark of another body.
func (l *Letters) stem(body string, length int, taken []string) string {
	if length == 1 {
		if letter := l.letter(body, taken); letter != "" {
			return letter
		}
	}
	if length < 2 {
		length += 2
	}
	return l.word(body, length, taken)
}

// letter is a letter that no body has yet, "" where there is none: the first of its
// name, of those in use, of all.
func (l *Letters) letter(body string, taken []string) string {
	for _, c := range namesLetters(body) + l.Bodies + ofBodies {
		letter := string(c)
		if !slices.Contains(taken, letter) && l.take(letter) {
			return letter
		}
	}
	return ""
}

// take puts a letter among those of bodies, and reports whether it is there.
func (l *Letters) take(letter string) bool {
	switch {
	case strings.Contains(l.Bodies, letter):
		return true
	case strings.Contains(l.Check, letter) || len(l.Bodies) == mostBodyLetters:
		return false
	}
	l.Bodies += letter
	return true
}

// word is several of the bodies' letters that no body has yet, those of its name
// first.
func (l *Letters) word(body string, length int, taken []string) string {
	for _, c := range ofBodies {
		l.take(string(c))
	}
	named := only(namesLetters(body), l.Bodies)
	for _, word := range words(named, l.Bodies, length) {
		if !slices.Contains(taken, word) {
			return word
		}
	}
	return ""
}

// words are the words of so many letters, those of a name in its order first.
func words(named, all string, length int) (list []string) {
	if length == 0 {
		return []string{""}
	}
	for i, c := range named + all {
		for _, word := range words(named[min(i+1, len(named)):], all, length-1) {
			list = append(list, string(c)+word)
		}
	}
	return list
}

// choose gives the bodies of a new test their letters, and repeats their figures: no
// letter where there is one tile of a cup, one of up to seven bodies, two of more,
// initials among them.
func choose(bodies []string, repeats int) Letters {
	l := Letters{first: 1}
	length, single := 1, len(bodies) == 1 && repeats <= 1
	if len(bodies) > mostBodyLetters {
		length = 2
		for _, body := range bodies {
			l.take((namesLetters(body) + ofBodies)[:1])
		}
	}
	var stems []string
	for _, body := range bodies {
		stem := ""
		if !single {
			stem = l.stem(body, length, stems)
		}
		stems = append(stems, stem)
		for repeat := range max(repeats, 1) {
			behind := stem
			if repeats > 1 {
				behind += fmt.Sprintf("%0*d", len(strconv.Itoa(repeats)), repeat+1)
			}
			l.copies = append(l.copies, copyLetters{body, repeat, behind})
		}
	}
	for _, c := range checkOrder {
		if len(l.Check) < modulus && !strings.ContainsRune(l.Bodies, c) {
			l.Check += string(c)
		}
	}
	return l
}

// namesLetters are the letters of a name that a body can have, in capitals.
func namesLetters(name string) string {
	return only(strings.ToUpper(spell.Bare(name)), ofBodies)
}

// only is a text without the letters that are not among some.
func only(text, letters string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(letters, r) {
			return r
		}
		return -1
	}, text)
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
	scan := func(line, format string, into ...any) bool {
		_, err := fmt.Sscanf(line, format, into...)
		return err == nil
	}
	ok = scan(lines[0], "letters of bodies %q from %d", &l.Bodies, &l.first) &&
		scan(lines[1], "check letters %q", &l.Check) && l.valid()
	for _, line := range lines[2:] {
		var c copyLetters
		ok = ok && scan(line, "%q repeat %d is %q", &c.body, &c.repeat, &c.behind) && c.repeat >= 1 &&
			strings.Trim(c.behind, l.Bodies+"0123456789") == "" &&
			!slices.ContainsFunc(l.copies, func(other copyLetters) bool { return other.behind == c.behind })
		c.repeat--
		l.copies = append(l.copies, c)
	}
	if !ok {
		return Letters{}, false
	}
	return l, true
}

// valid reports whether the letters can be told from each other and from figures.
func (l Letters) valid() bool {
	all := l.Bodies + l.Check
	for i, c := range all {
		if !strings.ContainsRune(legible, c) || strings.IndexRune(all, c) != i {
			return false
		}
	}
	return len(l.Check) == modulus && len(l.Bodies) <= mostBodyLetters && (l.first == 0 || l.first == 1)
}
