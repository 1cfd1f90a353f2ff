package plan

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/measure"
)

// The quantities of a plan are texts with a number and a unit, "0.25 kg". They
// are structs, so that a bare number cannot be taken for one of them.

// Mass is a text such as "100 g", "0.25 kg" or "50 mg": more than nothing and
// at most a tonne.
type Mass struct{ G float64 }

// Volume is a text such as "180 mL", "1.5 L", "20 cL" or "2 dL": more than
// nothing and at most 1000 L.
type Volume struct{ ML float64 }

// Length is a text such as "70 mm", "7 cm" or "0.3 m". It may be zero, as a
// margin is.
type Length struct{ MM float64 }

// Percent is a text such as "10 %". It may be zero.
type Percent struct{ Fraction float64 }

// Time is a text such as "3 s" or "1 min", more than nothing.
type Time struct{ S float64 }

// Size is a text such as "50 x 100 mm", width before height, neither of them
// nothing.
type Size struct{ WidthMM, HeightMM float64 }

// Graduation is the smallest step of an instrument that may be a jug or a
// scale: "5 mL" or "1 g".
type Graduation struct{ Step measure.Step }

// unit is a sign that may follow a number, with the power of ten that leads
// to the unit which is reckoned in.
type unit struct {
	sign  string
	power int
}

func massUnits() []unit { return []unit{{"g", 0}, {"kg", 3}, {"mg", -3}} }
func volumeUnits() []unit {
	return []unit{{"mL", 0}, {"L", 3}, {"cL", 1}, {"dL", 2}, {"ml", 0}, {"l", 3}, {"cl", 1}, {"dl", 2}}
}
func lengthUnits() []unit  { return []unit{{"mm", 0}, {"cm", 1}, {"m", 3}} }
func percentUnits() []unit { return []unit{{"%", -2}} }

// most is the largest amount in its unit: a tonne of glaze, a kilometre of
// board are slips of the key.
const most = 1e6

// UnmarshalText reads a mass; its error says what would be right.
func (m *Mass) UnmarshalText(text []byte) (err error) {
	m.G, err = quantity(string(text), "a mass", "100 g", massUnits(), true)
	return err
}

// UnmarshalText reads a volume; its error says what would be right.
func (v *Volume) UnmarshalText(text []byte) (err error) {
	v.ML, err = quantity(string(text), "a volume", "180 mL", volumeUnits(), true)
	return err
}

// UnmarshalText reads a length; its error says what would be right.
func (l *Length) UnmarshalText(text []byte) (err error) {
	l.MM, err = quantity(string(text), "a length", "70 mm", lengthUnits(), false)
	return err
}

// UnmarshalText reads a percentage; its error says what would be right.
func (p *Percent) UnmarshalText(text []byte) (err error) {
	p.Fraction, err = quantity(string(text), "a percentage", "10 %", percentUnits(), false)
	return err
}

// UnmarshalText reads a time; its error says what would be right.
func (t *Time) UnmarshalText(text []byte) (err error) {
	units := []unit{{"s", 0}}
	_, sign := split(string(text))
	if known, _ := elsewhere(sign); sign == "min" || known == "min" {
		units = []unit{{"min", 0}}
	}
	t.S, err = quantity(string(text), "a time", "3 s", units, true)
	if units[0].sign == "min" {
		t.S *= 60
	}
	return err
}

// UnmarshalText reads a graduation; its error says what would be right.
func (g *Graduation) UnmarshalText(text []byte) error {
	both := append(volumeUnits(), massUnits()...)
	size, err := quantity(string(text), "a volume or a mass", "5 mL", both, true)
	if err != nil {
		return err
	}
	g.Step = measure.Step{Size: size, Unit: measure.Millilitre}
	if _, sign := split(string(text)); strings.HasSuffix(sign, "g") {
		g.Step.Unit = measure.Gram
	}
	return nil
}

