package plan

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"pourboard/blend/quantity"
)

// form is how the value of a key is written.
type form int

const (
	words         form = iota // a text on one line
	choice                    // a text that is one of few
	mass                      // "100 g"
	volume                    // "180 mL"
	length                    // "70 mm", "2 in"
	seconds                   // "3 s"
	percentOf                 // "10 %", held as a fraction
	graduation                // "5 mL" or "1 g"
	either                    // an amount in mL or in g
	sides                     // "50 x 100 mm"
	paperSheet                // "A4"
	figureForm                // 2.6
	gravity                   // 1.45
	percentNumber             // 2 or "2 %"
	whole                     // 6
	yes                       // true
	names                     // ["A", "B"]
	percents                  // [0, 1, 2]
	cups                      // [1, 8] or "7-25"
	parts                     // [["Silica", 40]]
	cells                     // 6, or [[70, 30], [50, 50]]
	figures                   // { SiO2 = 60 }
	bounds                    // { "Wood ash" = ["20 %", "60 %"] }
)

// shape is what a value looks like on the page.
type shape int

const (
	inWords   shape = iota // a text in quotes, an amount with its unit too
	inDigits               // a plain number
	inLists                // in square brackets
	otherwise              // true, false, or in braces
)

// cell is a value to be read, with its key.
type cell struct {
	*reader
	k  *Key
	v  *value
	of string // of what, for messages: ` of "Magnesia matt"`
}

// codec reads a value of a form into its place in a draft, and writes it; what
// is not set is written as "".
type codec struct {
	shape shape
	read  func(c cell, to any) bool
	write func(from any) string
}

// codec is how a form is read and written.
func (f form) codec() codec {
	return [...]codec{
		words:         {inWords, readWords, writeWords},
		choice:        {inWords, readChoice, writeWords},
		mass:          {inWords, amountReader(quantity.Mass), amountWriter(" g")},
		volume:        {inWords, amountReader(quantity.Volume), amountWriter(" mL")},
		length:        {inWords, amountReader(quantity.Length), amountWriter(" mm")},
		seconds:       {inWords, amountReader(quantity.Time), amountWriter(" s")},
		percentOf:     {inWords, readPercentOf, writePercentOf},
		graduation:    {inWords, readGraduation, writeGraduation},
		either:        {inWords, readEither, writeEither},
		sides:         {inWords, readSides, writeSheet},
		paperSheet:    {inWords, readPaper, writeSheet},
		figureForm:    {inDigits, readFigure, writeFigure},
		gravity:       {inDigits, readGravity, writeFigure},
		percentNumber: {inDigits, readPercentNumber, writeFigure},
		whole:         {inDigits, readWhole, writeWhole},
		yes:           {otherwise, readYes, writeYes},
		names:         {inLists, readNames, writeNames},
		percents:      {inLists, readPercents, writePercents},
		cups:          {inLists, readCups, writeCups},
		parts:         {inLists, readParts, writeParts},
		cells:         {inLists, readCells, writeCells},
		figures:       {otherwise, readFigures, writeFigures},
		bounds:        {otherwise, readBounds, writeBounds},
	}[f]
}

// fault tells what is wrong with the value, behind its key.
func (c cell) fault(what, right string) bool {
	c.problem(c.v.line, c.k.Name+c.of+" "+what, right)
	return false
}

// wrong tells of a value that no quantity can be read from.
func (c cell) wrong(err error) bool {
	what, right := faultOf(err)
	c.problem(c.v.line, c.k.Name+" = "+what, right)
	return false
}

func faultOf(err error) (what, right string) {
	if e, ok := err.(*quantity.Error); ok {
		return e.Fault, e.Fix
	}
	return err.Error(), ""
}

// text is a text of one line, not blank and not too long.
func (c cell) text() (string, bool) {
	if c.v.kind != text {
		return "", c.fault("is "+describe(c.v), "text in quotes: "+c.k.line())
	}
	return c.oneLine(c.v, c.k.Name+c.of, c.k.line())
}

