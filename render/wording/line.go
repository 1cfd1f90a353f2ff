package wording

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pourboard/blend"
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

// mostCups is how many spans of cups a note names.
const mostCups = 6

// LineOf is the line of one note.
func LineOf(note blend.Note) Line {
	for _, of := range []func(blend.Note) (Line, bool){glazeLine, scaleLine, amountLine, likenessLine, dippingLine} {
		if l, ok := of(note); ok {
			return l
		}
	}
	panic(fmt.Sprintf("no line for %T", note))
}

// glazeLine is the line of a note about glazes, their materials and the design.
func glazeLine(note blend.Note) (Line, bool) {
	switch n := note.(type) {
	case blend.NoGravity:
		return noGravity(n), true
	case blend.OddAnalysis:
		return oddAnalysis(n), true
	case blend.BoundsMissed:
		return boundsMissed(n), true
	case blend.Unusual:
		return unusual(n), true
	case blend.Supplied:
		return supplied(n), true
	}
	return Line{}, false
}

// amountLine is the line of a note about what the instruments make of the amounts.
func amountLine(note blend.Note) (Line, bool) {
	switch n := note.(type) {
	case blend.FillUnused:
		return Line{Place: "fill", What: "not used here", Why: "only cups of one base are filled by eye"}, true
	case blend.LostPours:
		return line(quantity.Cups(n.Cups, mostCups), "a pour is less than half of "+n.Step.String(),
			"it rounds to zero, so the cup lacks that glaze", enough(n.Enough)), true
	case blend.SkippedDoses:
		return skippedLine(n), true
	case blend.LargeStocks:
		return largeStocks(n), true
	case blend.OverLimit:
		worst := fmt.Sprintf("± %s, mostly from %s", quantity.FractionText(n.PlusMinus), Cause(n.Cause))
		if len(n.Cups) > 1 {
			worst = fmt.Sprintf("cup %d is worst, ", n.Worst) + worst
		}
		return line(quantity.Cups(n.Cups, mostCups), "over your "+quantity.FractionText(n.Limit)+" limit", worst, enough(n.Enough)), true
	case blend.StockWater:
		return line(fmt.Sprintf("cup %d", n.Cup), fmt.Sprintf("stock adds %s mL of water", quantity.VolumeText(n.ML)),
			fmt.Sprintf("over %s mL thins the glaze; its SG becomes %s", quantity.VolumeText(n.MostML), quantity.SGText(n.SG)),
			"a syringe finer than "+n.Syringe.String()+" allows a stronger stock"), true
	}
	return Line{}, false
}

// likenessLine is the line of a note about cups that may come out the same.
func likenessLine(note blend.Note) (Line, bool) {
	switch n := note.(type) {
	case blend.Identical:
		return line(Groups(n.Groups), "will be identical",
			"their amounts differ by less than your instruments show", "leave out all but one, or use finer instruments or larger cups"), true
	case blend.SameRecipe:
		return Line{Place: strconv.Quote(n.First) + " and " + strconv.Quote(n.Second), What: "have the same recipe", Why: "nothing changes from one to the other"}, true
	case blend.Inseparable:
		return line("cups "+pairs(n.Pairs), "may come out the same", "the step between them is smaller than the error",
			"use fewer steps, larger cups or a finer instrument"), true
	}
	return Line{}, false
}

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
	what := fmt.Sprintf("analysis adds up to %s %%", quantity.PercentText(math.Round(10*n.Total)/10))
	if n.NoLOI && n.Total < 100 {
		rest := quantity.PercentText(math.Round(1000-10*n.Total) / 10)
		return line("material "+strconv.Quote(n.Material), what+", without LOI",
			"what burns off is unknown", "LOI = "+rest+" if the rest burns off, or analysis-of = \"fired\"")
	}
	return line("material "+strconv.Quote(n.Material), what, "oxides and unity formulas may be wrong", "check its figures; 97 to 103 % is usual")
}

