package quantity

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// kind is a sort of quantity, with the units that it can have.
type kind struct {
	name, example string
	units         []unit // the first is counted in
}

// unit is a sign that may follow a number, and how it is turned into the unit that
// is counted in: by a power of ten and, unless it is 0, a factor.
type unit struct {
	sign   string
	power  int
	factor float64
}

// The inch is 25.4 mm by definition (international yard and pound, 1959).
var (
	mass     = kind{"a mass", "100 g", []unit{{"g", 0, 0}, {"kg", 3, 0}, {"mg", -3, 0}}}
	volume   = kind{"a volume", "180 mL", []unit{{"mL", 0, 0}, {"L", 3, 0}, {"cL", 1, 0}, {"dL", 2, 0}}}
	length   = kind{"a length", "70 mm", []unit{{"mm", 0, 0}, {"cm", 1, 0}, {"in", 0, 25.4}, {"m", 3, 0}}}
	duration = kind{"a time", "3 s", []unit{{"s", 0, 0}, {"min", 0, 60}}}
	percent  = kind{"a percentage", "10 %", []unit{{"%", 0, 0}}}
	step     = kind{"a volume or a mass", "5 mL", slices.Concat(volume.units, mass.units)}
)

// Most is the largest amount in its unit: a tonne of glaze or a kilometre of
// board is a slip of the key.
const Most = 1e6

// Mass reads "100 g", "0.25 kg" or "50 mg" as g.
func Mass(text string) (float64, error) { return mass.read(text) }

// Volume reads "180 mL", "1.5 L", "20 cL" or "2 dL" as mL.
func Volume(text string) (float64, error) { return volume.read(text) }

// Length reads "70 mm", "7 cm", "2 in" or "0.3 m" as mm.
func Length(text string) (float64, error) { return length.read(text) }

// In reads a quantity in g, mL, mm, s, % or "mL or g": "1.5 min" in "s" is 90. in is
// the unit, "mL" or "g" of either.
func In(unit, text string) (x float64, in string, err error) {
	for _, k := range []kind{mass, volume, length, duration, percent} {
		if k.units[0].sign == unit {
			x, err = k.read(text)
			return x, unit, err
		}
	}
	return Graduation(text)
}

// Graduation reads a volume or a mass, "5 mL" or "1 g", and says which of the
// two units, "mL" or "g", size is in.
func Graduation(text string) (size float64, in string, err error) {
	size, err = step.read(text)
	in = "mL"
	if _, sign := Split(text); mass.match(sign) != nil {
		in = "g"
	}
	return size, in, err
}

// read reads a number with one of the units.
func (s kind) read(text string) (float64, error) {
	digits, sign := Split(text)
	known := s.match(sign)
	if digits == "" || known == nil {
		return 0, s.refuse(text, digits, sign)
	}
	x, err := Number(digits, sign)
	if err != nil {
		return 0, err
	}
	x = Shift(x, known.power)
	if known.factor != 0 { // 8.5 in is 215.9 mm, not 215.89999999999998
		x, _ = strconv.ParseFloat(strconv.FormatFloat(x*known.factor, 'g', 12, 64), 64)
	}
	switch shown := Quote(strings.TrimSpace(text)); {
	case x < 0:
		return 0, &Error{shown + " is negative", "more than 0 " + s.units[0].sign}
	case x > Most:
		return 0, &Error{shown + " is too large", "at most " + Plain(Most) + " " + s.units[0].sign}
	}
	return math.Abs(x), nil // not -0
}

// match is the unit of that sign, or of what people write for it.
func (s kind) match(sign string) *unit {
	sign = strings.ToLower(strings.TrimSuffix(sign, "."))
	for i, u := range s.units {
		if strings.ToLower(u.sign) == sign || sign != "" && slices.Contains(strings.Split(spellings[u.sign], "|"), sign) {
			return &s.units[i]
		}
	}
	return nil
}

// refuse says which units there are.
func (s kind) refuse(text, digits, sign string) error {
	shown := Quote(strings.TrimSpace(text))
	if digits == "" || strings.ContainsAny(sign, "0123456789") { // a slip within the number: "0G5 mL"
		return &Error{shown + " is not " + s.name, "a number and its unit, as in " + Quote(s.example)}
	}
	var signs []string
	for _, u := range s.units {
		signs = append(signs, u.sign)
	}
	fault, right := " has the wrong unit", s.name+" in "+Listed(signs, "or")+", as in "+Quote(digits+" "+signs[0])
	if sign == "" {
		fault = " has no unit"
		if share, isFraction := AsPercent(digits); isFraction && signs[0] == "%" {
			right = s.name + " in %: " + Quote(share+" %") + " or " + Quote(digits+" %")
		}
	}
	return &Error{shown + fault, right}
}

// spellings are what people write for a unit, parted by |. Cups, spoons and ounces
// differ from country to country, and from dry to wet.
var spellings = map[string]string{
	"g":   "gr|gm|gms|grs|gram|grams|gramm|gramme|grammes|gramos|grammo|grammi",
	"kg":  "kgs|kilo|kilos|kilogram|kilograms|kilogramm|kilogramme|kilogrammes",
	"mg":  "milligram|milligrams|milligramm|milligramme|milligrammes",
	"mL":  "cc|ccm|cm3|cm³|mls|millilitre|millilitres|milliliter|milliliters|mililitros",
	"L":   "lt|ltr|litre|litres|liter|liters|litro|litros",
	"mm":  "millimetre|millimetres|millimeter|millimeters|mms",
	"cm":  "centimetre|centimetres|centimeter|centimeters|cms",
	"in":  "inch|inches|\"|″|”",
	"%":   "percent|per cent|pct|pc|prozent|procent|pourcent|pour cent|por ciento",
	"s":   "sec|secs|second|seconds|sek|sekunden|secondes|segundos",
	"min": "mins|minute|minutes|minuten|minutos",
}
