package record

import (
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/mark"
)

// painting is how the tiles of a log are marked: the log's own bodies and repeats
// may be others than the plan's now, in another order.
type painting struct {
	scheme mark.Scheme
	bodies []string // of the scheme
	at     []int    // by body of the scheme, the plan's, -1 where the plan has it no more
	notes  []string // on a body that has another name in the plan
}

// paint is a way of marking tiles. A body that the plan has no more is the one in
// its place, where nothing else has changed of the bodies.
func paint(t *blend.Test, bodies []string, repeats int, l mark.Letters) painting {
	p := t.Plan
	made := painting{bodies: bodies, scheme: mark.Keep(&blend.Plan{Mark: p.Mark, Tiles: blend.Tiles{Bodies: bodies, Repeats: repeats}}, len(t.Cells), l)}
	for _, body := range bodies {
		made.at = append(made.at, slices.IndexFunc(p.Tiles.Bodies, func(b string) bool { return fold(b) == fold(body) }))
	}
	if i := mark.Renamed(bodies, p.Tiles.Bodies); i >= 0 && made.at[i] < 0 {
		made.at[i] = i
		note := fmt.Sprintf("body %q is now called %q; its rows count", bodies[i], p.Tiles.Bodies[i])
		if letters := made.scheme.Behind(i, 0); letters != "" {
			note += " (letter " + letters + ")"
		}
		made.notes = []string{note}
	}
	return made
}

// paintings are the ways in which the tiles of a log can be marked: one where the
// log says so, else that of the plan and that of the first version.
func paintings(t *blend.Test, c Carried) []painting {
	if bodies, repeats := c.Outline.Tiles(); len(bodies) > 0 {
		return []painting{paint(t, bodies, repeats, c.Letters)}
	}
	bodies, repeats := t.Plan.Tiles.Bodies, t.Plan.Tiles.Repeats
	if c.Letters.Check != "" {
		return []painting{paint(t, bodies, repeats, c.Letters)}
	}
	own := mark.New(t.Plan, len(t.Cells)).Letters()
	return []painting{paint(t, bodies, repeats, own), paint(t, bodies, repeats, mark.Earlier(bodies, repeats))}
}

// choose is the way of marking by which the most rows of the tables are tiles of
// the body that is in them, the first of equals.
func choose(all []painting, columns []Column, tables []table) painting {
	fits := func(p painting) (n int) {
		for _, t := range tables {
			for _, row := range t.sheet.Rows[t.from:t.to] {
				tile, err := p.scheme.Read(t.cell(columns, row, MarkField).Text)
				if err != nil {
					continue
				}
				if body := t.cell(columns, row, BodyField); body.blank() || fold(body.Text) == fold(p.bodies[tile.Body]) {
					n++
				}
			}
		}
		return n
	}
	if len(all) > 1 && fits(all[1]) > fits(all[0]) {
		return all[1]
	}
	return all[0]
}
