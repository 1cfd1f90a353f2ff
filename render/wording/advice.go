package wording

import (
	"fmt"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// Advice says a piece of advice in plain words, one matter a line. The table of
// methods (Options) is left to whoever prints it.
func Advice(a blend.Advice, p *blend.Plan) []string {
	limit := quantity.FractionText(p.Kit.Worst)
	var all []string
	say := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	switch {
	case a.Lacks != "":
		say("Largest possible error: cup %d gets no %s. It is less than half a step of the instrument.",
			a.Planned.Cell, a.Lacks)
	case a.Planned.Worst == 0:
		say("Measuring adds no error to any cup.")
	default:
		say("Largest possible error: cup %d, ± %s, mostly from %s.", a.Planned.Cell,
			quantity.FractionText(a.Planned.Worst), Cause(a.Planned.Cause))
	}
	smallest := AmountText(a.Smallest.Amount)
	if a.Smallest.BatchG > 0 {
		smallest += " (batch = \"" + quantity.PlainText(a.Smallest.BatchG) + " g\")"
	}
	switch {
	case a.Planned.Keeps && a.Smallest.Found && a.Smallest.Value < p.Cup.Size.Value:
		say("Every cup meets your %s limit. Cups of %s would too.", limit, smallest)
	case a.Planned.Keeps:
		say("Every cup meets your %s limit.", limit)
	case a.Smallest.Found:
		say("The smallest cup that meets your %s limit: %s.", limit, smallest)
	default:
		say("No cup up to %s meets your %s limit. Use a finer instrument.", smallest, limit)
	}
	asked, got := quantity.Significant(a.Moved.Asked, 3), quantity.Significant(a.Moved.Got, 3)
	if asked != got && a.Moved.Got > 0 {
		say("Rounding adds most in cup %d: %s %% %s comes to %s %%.", a.Moved.Cell, asked, a.Moved.Of, got)
	}
	if a.Best.Good {
		sayBest(a, say)
	} else {
		sayNearest(a, p, say)
	}
	if a.Dose > 0 {
		sayScales(a, p, say)
	}
	return all
}

// sayBest says what is recommended, and what is more exact.
func sayBest(a blend.Advice, say func(string, ...any)) {
	best, exact := a.Best, a.Best
	for _, o := range a.Options {
		if o.Good && o.Worst < exact.Worst {
			exact = o
		}
	}
	if best.Worst == 0 {
		return
	}
	weighings := "no weighing"
	if best.Weighings > 0 {
		weighings = fmt.Sprint("the fewest weighings within your limit: ", best.Weighings)
	}
	say("Recommended: %s, ± %s. It needs %s.", optionText(best), quantity.FractionText(best.Worst), weighings)
	if exact != best {
		say("More exact: %s, ± %s with %d weighings.", optionText(exact), quantity.FractionText(exact.Worst),
			exact.Weighings)
	}
}

// sayNearest says which way comes nearest where none is good enough. A stock can be
// more exact, but its water thins the glaze.
func sayNearest(a blend.Advice, p *blend.Plan, say func(string, ...any)) {
	stock := a.Best
	for _, o := range a.Options {
		if !a.Best.Thins() && o.Method == blend.ByStock && o.Worst < stock.Worst {
			stock = o
		}
	}
	nearest := fmt.Sprintf("%s, ± %s", optionText(a.Best), quantity.FractionText(a.Best.Worst))
	switch {
	case a.Best.Thins():
		say("Only a stock meets your limit in cups of this size: %s.", nearest)
		say("It adds up to %s mL of water, and over %s mL thins the glaze.",
			quantity.VolumeText(stock.WaterML), quantity.VolumeText(stock.RoomML))
	case stock.Thins():
		say("Nothing you own meets your limit in cups of this size without thinning the glaze. Nearest: %s.", nearest)
		say("A stock comes to ± %s, but adds up to %s mL of water, and over %s mL thins the glaze.",
			quantity.FractionText(stock.Worst),
			quantity.VolumeText(stock.WaterML), quantity.VolumeText(stock.RoomML))
	default:
		say("Nothing you own meets your limit in cups of this size. Nearest: %s.", nearest)
	}
	if a.NeedsSG {
		say("Weigh 100 mL of each glaze for its SG. Then pouring on your %s scale may do.", p.Kit.Scale)
	}
	if stock.Thins() {
		say("A syringe finer than %s allows a stronger stock.", p.Kit.Syringe)
	}
}

// sayScales says what would make weighing each dose good enough.
func sayScales(a blend.Advice, p *blend.Plan, say func(string, ...any)) {
	say("The smallest dose is %s g: %s %% %s.", quantity.Significant(a.Dose, 3),
		quantity.PercentText(a.DosePercent), a.DoseOf)
	coarse := measure.Step{Size: a.CoarseScale, Unit: measure.Gram}
	switch {
	case a.CoarseScale == 0:
		say("A finer scale alone is not enough in cups of this size. The pour of the base is the larger error.")
	case a.CoarseScale < p.Kit.Dosing().Size:
		say("A %s scale would weigh each dose well enough.", coarse)
	default:
		say("A %s scale or finer weighs each dose well enough.", coarse)
	}
	for _, d := range a.Dilutions {
		say("For doses up to %s %% %s with this scale: grind 1 part with %s of dry base.",
			quantity.PercentText(d.Doses[len(d.Doses)-1].Percent), p.Blend.Series[d.Series].Material,
			quantity.Plural(d.Parts-1, "part", "parts"))
		say("Weigh %d times as much of it, and leave out the base that it brings.", d.Parts)
	}
}

// optionText says what to do in one way of measuring: "weigh each dose into its
// cup, and pour on your scale".
func optionText(o blend.Option) string {
	how := "by the jug"
	if o.OnScale() {
		how = "on your scale"
	}
	switch o.Method {
	case "":
		return "pour the end glazes " + how
	case blend.ByWeigh:
		return methodText(o.Method)
	}
	return methodText(o.Method) + ", and pour " + how
}

// OptionName is an option in a table: "dose, jug".
func OptionName(o blend.Option) string {
	name := "jug"
	if o.OnScale() {
		name = "scale"
	}
	switch o.Method {
	case "":
	case blend.ByWeigh:
		name = "weigh dry"
	default:
		name = string(o.Method) + ", " + name
	}
	if o.Planned {
		name += " (your plan)"
	}
	return name
}

// methodText says what a method does.
func methodText(m blend.Method) string {
	return map[blend.Method]string{
		blend.ByDose:  "weigh each dose into its cup",
		blend.ByStock: "pour each dose from a stock of the colourant",
		blend.ByPour:  "blend end glazes with the colourant mixed in",
		blend.ByWeigh: "weigh every cup's dry materials into it",
	}[m]
}

// Smallest is an option's smallest amount with its unit, or a dash.
func Smallest(o blend.Option) string {
	if o.Smallest == 0 {
		return dash
	}
	return quantity.Significant(o.Smallest, 3) + " " + string(o.Unit)
}