// UnmarshalText reads two lengths; its error says what would be right.
func (s *Size) UnmarshalText(text []byte) error {
	const example = "50 x 100 mm"
	wrong := amiss{quote(string(text)) + " is not a width and a height", "as in " + quote(example)}
	if right := twoSides(string(text)); right != "" {
		wrong.right = "write " + quote(right)
	}
	sides := strings.FieldsFunc(string(text), func(r rune) bool { return r == 'x' || r == 'X' || r == '×' })
	if len(sides) != 2 {
		return wrong
	}
	if _, sign := split(sides[0]); sign == "" { // the unit of the second side is that of both
		_, sign = split(sides[1])
		sides[0] += sign
	}
	var mm [2]float64
	for i, side := range sides {
		var err error
		if mm[i], err = quantity(side, "a width or a height", example, lengthUnits(), true); err != nil {
			var side amiss
			if errors.As(err, &side) {
				wrong.what += ": " + side.what
			}
			return wrong
		}
	}
	s.WidthMM, s.HeightMM = mm[0], mm[1]
	return nil
}

// twoNumbers is two numbers with something between them, and a unit.
var twoNumbers = pattern(`^\s*(\d+(?:[.,]\d+)?)[^\d.,]+(\d+(?:[.,]\d+)?)\s*([\pL"″”]*)\s*$`)

// twoSides is a size as it is to be written, of one that is written otherwise;
// "" when it cannot be told.
func twoSides(text string) string {
	parts := twoNumbers().FindStringSubmatch(text)
	if parts == nil {
		return ""
	}
	unit, each := parts[3], 1.0
	if known, in := elsewhere(unit); known != "" {
		unit, each = known, in
	}
	switch unit {
	case "":
		unit = "mm"
	case "mm", "cm", "m":
	default:
		return ""
	}
	var numbers [2]string
	for i, digits := range parts[1:3] {
		x, err := decimal(digits, unit)
		if err != nil {
			return ""
		}
		numbers[i] = strconv.FormatFloat(x*each, 'g', 4, 64)
	}
	return numbers[0] + " x " + numbers[1] + " " + unit
}

// MarshalText writes the mass in grams.
func (m Mass) MarshalText() ([]byte, error) { return []byte(number(m.G) + " g"), nil }

// MarshalText writes the volume in millilitres.
func (v Volume) MarshalText() ([]byte, error) { return []byte(number(v.ML) + " mL"), nil }

// MarshalText writes the length in millimetres.
func (l Length) MarshalText() ([]byte, error) { return []byte(number(l.MM) + " mm"), nil }

// MarshalText writes the fraction as a percentage.
func (p Percent) MarshalText() ([]byte, error) {
	return []byte(number(shift(p.Fraction, 2)) + " %"), nil
}

// MarshalText writes the time in seconds.
func (t Time) MarshalText() ([]byte, error) { return []byte(number(t.S) + " s"), nil }

// MarshalText writes both sides in millimetres.
func (s Size) MarshalText() ([]byte, error) {
	return []byte(number(s.WidthMM) + " x " + number(s.HeightMM) + " mm"), nil
}

// MarshalText writes the step with its unit.
func (g Graduation) MarshalText() ([]byte, error) {
	return []byte(number(g.Step.Size) + " " + string(g.Step.Unit)), nil
}

// quantity reads a number with one of the units, of which the first is the one
// that is reckoned in. some says that nothing will not do.
func quantity(text, name, example string, units []unit, some bool) (float64, error) {
	digits, sign := split(text)
	if digits == "" {
		return 0, amiss{quote(strings.TrimSpace(text)) + " is not " + name, "a number and its unit, as in " + quote(example)}
	}
	power, known := 0, false
	for _, u := range units {
		if u.sign == sign {
			power, known = u.power, true
		}
	}
	if !known {
		return 0, wrongUnit(text, digits, sign, name, units)
	}
	x, err := decimal(digits, sign)
	if err != nil {
		return 0, err
	}
	x = shift(x, power)
	switch {
	case x < 0:
		return 0, amiss{quote(strings.TrimSpace(text)) + " is below nothing", name + " above zero"}
	case x == 0 && some:
		return 0, amiss{quote(strings.TrimSpace(text)) + " is nothing", name + " above zero"}
	case x > most:
		return 0, amiss{quote(strings.TrimSpace(text)) + " is too large", "at most " + number(most) + " " + units[0].sign}
	}
	return math.Abs(x), nil // "-0 mm" is no other nothing
}

