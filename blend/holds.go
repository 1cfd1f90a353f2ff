package blend

import (
	"slices"
	"strings"
)

// What a tile is said to hold is what was asked, as long as that is what it
// holds. Where what was made differs noticeably, both are said, for the tile is
// read weeks later, when nobody remembers what the scale could not show.

// DoseSaid is the percentage of a dose as a tile is said to hold it: "0.5 %",
// "0.25 % asked, none made", "0.5 % asked, 0.83 made".
func (t *Test) DoseSaid(d Dose) string {
	return said(d.PercentText(), madeText(d.GotPercent), d.AsMade)
}

// DoseBrief is DoseSaid where there is little room: what is made where that
// differs noticeably, "none" or "0.83 %", otherwise what is asked.
func (t *Test) DoseBrief(d Dose) string {
	return brief(d.PercentText(), madeText(d.GotPercent), d.AsMade)
}

// ShareSaid is DoseSaid for the share of an end.
func (c Cell) ShareSaid(end int) string {
	p := c.Pours[end]
	return said(p.PercentText(), p.gotText(), c.MadeOther(end))
}

// ShareBrief is DoseBrief for the share of an end.
func (c Cell) ShareBrief(end int) string {
	p := c.Pours[end]
	return brief(p.PercentText(), p.gotText(), c.MadeOther(end))
}

// MadeOther reports whether the cup is labelled as made and one of its ends
// reads otherwise then.
func (c Cell) MadeOther(end int) bool {
	p := c.Pours[end]
	return c.AsMade && p.ML > 0 && (p.Steps == 0 || p.Percent != p.GotPercent)
}

// PercentText is the share that was asked, in percent: "33.3".
func (p Pour) PercentText() string { return atMost(1, p.Percent) }

func (p Pour) gotText() string {
	if p.Steps == 0 {
		return none
	}
	return atMost(1, p.GotPercent)
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
			if c.MadeOther(e) {
				add(p.PercentText(), p.gotText(), t.Ends[e].Name, p.Steps == 0)
			}
		}
		return all
	}
	for s, d := range c.Doses {
		if d.AsMade {
			add(PercentText(d.Percent), madeText(d.GotPercent), t.Plan.Blend.Series[s].Material, d.None())
		}
	}
	return all
}