func boundsMissed(n blend.BoundsMissed) Line {
	var most, high []string
	for _, e := range n.Ends {
		most = append(most, quantity.ShareText(e.Most)+" % "+e.Glaze)
		high = append(high, quantity.ShareText(e.High)+" %")
	}
	l := line("bounds", fmt.Sprintf("no cup has more than %s; the bounds go to %s", strings.Join(most, " or "), strings.Join(high, " and ")),
		"the steps are "+quantity.ShareText(n.Step)+" %", "set bounds that are whole steps apart")
	if n.Divisions > 0 {
		l.Fix = fmt.Sprintf("divisions = %d reaches them", n.Divisions)
	}
	return l
}

// scaleLine is the line of a note about the scale.
func scaleLine(note blend.Note) (Line, bool) {
	switch n := note.(type) {
	case blend.ManyLoads:
		return line("batch of "+strconv.Quote(n.Glaze),
			fmt.Sprintf("%s g needs %s loads of a scale that takes %s g", quantity.MassText(n.DryG), quantity.Fixed(n.Loads, 0), quantity.PercentText(n.CapacityG)),
			"it is not split into loads", "use a scale that takes at least "+quantity.PercentText(n.NeedG)+" g"), true
	case blend.OverCapacity:
		return line(quantity.Cups(n.Cups, mostCups),
			fmt.Sprintf("up to %s g of glaze on a scale that takes %s g", n.Step.Format(n.Step.Count(n.MostG)), quantity.PercentText(n.CapacityG)),
			"the cup's own weight adds to it", "use smaller cups or another scale"), true
	case blend.CoarseScale:
		what, fix := coarseText(n)
		return line("batch of "+strconv.Quote(n.Glaze), what, "an error there goes into every cup", fix), true
	}
	return Line{}, false
}

// coarseText says what a batch's scale is too coarse for, and what to do.
func coarseText(n blend.CoarseScale) (what, fix string) {
	var too, weigh []string
	for _, m := range n.Materials {
		too = append(too, quantity.Significant(m.G, 3)+" g of "+m.Material)
		weigh = append(weigh, m.Step.Format(m.Step.Count(m.G))+" g of "+m.Material+" on a "+m.Step.String()+" scale")
	}
	return fmt.Sprintf("a %s scale is too coarse for %s", n.Scale, strings.Join(too, ", ")), "weigh separately: " + strings.Join(weigh, ", ")
}

// largeStocks says that stocks are made larger than their cups need.
func largeStocks(n blend.LargeStocks) Line {
	worst := n.Stocks[0]
	for _, s := range n.Stocks {
		if s.ML/s.NeedML > worst.ML/worst.NeedML {
			worst = s
		}
	}
	what := fmt.Sprintf("%s mL made, but only %s mL poured", quantity.VolumeText(worst.ML), quantity.VolumeText(worst.NeedML))
	if others := len(n.Stocks) - 1; others > 0 {
		what += fmt.Sprintf("; %d more are larger than needed too", others)
	}
	return line(worst.Name, what,
		fmt.Sprintf("a %s scale cannot weigh a smaller stock accurately. %s", n.Scale, leftOver), "a finer scale allows less")
}

// leftOver says what becomes of a stock that is left over.
const leftOver = "Never pour leftovers down the drain. Keep them for a later test, or follow the safety data sheet and local codes"

// enough says how large the cups must be for all to be good enough.
func enough(c blend.CupSize) string {
	if !c.Found {
		return "no cup up to " + AmountText(c.Amount) + " is enough; use a finer instrument"
	}
	if c.BatchG > 0 {
		return fmt.Sprintf("use batch = \"%s g\" or a finer instrument", quantity.PercentText(c.BatchG))
	}
	return "use cups of " + AmountText(c.Amount) + " or a finer instrument"
}

// dippingLine is the line of a note about dipping.
func dippingLine(note blend.Note) (Line, bool) {
	switch n := note.(type) {
	case blend.NarrowCup:
		return Line{Place: "cup diameter",
			What: fmt.Sprintf("a tile %s wide and %s thick does not fit into a %s cup", quantity.LengthText(n.TileWidthMM), quantity.LengthText(n.TileThicknessMM), quantity.LengthText(n.DiameterMM)),
			Fix:  "use a cup at least " + quantity.LengthText(n.NeedMM) + " wide inside"}, true
	case blend.ShallowCup:
		return shallow(n), true
	case blend.RunsShort:
		return runsShort(n), true
	case blend.UnevenGravity:
		return uneven(n), true
	}
	return Line{}, false
}

