package plan

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// place is where a draft holds the value of a key. Its type is the form in
// which a file has the value.
type place interface {
	read(c cell) bool    // false, and a problem, for a value that cannot be read
	write(k *Key) string // "" for one that is not set
}

// The forms of one value; lists.go has those of several.
type (
	words      string       // a text on one line, one of the key's choices if it has any
	yes        bool         // true
	whole      int          // 6
	decimal    float64      // 2.6
	gravity    float64      // 1.45
	amount     float64      // "100 g", in the key's unit
	fraction   float64      // "10 %" is 0.1
	percentage float64      // 2, or "2 %"
	step       measure.Step // "5 mL" or "1 g", of an instrument
	wetAmount  blend.Amount // "140 mL" or "90 g"
	cupSize    struct {     // "100 g", of what the key says
		size *blend.Amount
		of   blend.Basis
	}
	sheet struct { // "A4", kept as it was written
		text *string
		w, h *float64 // mm
	}
	tileSize sheet // "50 x 100 mm", kept as it was written
)

// cell is a value to be read, with its key.
type cell struct {
	*reader
	k  *Key
	v  *value
	of string // of what, for messages: ` of "Magnesia matt"`
}

// fault reports what is wrong with the value, after its key.
func (c cell) fault(what, right string) bool {
	c.problem(c.v.line, c.k.Name+c.of+" "+what, right)
	return false
}

// isFault reports what is wrong, after the key and its value.
func (c cell) isFault(what, right string) bool { return c.fault("= "+shown(c.v)+" "+what, right) }

// wrong reports a value that is not a quantity.
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

// oneLine checks a text: not blank, not too long, on one line. what names it in
// messages.
func (r *reader) oneLine(v *value, what, example string) (string, bool) {
	if v.kind != text {
		r.problem(v.line, what+" is "+describe(v), "text in quotes: "+example)
		return "", false
	}
	s := strings.TrimSpace(v.text)
	const longest = 200
	switch n := len([]rune(s)); {
	case s == "":
		r.problem(v.line, what+" is empty", "as in "+example)
	case n > longest:
		r.problem(v.line, what+" is "+strconv.Itoa(n)+" characters long", "at most "+strconv.Itoa(longest))
	case strings.ContainsFunc(s, unicode.IsControl):
		plain := strings.Join(strings.FieldsFunc(s, func(r rune) bool { return unicode.IsControl(r) || r == ' ' }), " ")
		r.problem(v.line, what+" has a line break, a tab or another control character", "one line: "+quote(plain))
	default:
		return s, true
	}
	return "", false
}

func (to *words) read(c cell) bool {
	if c.k.Choices != nil && c.v.kind != text {
		return c.fault("is "+describe(c.v), listed(quoteAll(c.k.Choices), "or"))
	}
	s, ok := c.oneLine(c.v, c.k.Name+c.of, c.k.line())
	if !ok {
		return false
	}
	if c.k.Choices != nil && !slices.Contains(c.k.Choices, s) {
		c.problem(c.v.line, "unknown "+c.k.Name+" "+quote(s), meantText(s, c.k.Choices))
		return false
	}
	*to = words(s)
	return true
}

func (to *words) write(*Key) string {
	if *to == "" {
		return ""
	}
	return quantity.TOML(string(*to))
}

func (to *yes) read(c cell) bool {
	if c.v.kind != truth {
		return c.fault("is "+describe(c.v), "true or false, without quotes")
	}
	*to = c.v.text == "true"
	return true
}

func (to *yes) write(*Key) string {
	if *to {
		return "true"
	}
	return ""
}

