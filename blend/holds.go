package blend

import (
	"math"
	"slices"
	"strings"
)

// What a tile is said to hold is what was asked, as long as that is what it
// holds. Where what was made differs noticeably, both are said, for the tile is
// read weeks later, when nobody remembers what the scale could not show.

// Strays reports whether a dose is made noticeably other than it was asked:
// none of it, or off by more than its own ±, or by more of what was asked than
// the plan's Worst.
func (t *Test) Strays(d Dose) bool {
	off := math.Abs(d.GotPercent - d.Percent)
	return d.None() || d.Percent > 0 && (off > d.PlusMinus+noiseOff || off > (t.Plan.Kit.Worst+hair)*d.Percent)
}

// noiseOff is a difference in percentage points that is of the arithmetic.
const noiseOff = 1e-9

// StraysShare reports whether the share of an end is noticeably other than
// asked: none of it, off by more than its own ±, or by more than strayPart.
func (c Cell) StraysShare(end int) bool {
	p := c.Pours[end]
	off := math.Abs(p.GotShare - c.Shares[end])
	return p.ML > 0 && (p.Steps == 0 || 100*off > 100*p.PlusMinus+noiseOff || off > (strayPart+hair)*c.Shares[end])
}

// strayPart is how much of what was asked a share may be off before its cup is
// given as made (DESIGN section 4: a relative 5 %).
const strayPart = 0.05

// DoseSaid is the percentage of a dose as a tile is said to hold it: "0.5 %",
// "0.25 % asked, none made", "0.5 % asked, 0.83 made".
func (t *Test) DoseSaid(d Dose) string {
	return said(d.PercentText(), madeText(d.GotPercent), t.Strays(d))
}

// DoseBrief is DoseSaid where there is little room: what is made where that
// differs noticeably, "none" or "0.83 %", otherwise what is asked.
func (t *Test) DoseBrief(d Dose) string {
	return brief(d.PercentText(), madeText(d.GotPercent), t.Strays(d))
}

// ShareSaid is DoseSaid for the share of an end.
func (c Cell) ShareSaid(end int) string {
	return said(ShareText(c.Shares[end]), madeText(100*c.Pours[end].GotShare), c.StraysShare(end))
}

// ShareBrief is DoseBrief for the share of an end.
func (c Cell) ShareBrief(end int) string {
	return brief(ShareText(c.Shares[end]), madeText(100*c.Pours[end].GotShare), c.StraysShare(end))
}

func said(asked, made string, strays bool) string {
	if !strays {
		return asked + " %"
	}
	return asked + " % asked, " + made + " made"
}

func brief(asked, made string, strays bool) string {
	switch {
	case !strays:
		return asked + " %"
	case made == none:
		return none
	}
	return made + " %"
}

// none is what is said of an amount of nothing.
const none = "none"

// madeText is a percentage as it was made, in few digits: "0.83", "4.1", "none".
func madeText(percent float64) string {
	decimals := 1
	switch {
	case percent == 0:
		return none
	case percent < 0.095:
		decimals = 3
	case percent < 0.95:
		decimals = 2
	}
	return atMost(decimals, percent)
}

// Holds says in a line what is in a cell, by name: "50 % Magnesia matte, 50 %
// Wood ash", "0.25 % Cobalt carbonate asked, none made; 2 % Rutile".
func (t *Test) Holds(c Cell) string {
	var parts []string
	if !t.Plan.Blend.HasSeries() {
		for e, x := range c.Shares {
			if x > 0 {
				parts = append(parts, held(c.ShareSaid(e), t.Ends[e].Name))
			}
		}
		return Together(parts)
	}
	for s, d := range c.Doses {
		parts = append(parts, t.DoseHeld(s, d))
	}
	return Together(parts)
}

// DoseHeld is a dose of a series with its name: "0.5 % Rutile", "0.25 % Cobalt
// carbonate asked, none made".
func (t *Test) DoseHeld(series int, d Dose) string {
	return held(t.DoseSaid(d), t.Plan.Blend.Series[series].Material)
}

// held is a percentage as said, with the name of what it is of.
func held(said, name string) string {
	percent, rest, _ := strings.Cut(said, "%")
	return percent + "% " + name + rest
}

// Together joins what a cell holds to one line.
func Together(parts []string) string {
	if slices.ContainsFunc(parts, func(part string) bool { return strings.Contains(part, " asked, ") }) {
		return strings.Join(parts, "; ")
	}
	return strings.Join(parts, ", ")
}

// MadeOtherwise says what of a cell was made noticeably other than it was
// asked, a line for each: "0.25 % of Cobalt carbonate was asked and none was
// made: it was too little for the instrument".
func (t *Test) MadeOtherwise(i int) []string {
	c := t.Cells[i]
	var all []string
	add := func(asked, made, name string, nothing bool) {
		text := asked + " % of " + name + " was asked and "
		if nothing {
			all = append(all, text+"none was made: it was too little for the instrument")
			return
		}
		all = append(all, text+made+" % was made, in whole steps of the instruments")
	}
	if !t.Plan.Blend.HasSeries() {
		for e, p := range c.Pours {
			if c.StraysShare(e) {
				add(ShareText(c.Shares[e]), madeText(100*p.GotShare), t.Ends[e].Name, p.Steps == 0)
			}
		}
		return all
	}
	for s, d := range c.Doses {
		if t.Strays(d) {
			add(PercentText(d.Percent), madeText(d.GotPercent), t.Plan.Blend.Series[s].Material, d.None())
		}
	}
	return all
}
