package wording

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
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
			text = a.String()
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

// DoneTexts say what a log's sheet of cups changes, "cup 5: poured 280 mL Matte,
// not 135", and what is noted there. t is the test as planned.
func DoneTexts(t *blend.Test, log *record.Log) []string {
	var texts []string
	for _, done := range log.Done() {
		c := t.Cells[done.Cup-1]
		var parts []string
		for e, p := range c.Pours {
			if amount, ok := done.Poured[e]; ok {
				parts = append(parts, fmt.Sprintf("poured %s %s %s, not %s", quantity.AtMost(amount, 2),
					t.Plan.Kit.Pour.Unit, t.Ends[e].Name, PourText(t, p)))
			}
		}
		for s, d := range c.Doses {
			if amount, ok := done.Dosed[s]; ok {
				parts = append(parts, fmt.Sprintf("dosed %s %s %s, not %s", quantity.AtMost(amount, 3),
					t.DoseUnit(), t.Plan.Blend.Series[s].Material, DoseText(t, d)))
			}
		}
		texts = append(texts, fmt.Sprintf("cup %d: %s (counted as done)", done.Cup, strings.Join(parts, ", ")))
	}
	if lost := log.Lost(); lost != nil {
		texts = append(texts, fmt.Sprintf("%s forgotten or spilled: tiles skipped", quantity.Cups(lost, 20)))
	}
	for _, e := range log.Cups {
		if e.Noted() != "" {
			texts = append(texts, fmt.Sprintf("cup %d: %s", e.Cup, e.Noted()))
		}
	}
	return texts
}
