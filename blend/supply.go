package blend

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/blend/slip"
)

// How large cups can be follows from what there is of a glaze: a batch to share
// out (Cup.BatchG), or batches that are mixed already (Plan.Have). Less what
// stays in the jug and what is lost at each pour, it has to serve every cup.

// Have is what there really is of a batch that is mixed already: one of the
// three, or DryG and ML of the same glaze.
type Have struct {
	Glaze string
	ML    float64 // mL of wet glaze
	WetG  float64 // g of wet glaze
	DryG  float64 // g of recipe; with ML it gives the recipe in a mL by itself
}

// had is what the plan gives for a batch that is mixed already, or nil.
func (p *Plan) had(name string) *Have {
	for i := range p.Have {
		if p.Have[i].Glaze == name {
			return &p.Have[i]
		}
	}
	return nil
}

// takeHave gives an end the SG that its dry weight and volume make, which wins
// over the plan's: c = DryG/ML·(1+a), ρ = 1 + c·(S−1)/S.
func (e *End) takeHave(h *Have) error {
	if h == nil || h.DryG == 0 || h.ML == 0 {
		return nil
	}
	e.SG = 1 + h.DryG/h.ML*(1+e.Over)*(e.Solids-1)/e.Solids
	if (slip.Slip{SG: e.SG, Solids: e.Solids}).Check() != nil {
		return faultf(KeyHave, "weigh and measure both again", "%q: %s g dry do not go into %s mL",
			e.Name, quantity.PlainText(h.DryG), quantity.PlainText(h.ML))
	}
	e.settle()
	return nil
}

// volume is a batch's volume in mL, by its weight where that was given. A weight
// of a glaze without SG is a Fault.
func (h Have) volume(e End) (float64, error) {
	switch {
	case h.ML > 0:
		return h.ML, nil
	case e.Assumed:
		return 0, faultf(KeyHave, `give mL, or both: "1000 g dry, 1370 mL"`,
			"%q has no SG, so its weight says nothing of its volume", e.Name)
	case h.WetG > 0:
		return h.WetG / e.SG, nil
	}
	return h.DryG / e.RecipePerML, nil
}

// oneBase reports whether every cup is poured from one base, so that all pours
// are alike.
func (p *Plan) oneBase() bool { return p.Blend.HasSeries() && p.Blend.Method != ByPour }

// perML is what the pouring instrument shows for a mL of an end: 1 mL, or its
// grams on a scale.
func (e End) perML(kit measure.Kit) float64 { return e.contents(1).Shown(kit) }

// pourEach is what each cup gets of ml of the one base, in whole steps of the
// pouring instrument.
func pourEach(t *Test, ml float64) float64 {
	kit := t.Plan.Kit
	each := ((ml-kit.Dead)/float64(len(t.Cells)) - kit.Loss) * t.Ends[0].perML(kit)
	return kit.Pour.Amount(max(0, kit.Pour.Floor(each)))
}

// forCups is the mL of an end that all cups with some of it need for the same
// pour, which is counted as the pouring instrument does, and how many they are.
func forCups(t *Test, end int, pour float64) (ml float64, cups int) {
	kit := t.Plan.Kit
	cups = len(t.cups(func(c Cell) bool { return c.Pours[end].ML > 0 }))
	return float64(cups)*(pour/t.Ends[end].perML(kit)+kit.Loss) + kit.Dead, cups
}

// sharedOut is the plan with the size of cup that its batch gives, shared
// between the cups in whole steps of the jug, every cup alike. A plan that asks
// for a size is returned as it is. A batch too small for the cups is a Fault.
func (p *Plan) sharedOut(lib oxide.Library) (*Plan, error) {
	if p.Cup.BatchG == 0 {
		return p, nil
	}
	if !p.oneBase() || p.Blend.Method == ByWeigh {
		return nil, faultf("", `dry = "100 g" gives the size of a cup`, "batch needs one base that is poured into every cup")
	}
	q := *p
	q.Cup.Size = Amount{p.Kit.Pour.Size, Volume}
	if p.Kit.OnScale() {
		q.Cup.Size.Of = Weight
	}
	q.Have, q.Poured = nil, nil
	t, err := compute(&q, lib)
	if err != nil {
		return nil, err
	}
	if q.Cup.Size.Value = pourEach(t, p.Cup.BatchG/t.Base.RecipePerML); q.Cup.Size.Value == 0 {
		least, cups := forCups(t, 0, p.Kit.Pour.Size)
		fix := fmt.Sprintf("at least \"%s g\"", quantity.PlainText(measure.Convenient(least*t.Base.RecipePerML)))
		return nil, faultf("", fix, "batch = \"%s g\" is too small for %d cups", quantity.PlainText(p.Cup.BatchG), cups)
	}
	q.Have, q.Poured = p.Have, p.Poured
	return &q, nil
}

// SharedCup is the plan's cup with the size that its batch gives, where the plan
// has one. A batch that is too small for the cups is a Fault.
func (p *Plan) SharedCup() (Cup, error) {
	q, err := p.sharedOut(oxide.Builtin().With(p.Materials...))
	if err != nil {
		return Cup{}, err
	}
	return q.Cup, nil
}

