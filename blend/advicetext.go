package blend

import (
	"fmt"

	"pourboard/blend/measure"
)

// Sentences says a piece of advice in plain words, one matter a line. The
// table of methods (Options) is left to whoever prints it.
func (a Advice) Sentences(p *Plan) []string {
	wish := FractionText(p.Kit.Worst)
	var all []string
	say := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	switch {
	case a.Lacks != "":
		say("Cup %d is the furthest from what is asked: none of the %s gets in, for it is less than half a step of the instrument.", a.Cell, a.Lacks)
	case a.Worst == 0:
		say("Every cup holds just what was asked, as far as its measures go.")
	default:
		say("The cup that can be furthest off is cup %d: ± %s, most of it from %s.", a.Cell, FractionText(a.Worst), a.Cause)
	}
	smallest := AmountText(a.SmallestCup, p.Cup.Of)
	switch good := a.Worst <= p.Kit.Worst*(1+hair); {
	case good && a.SmallestCup > 0 && a.SmallestCup < p.Cup.Size:
		say("All cups can be measured to the %s that is wished; as far as measuring goes, cups of %s would still do.", wish, smallest)
	case good:
		say("All cups can be measured to the %s that is wished.", wish)
	case a.SmallestCup > 0:
		say("The smallest cup in which all can be measured to the %s that is wished is %s.", wish, smallest)
	default:
		say("No cup up to %s brings all of them to the %s that is wished; a finer instrument is needed.", AmountText(largestCup, p.Cup.Of), wish)
	}
	if asked, got := figures(a.Moved.Asked), figures(a.Moved.Got); asked != got && a.Moved.Got > 0 {
		say("Rounding to whole steps comes on top, and is known: most in cup %d, where %s %% of %s is made %s %%.",
			a.Moved.Cell, asked, a.Moved.Of, got)
	}
	if len(a.Options) == 0 || a.Dose == 0 {
		return all
	}
	if a.GoodEnough {
		say("Recommended: %s.", a.Recommended.Words())
	} else {
		a.sayNearest(p, say)
	}
	say("The smallest dose is %s g, which is %s %% of %s.", figures(a.Dose), PercentText(a.DosePercent), a.DoseOf)
	switch has := p.Kit.Dosing(); {
	case a.CoarseScale == 0:
		say("No finer scale makes weighing each dose good enough in cups of this size: the pour of the base is the coarser part.")
	case a.CoarseScale < has.Size:
		say("To weigh each dose well enough, a scale that reads %s would do.", measure.Step{Size: a.CoarseScale, Unit: measure.Gram})
	default:
		say("A scale that reads %s or finer is good enough to weigh each dose.", measure.Step{Size: a.CoarseScale, Unit: measure.Gram})
	}
	if a.Dilution > 0 {
		parts := "parts"
		if a.Dilution == 2 {
			parts = "part"
		}
		say("With this scale, for doses up to %s %%: grind 1 part of the colourant with %d %s of dry base and weigh %d times as much of that; the base that it brings is then to be left out of the pour.",
			PercentText(a.DilutionTo), a.Dilution-1, parts, a.Dilution)
	}
	return all
}

// sayNearest says which method comes nearest where none is good enough, what is
// wrong with it, and why one that is more exact is not it. Only a stock can keep
// the plan's Worst there, for nothing else brings water in.
func (a Advice) sayNearest(p *Plan, say func(string, ...any)) {
	var best, stock Option
	for _, o := range a.Options {
		if o.Method == a.Recommended {
			best = o
		}
		if o.Method == ByStock {
			stock = o
		}
	}
	nearest := fmt.Sprintf("%s, ± %s", a.Recommended.Words(), FractionText(best.Worst))
	if stock.water <= 1+hair || best.Method != ByStock && stock.Worst >= best.Worst {
		say("No method is good enough in cups of this size; what comes nearest is to %s.", nearest)
		return
	}
	water := fmt.Sprintf("it brings up to %s mL of water into a cup, and more than %s mL thin the coat; a syringe that reads finer than %s lets it be stronger",
		VolumeText(stock.WaterML), VolumeText(stock.room), p.Kit.Syringe)
	exact := fmt.Sprintf("No method is good enough in cups of this size. A stock suspension is the most exact, ± %s", FractionText(stock.Worst))
	if stock.keeps {
		exact = fmt.Sprintf("Of the methods only a stock suspension keeps to the %s that is wished in cups of this size, ± %s",
			FractionText(p.Kit.Worst), FractionText(stock.Worst))
	}
	if best.Method == ByStock {
		say("%s, and it is what comes nearest, with a drawback: %s.", exact, water)
		return
	}
	say("%s, but it is not advised: %s.", exact, water)
	say("Of those that bring no water in, what comes nearest is to %s.", nearest)
}

// Words says what a method does.
func (m Method) Words() string {
	switch m {
	case ByStock:
		return "pour each dose from a stock suspension of the colourant"
	case ByPour:
		return "blend end slips that have the colourant mixed in"
	default:
		return "weigh each dose into its cup"
	}
}

// SmallestText is an option's smallest amount with its unit, or a dash.
func (o Option) SmallestText() string {
	if o.Smallest == 0 {
		return "–"
	}
	return figures(o.Smallest) + " " + string(o.Unit)
}
