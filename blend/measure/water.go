package measure

// Water is g of water for a batch in steps that a bucket or a jug can show: the
// scale's below 50 g, 1 g below 200 g, 5 g below 1 kg, 10 g below 5 kg, 50 g from
// there on, in whole steps of the scale. It is never more than 1.25 % from g (1 %
// below 200 g), which moves an SG around 1.45 by 0.004 at most; common practice,
// no source.
func (k Kit) Water(g float64) float64 {
	step := k.bucketWaterStep(g)
	return k.Scale.Amount(step.Count(g) * k.Scale.Count(step.Size))
}

// bucketWaterStep is the step that Water counts g in. The limits are held against g
// settled to nine digits, as in the workbook's formula (bucketWater).
func (k Kit) bucketWaterStep(g float64) Step {
	var size float64
	switch g = settle(g); {
	case g < 50:
		return k.Scale
	case g < 200:
		size = 1
	case g < 1000:
		size = 5
	case g < 5000:
		size = 10
	default:
		size = 50
	}
	return Step{k.Scale.RoundedUp(size), Gram}
}
