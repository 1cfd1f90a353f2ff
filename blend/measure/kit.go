package measure

import "math"

// Kit is what the maker measures with. The zero value of an optional
// instrument means that there is none.
type Kit struct {
	Scale    Step     // g: weighs batches, and doses when there is no Fine
	Capacity float64  // g: the most that the scale takes, 0 when not given
	Fine     Step     // g: a second scale for doses and for what Scale is too coarse for, Size 0 when there is none
	Pour     Step     // mL (jug) or g (slips poured on a scale)
	Syringe  Step     // mL: measures stock suspensions
	Fill     float64  // mL: ± of a cup filled to a line by eye, 0 when pours are measured
	FillG    float64  // g: ± of a pour stopped by eye on a scale, 1 when not given
	Extra    float64  // fraction mixed beyond what the cups need
	Worst    float64  // fraction: a dose or share should be at least this good
	Dead     float64  // mL that stay in each batch's jug
	Loss     float64  // mL lost at each pour
	Defaults []string // keys that the plan left out, with the value used: "scale 0.1 g"
}

// Dosing is the step of the scale that weighs doses.
func (k Kit) Dosing() Step {
	if k.Fine.Size > 0 {
		return k.Fine
	}
	return k.Scale
}

// OnScale reports whether glaze is poured onto a scale, so that readings run.
func (k Kit) OnScale() bool { return k.Pour.Unit == Gram }

// PourU is the standard uncertainty of the reading that ends a pour, in the
// pouring instrument's unit. Nobody stops a pour onto a scale at its last digit:
// what is stopped ± FillG off has √(d²/12 + t²/3) (JCGM 100:2008, 4.3.7, 5.1.2).
func (k Kit) PourU() float64 {
	if k.OnScale() {
		return math.Hypot(k.Pour.Reading(), FillU(k.FillG))
	}
	return k.Pour.Reading()
}

// TareU is the standard uncertainty of the reading before the first pour: that
// of the tared scale, in g; 0 for a jug, whose pours have one reading each.
func (k Kit) TareU() float64 {
	if k.OnScale() {
		return k.Pour.Reading()
	}
	return 0
}

// OnePourU is the standard uncertainty of a pour by itself, in the pouring
// instrument's unit: of its reading and of the one before.
func (k Kit) OnePourU() float64 { return math.Hypot(k.TareU(), k.PourU()) }
