package wording

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/quantity"
)

// Notes are the lines of a test's notes.
func Notes(notes []blend.Note) []string {
	lines := make([]string, len(notes))
	for i, n := range notes {
		lines[i] = Note(n)
	}
	return lines
}

// Note is the line of one note: "what it is about: what is wrong; what comes of it
// (what to do)".
func Note(note blend.Note) string {
	return cmp.Or(planNote(note), cupNote(note), weighingNote(note), dippingNote(note))
}

// cups names the cups of a note, at most six spans of them.
func cups(numbers []int) string { return quantity.Cups(numbers, 6) }

// planNote is the line of a note about what the plan asks.
func planNote(note blend.Note) string {
	switch n := note.(type) {
	case blend.NoGravity:
		names := make([]string, len(n.Glazes))
		for i, name := range n.Glazes {
			names[i] = strconv.Quote(name)
		}
		return fmt.Sprintf("glaze %s: no SG; %s g dry per mL assumed; shares by volume hold, but amounts in g and recipes "+
			"are estimates (weigh 100 mL: 145 g means specific-gravity = 1.45)", strings.Join(names, ", "),
			quantity.Fixed(n.DryPerML, 2))
	case blend.OddAnalysis:
		text := fmt.Sprintf("material %q: analysis adds up to %s %%", n.Material, quantity.AtMost(n.Total, 1))
		if n.NoLOI && n.Total < 100 {
			return fmt.Sprintf(`%s, without LOI; what burns off is unknown (LOI = %s if the rest burns off, or `+
				`analysis-of = "fired")`, text, quantity.AtMost(100-n.Total, 1))
		}
		return text + "; oxides and unity formulas may be wrong (check its figures; 97 to 103 % is usual)"
	case blend.BoundMissed:
		return fmt.Sprintf("bounds: no cup has more than %s %% %s; its bound is %s %%, but steps are %s %% "+
			"(set bounds that are whole steps apart, or more divisions)", quantity.ShareText(n.Most), n.Glaze,
			quantity.ShareText(n.Bound), quantity.ShareText(n.Step))
	case blend.Unusual:
		return unusual(n)
	case blend.Supplied:
		return supplied(n)
	case blend.FillUnused:
		return "fill: not used here; only cups of one base are filled by eye"
	}
	return ""
}

// unusual says that a percentage is above what is usual, and which mistake it
// looks like.
func unusual(n blend.Unusual) string {
	place := n.Material
	if n.Glaze != "" {
		place += " in " + n.Glaze
	}
	why := "no usual figure is known for it"
	if n.Usual.Colourant != "" {
		why = fmt.Sprintf("usual is %s to %s %% (%s)", quantity.PercentText(n.Usual.Low),
			quantity.PercentText(n.Usual.High), cmp.Or(strings.Join(n.Usual.Sources, "; "), "common practice"))
	}
	fix := "check the percentage"
	if n.BatchDose {
		fix = fmt.Sprintf("is it the dose of the whole batch? Over %d cups it is %s %% each; give the percentage of one cup",
			n.Cups, quantity.AtMost(n.Percent/float64(n.Cups), 2))
	}
	return fmt.Sprintf("%s: %s %% is unusually strong; %s (%s)", place, quantity.PercentText(n.Percent), why, fix)
}

// supplied is what the batches you have do to the cups.
func supplied(n blend.Supplied) string {
	was, is := AmountText(n.Was), AmountText(n.Cup)
	text := "--have: enough, so cups stay at " + is
	if change := n.Cup.Value/n.Was.Value - 1; n.Short {
		text = fmt.Sprintf("--have: too little, so cups shrink from %s to %s, %s less", was, is,
			quantity.FractionText(-change))
	} else if change > 1e-9 {
		text = fmt.Sprintf("--have: cups grow from %s to %s, %s more", was, is, quantity.FractionText(change))
	}
	var left []string
	for _, h := range n.Left {
		if h.ML >= 0.05 {
			left = append(left, fmt.Sprintf("%s mL of %q", quantity.VolumeText(h.ML), h.Glaze))
		}
	}
	text += "; " + cmp.Or(strings.Join(left, ", "), "nothing") + " left over"
	fix := ""
	switch {
	case n.More > 0:
		text += ", enough for " + quantity.Plural(n.More, "more cup", "more cups")
		fix = " (--share-all makes the cups larger instead)"
	case n.Dead == 0:
		fix = ` (dead = "20 mL" in [measure] keeps back what clings to the jug)`
	}
	if n.Others {
		text += "; other glazes are planned to match"
	}
	return text + fix
}

