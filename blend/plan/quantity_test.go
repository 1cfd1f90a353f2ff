package plan

import (
	"encoding"
	"math"
	"strings"
	"testing"

	"pourboard/blend/measure"
)

func TestQuantities(t *testing.T) {
	for _, c := range []struct {
		text string
		want any
	}{
		{"100 g", Mass{100}}, {"100g", Mass{100}}, {" 0.25 kg ", Mass{250}}, {"0.29 kg", Mass{290}}, {"50 mg", Mass{0.05}},
		{"0,5 g", Mass{0.5}}, {"12,25 g", Mass{12.25}}, {"0,125 g", Mass{0.125}}, {"1.234 g", Mass{1.234}}, {".5 g", Mass{0.5}}, {"5. g", Mass{5}},
		{"100\u00a0g", Mass{100}}, {"100\u202fg", Mass{100}}, {"+3 g", Mass{3}},
		{"180 mL", Volume{180}}, {"180 ml", Volume{180}}, {"1.5 L", Volume{1500}}, {"1,5 l", Volume{1500}}, {"20 cL", Volume{200}}, {"2 dL", Volume{200}},
		{"70 mm", Length{70}}, {"7 cm", Length{70}}, {"0.3 m", Length{300}}, {"0 mm", Length{0}}, {"-0 mm", Length{0}},
		{"10 %", Percent{0.1}}, {"7%", Percent{0.07}}, {"2,5 %", Percent{0.025}}, {"0 %", Percent{0}},
		{"3 s", Time{3}}, {"1.5 min", Time{90}},
		{"50 x 100 mm", Size{50, 100}}, {"5x10cm", Size{50, 100}}, {"50 × 100 mm", Size{50, 100}}, {"50 mm x 10 cm", Size{50, 100}}, {"45,5 X 90 mm", Size{45.5, 90}},
		{"5 mL", Graduation{measure.Step{Size: 5, Unit: measure.Millilitre}}}, {"1 g", Graduation{measure.Step{Size: 1, Unit: measure.Gram}}},
		{"0.01 kg", Graduation{measure.Step{Size: 10, Unit: measure.Gram}}},
	} {
		var got any
		var err error
		switch c.want.(type) {
		case Mass:
			got, err = read[Mass](c.text)
		case Volume:
			got, err = read[Volume](c.text)
		case Length:
			got, err = read[Length](c.text)
		case Percent:
			got, err = read[Percent](c.text)
		case Time:
			got, err = read[Time](c.text)
		case Size:
			got, err = read[Size](c.text)
		case Graduation:
			got, err = read[Graduation](c.text)
		}
		if err != nil || got != c.want {
			t.Errorf("%q: %+v, %v; want %+v", c.text, got, err, c.want)
		}
	}
}

// read is a quantity of type T from its text.
func read[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](text string) (T, error) {
	var q T
	err := P(&q).UnmarshalText([]byte(text))
	return q, err
}

func TestQuantities_refused(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "not a mass"}, {"g", "not a mass"}, {"nan g", "not a mass"}, {"inf g", "not a mass"}, {"a lot", "not a mass"},
		{"100", `"100 g"`}, {"100 mL", "wrong unit"}, {"100 gg", "wrong unit"}, {"100 KG", `"100 kg"`}, {"1e3 g", "wrong unit"},
		{"100gr", `write "100 g"`}, {"100 Grams", `write "100 g"`}, {"0,5 Kilo", `write "0,5 kg"`}, {"4 oz", `write "113.4 g"`}, {"2 lbs.", `write "907.2 g"`},
		{"1,234 gr", `"1.234 gr" or "1234 gr"`}, {"5 cc", "wrong unit"}, {"3 inches", "wrong unit"},
		{"0 g", "nothing"}, {"-1 g", "below nothing"}, {"−1 g", "below nothing"},
		{"1,234 g", `"1.234 g" or "1234 g"`}, {"12,000 kg", `"12.000 kg" or "12000 kg"`},
		{"1.234,5 g", `write "1234.5 g"`}, {"1,234.5 g", `write "1234.5 g"`}, {"1.234.567 g", `write "1234567 g"`}, {"1 234,5 g", `write "1234.5 g"`},
		{"1\u202f234\u00a0567,25 g", `write "1234567.25 g"`}, {"100'5 g", `write "100.5 g"`}, {"1.2,3 g", "more than one"}, {"1,2,3 g", "more than one"}, {"1.2.3 g", "not a number"},
		{"1 000 g", `"1000 g"`}, {"1'000 g", `"1000 g"`}, {"5-6 g", "not a number"}, {"+-5 g", "not a number"},
		{strings.Repeat("9", 400) + " g", "too large"}, {"1001 kg", ""}, {"10000001 g", "too large"},
	} {
		_, err := read[Mass](c.text)
		if c.text == "1001 kg" { // a tonne and a kilogram
			c.want = "at most 1000000 g"
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v; want %q in it", c.text, err, c.want)
		}
	}
}

