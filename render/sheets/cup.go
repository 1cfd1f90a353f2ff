package sheets

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// about is the test in one line.
func (s Sheets) about() string { return wording.Summary(s.Test) }

// markSpan names the first and the last cup by their marks: "CU1 to CU8".
func (s Sheets) markSpan() string {
	if s.Test.Plan.Mark == "" {
		return quantity.Plural(len(s.Test.Cells), "cup", "cups")
	}
	first, last := s.cupMark(1), s.cupMark(len(s.Test.Cells))
	if first == last {
		return first
	}
	return first + " to " + last
}

// tilesOf are the indexes of a cup's tiles: by body, then repeat.
func (s Sheets) tilesOf(cup int) []int {
	tiles := s.Test.Plan.Tiles
	n := len(tiles.Bodies) * max(1, tiles.Repeats)
	first := s.Places.Scheme.IndexOf(cup, 0, 0)
	list := make([]int, n)
	for i := range list {
		list[i] = first + i
	}
	return list
}

// cupMark is what the marks of a cup's tiles have in common: prefix and number.
func (s Sheets) cupMark(cup int) string {
	mark := s.Places.Tiles[s.tilesOf(cup)[0]].Mark
	return mark[:len(mark)-len(s.suffix(cup, 0))]
}

// suffix is the letters behind the number of a cup's tile.
func (s Sheets) suffix(cup, k int) string {
	mark := s.Places.Tiles[s.tilesOf(cup)[k]].Mark
	at := len(s.Test.Plan.Mark)
	for at < len(mark) && mark[at] >= '0' && mark[at] <= '9' {
		at++
	}
	return mark[at:]
}

// allMarks is the marks of a cup in short: "MR7 P B R".
func (s Sheets) allMarks(cup int) string {
	text := s.cupMark(cup)
	for k := range s.tilesOf(cup) {
		if letters := s.suffix(cup, k); letters != "" {
			text += " " + letters
		}
	}
	return text
}

// letterKey says which letters of a mark are which body and repeat; "" where
// a cup has one tile alone.
func (s Sheets) letterKey() string {
	tiles := s.Test.Plan.Tiles
	if len(s.tilesOf(1)) == 1 {
		return ""
	}
	var list []string
	for b, name := range tiles.Bodies {
		var letters []string
		for r := range max(1, tiles.Repeats) {
			letters = append(letters, s.suffix(1, b*max(1, tiles.Repeats)+r))
		}
		list = append(list, strings.Join(letters, " ")+"\u00A0"+name)
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
	series := s.Test.Plan.Blend.Series
	for i, d := range c.Doses {
		h := held{blend.SeriesLetter(i), strings.TrimSuffix(wording.DoseBrief(d), " %")}
		if len(series) == 1 {
			h = held{"", wording.DoseBrief(d)}
		}
		if d.Percent > 0 || len(series) == 1 {
			list = append(list, h)
		}
	}
	if len(series) > 0 {
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
		if len(p.Blend.Series) > 1 {
			list = append(list, blend.SeriesLetter(i)+"\u00A0"+series.Label())
		}
	}
	if len(p.Blend.Series) > 0 {
		if list == nil {
			return "% " + p.Blend.Series[0].Material + " of the cup’s dry glaze"
		}
		return strings.Join(list, ", ") + "; % of the cup’s dry glaze"
	}
	for i, e := range s.Test.Ends {
		list = append(list, blend.GlazeLetter(i)+"\u00A0"+e.Name)
	}
	of := map[blend.Basis]string{blend.Dry: "dry glaze", blend.Volume: "wet glaze by volume", blend.Weight: "wet glaze by weight"}
	return strings.Join(list, ", ") + "; % of " + of[p.Blend.Basis]
}
