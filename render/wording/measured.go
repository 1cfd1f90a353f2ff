package wording

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
)

// Amounts says of the amounts that a log or a plan has what each is, in the order
// in which they are used: "cups of 100 g dry", "a jug marked every 5 mL". One of a
// later version is its line.
func Amounts(amounts identity.Amounts) []string {
	// NAME is the glaze, AMOUNT the amount.
	words := map[string]string{
		"[cup] batch":                "one batch of AMOUNT dry, shared between the cups",
		"[cup] dry":                  "cups of AMOUNT dry",
		"[cup] volume":               "cups of AMOUNT",
		"[cup] weight":               "cups of AMOUNT of wet glaze",
		identity.KeyHave:             "AMOUNT of NAME mixed already",
		identity.KeyShareAll:         "all of it shared out",
		"[measure] scale":            "a AMOUNT scale",
		"[measure] fine":             "a finer AMOUNT scale",
		identity.KeyPour:             "a jug marked every AMOUNT",
		identity.KeyMethod:           "a plan to AMOUNT",
		"[measure] syringe":          "a syringe marked every AMOUNT",
		"[[glaze]] water":            "NAME with AMOUNT of water to 100 g dry",
		"[[glaze]] specific-gravity": "NAME of SG AMOUNT",
	}
	var all []string
	for _, a := range amounts {
		text, known := words[a.Key]
		amount := a.Text
		switch {
		case !known:
			text = a.Line
		case a.Key == identity.KeyPour && strings.HasSuffix(amount, " g"):
			text = "glaze poured on a AMOUNT scale"
		case a.Key == identity.KeyMethod:
			amount = methodText(blend.Method(amount))
		case a.Key == identity.KeyHave:
			amount = strings.Replace(amount, " wet", " of wet glaze", 1)
		}
		all = append(all, strings.NewReplacer("NAME", a.Glaze, "AMOUNT", amount).Replace(text))
	}
	return all
}
