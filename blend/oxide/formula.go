package oxide

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// formula is the atoms of each element in one formula unit.
type formula map[string]float64

// plainFormula turns the ways of typesetting a formula into one.
var plainFormula = strings.NewReplacer(
	"₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4",
	"₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9",
	"·", ".", "•", ".", "⋅", ".", "*", ".", " ", "",
)

// A group of a formula is a number and pieces: an element or a bracket, with the
// number of it behind.
var (
	formulaGroup = regexp.MustCompile(`^(\d*)((?:[A-Z][a-z]?\d*|\(|\)\d*)+)$`)
	formulaPiece = regexp.MustCompile(`([A-Z][a-z]?|\(|\))(\d*)`)
)

// parseFormula reads a formula such as "Al2Si2O5(OH)4" or "CaSO4.2H2O". A point
// parts it into groups, each of which can have a number in front.
func parseFormula(text string) (formula, error) {
	wrong := fmt.Errorf("formula %q cannot be read (write it like Al2Si2O5(OH)4 or CaSO4.2H2O)", text)
	whole := formula{}
	for _, group := range strings.Split(plainFormula.Replace(text), ".") {
		parts := formulaGroup.FindStringSubmatch(group)
		if parts == nil {
			return nil, wrong
		}
		open := []formula{{}} // a formula for each bracket that is open
		for _, piece := range formulaPiece.FindAllStringSubmatch(parts[2], -1) {
			inner := open[len(open)-1]
			n, ok := count(piece[2])
			switch _, known := weights()[piece[1]]; {
			case piece[1] == "(":
				open = append(open, formula{})
			case !ok, piece[1] == ")" && (len(open) == 1 || len(inner) == 0), piece[1] != ")" && !known:
				return nil, wrong
			case piece[1] == ")":
				open = open[:len(open)-1]
				open[len(open)-1].add(inner, n)
			default:
				inner[piece[1]] += n
			}
		}
		n, ok := count(parts[1])
		if !ok || len(open) > 1 {
			return nil, wrong
		}
		whole.add(open[0], n)
	}
	return whole, nil
}

// count is how many of a piece there are: 1 where no number is written.
func count(digits string) (float64, bool) {
	if digits == "" {
		return 1, true
	}
	n, err := strconv.ParseUint(digits, 10, 16)
	return float64(n), err == nil && n > 0
}

// add adds n times the atoms of another formula.
func (f formula) add(atoms formula, n float64) {
	for element, count := range atoms {
		f[element] += n * count
	}
}

// molarMass is the mass of one formula unit in g/mol.
func (f formula) molarMass() (sum float64) {
	for _, element := range slices.Sorted(maps.Keys(f)) { // the same sum every time
		sum += f[element] * weights()[element]
	}
	return sum
}
