package mixmodel

import (
	"slices"
	"strings"
)

// Kind is the form of a model.
type Kind string

const (
	// Mean is the mean of all readings, whatever the mixture; in every space.
	Mean Kind = "mean"
	// Linear has Σ βᵢxᵢ in shares, and a constant besides in percent.
	Linear Kind = "linear"
	// Quadratic adds βᵢⱼxᵢxⱼ, and βᵢᵢxᵢ² in percent.
	Quadratic Kind = "quadratic"
	// SpecialCubic adds βᵢⱼₖxᵢxⱼxₖ; for shares of three ends or more.
	SpecialCubic Kind = "special cubic"
	// Cubic has all products up to the third degree; for percent.
	Cubic Kind = "cubic"
)

// Kinds are the models of a space of so many ends or series, the simplest first.
func Kinds(space Space, ends int) []Kind {
	switch {
	case space == Percent:
		return []Kind{Mean, Linear, Quadratic, Cubic}
	case ends < 3:
		return []Kind{Mean, Linear, Quadratic}
	}
	return []Kind{Mean, Linear, Quadratic, SpecialCubic}
}

// term is a product of the coordinates, each to its power.
type term []int

// terms are those of a model of q ends or series.
func terms(space Space, q int, kind Kind) []term {
	degree := slices.Index(Kinds(space, q), kind)
	if degree == 0 {
		return []term{make(term, q)}
	}
	// In shares every term has each end once at most; a constant lies in the
	// span of the linear terms, as the shares add up to 1.
	least, highest := 1, 1
	if space == Percent {
		least, highest = 0, degree
	}
	var all []term
	for n := least; n <= degree; n++ {
		all = append(all, products(q, n, highest)...)
	}
	return all
}

// products lists the terms of q coordinates whose powers add up to degree, none
// above highest, those of the first coordinates first.
func products(q, degree, highest int) []term {
	if q == 0 {
		if degree == 0 {
			return []term{{}}
		}
		return nil
	}
	var all []term
	for first := min(degree, highest); first >= 0; first-- {
		for _, rest := range products(q-1, degree-first, highest) {
			all = append(all, append(term{first}, rest...))
		}
	}
	return all
}

// name is "A×B" or "A²×B" of the names of ends or series; a term without any is
// the constant of a model, or the mean that is all of one.
func (t term) name(kind Kind, names []string) string {
	var factors []string
	for i, power := range t {
		if power > 0 {
			factors = append(factors, names[i]+[]string{"", "²", "³"}[power-1])
		}
	}
	switch {
	case len(factors) > 0:
		return strings.Join(factors, "×")
	case kind == Mean:
		return "mean"
	}
	return "constant"
}

// at is the value of the term at a point.
func (t term) at(point []float64) float64 {
	value := 1.0
	for i, power := range t {
		for range power {
			value *= point[i]
		}
	}
	return value
}

// row is the value of every term at a point.
func row(terms []term, point []float64) []float64 {
	values := make([]float64, len(terms))
	for i, t := range terms {
		values[i] = t.at(point)
	}
	return values
}
