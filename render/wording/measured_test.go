package wording

import (
	"slices"
	"testing"

	"pourboard/blend"
	"pourboard/blend/identity"
)

// Lines of logs of every version, and what each says to a potter.
func TestAmounts(t *testing.T) {
	for line, want := range map[string]string{
		`[cup] dry = "300 g"`:                              "cups of 300 g dry",
		`[cup] volume = "180 mL"`:                          "cups of 180 mL",
		`[cup] weight = "250 g"`:                           "cups of 250 g of wet glaze",
		`[cup] batch = "1000 g"`:                           "one batch of 1000 g dry, shared between the cups",
		`--have "Ash=1450 mL"`:                             "1450 mL of Ash mixed already",
		`--have "Ash=1000 g dry, 1370 mL"`:                 "1000 g dry, 1370 mL of Ash mixed already",
		`--have "Ash=1990 g"`:                              "1990 g of wet glaze of Ash mixed already",
		`--share-all`:                                      "all of it shared out",
		`[measure] scale = "0.1 g"`:                        "a 0.1 g scale",
		`[measure] fine = "0.01 g"`:                        "a finer 0.01 g scale",
		`[measure] pour = "5 mL"`:                          "a jug marked every 5 mL",
		`[measure] pour = "1 g"`:                           "glaze poured on a 1 g scale",
		`[measure] syringe = "0.5 mL"`:                     "a syringe marked every 0.5 mL",
		`[[glaze]] "Ash" specific-gravity = 1.45`:          "Ash of SG 1.45",
		`[[glaze]] "Ash" water = "98 g"`:                   "Ash with 98 g of water to 100 g dry",
		`[blend] method = "` + string(blend.ByWeigh) + `"`: "a plan to weigh every cup's dry materials into it",
		`[cup] roundness = "of a version that is to come"`: `[cup] roundness = "of a version that is to come"`,
	} {
		if got := Amounts(identity.ReadAmounts([]string{line})); !slices.Equal(got, []string{want}) {
			t.Errorf("%s says %q, want %q", line, got, want)
		}
	}
}
