package blend

import (
	"slices"

	"pourboard/blend/quantity"
)

// pourOtherwise takes the pours that came out otherwise than planned in place
// of the measured ones. Batches stay as they were planned, for they are mixed
// by then. A pour that a cup does not have, or more than a batch holds, is a
// Fault.
func pourOtherwise(t *Test) error {
	at := func(q Poured, fix, format string, args ...any) error {
		fault := faultf("", fix, format, args...)
		fault.Line = q.Line
		return fault
	}
	for _, q := range t.Plan.Poured {
		end := endOf(t.Plan.Blend, q.Glaze)
		if end < 0 {
			return at(q, "a glaze that cups are poured from", "no cup is poured from %q alone", t.Plan.Glazes[q.Glaze].Name)
		}
		for _, n := range q.Cups {
			if t.Cells[n-1].Pours[end].ML == 0 {
				return at(q, "another cup or another glaze", "cup %d has no %q", n, t.Ends[end].Name)
			}
			pourInto(t, &t.Cells[n-1], end, q)
		}
	}
	for _, q := range slices.Backward(t.Plan.Poured) {
		end := endOf(t.Plan.Blend, q.Glaze)
		if ml, batch := t.PouredML(end), t.Batches[end].ML; ml > batch*(1+hair) {
			return at(q, quantity.VolumeText(ml-batch)+" mL less", "the cups take %s mL of %q, and its batch is %s mL",
				quantity.VolumeText(ml), t.Ends[end].Name, quantity.VolumeText(batch))
		}
	}
	return nil
}

// PouredML is what the cups take of an end's batch as measured, in mL, with what
// is lost at each pour.
func (t *Test) PouredML(end int) float64 {
	return t.sum(func(c Cell) float64 {
		if c.Pours[end].ML == 0 {
			return 0
		}
		return c.Pours[end].Got.ML + t.Plan.Kit.Loss
	})
}

// LeftML is what stays of an end's batch when all cups are poured as measured,
// in mL; negative where the batch is too small.
func (t *Test) LeftML(end int) float64 { return t.Batches[end].ML - t.PouredML(end) }

// endOf is the end that is poured from a glaze of the plan, or −1: end glazes of
// a series by pouring are none of the plan's own.
func endOf(b Blend, glaze int) int {
	if b.HasSeries() && b.Method == ByPour {
		return -1
	}
	return slices.Index(b.Glazes(), glaze)
}

// pourInto makes a pour of a cup the one that it really was.
func pourInto(t *Test, c *Cell, end int, q Poured) {
	e, kit := t.Ends[end], t.Plan.Kit
	c.Pours[end].Other = true
	t.measure(c, end, q.Amount.Value/e.in(q.Amount.Of)*e.perML(kit))
	c.read(kit)
}
