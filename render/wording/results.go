// Package wording has the sentences that several renderers share: notes,
// advice, what a cup holds, and how its amounts are measured. Numbers get their
// looks from blend/quantity. It decides nothing: what it says is in the
// finished table of a test.
package wording

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mixmodel"
	"pourboard/blend/quantity"
	"pourboard/blend/results"
)

// The printed forms of readings and results: every page, table and
// workbook takes them from here.

// ValueText is a value of the measure read of n tiles, without a unit: as many
// decimals as it was read with, and one more where it is a mean.
func ValueText(m *results.Measure, x float64, n int) string {
	if n > 1 {
		return quantity.Fixed(x, m.Decimals+1)
	}
	return quantity.Fixed(x, m.Decimals)
}

// LevelText is the level of a contour as it is written beside it.
func LevelText(l results.Line) string { return quantity.Fixed(l.Level, l.Decimals) }

// StatisticText is a number that came out of many, such as a coefficient: four
// significant digits.
func StatisticText(x float64) string { return significant(x, 4) }

// ErrorText is a standard error or a ±: two significant digits.
func ErrorText(x float64) string { return significant(x, 2) }

func significant(x float64, digits int) string {
	if x != 0 && (math.Abs(x) < 1e-6 || math.Abs(x) >= 1e9) {
		return strconv.FormatFloat(x, 'e', digits-1, 64)
	}
	return quantity.Fixed(x, results.Places(x, digits))
}

// RatioText is R² or a probability: three digits after the point.
func RatioText(x float64) string { return quantity.Fixed(x, 3) }

// BodyText is the name of a body, with the firing where tiles were fired twice,
// or "all bodies".
func BodyText(r *results.Results, body int) string {
	if body == results.AllBodies {
		return "all bodies"
	}
	fired := r.Fired[body]
	name := r.Test.Plan.Tiles.Bodies[fired.Body]
	if fired.Firing != "" {
		name += ", firing " + fired.Firing
	}
	return name
}

// RankedBodyText is the body that a measure is ranked on, with the firings that
// count where tiles were fired twice: "all bodies, firing A".
func RankedBodyText(r *results.Results, m *results.Measure, body int) string {
	text := BodyText(r, body)
	switch {
	case body != results.AllBodies || m.Together == nil:
	case len(m.Together) == 1:
		text += ", firing " + m.Together[0]
	default:
		text += ", firings " + strings.Join(m.Together, ", ")
	}
	return text
}

// RankingText is the body of a ranking, with how many cups it compares where another
// compares more: "all bodies, 4 cups".
func RankingText(r *results.Results, m *results.Measure, ranking results.Ranking) string {
	text := RankedBodyText(r, m, ranking.Body)
	if slices.ContainsFunc(m.Highest, func(other results.Ranking) bool { return other.Of > ranking.Of }) {
		text += ", " + quantity.Plural(ranking.Of, "cup", "cups")
	}
	return text
}

// EndsText is the key to the letters of the models: "P Magnesia matte,
// Q Wood ash", with what a share or a percentage is of.
func EndsText(r *results.Results) string {
	var names []string
	for _, e := range r.Ends {
		name := e.Letter + " " + e.Name
		if e.To > 0 {
			name += " (a share of 1 is " + quantity.PercentText(e.To) + " %)"
		}
		names = append(names, name)
	}
	text := strings.Join(names, ", ")
	switch {
	case !r.Test.Plan.Blend.HasSeries():
		return text + "; shares " + BasisText(r.Test.Plan.Blend.Basis)
	case r.Space == mixmodel.Shares:
		return text + "; shares of the way to each corner"
	}
	return text + "; % of the cup's dry glaze"
}

// MixtureText is a point of the models' space, of the ends or series that are
// not 0: "45 % P, 30 % Q, 25 % R" for shares of ends; "1.5 % Copper carbonate,
// 2 % Rutile" for series, and "the base alone" without any.
func MixtureText(r *results.Results, point []float64) string {
	series, percents := r.Test.Plan.Blend.HasSeries(), blend.Hundred(point)
	var parts []string
	for i, e := range r.Ends {
		percent, of := percents[i], e.Letter
		if series {
			percent, of = point[i], e.Name
			if r.Space == mixmodel.Shares {
				percent *= e.To
			}
			percent = math.Round(100*percent) / 100
		}
		if text := quantity.PercentText(percent); text != "0" {
			parts = append(parts, text+" % "+of)
		}
	}
	return cmp.Or(strings.Join(parts, ", "), "the base alone")
}

