package wording

import (
	"fmt"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/plan"
	"pourboard/blend/quantity"
)

// Line is a note as it is read: a plan's own, or that of a test by LineOf.
type Line = plan.Note

// Lines are the lines of a test's notes.
func Lines(notes []blend.Note) []Line {
	lines := make([]Line, len(notes))
	for i, n := range notes {
		lines[i] = LineOf(n)
	}
	return lines
}

func line(place, what, why, fix string) Line {
	return Line{Place: place, What: what, Why: why, Fix: fix}
}

// cupsText names the cups of a note, at most six spans of them.
func cupsText(cups []int) string { return quantity.Cups(cups, 6) }

// LineOf is the line of one note.
func LineOf(note blend.Note) Line {
	switch n := note.(type) {
	case blend.NoGravity:
		return noGravity(n)
	case blend.OddAnalysis:
		return oddAnalysis(n)
	case blend.BoundsMissed:
		return boundsMissed(n)
	case blend.Unusual:
		return unusual(n)
	case blend.Supplied:
		return supplied(n)
	case blend.Identical:
		return line("cups "+groups(n.Groups), "will be identical",
			"their amounts differ by less than your instruments show",
			"leave out all but one, or use finer instruments or larger cups")
	case blend.SameRecipe:
		return line(strconv.Quote(n.First)+" and "+strconv.Quote(n.Second), "have the same recipe",
			"nothing changes from one to the other", "")
	case blend.Inseparable:
		return line("cups "+groups(n.Pairs), "may come out the same", "the step between them is smaller than the error",
			"use fewer steps, larger cups or a finer instrument")
	}
	if l, ok := dippingLine(note); ok {
		return l
	}
	return measuredLine(note)
}

// measuredLine is the line of a note about what the instruments make of the amounts.
func measuredLine(note blend.Note) Line {
	switch n := note.(type) {
	case blend.FillUnused:
		return line("fill", "not used here", "only cups of one base are filled by eye", "")
	case blend.LostPours:
		return line(cupsText(n.Cups), "a pour is less than half of "+n.Step.String(),
			"it rounds to zero, so the cup lacks that glaze", enough(n.Enough))
	case blend.SkippedDoses:
		return skippedDoses(n)
	case blend.LargeStocks:
		return largeStocks(n)
	case blend.OverLimit:
		worst := fmt.Sprintf("± %s, mostly from %s", quantity.FractionText(n.PlusMinus), Cause(n.Cause))
		if len(n.Cups) > 1 {
			worst = fmt.Sprintf("cup %d is worst, ", n.Worst) + worst
		}
		return line(cupsText(n.Cups), "over your "+quantity.FractionText(n.Limit)+" limit", worst, enough(n.Enough))
	case blend.StockWater:
		return line(fmt.Sprintf("cup %d", n.Cup), fmt.Sprintf("stock adds %s mL of water", quantity.VolumeText(n.ML)),
			fmt.Sprintf("over %s mL thins the glaze; its SG becomes %s", quantity.VolumeText(n.MostML),
				quantity.SGText(n.SG)),
			"a syringe finer than "+n.Syringe.String()+" allows a stronger stock")
	case blend.ManyLoads:
		return line("batch of "+strconv.Quote(n.Glaze),
			fmt.Sprintf("%s g needs %s loads of a scale that takes %s g", quantity.MassText(n.DryG),
				quantity.Fixed(n.Loads, 0), quantity.PlainText(n.CapacityG)),
			"it is not split into loads", "use a scale that takes at least "+quantity.PlainText(n.NeedG)+" g")
	case blend.OverCapacity:
		return line(cupsText(n.Cups),
			fmt.Sprintf("up to %s g of glaze on a scale that takes %s g", n.Step.Format(n.Step.Count(n.MostG)),
				quantity.PlainText(n.CapacityG)),
			"the cup's own weight adds to it", "use smaller cups or another scale")
	case blend.CoarseScale:
		return coarseScale(n)
	}
	panic(fmt.Sprintf("no line for %T", note))
}