// oneLine checks a text; what names it in messages.
func (r *reader) oneLine(v *value, what, example string) (string, bool) {
	if v.kind != text {
		r.problem(v.line, what+" is "+describe(v), "text in quotes: "+example)
		return "", false
	}
	s := strings.TrimSpace(v.text)
	const longest = 200
	switch {
	case s == "":
		r.problem(v.line, what+" is empty", "as in "+example)
	case len([]rune(s)) > longest:
		r.problem(v.line, what+" is "+strconv.Itoa(len([]rune(s)))+" characters long", "at most "+strconv.Itoa(longest))
	case strings.ContainsFunc(s, unicode.IsControl):
		plain := strings.Join(strings.FieldsFunc(s, func(r rune) bool { return unicode.IsControl(r) || r == ' ' }), " ")
		r.problem(v.line, what+" has a line break, a tab or another control character", "one line: "+quote(plain))
	default:
		return s, true
	}
	return "", false
}

func readWords(c cell, to any) (ok bool) {
	s, ok := c.text()
	if ok {
		*to.(*string) = s
	}
	return ok
}

func writeWords(from any) string {
	if s := *from.(*string); s != "" {
		return tomlText(s)
	}
	return ""
}

func readChoice(c cell, to any) bool {
	if c.v.kind != text {
		return c.fault("is "+describe(c.v), quantity.Listed(quoteAll(c.k.Choices), "or"))
	}
	s := strings.TrimSpace(c.v.text)
	if !slices.Contains(c.k.Choices, s) {
		c.problem(c.v.line, "unknown "+c.k.Name+" "+quote(s), meantText(s, c.k.Choices))
		return false
	}
	*to.(*string) = s
	return true
}

func readYes(c cell, to any) bool {
	if c.v.kind != truth {
		return c.fault("is "+describe(c.v), "true or false, without quotes")
	}
	*to.(*bool) = c.v.text == "true"
	return true
}

func writeYes(from any) string {
	if *from.(*bool) {
		return "true"
	}
	return ""
}

// number is a value that must be a plain number.
func (c cell) number(right string) (float64, bool) { return c.figure(c.v, c.k.Name+c.of, right) }

// figure is a plain number; what names it in messages.
func (r *reader) figure(v *value, what, right string) (float64, bool) {
	if v.kind != figure {
		if v.kind == text {
			if x, unit, err := numberOf(v.text); err == nil {
				right = "write " + number(x) + " without quotes"
				if unit != "" {
					right += " or unit"
				}
			}
		}
		r.problem(v.line, what+" is "+describe(v), right)
		return 0, false
	}
	plain := strings.ReplaceAll(v.text, "_", "")
	x, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		var n int64
		n, err = strconv.ParseInt(plain, 0, 64) // 0x1F
		x = float64(n)
	}
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		r.problem(v.line, what+" = "+shown(v)+" is not a number", right)
		return 0, false
	}
	return x + 0, true // not -0
}

// within holds a number to the key's range.
func (c cell) within(x float64) bool {
	least, most := c.k.Least, c.k.Most
	if least == most || x >= least && x <= most {
		return true
	}
	unit := ""
	if c.k.Unit != "" {
		unit = " " + c.k.Unit
	}
	if x == 0 && c.v.kind == text {
		c.problem(c.v.line, c.k.Name+c.of+" = "+shown(c.v)+" is too small", "more than 0"+unit)
		return false
	}
	c.problem(c.v.line, c.k.Name+c.of+" = "+shown(c.v)+" is out of range", number(least)+" to "+number(most)+unit)
	return false
}

func readFigure(c cell, to any) bool {
	x, ok := c.number("a plain number such as " + c.k.line())
	if ok && c.within(x) {
		*to.(*float64) = x
		return true
	}
	return false
}

func writeFigure(from any) string {
	if x := *from.(*float64); x != 0 {
		return number(x)
	}
	return ""
}

func readWhole(c cell, to any) bool {
	right := "a whole number, " + number(c.k.Least) + " to " + number(c.k.Most) + ", without quotes"
	x, ok := c.number(right)
	if ok && x != math.Trunc(x) {
		c.problem(c.v.line, c.k.Name+" = "+shown(c.v)+" is not a whole number", number(c.k.Least)+" to "+number(c.k.Most))
		return false
	}
	if ok && c.within(x) {
		*to.(*int) = int(x)
		return true
	}
	return false
}

func writeWhole(from any) string {
	if n := *from.(*int); n != 0 {
		return strconv.Itoa(n)
	}
	return ""
}

// numberOf is a number in a text, and what follows it.
func numberOf(text string) (x float64, unit string, err error) {
	digits, unit := quantity.Split(text)
	x, err = quantity.Number(digits, unit)
	return x, unit, err
}
