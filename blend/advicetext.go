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
	if a.Worst == 0 {
		say("Every cup holds just what was asked, as far as its measures go.")
	} else {
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
	if asked, got := figures(a.Moved.Asked), figures(a.Moved.Got); asked != got {
		say("Rounding to whole steps comes on top, and is known: most in cup %d, where %s %% of %s is made %s %%.",
			a.Moved.Cell, asked, a.Moved.Of, got)
	}
	if len(a.Options) == 0 || a.Dose == 0 {
		return all
	}
	if a.GoodEnough {
		say("Recommended: %s.", a.Recommended.Words())
	} else {
		say("No method is good enough in cups of this size; what comes nearest is to %s.", a.Recommended.Words())
		for _, o := range a.Options {
			if o.keeps && !o.Good {
				say("A stock suspension would be exact enough, ± %s, but brings %s mL of water into a cup, which thins the coat; a syringe that reads finer than %s lets it be stronger.",
					FractionText(o.Worst), VolumeText(o.WaterML), p.Kit.Syringe)
			}
		}
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
		say("With this scale: grind 1 part of the colourant with %d %s of dry base and weigh %d times as much of that; the base that it brings is then to be left out of the pour.",
			a.Dilution-1, parts, a.Dilution)
	}
	return all
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

// figures is a number with three significant digits, or whole when it has more.
func figures(x float64) string {
	if x >= 100 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}

// SmallestText is an option's smallest amount with its unit, or a dash.
func (o Option) SmallestText() string {
	if o.Smallest == 0 {
		return "–"
	}
	return figures(o.Smallest) + " " + string(o.Unit)
}
