package plan

import (
	"strconv"
	"strings"

	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// quantityText is the text of a value that must be a number with its unit.
func (c cell) quantityText() (string, bool) {
	switch c.v.kind {
	case text:
		if thousand := quantity.AsThousand(c.v.text); thousand != "" {
			c.caution(c.v.line, c.k.Name+" = "+shown(c.v), "has a decimal point", "", "for a thousand write "+quote(thousand))
		}
		return c.v.text, true
	case figure:
		example, _ := strconv.Unquote(c.k.Example)
		unit := strings.TrimLeft(example, "0123456789.x ")
		if unit == "kg" { // who leaves the unit out reads it off a scale in g
			unit = "g"
		}
		right := "number and unit in quotes: " + c.k.Name + " = " + quote(shown(c.v)+" "+unit)
		if share, isFraction := quantity.AsPercent(c.v.text); unit == "%" && isFraction {
			right = "in percent and in quotes: " + c.k.Name + " = " + quote(share+" %")
		}
		if strings.Contains(example, "x") || unit == "" {
			right = "with its unit, in quotes: " + c.k.line()
		}
		c.problem(c.v.line, c.k.Name+" = "+shown(c.v)+" has no unit", right)
	default:
		c.fault("is "+describe(c.v), "a number and its unit in quotes: "+c.k.line())
	}
	return "", false
}

// amountReader reads a quantity whose number the key's range holds.
func amountReader(parse func(string) (float64, error)) func(c cell, to any) bool {
	return func(c cell, to any) bool {
		s, ok := c.quantityText()
		if !ok {
			return false
		}
		x, err := parse(s)
		if err != nil {
			return c.wrong(err)
		}
		if c.within(x) {
			*to.(*float64) = x
			return true
		}
		return false
	}
}

func amountWriter(unit string) func(from any) string {
	return func(from any) string {
		if x := *from.(*float64); x != 0 {
			return tomlText(number(x) + unit)
		}
		return ""
	}
}

func readPercentOf(c cell, to any) bool {
	var percent float64
	ok := amountReader(quantity.Percent)(c, &percent)
	if ok {
		*to.(*float64) = quantity.Shift(percent, -2)
	}
	return ok
}

func writePercentOf(from any) string {
	return tomlText(number(quantity.Shift(*from.(*float64), 2)) + " %")
}

func readGraduation(c cell, to any) bool {
	s, ok := c.quantityText()
	if !ok {
		return false
	}
	size, in, err := quantity.Graduation(s)
	if err != nil {
		return c.wrong(err)
	}
	c.unit(in)
	if !c.within(size) {
		return false
	}
	*to.(*measure.Step) = measure.Step{Size: size, Unit: measure.Unit(in)}
	return true
}

// unit gives the key's range the unit that the value is in.
func (c *cell) unit(in string) {
	k := *c.k
	k.Unit = in
	c.k = &k
}

func writeGraduation(from any) string {
	if s := *from.(*measure.Step); s.Size != 0 {
		return tomlText(number(s.Size) + " " + string(s.Unit))
	}
	return ""
}

func readEither(c cell, to any) bool {
	var s measure.Step
	if !readGraduation(c, &s) {
		return false
	}
	*to.(*amount) = amount{ml: s.Size}
	if s.Unit == measure.Gram {
		*to.(*amount) = amount{g: s.Size}
	}
	return true
}

func writeEither(from any) string {
	a := *from.(*amount)
	switch {
	case a.ml != 0:
		return tomlText(number(a.ml) + " mL")
	case a.g != 0:
		return tomlText(number(a.g) + " g")
	}
	return ""
}

// readSides reads the width and height of a tile, kept as written.
func readSides(c cell, to any) bool {
	s, ok := c.quantityText()
	if !ok {
		return false
	}
	w, h, err := quantity.Size(s)
	if err != nil {
		return c.wrong(err)
	}
	if !c.within(min(w, h)) || !c.within(max(w, h)) {
		return false
	}
	size := to.(*sheet)
	*size.text, *size.w, *size.h = strings.TrimSpace(s), w, h
	return true
}

func writeSheet(from any) string { return writeWords(from.(*sheet).text) }

// readPaper reads a sheet by its name or its two sides.
func readPaper(c cell, to any) bool {
	if c.v.kind != text {
		return c.fault("is "+describe(c.v), "in quotes: "+c.k.line())
	}
	size, err := quantity.ReadPaper(c.v.text)
	if err != nil {
		return c.wrong(err)
	}
	s := to.(*sheet)
	*s.text, *s.w, *s.h = size.Name, size.W, size.H
	return true
}