// batchFor is the convenient batch, in g of recipe, that gives every cup at
// least size, in the unit of the cup; 0 where the plan shares out no batch.
func batchFor(t *Test, size float64) float64 {
	p := t.Plan
	if p.Cup.BatchG == 0 {
		return 0
	}
	ml, _ := forCups(t, 0, p.Kit.Pour.RoundedUp(size))
	return measure.Convenient(ml * t.Base.RecipePerML)
}

// supplied returns the plan with the size of cup that the batches mixed already allow,
// and a note of what they do to the cups. Where there is enough the cups keep their
// size. Where it is short, or ShareAll is set, they are made as large as the scarcest
// batch serves. A batch of a glaze that no cup is poured
// from, or too little for the smallest pours, is a Fault.
func (p *Plan) supplied(lib oxide.Library) (*Plan, []Note, error) {
	if len(p.Have) == 0 {
		return p, nil, nil
	}
	t, err := compute(p, lib)
	if err != nil {
		return nil, nil, err
	}
	have, err := haveML(t)
	if err != nil {
		return nil, nil, err
	}
	was := p.Cup.Size
	if p.ShareAll || !enoughFor(t, have) {
		if t, err = fitCups(t, have); err != nil {
			return nil, nil, err
		}
	}
	p = t.Plan
	n := Supplied{Cup: p.Cup.Size, Was: was, Short: p.Cup.Size.Value < was.Value*(1-hair), Dead: p.Kit.Dead}
	for end, ml := range have {
		if ml > 0 {
			n.Left = append(n.Left, Have{Glaze: t.Ends[end].Name, ML: t.LeftML(end)})
		} else {
			n.Others = true
		}
	}
	if pour := t.Cells[0].Pours[0]; p.oneBase() && pour.Got.ML > 0 {
		n.More = int((n.Left[0].ML - p.Kit.Dead + hair) / (pour.Got.ML + p.Kit.Loss))
	}
	return p, []Note{n}, nil
}

// haveML is what there is by end, in mL; 0 where the plan does not say.
func haveML(t *Test) (have []float64, err error) {
	have = make([]float64, len(t.Ends))
	var poured []string
	for _, b := range t.Batches {
		if b.NeedML > 0 {
			poured = append(poured, b.Glaze)
		}
	}
	for _, h := range t.Plan.Have {
		end := slices.IndexFunc(t.Batches, func(b Batch) bool { return b.Glaze == h.Glaze })
		switch {
		case !slices.Contains(poured, h.Glaze):
			return nil, faultf(KeyHave, "cups are poured from "+strings.Join(poured, ", "), "no cup is poured from %q", h.Glaze)
		case have[end] > 0:
			return nil, faultf(KeyHave, "one amount for each glaze", "%q is given twice", h.Glaze)
		}
		if have[end], err = h.volume(t.Ends[end]); err != nil {
			return nil, err
		}
	}
	return have, nil
}

// enoughFor reports whether no batch runs out, and each is poured from.
func enoughFor(t *Test, have []float64) bool {
	for end, ml := range have {
		if need := t.Batches[end].NeedML; ml > 0 && (need == 0 || need+t.Plan.Kit.Dead > ml*(1+hair)) {
			return false
		}
	}
	return true
}

// withCups is the test with cups of another size.
func (t *Test) withCups(size float64) (*Test, error) {
	return t.with(func(p *Plan) { p.Cup.Size.Value = size })
}

// fitCups is the test with the largest cups that every batch serves, in mL by
// end: of one base whole steps of the jug, otherwise of three digits, looking
// down from a size at which rounded pours can no longer be few enough.
func fitCups(t *Test, have []float64) (*Test, error) {
	kit := t.Plan.Kit
	factor, scarce := math.Inf(1), 0
	for end, ml := range have {
		_, cups := forCups(t, end, 0)
		exact := t.sum(func(c Cell) float64 { return c.Pours[end].ML })
		if f := (ml - kit.Dead - float64(cups)*kit.Loss) / exact; ml > 0 && f < factor {
			factor, scarce = f, end
		}
	}
	size := factor * t.Plan.Cup.Size.Value
	if t.Plan.oneBase() {
		size = pourEach(t, have[0]) / t.Base.perML(kit) * t.Base.in(t.Plan.Cup.Size.Of)
	}
	if size > 0 {
		unit := math.Pow(10, math.Floor(math.Log10(size))-2)
		if t.Plan.oneBase() { // four digits are read by a person, and far within a step of the jug
			digits := measure.Step{Size: unit / 10}
			return t.withCups(digits.Rounded(size))
		}
		for n := math.Floor(1.25 * size / unit); n >= 1; n-- {
			if at, err := t.withCups(n * unit); err != nil || enoughFor(at, have) {
				return at, err
			}
		}
	}
	least, cups := forCups(t, scarce, kit.Pour.Size)
	return nil, faultf(KeyHave, fmt.Sprintf("at least %s mL", quantity.PlainText(measure.Convenient(least))),
		"%q: %s mL are too little for %d cups", t.Ends[scarce].Name, quantity.VolumeText(have[scarce]), cups)
}
