package oxide

import (
	"fmt"
	"strconv"
	"strings"
)

// term is one element of a formula and how many of its atoms there are.
type term struct {
	element string
	count   float64
}

// formula is a chemical formula as atoms of each element, in the order in
// which they are first written. A count is above 0 and no element is repeated.
type formula []term

// Limits of a formula that is read from text.
const (
	longestFormula = 200
	deepestFormula = 8
	largestCount   = 9999
)

// parseFormula reads a formula such as "Al2Si2O5(OH)4", "CaSO4.2H2O" or
// "CaSO4·½H2O". A point, a raised point or an asterisk parts it into groups,
// each of which can have a number in front; numbers behind an element or a
// bracket are whole. Subscript digits (SiO₂) are read too.
func parseFormula(s string) (formula, error) {
	if len(s) > longestFormula {
		return nil, fmt.Errorf("the formula is too long (at most %d characters)", longestFormula)
	}
	p := formulaReader{text: plainFormula.Replace(strings.TrimSpace(s))}
	if p.text == "" {
		return nil, fmt.Errorf("the formula is empty (write it like CaCO3)")
	}
	var whole formula
	for {
		// Nothing but a point can be between "O7" and "10H2O", so only the
		// number in front of a group can be a fraction.
		factor, err := p.number(true)
		if err != nil {
			return nil, err
		}
		atoms, err := p.group(0)
		if err != nil {
			return nil, err
		}
		if whole = whole.plus(atoms, factor); p.at == len(p.text) {
			return whole, nil
		}
		p.at++ // the point
	}
}

// plainFormula turns the ways of typesetting a formula into one.
var plainFormula = strings.NewReplacer(
	"₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4",
	"₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9",
	"·", ".", "•", ".", "⋅", ".", "*", ".", "½", "0.5",
	"[", "(", "]", ")", " ", "",
)

// formulaReader is how far a formula has been read.
type formulaReader struct {
	text string
	at   int
}

func (p *formulaReader) peek() byte {
	if p.at < len(p.text) {
		return p.text[p.at]
	}
	return 0
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }
func isUpper(b byte) bool { return 'A' <= b && b <= 'Z' }
func isLower(b byte) bool { return 'a' <= b && b <= 'z' }

// number reads a number, 1 where there is none.
func (p *formulaReader) number(fraction bool) (float64, error) {
	start := p.at
	for isDigit(p.peek()) {
		p.at++
	}
	if p.at == start {
		return 1, nil
	}
	if fraction && p.peek() == '.' && p.at+1 < len(p.text) && isDigit(p.text[p.at+1]) {
		for p.at++; isDigit(p.peek()); p.at++ {
		}
	}
	n, err := strconv.ParseFloat(p.text[start:p.at], 64)
	if err != nil || n <= 0 || n > largestCount {
		return 0, fmt.Errorf("%q in formula %q is out of range (1 to %d atoms)", p.text[start:p.at], p.text, largestCount)
	}
	return n, nil
}

// group reads elements and brackets up to a point, the end, or the bracket that
// closes it.
func (p *formulaReader) group(depth int) (formula, error) {
	var all formula
	for {
		var atoms formula
		var err error
		switch b := p.peek(); {
		case isUpper(b):
			atoms, err = p.element()
		case b == '(':
			atoms, err = p.bracket(depth + 1)
		case all != nil && (b == ')' && depth > 0 || b == '.' && depth == 0 || p.at == len(p.text)):
			return all, nil
		default:
			err = fmt.Errorf("formula %q cannot be read from character %d on (write it like Al2Si2O5(OH)4)", p.text, p.at+1)
		}
		if err != nil {
			return nil, err
		}
		n, err := p.number(false)
		if err != nil {
			return nil, err
		}
		all = all.plus(atoms, n)
	}
}

// element reads a capital and the small letter behind it, if there is one:
// "Co" is cobalt, "CO" carbon and oxygen.
func (p *formulaReader) element() (formula, error) {
	start := p.at
	if p.at++; isLower(p.peek()) {
		p.at++
	}
	symbol := p.text[start:p.at]
	if _, ok := weights()[symbol]; !ok {
		return nil, fmt.Errorf("%q in formula %q is not a known element", symbol, p.text)
	}
	return formula{{symbol, 1}}, nil
}

// bracket reads a group in brackets.
func (p *formulaReader) bracket(depth int) (formula, error) {
	if depth > deepestFormula {
		return nil, fmt.Errorf("formula %q has brackets more than %d deep", p.text, deepestFormula)
	}
	p.at++
	atoms, err := p.group(depth)
	if err == nil && p.peek() != ')' {
		err = fmt.Errorf("formula %q has an open bracket (close it)", p.text)
	}
	p.at++
	return atoms, err
}

// plus is the formula with n times the atoms of another.
func (f formula) plus(atoms formula, n float64) formula {
next:
	for _, t := range atoms {
		for i := range f {
			if f[i].element == t.element {
				f[i].count += n * t.count
				continue next
			}
		}
		f = append(f, term{t.element, n * t.count})
	}
	return f
}

// molarMass is the mass of one formula unit in g/mol.
func (f formula) molarMass() float64 {
	sum, weights := 0.0, weights()
	for _, t := range f {
		sum += t.count * weights[t.element]
	}
	return sum
}

// atoms is how many atoms of an element one formula unit has.
func (f formula) atoms(element string) float64 {
	for _, t := range f {
		if t.element == element {
			return t.count
		}
	}
	return 0
}