// cupNote is the line of a note about what your instruments make of the cups.
func cupNote(note blend.Note) string {
	switch n := note.(type) {
	case blend.LostPours:
		return fmt.Sprintf("%s: a pour is less than half of %s; it rounds to zero, so the cup lacks that glaze (%s)",
			cups(n.Cups), n.Step, enough(n.Enough))
	case blend.SkippedDoses:
		return skippedDoses(n)
	case blend.Identical:
		return fmt.Sprintf("cups %s: will be identical; their amounts differ by less than your instruments show "+
			"(leave out all but one, or use finer instruments or larger cups)", groups(n.Groups))
	case blend.Inseparable:
		return fmt.Sprintf("cups %s: may come out the same; the step between them is smaller than the error "+
			"(use fewer steps, larger cups or a finer instrument)", groups(n.Pairs))
	case blend.OverLimit:
		worst := ""
		if len(n.Cups) > 1 {
			worst = fmt.Sprintf("cup %d is worst, ", n.Worst)
		}
		return fmt.Sprintf("%s: over your %s limit; %s± %s, mostly from %s (%s)", cups(n.Cups),
			quantity.FractionText(n.Limit), worst, quantity.FractionText(n.PlusMinus), Cause(n.Cause), enough(n.Enough))
	case blend.StockWater:
		return fmt.Sprintf("cup %d: stock adds %s mL of water; over %s mL thins the glaze; its SG becomes %s "+
			"(a syringe finer than %s allows a stronger stock)", n.Cup, quantity.VolumeText(n.ML),
			quantity.VolumeText(n.MostML), quantity.SGText(n.SG), n.Syringe)
	}
	return ""
}

// skippedDoses says which doses are too small to be measured.
func skippedDoses(n blend.SkippedDoses) string {
	percent := quantity.PercentText(n.Most.Percent) + " %"
	if !n.Alike {
		percent = "up to " + percent
	}
	text := fmt.Sprintf("a %s scale cannot weigh %s g (%s)", n.Step, quantity.Significant(n.Most.G, 3), percent)
	fix := enough(n.Enough)
	switch n.Method {
	case blend.ByPour:
		text = percent + " is too little for the pours that would bring it"
	case blend.ByStock:
		text = fmt.Sprintf("a %s syringe cannot measure %s mL of stock (%s)", n.Step,
			quantity.Significant(n.Most.ML, 3), percent)
	default:
		fix = "use a " + n.Finer.String() + " scale"
	}
	if n.Twins != nil {
		text += "; cups " + groups(n.Twins) + " are then identical"
	}
	return fmt.Sprintf("%s: no %s: %s (%s)", cups(n.Cups), n.Material, text, fix)
}

// weighingNote is the line of a note about what a batch or a cup asks of the scale.
func weighingNote(note blend.Note) string {
	switch n := note.(type) {
	case blend.ManyLoads:
		return fmt.Sprintf("batch of %q: %s g dry and its water take over %d loads of a %s g scale; "+
			"it is not split into loads (use a scale that takes more)",
			n.Glaze, quantity.MassText(n.DryG), blend.MostLoads, quantity.PlainText(n.CapacityG))
	case blend.OverCapacity:
		return fmt.Sprintf("%s: up to %s g of glaze on a scale that takes %s g; the cup's own weight adds to it "+
			"(use smaller cups or another scale)", cups(n.Cups), n.Step.Format(n.Step.Count(n.MostG)),
			quantity.PlainText(n.CapacityG))
	case blend.CoarseScale:
		var coarse, weigh []string
		for _, m := range n.Materials {
			coarse = append(coarse, fmt.Sprintf("%s g of %s", quantity.Significant(m.G, 3), m.Material))
			weigh = append(weigh, fmt.Sprintf("%s g of %s on a %s scale", m.Step.Format(m.Step.Count(m.G)), m.Material, m.Step))
		}
		return fmt.Sprintf("batch of %q: a %s scale is too coarse for %s; an error there goes into every cup "+
			"(weigh separately: %s)", n.Glaze, n.Scale, strings.Join(coarse, ", "), strings.Join(weigh, ", "))
	case blend.LargeStocks:
		worst := slices.MaxFunc(n.Stocks, func(a, b blend.Stock) int { return cmp.Compare(a.ML/a.NeedML, b.ML/b.NeedML) })
		more := ""
		if others := len(n.Stocks) - 1; others > 0 {
			more = fmt.Sprintf("; %d more are larger than needed too", others)
		}
		return fmt.Sprintf("%s: %s mL made, but only %s mL poured%s; a %s scale cannot weigh a smaller stock accurately. "+
			"Never pour leftovers down the drain. Keep them for a later test, or follow the safety data sheet and "+
			"local codes (a finer scale allows less)", worst.Name, quantity.VolumeText(worst.ML),
			quantity.VolumeText(worst.NeedML), more, n.Scale)
	}
	return ""
}

