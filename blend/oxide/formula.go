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
	for {
		factor, err := p.factor()
		if err != nil {
			return nil, err
		}
		if err := p.group(factor, 0); err != nil {
			return nil, err
		}
		if p.at == len(p.text) {
			return p.out, nil
		}
		p.at++ // group stops at a separator or at the end
	}
}

// plainFormula turns the ways of typesetting a formula into one.
var plainFormula = strings.NewReplacer(
	"₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4",
	"₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9",
	"·", ".", "•", ".", "⋅", ".", "*", ".", "½", "0.5",
	"[", "(", "]", ")", " ", "",
)

type formulaReader struct {
	text string
	at   int
	out  formula
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

// factor reads the number in front of a group, which alone can be a fraction:
// nothing but a point can stand between "O7" and "10H2O".
func (p *formulaReader) factor() (float64, error) {
	start := p.at
	for isDigit(p.peek()) {
		p.at++
	}
	if p.at > start && p.peek() == '.' && p.at+1 < len(p.text) && isDigit(p.text[p.at+1]) {
		p.at++
		for isDigit(p.peek()) {
			p.at++
		}
	}
	return p.number(start, 1)
}

// number is the text from start to here, or absent when there is none.
func (p *formulaReader) number(start int, absent float64) (float64, error) {
	if p.at == start {
		return absent, nil
	}
	n, err := strconv.ParseFloat(p.text[start:p.at], 64)
	if err != nil || n <= 0 || n > largestCount {
		return 0, fmt.Errorf("%q in formula %q is out of range (1 to %d atoms)", p.text[start:p.at], p.text, largestCount)
	}
	return n, nil
}

func (p *formulaReader) count() (float64, error) {
	start := p.at
	for isDigit(p.peek()) {
		p.at++
	}
	return p.number(start, 1)
}

// group reads elements and brackets up to a separator, the end, or the
// bracket that closes it, and adds them times factor.
func (p *formulaReader) group(factor float64, depth int) error {
	start := p.at
	for {
		switch b := p.peek(); {
		case isUpper(b):
			symbol := p.symbol()
			if _, ok := weights()[symbol]; !ok {
				return fmt.Errorf("%q in formula %q is not a known element", symbol, p.text)
			}
			n, err := p.count()
			if err != nil {
				return err
			}
			p.add(symbol, factor*n)
		case b == '(':
			if depth == deepestFormula {
				return fmt.Errorf("formula %q has brackets more than %d deep", p.text, deepestFormula)
			}
			n, err := p.bracket()
			if err != nil {
				return err
			}
			if err := p.group(factor*n, depth+1); err != nil {
				return err
			}
			p.at++ // the closing bracket, which bracket has seen
			if _, err := p.count(); err != nil {
				return err
			}
		case b == ')' && depth > 0, b == '.' && depth == 0, b == 0 && depth == 0 && p.at == len(p.text):
			if p.at == start {
				return fmt.Errorf("formula %q lacks an element", p.text)
			}
			return nil
		default:
			return fmt.Errorf("formula %q cannot be read from character %d on (write it like Al2Si2O5(OH)4)", p.text, p.at+1)
		}
	}
}

// symbol reads a capital and the small letter behind it, if there is one:
// "Co" is cobalt, "CO" carbon and oxygen.
func (p *formulaReader) symbol() string {
	start := p.at
	p.at++
	if isLower(p.peek()) {
		p.at++
	}
	return p.text[start:p.at]
}

// bracket stands on "(": it finds the bracket that closes it and the number
// behind that, so that the group's atoms can be multiplied as they are read.
func (p *formulaReader) bracket() (float64, error) {
	depth := 0
	for i := p.at; i < len(p.text); i++ {
		switch p.text[i] {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				q := formulaReader{text: p.text, at: i + 1}
				p.at++
				return q.count()
			}
		}
	}
	return 0, fmt.Errorf("formula %q has an open bracket (close it)", p.text)
}

func (p *formulaReader) add(symbol string, n float64) {
	for i := range p.out {
		if p.out[i].element == symbol {
			p.out[i].count += n
			return
		}
	}
	p.out = append(p.out, term{symbol, n})
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