// dippingLine is the line of a note about dipping.
func dippingLine(note blend.Note) (Line, bool) {
	switch n := note.(type) {
	case blend.NarrowCup:
		tile := quantity.LengthText(n.TileWidthMM) + " wide and " + quantity.LengthText(n.TileThicknessMM) + " thick"
		return line("cup diameter", "a tile "+tile+" does not fit into a "+quantity.LengthText(n.DiameterMM)+" cup", "",
			"use a cup at least "+quantity.LengthText(n.NeedMM)+" wide inside"), true
	case blend.ShallowCup:
		what := fmt.Sprintf("glaze is %s deep (%s mL with the tile in); the %s coat needs %s",
			quantity.LengthText(n.LevelMM), quantity.Fixed(n.ML, 0), quantity.Ordinal(n.Coat), quantity.LengthText(n.WantMM))
		fix := leastCup(n.NeedML)
		if n.WidestMM > 0 {
			fix += ", or a cup at most " + quantity.LengthText(n.WidestMM) + " wide"
		}
		return line(cupsText(n.Cups), what, "", fix), true
	case blend.RunsShort:
		tiles, coats := quantity.Plural(n.Tiles, "tile", "tiles"), quantity.Plural(n.Coats, "coat", "coats")
		what := fmt.Sprintf("may run short: %s of %s take about %s mL of %s mL, and the last must still be covered",
			tiles, coats, quantity.Fixed(n.TakenML, 0), quantity.Fixed(n.ML, 0))
		why := fmt.Sprintf("each coat is taken to hold %s g of dry glaze per cm²", quantity.AtMost(n.PickupG, 3))
		if n.Rough {
			why += fmt.Sprintf(", a rough figure (%s to %s); weigh a tile before and after, and set pickup",
				quantity.AtMost(blend.PickupLow, 3), quantity.AtMost(blend.PickupHigh, 3))
		}
		return line(cupsText(n.Cups), what, why, leastCup(n.NeedML)), true
	case blend.UnevenGravity:
		fix := fmt.Sprintf("even = true plans the water, at most %s %s a cup", n.Water, n.Unit)
		if n.Even {
			fix = fmt.Sprintf("thin every cup to SG %s by the pour card, at most %s %s", quantity.SGText(n.ThinSG),
				n.Water, n.Unit)
		}
		return line(fmt.Sprintf("cups %d and %d", min(n.Thin, n.Thick), max(n.Thin, n.Thick)),
			fmt.Sprintf("differ in SG, %s and %s", quantity.SGText(n.ThinSG), quantity.SGText(n.ThickSG)),
			"coats will differ", fix+": closer coats, not the same coat"), true
	}
	return Line{}, false
}

func leastCup(ml float64) string { return "use at least " + quantity.Fixed(ml, 0) + " mL a cup" }

func noGravity(n blend.NoGravity) Line {
	var names []string
	for _, name := range n.Glazes {
		names = append(names, strconv.Quote(name))
	}
	return line("glaze "+strings.Join(names, ", "),
		fmt.Sprintf("no SG; %s g dry per mL assumed", quantity.Fixed(n.DryPerML, 2)),
		"shares by volume hold, but amounts in g and recipes are estimates",
		"weigh 100 mL: 145 g means specific-gravity = 1.45")
}

func oddAnalysis(n blend.OddAnalysis) Line {
	place := "material " + strconv.Quote(n.Material)
	what := fmt.Sprintf("analysis adds up to %s %%", quantity.AtMost(n.Total, 1))
	if n.NoLOI && n.Total < 100 {
		return line(place, what+", without LOI", "what burns off is unknown",
			"LOI = "+quantity.AtMost(100-n.Total, 1)+" if the rest burns off, or analysis-of = \"fired\"")
	}
	return line(place, what, "oxides and unity formulas may be wrong", "check its figures; 97 to 103 % is usual")
}

func boundsMissed(n blend.BoundsMissed) Line {
	var most, high []string
	for _, e := range n.Ends {
		most = append(most, quantity.ShareText(e.Most)+" % "+e.Glaze)
		high = append(high, quantity.ShareText(e.High)+" %")
	}
	return line("bounds",
		fmt.Sprintf("no cup has more than %s; the bounds go to %s", strings.Join(most, " or "), strings.Join(high, " and ")),
		"the steps are "+quantity.ShareText(n.Step)+" %", "set bounds that are whole steps apart, or more divisions")
}

// unusual says that a percentage is above what is usual, and which mistake it
// looks like.
func unusual(n blend.Unusual) Line {
	place := n.Material
	if n.Glaze != "" {
		place += " in " + n.Glaze
	}
	why := "no usual figure is known for it"
	if n.Usual.Colourant != "" {
		from := "common practice"
		if len(n.Usual.Sources) > 0 {
			from = strings.Join(n.Usual.Sources, "; ")
		}
		why = fmt.Sprintf("usual is %s to %s %% (%s)", quantity.PercentText(n.Usual.Low),
			quantity.PercentText(n.Usual.High), from)
	}
	fix := "check the percentage"
	if n.BatchDose {
		fix = fmt.Sprintf("is it the dose of the whole batch? Over %d cups it is %s %% each; give the percentage of one cup",
			n.Cups, quantity.AtMost(n.Percent/float64(n.Cups), 2))
	}
	return line(place, quantity.PercentText(n.Percent)+" % is unusually strong", why, fix)
}