// dippingNote is the line of a note about dipping.
func dippingNote(note blend.Note) string {
	switch n := note.(type) {
	case blend.NarrowCup:
		return fmt.Sprintf("cup diameter: a tile %s wide and %s thick does not fit into a %s cup "+
			"(use a cup at least %s wide inside)", quantity.LengthText(n.TileWidthMM), quantity.LengthText(n.TileThicknessMM),
			quantity.LengthText(n.DiameterMM), quantity.LengthText(n.NeedMM))
	case blend.ShallowCup:
		widest := ""
		if n.WidestMM > 0 {
			widest = ", or a cup at most " + quantity.LengthText(n.WidestMM) + " wide"
		}
		return fmt.Sprintf("%s: glaze is %s deep (%s mL with the tile in); the %s coat needs %s (use at least %s mL a cup%s)",
			cups(n.Cups), quantity.LengthText(n.LevelMM), quantity.Fixed(n.ML, 0), quantity.Ordinal(n.Coat),
			quantity.LengthText(n.WantMM), quantity.Fixed(n.NeedML, 0), widest)
	case blend.RunsShort:
		rough := ""
		if n.Rough {
			rough = fmt.Sprintf(", a rough figure (%s to %s); weigh a tile before and after, and set pickup",
				quantity.AtMost(blend.PickupLow, 3), quantity.AtMost(blend.PickupHigh, 3))
		}
		return fmt.Sprintf("%s: may run short: %s of %s take about %s mL of %s mL, and the last must still be covered; "+
			"each coat is taken to hold %s g of dry glaze per cm²%s (use at least %s mL a cup)", cups(n.Cups),
			quantity.Plural(n.Tiles, "tile", "tiles"), quantity.Plural(n.Coats, "coat", "coats"),
			quantity.Fixed(n.TakenML, 0), quantity.Fixed(n.ML, 0), quantity.AtMost(n.PickupG, 3), rough,
			quantity.Fixed(n.NeedML, 0))
	case blend.UnevenGravity:
		thin := fmt.Sprintf("even = true plans the water, at most %s %s a cup", n.Water, n.Unit)
		if n.Even {
			thin = fmt.Sprintf("thin every cup to SG %s by the pour card, at most %s %s", quantity.SGText(n.ThinSG),
				n.Water, n.Unit)
		}
		return fmt.Sprintf("cups %d and %d: differ in SG, %s and %s; coats will differ (%s: closer coats, not the same coat)",
			min(n.Thin, n.Thick), max(n.Thin, n.Thick), quantity.SGText(n.ThinSG), quantity.SGText(n.ThickSG), thin)
	}
	return ""
}

// enough says how large the cups must be for all to be good enough.
func enough(c blend.CupSize) string {
	switch {
	case !c.Found:
		return "no cup up to " + AmountText(c.Amount) + " is enough; use a finer instrument"
	case c.BatchG > 0:
		return fmt.Sprintf("use batch = \"%s g\" or a finer instrument", quantity.PlainText(c.BatchG))
	}
	return "use cups of " + AmountText(c.Amount) + " or a finer instrument"
}

// Reordered says which cups kept the number that a log has for them, a line for
// each list, and how to write the plan so that all keep it.
func Reordered(lists []identity.Reordered, log string) []string {
	var lines []string
	for _, r := range lists {
		place := "cells"
		if r.Label == "series" {
			place = "series of " + r.Name
		}
		if r.Shifted {
			lines = append(lines, fmt.Sprintf("%s: cups after cup %d have other numbers than in %s; tiles painted already "+
				"would be read as other cups (put new cups last, or into a plan of their own with another mark)",
				place, r.Kept, log))
		} else {
			lines = append(lines, fmt.Sprintf("%s: cups after cup %d are new since %s was made; the others keep their marks",
				place, r.Kept, log))
		}
	}
	return lines
}

// groups names groups of cups, at most six: "3 and 4; 8, 9 and 12".
func groups[T []int | [2]int](all []T) string {
	const most = 6
	var names []string
	for _, g := range all[:min(most, len(all))] {
		var numbers []string
		for i := range len(g) {
			numbers = append(numbers, strconv.Itoa(g[i]))
		}
		names = append(names, quantity.Listed(numbers, "and"))
	}
	if more := len(all) - most; more > 0 {
		names = append(names, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(names, "; ")
}

// Cause says what contributes most to a ±: "the pour of Wood ash".
func Cause(c blend.Cause) string {
	text, small := "", "half a step"
	switch c.Kind {
	case blend.CausePour:
		text, small = "the pour of "+c.Name, "half a step of the jug"
	case blend.CauseFill:
		text = "the fill by eye"
	case blend.CauseDose:
		text = "the dose of " + c.Name
	case blend.CauseStock:
		text = "the strength of the " + c.Name
	case blend.CauseWeighing:
		text = "weighing " + c.Name
	case blend.CauseBatchDose:
		text = "the dose of " + c.Name + " in the batch of " + c.Batch
	}
	if c.TooSmall {
		text += ", which is less than " + small
	}
	return text
}