func TestShift(t *testing.T) {
	for _, c := range []struct {
		x     float64
		power int
		want  float64
	}{{0.29, 3, 290}, {7, -2, 0.07}, {0.07, 2, 7}, {1.1, 3, 1100}, {0, 5, 0}, {1e300, 100, math.Inf(1)}, {5e-324, -3, 0}} {
		if got := shift(c.x, c.power); got != c.want {
			t.Errorf("shift(%v, %d) = %v, want %v", c.x, c.power, got, c.want)
		}
	}
}

// Whatever the text, a quantity that reads is finite, not negative, and comes
// back the same from its own text.
func FuzzQuantity(f *testing.F) {
	for _, s := range []string{"100 g", "0,5 kg", "180 mL", "10 %", "50 x 100 mm", "3 s", "1,234 g", "1.5 min", "7 cm", "nan g", "-0 mm", "5×5 m"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		again(t, text, func(m Mass) []float64 { return []float64{m.G} })
		again(t, text, func(v Volume) []float64 { return []float64{v.ML} })
		again(t, text, func(l Length) []float64 { return []float64{l.MM} })
		again(t, text, func(p Percent) []float64 { return []float64{p.Fraction} })
		again(t, text, func(s Time) []float64 { return []float64{s.S} })
		again(t, text, func(s Size) []float64 { return []float64{s.WidthMM, s.HeightMM} })
		again(t, text, func(g Graduation) []float64 { return []float64{g.Step.Size} })
	})
}

func again[T interface {
	comparable
	encoding.TextMarshaler
}, P interface {
	*T
	encoding.TextUnmarshaler
}](t *testing.T, text string, numbers func(T) []float64) {
	t.Helper()
	q, err := read[T, P](text)
	if err != nil {
		if strings.ContainsAny(err.Error(), "\n\r") {
			t.Errorf("%q", err)
		}
		return
	}
	for _, x := range numbers(q) {
		if !(x >= 0 && x <= 60*most) || math.Signbit(x) {
			t.Errorf("%q reads as %v", text, x)
		}
	}
	written, err := q.MarshalText()
	if err != nil {
		t.Fatal(err)
	}
	if back, err := read[T, P](string(written)); err != nil || back != q {
		t.Errorf("%q is written as %q, which is %v, %v", text, written, back, err)
	}
}

// The inch, the pound and the ounce are defined in SI units.
func TestQuantities_otherUnits(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{second(read[Volume]("5cc")), `write "5 mL"`},
		{second(read[Volume]("1.5 litres")), `write "1.5 L"`},
		{second(read[Volume]("1 cup")), "wrong unit"},
		{second(read[Length]("3 in")), `write "76.2 mm"`},
		{second(read[Length](`2"`)), `write "50.8 mm"`},
		{second(read[Percent]("10 percent")), `write "10 %"`},
		{second(read[Time]("3 seconds")), `write "3 s"`},
		{second(read[Time]("2 minutes")), `write "2 min"`},
		{second(read[Graduation]("5 cm3")), `write "5 mL"`},
		{second(read[Graduation]("1 gram")), `write "1 g"`},
		{second(read[Size]("50 * 100 mm")), `write "50 x 100 mm"`},
		{second(read[Size]("5 by 10 cm")), `write "5 x 10 cm"`},
		{second(read[Size]("50 x 100")), `write "50 x 100 mm"`},
		{second(read[Size](`2" x 4"`)), `write "50.8 x 101.6 mm"`},
		{second(read[Size]("50 x 100 g")), `as in "50 x 100 mm"`},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("%v; want %q in it", c.err, c.want)
		}
	}
}

func second[T any](_ T, err error) error { return err }
