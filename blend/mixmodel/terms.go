package mixmodel

import (
	"fmt"
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

// exponents of the terms of a model: term t is the product of the coordinates
// xᵢ, each to the power exponents[t][i].
func (d *Design) exponents(kind Kind) ([][]int, error) {
	q := len(d.Names)
	degree := slices.Index(Kinds(d.Space, q), kind)
	switch {
	case degree == 0:
		return [][]int{make([]int, q)}, nil
	case degree < 0:
		return nil, fmt.Errorf("there is no %s model of %d ends or series", kind, q)
	}
	// In shares every term has each end once at most; a constant lies in the
	// span of the linear terms, as the shares add up to 1.
	least, highest := 1, 1
	if d.Space == Percent {
		least, highest = 0, degree
	}
	var all [][]int
	for n := least; n <= degree; n++ {
		all = append(all, products(q, n, highest)...)
	}
	return all, nil
}

// products lists the exponents of q factors that add up to degree, none above
// highest, those of the first factors first.
func products(q, degree, highest int) [][]int {
	if q == 0 {
		if degree == 0 {
			return [][]int{{}}
		}
		return nil
	}
	var all [][]int
	for first := min(degree, highest); first >= 0; first-- {
		for _, rest := range products(q-1, degree-first, highest) {
			all = append(all, append([]int{first}, rest...))
		}
	}
	return all
}

// termName is "A×B" or "A²×B" of the names of ends or series.
func termName(kind Kind, names []string, exponents []int) string {
	var factors []string
	for i, power := range exponents {
		if power > 0 {
			factors = append(factors, names[i]+[]string{"", "²", "³"}[power-1])
		}
	}
	switch {
	case len(factors) > 0:
		return strings.Join(factors, "×")
	case kind == Mean:
		return "mean"
	default:
		return "constant"
	}
}

// row is the value of every term at a point.
func row(exponents [][]int, point []float64) []float64 {
	values := make([]float64, len(exponents))
	for t, powers := range exponents {
		values[t] = product(powers, point)
	}
	return values
}

// product is the value of one term at a point.
func product(powers []int, point []float64) float64 {
	value := 1.0
	for i, power := range powers {
		for range power {
			value *= point[i]
		}
	}
	return value
}
