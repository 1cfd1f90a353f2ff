package plan

import (
	"cmp"
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// cell is a value to be read, with its key. The type of the key's place says how.
type cell struct {
	fields
	k    *Key
	v    *value
	name string // what messages call it: `recipe of "Magnesia matt"`
}

// item is a value inside that of the key.
func (c cell) item(v *value, name string) cell {
	c.v, c.name = v, name
	return c
}

// fault reports what is wrong with the value.
func (c cell) fault(what, right string) { c.problem(c.v.line, c.name+" "+what, right) }

// unfit reports what is wrong with the value, and shows it.
func (c cell) unfit(what, right string) { c.fault("= "+shown(c.v)+" "+what, right) }

// refused reports a value that is not a quantity.
func (c cell) refused(err error) {
	var e *quantity.Error
	if errors.As(err, &e) {
		c.fault("= "+e.Fault, e.Fix)
	}
}

// read puts the value into its place; it is false, after a problem, for a value
// that cannot be read.
func (c cell) read(place reflect.Value) bool {
	x, ok := c.valueFor(place.Interface())
	if ok {
		place.Set(reflect.ValueOf(x).Convert(place.Type()))
	}
	return ok
}

func (c cell) valueFor(place any) (any, bool) {
	switch place.(type) {
	case bool:
		return c.truth()
	case int, uint64:
		return c.whole()
	case float64:
		return c.number()
	case blend.Amount:
		return c.amount()
	case measure.Step:
		return c.step()
	case quantity.Paper:
		return c.paper()
	case []string:
		return c.names()
	case []float64:
		return each(c, blend.MaxCells, c.k.Name, cell.dose)
	case []int:
		return c.cupNumbers()
	case []blend.Part:
		return c.recipe()
	case cupList:
		return c.cups()
	case oxide.Analysis:
		return c.analysis()
	case []blend.Bound:
		return c.bounds()
	}
	return c.text() // string, or a type made of it
}

// text is a text on one line, one of the key's choices if it has any.
func (c cell) text() (string, bool) {
	if c.v.kind != text {
		c.fault("is "+describe(c.v), "text in quotes: "+c.k.line())
		return "", false
	}
	s := strings.TrimSpace(c.v.text)
	const longest = 200
	switch {
	case s == "":
		c.fault("is empty", "as in "+c.k.line())
	case len([]rune(s)) > longest:
		c.fault("is too long", "at most "+strconv.Itoa(longest)+" characters")
	case strings.ContainsFunc(s, unicode.IsControl):
		plain := strings.FieldsFunc(s, func(r rune) bool { return unicode.IsControl(r) || r == ' ' })
		c.fault("has a line break, a tab or another control character", "one line: "+quote(strings.Join(plain, " ")))
	case c.k.Choices != nil && !slices.Contains(c.k.Choices, s):
		c.problem(c.v.line, "unknown "+strings.TrimPrefix(c.name, "a ")+" "+quote(s), meantText(s, c.k.Choices))
	default:
		return s, true
	}
	return "", false
}

func (c cell) truth() (yes, ok bool) {
	if c.v.kind != truth {
		c.fault("is "+describe(c.v), "true or false, without quotes")
	}
	return c.v.text == "true", c.v.kind == truth
}

// figure is a plain number.
func (c cell) figure() (float64, bool) {
	if c.v.kind != figure {
		right := "a plain number: " + c.k.line()
		digits, unit := quantity.Split(c.v.text)
		if x, err := quantity.Number(digits, unit); c.v.kind == text && err == nil {
			right = "write " + number(x) + " without quotes"
			if unit != "" {
				right += " or unit"
			}
		}
		c.fault("is "+describe(c.v), right)
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(c.v.text, "_", ""), 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		c.unfit("is not a number", "as in "+c.k.line())
		return 0, false
	}
	return x + 0, true // not -0
}

// number is a plain number, or one with the key's unit; "10 %" is 0.1.
func (c cell) number() (float64, bool) {
	switch {
	case c.k.Form == "gravity":
		return c.gravity()
	case c.k.Form == "dose":
		return c.dose()
	case c.k.Unit == "":
		x, ok := c.figure()
		return x, ok && c.within(x, "")
	}
	s, ok := c.quantityText()
	if !ok {
		return 0, false
	}
	x, err := quantity.In(c.k.Unit, s)
	if err != nil {
		c.refused(err)
		return 0, false
	}
	ok = c.within(x, c.k.Unit)
	if c.k.Unit == "%" {
		x = quantity.Shift(x, -2)
	}
	return x, ok
}

func (c cell) whole() (int, bool) {
	x, ok := c.figure()
	if ok && x != math.Trunc(x) {
		c.unfit("is not a whole number", number(c.k.Range[0])+" to "+number(c.k.Range[1]))
		return 0, false
	}
	return int(x), ok && c.within(x, c.k.Unit)
}

// within holds a number in a unit to the key's range.
func (c cell) within(x float64, unit string) bool {
	least, most := c.k.Range[0], c.k.Range[1]
	if least == most || x >= least && x <= most || x == 0 && c.k.None {
		return true
	}
	right := strings.TrimSpace(number(least) + " to " + number(most) + " " + unit)
	switch {
	case c.k.None:
		c.unfit("is out of range", "0, or "+right)
	case x == 0 && unit != "":
		c.unfit("is too small", "more than 0 "+unit)
	default:
		c.unfit("is out of range", right)
	}
	return false
}

// quantityText is the text of a value that must be a number with its unit.
func (c cell) quantityText() (string, bool) {
	if c.v.kind == text {
		return c.v.text, true
	}
	right := "a number and its unit in quotes: " + c.k.line()
	if c.v.kind == figure {
		typed, unit := c.v.text, cmp.Or(c.k.Unit, strings.Trim(c.k.Example, `"0123456789. `))
		if share, isFraction := quantity.AsPercent(typed); unit == "%" && isFraction {
			typed = share
		}
		right = "number and unit in quotes: " + c.k.Name + " = " + quote(typed+" "+unit)
		c.unfit("has no unit", right)
	} else {
		c.fault("is "+describe(c.v), right)
	}
	return "", false
}

// What is usual of a wet glaze, in specific gravity, and beyond what it deserves a
// question (common practice, no source).
const usuallyThin, usuallyThick = 1.2, 1.8

// gravity is a specific gravity; people also write the weight of 100 mL or of a
// litre.
func (c cell) gravity() (float64, bool) {
	x, ok := c.figure()
	for _, power := range []int{-2, -3} {
		if sg := quantity.Shift(x, power); sg >= 1 && sg <= c.k.Range[1] {
			c.unfit("is a weight in g", c.k.Name+" = "+number(sg))
			return 0, false
		}
	}
	switch {
	case !ok:
		return 0, false
	case x < c.k.Range[0]:
		c.unfit("is too low", "water is 1.00; weigh 100 mL again")
		return 0, false
	case x > c.k.Range[1]:
		c.unfit("is too high", "keep below the solids density, 2.6")
		return 0, false
	}
	if x < usuallyThin || x > usuallyThick {
		c.caution(c.v.line, c.k.Name+" = "+shown(c.v), "is unusual for a wet glaze", "most are 1.3 to 1.6; weigh 100 mL again")
	}
	return x, true
}

// dose is a percentage of the dry glaze.
func (c cell) dose() (float64, bool) {
	x, ok := c.percent()
	return x, ok && c.within(x, "%")
}

// percent is a percentage, a plain number or a text with %, in percent.
func (c cell) percent() (float64, bool) {
	if c.v.kind != text || !strings.Contains(c.v.text, "%") {
		return c.figure()
	}
	x, err := quantity.In("%", c.v.text)
	if err != nil {
		c.refused(err)
	}
	return x, err == nil
}

// amount is a size of cup, in the unit of its key, or what was poured, in mL or g.
func (c cell) amount() (blend.Amount, bool) {
	if c.k.Unit != "" {
		x, ok := c.number()
		return blend.Amount{Value: x, Of: blend.Basis(c.k.Name)}, ok
	}
	s, ok := c.step()
	if s.Unit == measure.Gram {
		return blend.Amount{Value: s.Size, Of: blend.Weight}, ok
	}
	return blend.Amount{Value: s.Size, Of: blend.Volume}, ok
}

// step is a volume or a mass: "5 mL" or "1 g".
func (c cell) step() (measure.Step, bool) {
	s, ok := c.quantityText()
	if !ok {
		return measure.Step{}, false
	}
	size, in, err := quantity.Graduation(s)
	if err != nil {
		c.refused(err)
		return measure.Step{}, false
	}
	return measure.Step{Size: size, Unit: measure.Unit(in)}, c.within(size, in)
}

// paper is a sheet of paper, or the size of a tile, which has the key's unit.
func (c cell) paper() (size quantity.Paper, ok bool) {
	if c.v.kind != text {
		c.fault("is "+describe(c.v), "in quotes: "+c.k.line())
		return size, false
	}
	var err error
	if c.k.Unit == "" {
		size, err = quantity.ReadPaper(c.v.text)
	} else {
		size.Name = strings.TrimSpace(c.v.text)
		size.W, size.H, err = quantity.Size(c.v.text)
	}
	if err != nil {
		c.refused(err)
		return size, false
	}
	return size, c.within(min(size.W, size.H), c.k.Unit) && c.within(max(size.W, size.H), c.k.Unit)
}
