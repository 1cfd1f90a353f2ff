package record

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
)

// CarriedLetters is what the marks of a log have behind their numbers: as it
// says, or, of a log of the first version, as that version chose. The zero value
// is of a log that says nothing, as CSV.
func CarriedLetters(sheets []Sheet) mark.Letters {
	for _, s := range sheets {
		for i, row := range s.Rows {
			if !isLabelled(row, HeadLetters) {
				continue
			}
			if _, value := labelled(row); value != "" {
				continue
			}
			var lines []string
			for _, below := range s.Rows[i+1 : min(len(s.Rows), i+1+outlineLines)] {
				line, _ := labelled(below)
				if sameFold(line, HeadAmounts) || sameFold(line, HeadFingerprint) {
					break
				}
				lines = append(lines, line)
			}
			if l, ok := mark.ParseLetters(lines); ok {
				return l
			}
		}
	}
	_, outline := Carried(sheets)
	bodies, repeats := bodiesOf(outline)
	if len(bodies) == 0 {
		return mark.Letters{}
	}
	return mark.Earlier(bodies, repeats)
}

// bodiesOf are the bodies and the repeats in an outline.
func bodiesOf(outline []string) (bodies []string, repeats int) {
	rest, _ := strings.CutPrefix(lineOf(outline, "bodies: "), "bodies: ")
	for rest != "" {
		quoted, err := strconv.QuotedPrefix(rest)
		if err != nil {
			return nil, 0
		}
		body, _ := strconv.Unquote(quoted)
		bodies = append(bodies, body)
		rest = strings.TrimPrefix(rest[len(quoted):], ", ")
	}
	repeats, _ = strconv.Atoi(strings.TrimPrefix(lineOf(outline, "repeats: "), "repeats: "))
	return bodies, max(repeats, 1)
}

// paint is how the tiles of a log are marked: the log's own bodies and repeats
// may be others than the plan's now, in another order.
type paint struct {
	scheme mark.Scheme
	bodies []string // of the scheme
	at     []int    // by body of the scheme, the plan's, -1 where the plan has it no more
}

// paints are the ways in which the tiles of a log can be marked: one where the
// log says so, else that of the plan and that of the first version.
func paints(t *blend.Test, scheme mark.Scheme, sheets []Sheet) []paint {
	p := t.Plan
	of := func(bodies []string, repeats int, l mark.Letters) paint {
		made := paint{bodies: bodies}
		made.scheme = mark.Keep(&blend.Plan{Mark: p.Mark, Tiles: blend.Tiles{Bodies: bodies, Repeats: repeats}}, len(t.Cells), l)
		for _, body := range bodies {
			made.at = append(made.at, slices.IndexFunc(p.Tiles.Bodies, func(b string) bool { return fold(b) == fold(body) }))
		}
		return made
	}
	_, outline := Carried(sheets)
	if bodies, repeats := bodiesOf(outline); len(bodies) > 0 {
		return []paint{of(bodies, repeats, CarriedLetters(sheets))}
	}
	bodies, repeats := p.Tiles.Bodies, p.Tiles.Repeats
	if l := CarriedLetters(sheets); l.Check != "" {
		return []paint{of(bodies, repeats, l)}
	}
	return []paint{of(bodies, repeats, scheme.Letters()), of(bodies, repeats, mark.Earlier(bodies, repeats))}
}

// choose is the way of marking by which the most rows of the tables are tiles of
// the body that stands in them.
func choose(all []paint, columns []Column, tables []table) paint {
	if len(all) == 1 {
		return all[0]
	}
	best, most := all[0], -1
	for _, p := range all {
		fits := 0
		for _, t := range tables {
			for _, row := range t.sheet.Rows[t.from:t.to] {
				tile, err := p.scheme.Read(t.cell(columns, row, MarkField).Text)
				if err != nil {
					continue
				}
				body := t.cell(columns, row, BodyField)
				if body.blank() || fold(body.Text) == fold(p.bodies[tile.Body]) {
					fits++
				}
			}
		}
		if fits > most {
			best, most = p, fits
		}
	}
	return best
}
