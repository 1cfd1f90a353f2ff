package measure

import "math"

// Coverage is the factor k of the expanded uncertainty U = k·u that every ±
// quotes: about 95 % of a normal distribution (JCGM 100:2008, 6.3.3).
const Coverage = 2

// Reading is the standard uncertainty of one reading with the given step,
// d/√12 (JCGM 100:2008, F.2.2.1), in the step's unit.
func (s Step) Reading() float64 { return s.Size / math.Sqrt(12) }

// Tared is the standard uncertainty of a weighing with a tare, which is the
// difference of two readings: √2·d/√12, in the step's unit.
func (s Step) Tared() float64 { return math.Sqrt2 * s.Reading() }

// FillU is the standard uncertainty in mL of a fill by eye of ± t mL: t/√3, a
// rectangular distribution (JCGM 100:2008, 4.3.7).
func FillU(t float64) float64 { return t / math.Sqrt(3) }

// Smallest is the smallest amount that an instrument with the standard
// uncertainty u measures to within the fraction worst: k·u/worst.
func Smallest(u, worst float64) float64 { return Coverage * u / worst }

// Pouring is how the pours of one cup were measured.
type Pouring struct {
	Amounts []float64 // measured, in the instrument's unit; 0 is no pour
	Factors []float64 // what one unit of each brings of the quantity that is shared
	U       float64   // standard uncertainty of a pour's reading, in the instrument's unit
	Running bool      // on one scale: amounts are differences of readings
	Tare    float64   // Running: standard uncertainty of the reading before the first pour
}

// Mean is Σ mⱼ·vⱼ/Σ mⱼ over the pours, mⱼ = amount·factor, with its standard
// uncertainty and the number of the pour, from 0, that contributes most to it (−1
// when nothing does).
//
// A share xᵢ is the mean with vⱼ = δᵢⱼ; a percentage brought by end slips is
// the mean of the slips' percentages. With independent pours
// u² = Σⱼ ((vⱼ − x)/M)²·u²(mⱼ); with running readings a pour is a difference
// of two of them, which the next pour shares, so the sum goes over readings
// (JCGM 100:2008, 5.1.2).
func (p Pouring) Mean(values []float64) (mean, u float64, worst int) {
	whole := 0.0
	for j, a := range p.Amounts {
		m := a * p.Factors[j]
		whole += m
		mean += m * values[j]
	}
	if whole == 0 {
		return 0, 0, -1
	}
	mean /= whole
	slopes := make([]float64, 0, len(values))
	largest, worst := 0.0, -1
	for j, a := range p.Amounts {
		if a == 0 {
			continue
		}
		slope := (values[j] - mean) / whole * p.Factors[j]
		slopes = append(slopes, slope)
		if part := math.Abs(slope); part > largest {
			largest, worst = part, j
		}
	}
	if p.Running {
		return mean, RunningU(slopes, p.Tare, p.U), worst
	}
	return mean, p.U * RootSumSquare(slopes...), worst
}

// RunningU is the standard uncertainty of a quantity that depends with these
// slopes on amounts weighed one after the other on one scale, without taring
// between. tare is of the reading before the first, u of each after it. An amount
// is the difference of two readings, and the reading between two amounts belongs
// to both, so the sum of squares goes over readings (JCGM 100:2008, 5.1.2).
func RunningU(slopes []float64, tare, u float64) float64 {
	sum, carried, before := 0.0, 0.0, tare
	for _, slope := range slopes {
		sum = math.Hypot(sum, (carried-slope)*before)
		carried, before = slope, u
	}
	return math.Hypot(sum, carried*before)
}

// RootSumSquare is the root of the sum of squares, in the unit of its parts. So do
// independent uncertainties add (JCGM 100:2008, 5.1.2), relative ones in a product
// or quotient (5.1.6).
func RootSumSquare(parts ...float64) float64 {
	sum := 0.0
	for _, p := range parts {
		sum += p * p
	}
	return math.Sqrt(sum)
}

// ToldApart reports whether two values with the given ± differ by more than
// the root sum of squares of those.
func ToldApart(a, plusMinusA, b, plusMinusB float64) bool {
	return math.Abs(a-b) > math.Hypot(plusMinusA, plusMinusB)
}
