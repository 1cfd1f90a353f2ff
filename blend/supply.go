package blend

import (
	"fmt"
	"math"
	"strings"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/blend/slip"
	"pourboard/blend/spell"
)

// Have is what there really is of a batch that is mixed already: one of the
// three, or DryG and ML of the same glaze.
type Have struct {
	Glaze string
	ML    float64 // mL of wet glaze
	WetG  float64 // g of wet glaze
	DryG  float64 // g of recipe; with ML it gives the recipe in a mL by itself
}

// had is what the plan gives for a batch that is mixed already, or nil.
func (t *Test) had(name string) *Have {
	for i := range t.Plan.Have {
		if t.Plan.Have[i].Glaze == name {
			return &t.Plan.Have[i]
		}
	}
	return nil
}

// takeHave gives an end the SG that its dry weight and volume make, which wins
// over the plan's: c = DryG/ML·(1+a), ρ = 1 + c·(S−1)/S.
func (t *Test) takeHave(e *End) error {
	h := t.had(e.Name)
	if h == nil || h.DryG == 0 || h.ML == 0 {
		return nil
	}
	sg := 1 + h.DryG/h.ML*(1+e.Over)*(e.Solids-1)/e.Solids
	if (slip.Slip{SG: sg, Solids: e.Solids}).Check() != nil {
		return &Fault{KeyHave, 0, fmt.Sprintf("%q: %s g dry do not go into %s mL", e.Name, quantity.PercentText(h.DryG), quantity.PercentText(h.ML)), "weigh and measure both again"}
	}
	e.SG = sg
	e.settle()
	return nil
}

// ml is a batch's volume, by its weight where that was given. A weight of a
// glaze without SG is a Fault.
func (t *Test) ml(h Have, end int) (float64, error) {
	e := t.Ends[end]
	switch {
	case h.ML > 0:
		return h.ML, nil
	case e.Assumed:
		return 0, &Fault{KeyHave, 0, fmt.Sprintf("%q has no SG, so its weight says nothing of its volume", e.Name), `give mL, or both: "1000 g dry, 1370 mL"`}
	case h.WetG > 0:
		return h.WetG / e.SG, nil
	}
	return h.DryG / e.RecipePerML, nil
}

// supply is the batches you have, by end, in mL.
type supply map[int]float64

// supplied is the plan with the size of cup that its batches allow which are
// there already, and what they do to the cups. Where there is enough the cups
// keep their size; where it is short, or ShareAll is set, they are made as
// large as the scarcest batch serves. A batch of a glaze that no cup is poured
// from, or too little for the smallest pours, is a Fault.
func (p *Plan) supplied(lib oxide.Library) (*Plan, *Supplied, error) {
	if len(p.Have) == 0 {
		return p, nil, nil
	}
	t, err := compute(p, lib, nil)
	if err != nil {
		return nil, nil, err
	}
	have := supply{}
	for _, h := range p.Have {
		end := t.endNamed(h.Glaze)
		if end < 0 {
			return nil, nil, t.notPoured(h.Glaze)
		}
		if _, twice := have[end]; twice {
			return nil, nil, &Fault{Key: KeyHave, What: fmt.Sprintf("%q is given twice", h.Glaze), Fix: "one amount for each glaze"}
		}
		if have[end], err = t.ml(h, end); err != nil {
			return nil, nil, err
		}
	}
	was := p.Cup.Size
	if p.ShareAll || !t.enoughFor(have) {
		q := *p
		if t.oneBase() {
			err = t.shareOne(&q, have)
		} else {
			err = t.shareAll(&q, have, lib)
		}
		if err != nil {
			return nil, nil, err
		}
		if t, err = compute(&q, lib, nil); err != nil {
			return nil, nil, err
		}
		p = &q
	}
	return p, t.suppliedNote(have, was), nil
}

// oneBase reports whether every cup is poured from one base, so that all pours
// are alike.
func (t *Test) oneBase() bool { return t.Plan.Blend.HasSeries() && t.Plan.Blend.Method != ByPour }

// shareOne sets the plan's cups to what one batch gives each of them in whole
// steps of the jug.
func (t *Test) shareOne(p *Plan, have supply) error {
	e, cups := t.Ends[0], float64(len(t.Cells))
	steps := perCup(have[0], cups, e, p.Kit)
	if steps < 1 {
		return t.tooLittle(0, have[0])
	}
	// Four digits are read by a person, and far within a step of the jug.
	size := p.Kit.Pour.Amount(steps) / e.perML(p.Kit) * e.per(Volume).of(p.Cup.Size.Of)
	digits := measure.Step{Size: math.Pow(10, math.Floor(math.Log10(size))-3)}
	p.Cup.Size.Value = digits.Amount(digits.Count(size))
	return nil
}