// skippedDoses says which doses are too small to be measured.
func skippedDoses(n blend.SkippedDoses) Line {
	of := quantity.PercentText(n.Most.Percent) + " %"
	if !n.Alike {
		of = "up to " + of
	}
	fix, why := enough(n.Enough), ""
	what := fmt.Sprintf("a %s scale cannot weigh %s g (%s)", n.Step, quantity.Significant(n.Most.G, 3), of)
	switch n.Method {
	case blend.ByPour:
		what = of + " is too little for the pours that would bring it"
	case blend.ByStock:
		what = fmt.Sprintf("a %s syringe cannot measure %s mL of stock (%s)", n.Step,
			quantity.Significant(n.Most.ML, 3), of)
	default:
		fix = "use a " + n.Finer.String() + " scale"
	}
	var twins [][2]int
	for _, t := range n.Twins {
		twins = append(twins, [2]int{min(t[0], t[1]), max(t[0], t[1])})
	}
	if twins != nil {
		why = "cups " + groups(twins) + " are then identical"
	}
	return line(cupsText(n.Cups), "no "+n.Material+": "+what, why, fix)
}

// coarseScale says what a batch's scale is too coarse for, and what to do.
func coarseScale(n blend.CoarseScale) Line {
	var too, weigh []string
	for _, m := range n.Materials {
		too = append(too, quantity.Significant(m.G, 3)+" g of "+m.Material)
		weigh = append(weigh, m.Step.Format(m.Step.Count(m.G))+" g of "+m.Material+" on a "+m.Step.String()+" scale")
	}
	return line("batch of "+strconv.Quote(n.Glaze),
		fmt.Sprintf("a %s scale is too coarse for %s", n.Scale, strings.Join(too, ", ")),
		"an error there goes into every cup", "weigh separately: "+strings.Join(weigh, ", "))
}

// largeStocks says that stocks are made larger than their cups need.
func largeStocks(n blend.LargeStocks) Line {
	worst := n.Stocks[0]
	for _, s := range n.Stocks {
		if s.ML/s.NeedML > worst.ML/worst.NeedML {
			worst = s
		}
	}
	what := fmt.Sprintf("%s mL made, but only %s mL poured", quantity.VolumeText(worst.ML),
		quantity.VolumeText(worst.NeedML))
	if others := len(n.Stocks) - 1; others > 0 {
		what += fmt.Sprintf("; %d more are larger than needed too", others)
	}
	why := fmt.Sprintf("a %s scale cannot weigh a smaller stock accurately. Never pour leftovers down the drain. "+
		"Keep them for a later test, or follow the safety data sheet and local codes", n.Scale)
	return line(worst.Name, what, why, "a finer scale allows less")
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

// supplied is what the batches you have do to the cups. That they
// become smaller is printed even under --quiet.
func supplied(n blend.Supplied) Line {
	what := "enough, so cups stay at " + AmountText(n.Cup)
	if change := n.Cup.Value/n.Was.Value - 1; n.Short {
		what = fmt.Sprintf("too little, so cups shrink from %s to %s, %s less", AmountText(n.Was),
			AmountText(n.Cup), quantity.FractionText(-change))
	} else if change > 1e-9 {
		what = fmt.Sprintf("cups grow from %s to %s, %s more", AmountText(n.Was), AmountText(n.Cup),
			quantity.FractionText(change))
	}
	var left []string
	for _, h := range n.Left {
		if h.ML >= 0.05 {
			left = append(left, quantity.VolumeText(h.ML)+" mL of "+strconv.Quote(h.Glaze))
		}
	}
	why, fix := "nothing left over", ""
	if left != nil {
		why = strings.Join(left, ", ") + " left over"
	}
	switch {
	case n.More > 0:
		why += ", enough for " + quantity.Plural(n.More, "more cup", "more cups")
		fix = "--share-all makes the cups larger instead"
	case n.Dead == 0:
		fix = `dead = "20 mL" in [measure] keeps back what clings to the jug`
	}
	if n.Others {
		why += "; other glazes are planned to match"
	}
	return Line{Place: "--have", What: what, Why: why, Fix: fix, Loud: n.Short}
}

// Reordered says which cups kept the number that a log has for them, a line for
// each list, and how the plan is written so that all keep it.
func Reordered(lists []identity.Reordered, log string) []Line {
	var lines []Line
	for _, r := range lists {
		place := "cells"
		if r.Label == "series" {
			place = "series of " + r.Name
		}
		if !r.Shifted {
			what := fmt.Sprintf("cups after cup %d are new since %s was made", r.Kept, log)
			lines = append(lines, line(place, what, "the others keep their marks", ""))
			continue
		}
		lines = append(lines, line(place, fmt.Sprintf("cups after cup %d have other numbers than in %s", r.Kept, log),
			"tiles painted already would be read as other cups",
			"put new cups last, or into a plan of their own with another mark"))
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