// figure is a plain number; what names it in messages.
func (r *reader) figure(v *value, what, right string) (float64, bool) {
	if v.kind != figure {
		if v.kind == text {
			digits, unit := quantity.Split(v.text)
			if x, err := quantity.Number(digits, unit); err == nil {
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

// put sets a value that could be read.
func put[T ~float64 | ~int](to *T, x float64, ok bool) bool {
	if ok {
		*to = T(x)
	}
	return ok
}

// within holds a number in a unit to the key's range.
func (c cell) within(x float64, unit string) bool {
	least, most := c.k.Least, c.k.Most
	if least == most || x >= least && x <= most || x == 0 && c.k.None {
		return true
	}
	if unit != "" {
		unit = " " + unit
	}
	if x == 0 && c.v.kind == text {
		return c.isFault("is too small", "more than 0"+unit)
	}
	return c.isFault("is out of range", number(least)+" to "+number(most)+unit)
}

func (to *decimal) read(c cell) bool {
	x, ok := c.figure(c.v, c.k.Name+c.of, "a plain number such as "+c.k.line())
	return put(to, x, ok && c.within(x, c.k.Unit))
}

func (to *decimal) write(*Key) string { return notZero(float64(*to)) }

func notZero(x float64) string {
	if x == 0 {
		return ""
	}
	return number(x)
}

func (to *whole) read(c cell) bool {
	limits := number(c.k.Least) + " to " + number(c.k.Most)
	x, ok := c.figure(c.v, c.k.Name+c.of, "a whole number, "+limits+", without quotes")
	if ok && x != math.Trunc(x) {
		return c.isFault("is not a whole number", limits)
	}
	return put(to, x, ok && c.within(x, c.k.Unit))
}

func (to *whole) write(*Key) string { return notZero(float64(*to)) }

// What still is a wet glaze, in specific gravity, and beyond what it deserves a
// question (common practice, no source).
const (
	thinnest     = 1.01
	thickest     = 2.5
	usuallyThin  = 1.2
	usuallyThick = 1.8
)

// read reads a specific gravity, which is also given as the weight of 100 mL or
// of a litre.
func (to *gravity) read(c cell) bool {
	x, ok := c.figure(c.v, c.k.Name+c.of, "a plain number such as "+c.k.line())
	if !ok {
		return false
	}
	c.of = ""
	switch {
	case x >= 100 && x <= 250: // g of 100 mL
		return c.isFault("is the weight of 100 mL", c.k.Name+" = "+number(quantity.Shift(x, -2)))
	case x >= 1000 && x <= 2500: // g of a litre
		return c.isFault("is the weight of a litre", c.k.Name+" = "+number(quantity.Shift(x, -3)))
	case x < thinnest:
		return c.isFault("is too low", "water is 1.00; weigh 100 mL again")
	case x > thickest:
		return c.isFault("is too high", "keep below the solids density, 2.6")
	case x < usuallyThin || x > usuallyThick:
		c.caution(c.v.line, c.k.Name+" = "+shown(c.v), "is unusual for a wet glaze", "", "most are 1.3 to 1.6; weigh 100 mL again")
	}
	*to = gravity(x)
	return true
}

func (to *gravity) write(*Key) string { return notZero(float64(*to)) }

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

// quantity is a number with its unit, in the key's.
func (c cell) quantity() (x float64, ok bool) {
	s, ok := c.quantityText()
	if !ok {
		return 0, false
	}
	parse := map[string]func(string) (float64, error){
		"g": quantity.Mass, "mL": quantity.Volume, "mm": quantity.Length, "s": quantity.Time, "%": quantity.Percent,
	}[c.k.Unit]
	x, err := parse(s)
	if err != nil {
		return 0, c.wrong(err)
	}
	return x, c.within(x, c.k.Unit)
}

func (to *amount) read(c cell) bool {
	x, ok := c.quantity()
	return put(to, x, ok)
}

// zero reports whether a 0 is written, as the key left out would not be 0.
func (k *Key) zero() bool { return k.Default != "" || k.Needed && k.Least == 0 && k.Most > 0 }

func (to *amount) write(k *Key) string {
	if *to == 0 && !k.zero() {
		return ""
	}
	return quote(number(float64(*to)) + " " + k.Unit)
}

func (to *fraction) read(c cell) bool {
	x, ok := c.quantity()
	return put(to, quantity.Shift(x, -2), ok)
}

func (to *fraction) write(*Key) string {
	return quote(number(quantity.Shift(float64(*to), 2)) + " %")
}

// percent is a percentage from 0 to most: a plain number or a text with %.
func (r *reader) percent(v *value, what string, most float64) (x float64, ok bool) {
	if v.kind == text && strings.Contains(v.text, "%") {
		var err error
		if x, err = quantity.Percent(v.text); err != nil {
			fault, fix := faultOf(err)
			r.problem(v.line, what+" = "+fault, fix)
			return 0, false
		}
	} else if x, ok = r.figure(v, what, "a percentage, 0 to "+number(most)); !ok {
		return 0, false
	}
	if x < 0 || x > most {
		r.problem(v.line, what+" = "+shown(v)+" is out of range", "0 to "+number(most)+" %")
		return 0, false
	}
	return x, true
}

// largestDose is what a percentage of the dry glaze stays below.
const largestDose = 100

// dose is one percentage of a series.
func (c cell) dose(v *value) (float64, bool) {
	x, ok := c.percent(v, c.k.Name, largestDose)
	switch {
	case !ok:
	case x == largestDose:
		c.problem(v.line, c.k.Name+" = "+shown(v)+" is too much", "below 100 %")
	case x > 0 && x < leastPart:
		c.problem(v.line, c.k.Name+" = "+shown(v)+" is too small to be measured", "0, or at least 0.000001 %")
	default:
		return x, true
	}
	return 0, false
}

func (to *percentage) read(c cell) bool {
	x, ok := c.dose(c.v)
	return put(to, x, ok)
}

func (to *percentage) write(*Key) string { return notZero(float64(*to)) }

func (to *step) read(c cell) bool {
	s, ok := c.quantityText()
	if !ok {
		return false
	}
	size, in, err := quantity.Graduation(s)
	if err != nil {
		return c.wrong(err)
	}
	ok = c.within(size, in)
	if ok {
		*to = step{Size: size, Unit: measure.Unit(in)}
	}
	return ok
}

func (to *step) write(k *Key) string {
	if to.Size == 0 && !k.zero() {
		return ""
	}
	return quote(number(to.Size) + " " + string(to.Unit))
}

func (to *wetAmount) read(c cell) bool {
	var s step
	ok := s.read(c)
	if ok {
		*to = wetAmount{Value: s.Size, Of: blend.Volume}
		if s.Unit == measure.Gram {
			to.Of = blend.Weight
		}
	}
	return ok
}

func (to *wetAmount) write(k *Key) string {
	if to.Of == "" {
		return ""
	}
	s := step{Size: to.Value, Unit: measure.Millilitre}
	if to.Of == blend.Weight {
		s.Unit = measure.Gram
	}
	return s.write(k)
}

func (to *cupSize) read(c cell) bool {
	x, ok := c.quantity()
	if ok {
		*to.size = blend.Amount{Value: x, Of: to.of}
	}
	return ok
}

func (to *cupSize) write(k *Key) string {
	if to.size.Of != to.of {
		return ""
	}
	return (*amount)(&to.size.Value).write(k)
}

func (to *tileSize) read(c cell) bool {
	s, ok := c.quantityText()
	if !ok {
		return false
	}
	w, h, err := quantity.Size(s)
	if err != nil {
		return c.wrong(err)
	}
	if !c.within(min(w, h), c.k.Unit) || !c.within(max(w, h), c.k.Unit) {
		return false
	}
	*to.text, *to.w, *to.h = strings.TrimSpace(s), w, h
	return true
}

func (to *tileSize) write(k *Key) string { return (*sheet)(to).write(k) }

func (to *sheet) read(c cell) bool {
	if c.v.kind != text {
		return c.fault("is "+describe(c.v), "in quotes: "+c.k.line())
	}
	size, err := quantity.ReadPaper(c.v.text)
	if err != nil {
		return c.wrong(err)
	}
	*to.text, *to.w, *to.h = size.Name, size.W, size.H
	return true
}

func (to *sheet) write(k *Key) string { return (*words)(to.text).write(k) }
