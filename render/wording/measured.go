package wording

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// Amounts says of the amounts that a log or a plan has what each is, in the order
// in which they are used: "cups of 100 g dry", "a jug marked every 5 mL".
func Amounts(a identity.Amounts) []string {
	var all []string
	say := func(words ...string) { all = append(all, strings.Join(words, " ")) }
	switch {
	case a.CupKey == "batch":
		say("one batch of", quantity.PercentText(a.Cup.Size), "g dry, shared between the cups")
	case a.CupKey != "":
		say("cups of", AmountText(blend.Amount{Value: a.Cup.Size, Of: blend.Basis(a.CupKey)}))
	}
	for _, h := range a.Have {
		say(haveText(h), "of", h.Glaze, "mixed already")
	}
	if a.Share {
		say("all of it shared out")
	}
	if a.Scale.Size > 0 {
		say("a", a.Scale.String(), "scale")
	}
	if a.Fine.Size > 0 {
		say("a finer", a.Fine.String(), "scale")
	}
	switch {
	case a.Pour.Unit == measure.Gram:
		say("glaze poured on a", a.Pour.String(), "scale")
	case a.Pour.Size > 0:
		say("a jug marked every", a.Pour.String())
	}
	if a.Method != "" {
		say("a plan to " + methodText(a.Method))
	}
	if a.Syringe.Size > 0 {
		say("a syringe marked every", a.Syringe.String())
	}
	for _, g := range a.Glazes {
		if g.WaterG > 0 {
			say(g.Glaze, "with", quantity.PercentText(g.WaterG), "g of water to 100 g dry")
		} else {
			say(g.Glaze, "of SG", quantity.AtMost(g.SG, 4))
		}
	}
	return append(all, a.Rest...)
}

// haveText is how much of a batch there is: "1000 g dry, 1370 mL".
func haveText(h blend.Have) string {
	var all []string
	for _, x := range []struct {
		amount float64
		unit   string
	}{{h.DryG, " g dry"}, {h.ML, " mL"}, {h.WetG, " g of wet glaze"}} {
		if x.amount > 0 {
			all = append(all, quantity.PercentText(x.amount)+x.unit)
		}
	}
	return strings.Join(all, ", ")
}
