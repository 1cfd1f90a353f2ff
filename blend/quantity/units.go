package quantity

import (
	"math"
	"strconv"
	"strings"
)

// unit is a sign that may follow a number, with the power of ten, or the
// factor, that leads to the unit which is counted in.
type unit struct {
	sign   string
	power  int
	factor float64 // 0 for none
}

func massUnits() []unit { return []unit{{"g", 0, 0}, {"kg", 3, 0}, {"mg", -3, 0}} }
func volumeUnits() []unit {
	return []unit{{"mL", 0, 0}, {"L", 3, 0}, {"cL", 1, 0}, {"dL", 2, 0}, {"ml", 0, 0}, {"l", 3, 0}, {"cl", 1, 0}, {"dl", 2, 0}}
}

// The inch is 25.4 mm by definition (international yard and pound, 1959).
func lengthUnits() []unit {
	return []unit{{"mm", 0, 0}, {"cm", 1, 0}, {"in", 0, 25.4}, {"m", 3, 0}}
}
func timeUnits() []unit { return []unit{{"s", 0, 0}, {"min", 0, 60}} }

// Most is the largest amount in its unit: a tonne of glaze or a kilometre of
// board is a slip of the key.
const Most = 1e6

// Mass reads "100 g", "0.25 kg" or "50 mg" as g.
func Mass(text string) (float64, error) { return read(text, "a mass", "100 g", massUnits()) }

// Volume reads "180 mL", "1.5 L", "20 cL" or "2 dL" as mL.
func Volume(text string) (float64, error) { return read(text, "a volume", "180 mL", volumeUnits()) }

// Length reads "70 mm", "7 cm", "2 in" or "0.3 m" as mm.
func Length(text string) (float64, error) { return read(text, "a length", "70 mm", lengthUnits()) }

// Time reads "3 s" or "1.5 min" as seconds.
func Time(text string) (float64, error) { return read(text, "a time", "3 s", timeUnits()) }

// Percent reads "10 %" as percent: 10.
func Percent(text string) (float64, error) {
	return read(text, "a percentage", "10 %", []unit{{"%", 0, 0}})
}

// Graduation reads a volume or a mass, "5 mL" or "1 g", and says which of the
// two units, "mL" or "g", size is in.
func Graduation(text string) (size float64, in string, err error) {
	size, err = read(text, "a volume or a mass", "5 mL", append(volumeUnits(), massUnits()...))
	in = "mL"
	if _, sign := Split(text); strings.HasSuffix(sign, "g") {
		in = "g"
	}
	return size, in, err
}

// read reads a number with one of the units, of which the first is counted in.
func read(text, name, example string, units []unit) (float64, error) {
	digits, sign := Split(text)
	shown := Quote(strings.TrimSpace(text))
	if digits == "" {
		return 0, &Error{shown + " is not " + name, "a number and its unit, as in " + Quote(example)}
	}
	known := match(units, sign)
	if known == nil {
		return 0, wrongUnit(text, digits, sign, name, example, units)
	}
	x, err := Number(digits, sign)
	if err != nil {
		return 0, err
	}
	x = Shift(x, known.power)
	if known.factor != 0 {
		x = times(x, known.factor)
	}
	switch {
	case x < 0:
		return 0, &Error{shown + " is negative", "0 " + units[0].sign + " or more"}
	case x > Most:
		return 0, &Error{shown + " is too large", "at most " + Plain(Most) + " " + units[0].sign}
	}
	return math.Abs(x), nil // not -0
}

// match is the unit of that sign, with the double prime for inches.
func match(units []unit, sign string) *unit {
	if strings.ContainsAny(sign, `"″”`) && len([]rune(sign)) == 1 {
		sign = "in"
	}
	for i := range units {
		if units[i].sign == sign {
			return &units[i]
		}
	}
	return nil
}

// times multiplies and takes away the noise in the last digits: 8.5 in is
// 215.9 mm, not 215.89999999999998.
func times(x, factor float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x*factor, 'g', 12, 64), 64)
	if err != nil {
		return x * factor
	}
	return y
}

// wrongUnit says which units there are.
func wrongUnit(text, digits, sign, name, example string, units []unit) error {
	shown := Quote(strings.TrimSpace(text))
	for _, u := range units {
		if strings.EqualFold(u.sign, sign) {
			return &Error{shown + " has the unit in the wrong case", "did you mean " + Quote(digits+" "+u.sign) + "?"}
		}
	}
	known, each := Spelling(sign)
	if match(units, known) != nil {
		x, err := Number(digits, sign)
		switch {
		case err != nil:
			return err
		case each == 1:
			return &Error{shown + " has its unit in another spelling", "write " + Quote(digits+" "+known)}
		default:
			const places = 4 // as exact as anyone measures
			return &Error{shown + " is not in metric units", "write " + Quote(strconv.FormatFloat(x*each, 'g', places, 64)+" "+known)}
		}
	}
	if known == "" && strings.ContainsAny(sign, "0123456789") { // a slip within the number: "0G5 mL"
		return &Error{shown + " is not " + name, "a number and its unit, as in " + Quote(example)}
	}
	right := name + " in " + Listed(signs(units), "or") + ", as in " + Quote(digits+" "+units[0].sign)
	if sign == "" {
		if share, isFraction := AsPercent(digits); isFraction && units[0].sign == "%" {
			right = name + " in %: " + Quote(share+" %") + " or " + Quote(digits+" %")
		}
		return &Error{shown + " has no unit", right}
	}
	return &Error{shown + " has the wrong unit", right}
}

// signs lists the units in their first spelling.
func signs(units []unit) []string {
	var once []string
	seen := map[string]bool{}
	for _, u := range units {
		if low := strings.ToLower(u.sign); !seen[low] {
			seen[low] = true
			once = append(once, u.sign)
		}
	}
	return once
}

// Spelling is the sign for a unit that people write otherwise, and how many of
// it make one of theirs; "" for a unit that is unknown. The pound is
// 453.59237 g by definition and the ounce a sixteenth of it (international yard
// and pound, 1959). Cups, spoons and fluid ounces differ from country to country.
func Spelling(sign string) (known string, each float64) {
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
	case "inch", "inches", `"`, "″", "”":
		return "in", 1
	case "percent", "per cent", "pct", "pc", "prozent", "procent", "pourcent", "pour cent", "por ciento":
		return "%", 1
	case "sec", "secs", "second", "seconds", "sek", "sekunden", "secondes", "segundos":
		return "s", 1
	case "mins", "minute", "minutes", "minuten", "minutos":
		return "min", 1
	case "oz", "ounce", "ounces":
		return "g", 453.59237 / 16
	case "lb", "lbs", "pound", "pounds":
		return "g", 453.59237
	}
	return "", 0
}