// tooLittle is the fault of a batch that does not give every cup a step.
func (t *Test) tooLittle(end int, ml float64) error {
	cups := 0.0
	for _, c := range t.Cells {
		if c.Pours[end].ML > 0 {
			cups++
		}
	}
	least := forCups(t.Plan.Kit.Pour.Size, cups, t.Ends[end], t.Plan.Kit)
	return &Fault{KeyHave, 0, fmt.Sprintf("%q: %s mL are too little for %.0f cups", t.Ends[end].Name, quantity.VolumeText(ml), cups),
		fmt.Sprintf("at least %s mL", quantity.PercentText(measure.Convenient(least)))}
}

// shareAll sets the plan's cups to the largest size, of three digits, that every
// batch serves. It looks down from a size at which rounded pours can no longer
// be few enough: rounding moves a pour by half a step at most.
func (t *Test) shareAll(p *Plan, have supply, lib oxide.Library) error {
	factor, scarce := math.Inf(1), 0
	for end, ml := range have {
		exact, left := 0.0, ml-p.Kit.Dead
		for _, c := range t.Cells {
			if ml := c.Pours[end].ML; ml > 0 {
				exact += ml
				left -= p.Kit.Loss
			}
		}
		if f := left / exact; f < factor || f == factor && end < scarce {
			factor, scarce = f, end
		}
	}
	if !(factor > 0) {
		return t.tooLittle(scarce, have[scarce])
	}
	p.Cup.Size.Value *= factor
	at, err := compute(p, lib, nil)
	if err != nil {
		return err
	}
	least := math.Inf(1)
	for _, c := range at.Cells {
		for _, pour := range c.Pours {
			if pour.Steps > 0 {
				least = min(least, float64(pour.Steps))
			}
		}
	}
	unit := math.Pow(10, math.Floor(math.Log10(p.Cup.Size.Value))-2)
	most := p.Cup.Size.Value * (1 + min(1/least, 0.25))
	for n := math.Floor(most/unit + hair); n >= 1; n-- {
		p.Cup.Size.Value = n * unit
		if at, err = compute(p, lib, nil); err != nil {
			return err
		}
		if at.enoughFor(have) {
			return nil
		}
	}
	return t.tooLittle(scarce, have[scarce])
}

// notPoured says that no cup is poured from a glaze, and what they are poured
// from.
func (t *Test) notPoured(name string) error {
	var names []string
	for i, e := range t.Ends {
		if t.Batches[i].NeedML > 0 {
			names = append(names, e.Name)
		}
	}
	what := fmt.Sprintf("no cup is poured from %q", name)
	if meant := spell.Nearest(name, names); meant != "" {
		return &Fault{KeyHave, 0, what, fmt.Sprintf("did you mean %q?", meant)}
	}
	return &Fault{KeyHave, 0, what, "cups are poured from " + strings.Join(names, ", ")}
}

// endNamed is the index of the end of that name that something is poured of,
// or −1.
func (t *Test) endNamed(name string) int {
	for i, e := range t.Ends {
		if e.Name == name && t.Batches[i].NeedML > 0 {
			return i
		}
	}
	return -1
}

// enoughFor reports whether every batch is poured from and none runs out.
func (t *Test) enoughFor(have supply) bool {
	for end, ml := range have {
		if t.Batches[end].NeedML == 0 || t.Batches[end].NeedML+t.Plan.Kit.Dead > ml*(1+hair) {
			return false
		}
	}
	return true
}

// suppliedNote is what the batches you have mean for the cups.
func (t *Test) suppliedNote(have supply, was Amount) *Supplied {
	cup := t.Plan.Cup.Size
	n := &Supplied{
		Cup: cup, Was: was, Short: cup.Value < was.Value*(1-hair), Dead: t.Plan.Kit.Dead, Others: len(have) < len(t.Ends),
	}
	for _, h := range t.Plan.Have {
		end := t.endNamed(h.Glaze)
		n.Left = append(n.Left, Have{Glaze: h.Glaze, ML: have[end] - t.Batches[end].NeedML})
	}
	if pour := t.Cells[0].Pours[0]; t.oneBase() && pour.GotML > 0 {
		n.More = int((n.Left[0].ML - t.Plan.Kit.Dead + hair) / (pour.GotML + t.Plan.Kit.Loss))
	}
	return n
}
