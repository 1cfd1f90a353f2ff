package record

import (
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/mark"
)

// painting is how the tiles of a log are marked. Since then bodies and repeats of the
// plan may have changed, and so may their order.
type painting struct {
	scheme mark.Scheme
	bodies []string // of the scheme
	at     []int    // by body of the scheme: its index in the plan, -1 where it is gone
	plan   []string // the plan's bodies
	notes  []string // on a body that has another name in the plan
}

// nowCalled is the plan's name of a body of the log, "" where it is gone.
func (p painting) nowCalled(body int) string {
	if at := p.at[body]; at >= 0 {
		return p.plan[at]
	}
	return ""
}

// paint is a way of marking tiles. Where one body alone is gone and another is in its
// place, it was renamed.
func paint(t *blend.Test, bodies []string, repeats int, l mark.Letters) painting {
	p := t.Plan
	as := &blend.Plan{Mark: p.Mark, Tiles: blend.Tiles{Bodies: bodies, Repeats: repeats}}
	made := painting{bodies: bodies, plan: p.Tiles.Bodies, scheme: mark.Keep(as, len(t.Cells), l)}
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

// painting is how the tiles of the log are marked. Where the log does not say, they are
// marked as the plan marks them now or as the first version did: in the way by which
// more rows have a mark that fits their body.
func (r *reader) painting(c Carried) painting {
	bodies, repeats := c.Outline.Tiles()
	if len(bodies) == 0 {
		bodies, repeats = r.test.Plan.Tiles.Bodies, r.test.Plan.Tiles.Repeats
	}
	if c.Letters.Check != "" {
		return paint(r.test, bodies, repeats, c.Letters)
	}
	own := paint(r.test, bodies, repeats, mark.New(r.test.Plan, len(r.test.Cells)).Letters())
	first := paint(r.test, bodies, repeats, mark.Earlier(bodies, repeats))
	if r.table.tiles(first) > r.table.tiles(own) {
		return first
	}
	return own
}

// tiles counts the rows whose mark, read in a way of marking, fits their body.
func (t *table) tiles(p painting) (n int) {
	for _, row := range t.sheet.Rows {
		tile, err := p.scheme.Read(t.cell(row, MarkField).Text)
		if body := t.cell(row, BodyField); err == nil && (body.blank() || fold(body.Text) == fold(p.bodies[tile.Body])) {
			n++
		}
	}
	return n
}