func shallow(n blend.ShallowCup) Line {
	coat := "the first coat"
	if n.Coat > 1 {
		coat = fmt.Sprintf("coat %d", n.Coat)
	}
	fix := fmt.Sprintf("use at least %s mL a cup", quantity.Fixed(n.NeedML, 0))
	if n.WidestMM > 0 {
		fix += ", or a cup at most " + quantity.LengthText(n.WidestMM) + " wide"
	}
	return Line{Place: quantity.Cups(n.Cups, mostCups), Fix: fix,
		What: fmt.Sprintf("glaze is %s deep (%s mL with the tile in); %s needs %s", quantity.LengthText(n.LevelMM), quantity.Fixed(n.ML, 0), coat, quantity.LengthText(n.WantMM))}
}

func uneven(n blend.UnevenGravity) Line {
	fix := fmt.Sprintf("even = true plans the water, at most %s %s a cup", n.Water, n.Unit)
	if n.Even {
		fix = fmt.Sprintf("thin every cup to SG %s by the pour card, at most %s %s", quantity.SGText(n.ThinSG), n.Water, n.Unit)
	}
	return line(fmt.Sprintf("cups %d and %d", min(n.Thin, n.Thick), max(n.Thin, n.Thick)),
		fmt.Sprintf("differ in SG, %s and %s", quantity.SGText(n.ThinSG), quantity.SGText(n.ThickSG)), "coats will differ", fix+": closer coats, not the same coat")
}

// supplied is what the batches you have do to the cups. That they
// become smaller is printed even under --quiet.
func supplied(n blend.Supplied) Line {
	l := Line{Place: "--have", Loud: n.Short}
	switch {
	case n.Short:
		l.What = fmt.Sprintf("too little, so cups shrink from %s to %s, %s less", AmountText(n.Was), AmountText(n.Cup), quantity.FractionText(1-n.Cup.Value/n.Was.Value))
	case n.Cup.Value > n.Was.Value*(1+1e-9):
		l.What = fmt.Sprintf("cups grow from %s to %s, %s more", AmountText(n.Was), AmountText(n.Cup), quantity.FractionText(n.Cup.Value/n.Was.Value-1))
	default:
		l.What = "enough, so cups stay at " + AmountText(n.Cup)
	}
	var left []string
	for _, h := range n.Left {
		left = append(left, quantity.VolumeText(h.ML)+" mL of "+strconv.Quote(h.Glaze))
	}
	l.Why = strings.Join(left, ", ") + " left over"
	switch {
	case n.More == 1:
		l.Why += ", enough for 1 more cup"
	case n.More > 1:
		l.Why += fmt.Sprintf(", enough for %d more cups", n.More)
	}
	if n.Others {
		l.Why += "; other glazes are planned to match"
	}
	switch {
	case n.More > 0:
		l.Fix = "--share-all makes the cups larger instead"
	case n.Dead == 0:
		l.Fix = `dead = "20 mL" in [measure] keeps back what clings to the jug`
	}
	return l
}

// Groups names groups of cups, at most six: "cups 3 and 4; 8, 9 and 12".
func Groups(groups [][]int) string {
	var names []string
	for i, g := range groups {
		if i == mostCups {
			names = append(names, fmt.Sprintf("and %d more", len(groups)-mostCups))
			break
		}
		var numbers []string
		for _, n := range g[:len(g)-1] {
			numbers = append(numbers, strconv.Itoa(n))
		}
		names = append(names, fmt.Sprintf("%s and %d", strings.Join(numbers, ", "), g[len(g)-1]))
	}
	return "cups " + strings.Join(names, "; ")
}

// pairs names pairs of cups, at most four: "3 and 4, 8 and 9 and 2 more pairs".
func pairs(list [][2]int) string {
	const most = 4
	var names []string
	for _, p := range list[:min(most, len(list))] {
		names = append(names, fmt.Sprintf("%d and %d", p[0], p[1]))
	}
	text := strings.Join(names, ", ")
	switch more := len(list) - most; {
	case more == 1:
		text += " and 1 more pair"
	case more > 1:
		text += fmt.Sprintf(" and %d more pairs", more)
	}
	return text
}

// Cause says what contributes most to a ±: "the pour of Wood ash".
func Cause(c blend.Cause) string {
	small := "half a step"
	text := ""
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
