package pdf

import (
	"fmt"
	"pourboard/render/wording"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// distinct are texts in the order in which they were met, each once.
type distinct []string

func (l *distinct) add(text string) {
	if !slices.Contains(*l, text) {
		*l = append(*l, text)
	}
}

// lacks reports whether a character cannot be printed as itself.
func (d *doc) lacks(r rune) bool {
	return unicode.IsControl(r) || d.faces.regular.glyph(r) == 0 || d.faces.bold.glyph(r) == 0
}

// fromRight reports whether a letter is of a script written from right to left.
func fromRight(r rune) bool {
	return r >= 0x590 && unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko,
		unicode.Samaritan, unicode.Mandaic)
}

// strange tells once of all characters that the fonts of a file lack, and once
// of all that is written from right to left, each with the person's own texts in
// which it stands: of what is composed of them there may be dozens. what names
// the file.
func (s *sheets) strange(what string) []wording.Line {
	var notes []wording.Line
	if texts := s.ownTexts(s.doc.missing, s.lost); texts != nil {
		var signs distinct
		for _, text := range texts {
			for _, r := range text {
				if s.lost(r) {
					signs.add(string(r))
				}
			}
		}
		stands := "it"
		if len(signs) > 1 {
			stands = "each"
		}
		notes = append(notes, wording.Line{
			Place: what,
			What:  "its font has no " + quoted(signs),
			Why:   fmt.Sprintf("a %c stands for %s, in %s", replacement, stands, quoted(texts)),
			Fix:   "write it in Latin, Greek or Cyrillic letters",
		})
	}
	if texts := s.ownTexts(s.doc.backward, fromRight); texts != nil {
		is := " is"
		if len(texts) > 1 {
			is = " are"
		}
		notes = append(notes, wording.Line{
			Place: what,
			What:  quoted(texts) + is + " written from right to left, which it cannot print in order",
			Fix:   "write it in Latin, Greek or Cyrillic letters",
		})
	}
	return notes
}

// lost is lacks, but for white space, which is printed as spaces.
func (s *sheets) lost(r rune) bool { return !unicode.IsSpace(r) && s.doc.lacks(r) }

// ownTexts are the person's own texts that account for such characters in the
// texts printed: the title and names of the plan, and, for what stands in none of
// these, such as remarks in a log, what was printed.
func (s *sheets) ownTexts(printed distinct, such func(rune) bool) distinct {
	if printed == nil {
		return nil
	}
	own := []string{s.plan.Title}
	for _, g := range s.plan.Glazes {
		own = append(own, g.Name)
		for _, part := range slices.Concat(g.Recipe, g.Additions) {
			own = append(own, part.Material)
		}
	}
	for _, series := range s.plan.Blend.Series {
		own = append(own, series.Material)
	}
	own = slices.Concat(own, s.plan.Tiles.Bodies, s.plan.Log.Numbers)
	var found distinct
	for _, text := range own {
		if strings.ContainsFunc(text, such) {
			found.add(text)
		}
	}
	for _, text := range printed {
		told := strings.Join(found, "")
		if strings.ContainsFunc(text, func(r rune) bool { return such(r) && !strings.ContainsRune(told, r) }) {
			found.add(text)
		}
	}
	return found
}

// mostQuoted are the most texts that a note quotes.
const mostQuoted = 6

// quoted names texts or characters in quotes.
func quoted(texts []string) string {
	var list []string
	for i, text := range texts {
		if i == mostQuoted {
			list = append(list, fmt.Sprint(len(texts)-i, " more"))
			break
		}
		list = append(list, strconv.QuoteToGraphic(text))
	}
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return list[0]
}