// wrongUnit says which units there are.
func wrongUnit(text, digits, sign, name string, units []unit) error {
	text = strings.TrimSpace(text)
	for _, u := range units {
		if strings.EqualFold(u.sign, sign) {
			return amiss{quote(text) + " has the unit in the wrong case", "did you mean " + quote(digits+" "+u.sign) + "?"}
		}
	}
	if known, each := elsewhere(sign); slices.ContainsFunc(units, func(u unit) bool { return u.sign == known }) {
		x, err := decimal(digits, sign)
		switch {
		case err != nil:
			return err
		case each == 1:
			return amiss{quote(text) + " has its unit in another spelling", "write " + quote(digits+" "+known)}
		default:
			const places = 4 // as exact as anyone measures
			return amiss{quote(text) + " is not in SI units", "write " + quote(strconv.FormatFloat(x*each, 'g', places, 64)+" "+known)}
		}
	}
	var signs []string
	for _, u := range units {
		signs = append(signs, u.sign)
	}
	signs = withoutFold(signs)
	right := name + " in " + listed(signs, "or") + ", as in " + quote(digits+" "+units[0].sign)
	if sign == "" {
		if share, isFraction := fraction(digits); isFraction && units[0].sign == "%" {
			right = name + " in %: " + quote(share+" %") + " or " + quote(digits+" %")
		}
		return amiss{quote(text) + " has no unit", right}
	}
	return amiss{quote(text) + " has a wrong unit", right}
}

// elsewhere is the sign for a unit that people write otherwise, and how many of
// it make one of theirs. The inch is 25.4 mm, the pound 453.59237 g and the ounce
// a sixteenth of that, by definition (international yard and pound, 1959).
// Cups, spoons and fluid ounces differ from country to country.
func elsewhere(sign string) (known string, each float64) {
	switch strings.TrimSuffix(strings.ToLower(sign), ".") {
	case "gr", "gm", "gms", "grs", "gram", "grams", "gramm", "gramme", "grammes", "gramos", "grammo", "grammi":
		return "g", 1
	case "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogramme", "kilogrammes":
		return "kg", 1
	case "milligram", "milligrams", "milligramm", "milligramme", "milligrammes":
		return "mg", 1
	case "cc", "ccm", "cm3", "cm³", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "mililitros":
		return "mL", 1
	case "lt", "ltr", "litre", "litres", "liter", "liters", "litro", "litros":
		return "L", 1
	case "millimetre", "millimetres", "millimeter", "millimeters", "mms":
		return "mm", 1
	case "centimetre", "centimetres", "centimeter", "centimeters", "cms":
		return "cm", 1
	case "percent", "per cent", "pct", "pc", "prozent", "procent", "pourcent", "pour cent", "por ciento":
		return "%", 1
	case "sec", "secs", "second", "seconds", "sek", "sekunden", "secondes", "segundos":
		return "s", 1
	case "mins", "minute", "minutes", "minuten", "minutos":
		return "min", 1
	case "in", "inch", "inches", `"`, "″", "”":
		return "mm", 25.4
	case "oz", "ounce", "ounces":
		return "g", 453.59237 / 16
	case "lb", "lbs", "pound", "pounds":
		return "g", 453.59237
	}
	return "", 0
}

// withoutFold leaves out the second spelling of a sign.
func withoutFold(signs []string) []string {
	var once []string
	for _, s := range signs {
		again := false
		for _, o := range once {
			again = again || strings.EqualFold(s, o)
		}
		if !again {
			once = append(once, s)
		}
	}
	return once
}
