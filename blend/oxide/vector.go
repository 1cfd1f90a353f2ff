package oxide

import "math"

// Part is one line of a dry mix: parts or grams of a material.
type Part struct {
	Material string
	Amount   float64
}

// Vector is a dry mix multiplied out: what one gram of it becomes.
type Vector struct {
	G    [Count]float64 // g of each fired oxide per g dry mix, in printing order
	Loss float64        // g lost on firing per g dry mix
}

// Vector multiplies a dry mix out. Missing names, once each and in order, the
// materials that are not known or have no analysis, and those whose amount is
// not a finite number from 0 up; when there are any, the vector is zero. A
// material of which there is nothing is not asked for.
func (l Library) Vector(parts []Part) (v Vector, missing []string) {
	largest, missing := l.check(parts, func(m Material) bool { return m.Analysis.usable() })
	if len(missing) > 0 || largest == 0 {
		return Vector{}, missing
	}
	total, places := 0.0, made().places
	for _, p := range parts {
		if p.Amount == 0 {
			continue
		}
		m, _ := l.Find(p.Material)
		part := p.Amount / largest // so that no sum overflows
		total += part
		for _, x := range m.Analysis.Oxides {
			v.G[places[x.Oxide]] += part * x.Value / 100
		}
		v.Loss += part * m.Analysis.LOI / 100
	}
	for i := range v.G {
		v.G[i] /= total
	}
	v.Loss /= total
	return v, nil
}

// MaterialVector is Vector for one material.
func (l Library) MaterialVector(name string) (v Vector, missing []string) {
	return l.Vector([]Part{{Material: name, Amount: 1}})
}

// check finds the largest amount of parts, and the materials that are not
// good enough or whose amount is none.
func (l Library) check(parts []Part, good func(Material) bool) (largest float64, missing []string) {
	seen := map[string]bool{}
	for _, p := range parts {
		valid := p.Amount >= 0 && p.Amount <= math.MaxFloat64
		if valid && p.Amount == 0 {
			continue
		}
		m, ok := l.Find(p.Material)
		if ok && valid && good(m) {
			largest = max(largest, p.Amount)
		} else if k := key(p.Material); !seen[k] {
			seen[k] = true
			missing = append(missing, p.Material)
		}
	}
	return largest, missing
}

// Combine makes v the mix of ends of which there are dryG grams each: the
// dry-mass-weighted mean. A dose is an end too. It reports false, and leaves v
// zero, when a mass is negative or not finite, or when there is nothing.
// Ends and dryG must be of one length. It allocates nothing.
func (v *Vector) Combine(ends []Vector, dryG []float64) bool {
	*v = Vector{}
	total := 0.0
	for _, g := range dryG {
		if !(g >= 0) {
			return false
		}
		total += g
	}
	if !(total > 0 && total <= math.MaxFloat64) {
		return false
	}
	for i := range ends {
		end, part := &ends[i], dryG[i]/total
		for k := range v.G {
			v.G[k] += part * end.G[k]
		}
		v.Loss += part * end.Loss
	}
	return true
}

// SolidsDensity is the density of a dry mix's particles in g/mL: volumes add,
// so 1/S is the sum of f/S over the mass fractions f. Missing names the
// materials whose density is not known (or whose amount is not a finite
// number from 0 up); when there are any, or when there is nothing, the
// density is 0.
func (l Library) SolidsDensity(parts []Part) (density float64, missing []string) {
	largest, missing := l.check(parts, func(m Material) bool {
		return m.Density > 0 && m.Density <= math.MaxFloat64
	})
	if len(missing) > 0 || largest == 0 {
		return 0, missing
	}
	mass, volume := 0.0, 0.0
	for _, p := range parts {
		if p.Amount == 0 {
			continue
		}
		m, _ := l.Find(p.Material)
		mass += p.Amount / largest
		volume += p.Amount / largest / m.Density
	}
	return mass / volume, nil
}
