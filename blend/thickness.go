package blend

import "pourboard/blend/measure"

// thickDifference is the spread of specific gravity over the cups from which
// on coats of one dip differ to the eye (common practice, no source).
const thickDifference = 0.02

// Thickness is the thinnest and the thickest cup as measured, as indexes into
// t.Cells, and whether coats of one dip would differ between them. Cups that no
// slip was measured into do not count.
func (t *Test) Thickness() (thin, thick int, uneven bool) {
	first := true
	for i := range t.Cells {
		c := &t.Cells[i]
		if !c.Poured() {
			continue
		}
		if first || c.Got.SG < t.Cells[thin].Got.SG {
			thin = i
		}
		if first || c.Got.SG > t.Cells[thick].Got.SG {
			thick = i
		}
		first = false
	}
	low, high := t.Cells[thin].Got.SG, t.Cells[thick].Got.SG
	return thin, thick, low > 1 && high-low >= thickDifference
}

// noteUneven is about cups that differ in specific gravity.
func (t *Test) noteUneven() {
	low, high, uneven := t.Thickness()
	if !uneven {
		return
	}
	thin, thick := t.Cells[low], t.Cells[high]
	var most int64
	for _, c := range t.Cells {
		most = max(most, t.WaterSteps(c, thin.Got.SG))
	}
	t.note(UnevenGravity{
		Thin: thin.Number, Thick: thick.Number, ThinSG: thin.Got.SG, ThickSG: thick.Got.SG,
		Water: t.WaterStep().Format(most), Unit: t.WaterStep().Unit, Even: t.Plan.Cup.Even,
	})
}

// WaterStep is the instrument that measures water into a cup: the scale when
// glazes are poured on one (1 g is 1 mL), otherwise the syringe.
func (t *Test) WaterStep() measure.Step {
	if t.Plan.Kit.OnScale() {
		return t.Plan.Kit.Pour
	}
	return t.Plan.Kit.Syringe
}

// WaterSteps is the water that brings a cup, as measured, to a specific
// gravity, in whole steps of WaterStep; negative where it is too thin already.
func (t *Test) WaterSteps(c Cell, sg float64) int64 { return t.WaterStep().Count(c.WaterTo(sg)) }
