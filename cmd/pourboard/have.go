package main

import (
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// stretch fits the cups of a plan to the batches of --have.
func (o overrides) stretch(p *blend.Plan) ([]blend.Note, error) {
	var have []blend.Have
	for _, text := range o.have {
		at := strings.LastIndex(text, "=")
		if at < 1 {
			return nil, usagef(`--have %q is not a batch; "Ash=1450 mL" is`, text)
		}
		h := blend.Have{Glaze: strings.TrimSpace(text[:at])}
		amount := strings.TrimSpace(text[at+1:])
		size, in, err := quantity.Graduation(amount)
		switch {
		case err == nil && size > 0 && in == "mL":
			h.ML = size
		case err == nil && size > 0:
			h.G = size
		default:
			return nil, usagef(`--have %q: %q is no amount of slip; "1450 mL" or "2 kg" is`, text, amount)
		}
		have = append(have, h)
	}
	unstretched := *p
	warnings, err := blend.Stretch(p, have)
	if err == nil {
		return warnings, nil
	}
	*p = unstretched
	if _, wrong := blend.New(p); wrong != nil {
		return nil, nil // the plan itself, which is told of as without --have
	}
	return nil, usagef("--have: %s", err)
}
