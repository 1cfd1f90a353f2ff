package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// nameAndValue parts a flag's NAME=VALUE.
func nameAndValue(flag, text, example string) (name, value string, err error) {
	at := strings.LastIndex(text, "=")
	if at < 1 {
		return "", "", usagef(`--%s %q needs a glaze and an amount, such as %q`, flag, text, example)
	}
	return strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+1:]), nil
}

// batches puts the batches of --have into a plan.
func (o overrides) batches(p *blend.Plan) error {
	for _, text := range o.have {
		name, amount, err := nameAndValue("have", text, "Ash=1450 mL")
		if err != nil {
			return err
		}
		b, err := quantity.ReadBatch(amount)
		if err != nil {
			return usagef("--have: %s", err)
		}
		p.Have = append(p.Have, blend.Have{Glaze: name, ML: b.ML, WetG: b.WetG, DryG: b.DryG})
	}
	p.ShareAll = o.shareAll
	if o.shareAll && o.have == nil {
		return usagef(`--share-all needs a batch to share, such as --have "Ash=1450 mL"`)
	}
	return nil
}

// gravities puts the specific gravities of --sg into a plan.
func (o overrides) gravities(p *blend.Plan) error {
	library := oxide.Builtin().With(p.Materials...)
	for _, text := range o.sg {
		const example = "Ash=1.45"
		name, number, err := nameAndValue("sg", text, example)
		if err != nil {
			return err
		}
		at, names := -1, []string{}
		for i, g := range p.Glazes {
			if names = append(names, g.Name); g.Name == name {
				at = i
			}
		}
		if at < 0 {
			return usagef("--sg: unknown glaze %q%s", name, nearestOrAll(name, names, "the plan has"))
		}
		sg, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
		if err != nil {
			return usagef("--sg %q is not a number (such as %q)", text, example)
		}
		switch solids := p.Glazes[at].SolidsDensity(library); {
		case !(sg > 1):
			return usagef("--sg %q is too low (water is 1.00; weigh 100 mL again)", text)
		case sg >= solids:
			return usagef("--sg %q is too high (keep below the solids density, %s)", text, quantity.Fixed(solids, 2))
		}
		p.Glazes[at].SG, p.Glazes[at].WaterPer = sg, 0
	}
	return nil
}

// wrongFlag says whether a plan that cannot be worked out with its flags is the
// fault of --have, and not of the plan.
func wrongFlag(file string, err error) error {
	var fault *blend.Fault
	if errors.As(err, &fault) && fault.Line > 0 {
		return fmt.Errorf("%s:%d: %w", file, fault.Line, err)
	}
	if fault != nil && fault.Key == blend.KeyHave {
		return usagef("--have: %s", err)
	}
	return fmt.Errorf("%s: %w", file, err)
}

// markLoud marks the lines that are printed even under --quiet: with a
// batch that is too small, all that the smaller cups cannot do.
func markLoud(lines []wording.Line, notes []blend.Note) {
	short := false
	for i, n := range notes {
		switch n := n.(type) {
		case blend.Supplied:
			short = n.Short
		case blend.OverLimit, blend.LostPours, blend.SkippedDoses, blend.NarrowCup, blend.ShallowCup:
			lines[i].Loud = short
		}
	}
}
