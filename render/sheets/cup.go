package sheets

import (
	"cmp"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/wording"
)

// markSpan names the first and the last cup by their marks: "CU1 to CU8".
func (s Sheets) markSpan() string {
	last := len(s.Test.Cells)
	switch {
	case s.Test.Plan.Mark == "":
		return quantity.Plural(last, "cup", "cups")
	case last == 1:
		return s.cupMark(1)
	}
	return s.cupMark(1) + " to " + s.cupMark(last)
}

// tilesOf are a cup's tiles: by body, then repeat.
func (s Sheets) tilesOf(cup int) []layout.Placed {
	first := s.Places.Scheme.IndexOf(cup, 0, 0)
	return s.Places.Tiles[first : first+len(s.Test.Plan.Tiles.Bodies)*max(1, s.Test.Plan.Tiles.Repeats)]
}

// letters are behind the number of a tile.
func (s Sheets) letters(t layout.Placed) string { return s.Places.Scheme.Behind(t.Body, t.Repeat) }

// cupMark is what the marks of a cup's tiles have in common: prefix and number.
func (s Sheets) cupMark(cup int) string {
	t := s.tilesOf(cup)[0]
	return strings.TrimSuffix(t.Mark, s.letters(t))
}

// allMarks is the marks of a cup in short: "MR7 P B R".
func (s Sheets) allMarks(cup int) string {
	text := s.cupMark(cup)
	for _, t := range s.tilesOf(cup) {
		text += " " + s.letters(t)
	}
	return strings.TrimSpace(text)
}

// letterKey says which letters of a mark are which body and repeat; "" where
// a cup has one tile alone.
func (s Sheets) letterKey() string {
	bodies := s.Test.Plan.Tiles.Bodies
	list := make([]string, len(bodies))
	for _, t := range s.tilesOf(1) {
		list[t.Body] += s.letters(t) + " "
	}
	if len(s.tilesOf(1)) == 1 {
		return ""
	}
	for b, name := range bodies {
		list[b] = strings.TrimSpace(list[b]) + "\u00A0" + name
	}
	return "Letters behind the number: " + strings.Join(list, ", ") + "."
}

// A held is one thing that a cup is labelled with: a letter and a percentage.
type held struct{ letter, text string }

// line is the letter and the percentage together.
func (h held) line() string {
	if h.letter == "" {
		return h.text
	}
	return h.letter + "\u00A0" + h.text
}

// cupContents is what a cup is labelled with; a lone series needs no letter. The parts
// of a list come first as they were written, and last which cup is made again.
func (s Sheets) cupContents(c blend.Cell) []held {
	list := s.amounts(c)
	if parts := c.Parts; parts != nil {
		list = append([]held{{"", wording.Parts(parts)}}, list...)
	}
	if c.Repeats > 0 {
		list = append(list, held{"", wording.RepeatOf(c)})
	}
	return list
}

// amounts is the percentages that a cup is labelled with.
func (s Sheets) amounts(c blend.Cell) []held {
	var list []held
	lone := len(s.Test.Plan.Blend.Series) == 1
	for i, d := range c.Doses {
		if text := wording.DoseBrief(d); lone {
			list = append(list, held{"", text})
		} else if d.Percent > 0 {
			list = append(list, held{blend.SeriesLetter(i), strings.TrimSuffix(text, " %")})
		}
	}
	if s.Test.Plan.Blend.HasSeries() {
		if list == nil {
			list = []held{{"", "base"}}
		}
		return list
	}
	for i, share := range c.Shares {
		if share > 0 {
			list = append(list, held{blend.GlazeLetter(i), strings.TrimSuffix(wording.ShareBrief(c, i), " %")})
		}
	}
	return list
}

// contentsLine is cupContents in one line: "P 50, Q 50".
func (s Sheets) contentsLine(c blend.Cell) string {
	var list []string
	for _, h := range s.cupContents(c) {
		list = append(list, h.line())
	}
	return strings.Join(list, ", ")
}

// contentsKey says what the letters of cupContents stand for and what is counted.
func (s Sheets) contentsKey() string {
	p := s.Test.Plan
	var list []string
	for i, series := range p.Blend.Series {
		list = append(list, blend.SeriesLetter(i)+"\u00A0"+series.Label())
	}
	switch len(list) {
	case 0:
	case 1:
		return "% " + p.Blend.Series[0].Material + " of the cup’s dry glaze"
	default:
		return strings.Join(list, ", ") + "; % of the cup’s dry glaze"
	}
	for i, e := range s.Test.Ends {
		list = append(list, blend.GlazeLetter(i)+"\u00A0"+e.Name)
	}
	of := map[blend.Basis]string{blend.Volume: "wet glaze by volume", blend.Weight: "wet glaze by weight"}[p.Blend.Basis]
	return strings.Join(list, ", ") + "; % of " + cmp.Or(of, "dry glaze")
}