// CellText is what was asked of a cell, as MixtureText writes it, and what was
// made where that differs noticeably.
func CellText(r *results.Results, cell int) string {
	c := r.Test.Cells[cell-1]
	if !r.Test.Plan.Blend.HasSeries() {
		return MixtureText(r, c.Shares)
	}
	return dosesText(r.Test, c, false)
}

// ShapeText says which way the ends or series lie in a map that has the shape
// of the design: "P at the top, Q at the lower left, R at the lower right".
func ShapeText(r *results.Results) string {
	places := func(where ...string) string {
		for i := range where {
			where[i] = r.Ends[i].Letter + " " + where[i]
		}
		return strings.Join(where, ", ")
	}
	triangle := func() string { return places("at the top", "at the lower left", "at the lower right") }
	switch b := r.Test.Plan.Blend; b.Kind {
	case blend.Triaxial:
		return triangle()
	case blend.Quadraxial:
		return triangle() + "; more of " + r.Ends[3].Letter + " from layer to layer"
	case blend.Biaxial:
		if b.HasSeries() {
			return places("across", "downwards")
		}
		return places("at the top left", "at the top right", "at the lower left", "at the lower right")
	case blend.Line:
		if !b.HasSeries() {
			return "from " + r.Ends[0].Letter + " to " + r.Ends[1].Letter + ", row by row"
		}
	case blend.Centroid:
		return "each row adds one end glaze"
	}
	return "in the order of the plan, row by row"
}

// MissingText says which cells were not read, a body to a line; what names it:
// "no entries", "no Gloss".
func MissingText(r *results.Results, gaps []results.Gap, what string) []string {
	var lines []string
	for _, g := range gaps {
		where := quantity.Cups(g.Cells, 20)
		if len(g.Cells) == len(r.Test.Cells) {
			where = "any cup"
		}
		lines = append(lines, fmt.Sprintf("%s: %s for %s", BodyText(r, g.Body), what, where))
	}
	return lines
}

// CountsText lists words with how many of the cell's tiles each was written of:
// "crawling 2 of 3, crazing 1 of 3"; of a single tile the words alone.
func CountsText(s results.Observations, counts []results.Count) string {
	var texts []string
	for _, c := range counts {
		if s.Tiles > 1 {
			texts = append(texts, fmt.Sprintf("%s %d of %d", c.Word, c.Tiles, s.Tiles))
		} else {
			texts = append(texts, c.Word)
		}
	}
	return strings.Join(texts, ", ")
}

// ObservationTexts is what was entered of a cup in words, a column each, defects first:
// a column without entries is left out.
func ObservationTexts(s results.Observations) []string {
	var texts []string
	add := func(head string, counts []results.Count) {
		if len(counts) > 0 {
			texts = append(texts, head+" "+CountsText(s, counts))
		}
	}
	add("defects", s.Defects)
	add("surface", s.Surface)
	add("colour", s.Colour)
	return append(append(texts, CoatTexts(s)...), s.Notes...)
}

// CoatTexts is what was entered of a cup's coats in words: "coat 3 runs".
func CoatTexts(s results.Observations) []string {
	var texts []string
	for k, counts := range s.Coats {
		if len(counts) > 0 {
			texts = append(texts, fmt.Sprintf("coat %d %s", k+1, CountsText(s, counts)))
		}
	}
	return texts
}

// How many cups of one place are named, and how many have their defects named.
const (
	mostTied   = 8
	mostFaulty = 3
)

// RankedText is a place in a ranking of a body: "1. cup 12: 5", "1. cups 3, 7 (tie):
// 4.5". Defects of its cups follow, since a glaze that crawled is not best however it was
// rated; then what the cup holds, where it is alone in its place.
func RankedText(r *results.Results, m *results.Measure, body int, k results.Rank) string {
	tie := ""
	if len(k.Cells) > 1 {
		tie = " (tie)"
	}
	text := fmt.Sprintf("%d. %s%s: %s", k.Place, quantity.Cups(k.Cells, mostTied), tie, ValueText(m, k.Value, k.N))
	var defects []string
	for _, cell := range k.Cells {
		s := r.Observations(cell, body)
		counts := CountsText(s, s.Faults())
		if len(k.Cells) > 1 && counts != "" {
			counts = fmt.Sprintf("cup %d %s", cell, counts)
		}
		if counts != "" {
			defects = append(defects, counts)
		}
	}
	if len(defects) > mostFaulty {
		text += fmt.Sprintf(", but %d of %d have defects", len(defects), len(k.Cells))
	} else if defects != nil {
		text += ", but " + strings.Join(defects, "; ")
	}
	if len(k.Cells) == 1 {
		text += " (" + CellText(r, k.Cells[0]) + ")"
	}
	return text
}
