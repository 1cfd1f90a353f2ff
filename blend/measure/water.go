package measure

// Water is g of water for a batch in steps that a bucket or a jug can show: the
// scale's below 50 g, 1 g below 200 g, 5 g below 1 kg, 10 g below 5 kg, 50 g from
// there on, in whole steps of the scale. It is never more than 1.25 % from g (1 %
// below 200 g), which moves an SG around 1.45 by 0.004 at most; common practice,
// no source.
func (k Kit) Water(g float64) float64 {
	return k.Scale.Amount(k.bucketWaterStep(g).Count(g) * k.Scale.Count(k.bucketWaterStep(g).Size))
}

// bucketWaterStep is what Water counts g in. A spreadsheet that does the same takes
// the limits from g settled to nine digits.
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
