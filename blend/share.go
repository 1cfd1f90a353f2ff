package blend

import (
	"fmt"

	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// sharedOut is the plan with the size of cup that its batch gives: the batch
// less what stays in the jug and what is lost at the pours, shared between the
// cups in whole steps of the jug, every cup alike. A plan that asks for a size
// is returned as it is. A batch that is too small for the cups is a Fault.
func (p *Plan) sharedOut(lib oxide.Library) (*Plan, error) {
	cup := p.Cup
	if cup.BatchG == 0 {
		return p, nil
	}
	if !p.Blend.HasSeries() || p.Blend.Method == ByPour || p.Blend.Method == ByWeigh {
		return nil, &Fault{KeyBatch, 0, "batch needs one base that is poured into every cup", `dry = "100 g" gives the size of a cup`}
	}
	cups, err := p.Blend.CellCount()
	if err != nil {
		return nil, err
	}
	base := []End{newEnd(p.Glazes[p.Blend.Base], lib)}
	assumeDryContent(base)
	steps := perCup(cup.BatchG/base[0].RecipePerML, float64(cups), base[0], p.Kit)
	if steps < 1 {
		least := forCups(p.Kit.Pour.Size, float64(cups), base[0], p.Kit) * base[0].RecipePerML
		return nil, &Fault{KeyBatch, 0, fmt.Sprintf("batch = \"%s g\" is too small for %d cups", quantity.PercentText(cup.BatchG), cups),
			fmt.Sprintf("at least \"%s g\"", quantity.PercentText(measure.Convenient(least)))}
	}
	q := *p
	q.Cup.Size = Amount{p.Kit.Pour.Amount(steps), Volume}
	if p.Kit.OnScale() {
		q.Cup.Size.Of = Weight
	}
	return &q, nil
}

// perCup is how many whole steps of the jug each of so many cups gets of ml of
// an end.
func perCup(ml, cups float64, e End, kit measure.Kit) int64 {
	each := ((ml-kit.Dead)/cups - kit.Loss) * e.perML(kit)
	if !(each > 0) {
		return 0
	}
	return kit.Pour.Floor(each)
}

// forCups is the mL of an end that so many cups need for a pour of each, which
// is counted as the pouring instrument does.
func forCups(each, cups float64, e End, kit measure.Kit) float64 {
	return cups*(each/e.perML(kit)+kit.Loss) + kit.Dead
}

// perML is what the pouring instrument shows for a mL of an end: 1 mL, or its
// grams on a scale.
func (e End) perML(kit measure.Kit) float64 {
	if kit.OnScale() {
		return e.SG
	}
	return 1
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
func (t *Test) batchFor(size float64) float64 {
	p := t.Plan
	if p.Cup.BatchG == 0 {
		return 0
	}
	each := p.Kit.Pour.Amount(p.Kit.Pour.Ceil(size))
	return measure.Convenient(forCups(each, float64(len(t.Cells)), t.Base, p.Kit) * t.Base.RecipePerML)
}
