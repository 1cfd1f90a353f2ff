package wording

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
)

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
