package oxide

import "slices"

// Part is one line of a dry mix: parts or grams of a material.
type Part struct {
	Material string
	Percent  float64 // of the mix, or parts of it: they need not sum to 100
}

// Vector is a dry mix multiplied out: what one gram of it becomes.
type Vector struct {
	G    [Count]float64 // g of each fired oxide per g dry mix, in printing order
	Loss float64        // g lost on firing per g dry mix
}

// Vector multiplies a dry mix out. Missing names, once each and in order, the
// materials that are not known or have no analysis; when there are any, the vector
// is zero. A material of which there is nothing is not asked for.
func (l Library) Vector(parts []Part) (v Vector, missing []string) {
	total := 0.0
	missing = l.each(parts, func(m Material, part float64) bool {
		total += part
		for _, x := range m.Analysis.Oxides {
			i, _ := x.Oxide.Place()
			v.G[i] += part * x.Value / 100
		}
		v.Loss += part * m.Analysis.LOI / 100
		return !m.Analysis.Empty()
	})
	if len(missing) > 0 || total == 0 {
		return Vector{}, missing
	}
	for i := range v.G {
		v.G[i] /= total
	}
	v.Loss /= total
	return v, nil
}

// each adds every part of which there is something; missing names those, once each,
// that the library does not have or that cannot be added.
func (l Library) each(parts []Part, add func(m Material, amount float64) bool) (missing []string) {
	for _, p := range parts {
		if p.Percent == 0 {
			continue
		}
		m, ok := l.Find(p.Material)
		same := func(name string) bool { return key(name) == key(p.Material) }
		if (!ok || !add(m, p.Percent)) && !slices.ContainsFunc(missing, same) {
			missing = append(missing, p.Material)
		}
	}
	return missing
}

// SolidsDensity is the density of a dry mix's particles in g/mL: volumes add,
// so 1/S is the sum of f/S over the mass fractions f. Missing names the
// materials whose density is not known; when there are any, or when there is
// nothing, the density is 0.
func (l Library) SolidsDensity(parts []Part) (density float64, missing []string) {
	mass, volume := 0.0, 0.0
	missing = l.each(parts, func(m Material, part float64) bool {
		if m.Density > 0 {
			mass += part
			volume += part / m.Density
		}
		return m.Density > 0
	})
	if len(missing) > 0 || mass == 0 {
		return 0, missing
	}
	return mass / volume, nil
}
