package quantity

import (
	"math"
	"strings"
	"testing"
)

// reader is one of the functions that read a quantity.
type reader func(string) (float64, error)

// graduation is Graduation without its unit.
func graduation(text string) (float64, error) {
	size, _, err := Graduation(text)
	return size, err
}

func TestQuantities(t *testing.T) {
	for _, c := range []struct {
		text string
		read reader
		want float64
	}{
		{"100 g", Mass, 100}, {"100g", Mass, 100}, {" 0.25 kg ", Mass, 250}, {"0.29 kg", Mass, 290}, {"50 mg", Mass, 0.05},
		{"0,5 g", Mass, 0.5}, {"12,25 g", Mass, 12.25}, {"0,125 g", Mass, 0.125}, {"1.234 g", Mass, 1.234}, {".5 g", Mass, 0.5}, {"5. g", Mass, 5}, {"1e3 g", Mass, 1000},
		{"100\u00a0g", Mass, 100}, {"100\u202fg", Mass, 100}, {"+3 g", Mass, 3}, {"0 g", Mass, 0},
		{"180 mL", Volume, 180}, {"180 ml", Volume, 180}, {"1.5 L", Volume, 1500}, {"1,5 l", Volume, 1500}, {"20 cL", Volume, 200}, {"2 dL", Volume, 200},
		{"70 mm", Length, 70}, {"7 cm", Length, 70}, {"0.3 m", Length, 300}, {"0 mm", Length, 0}, {"-0 mm", Length, 0},
		// The inch is 25.4 mm by definition (international yard and pound, 1959).
		{"2 in", Length, 50.8}, {"8.5 in", Length, 215.9}, {`3"`, Length, 76.2}, {"3″", Length, 76.2},
		{"10 %", percent.read, 10}, {"7%", percent.read, 7}, {"2,5 %", percent.read, 2.5}, {"0 %", percent.read, 0},
		{"3 s", duration.read, 3}, {"1.5 min", duration.read, 90},
		{"5 mL", graduation, 5}, {"1 g", graduation, 1}, {"0.01 kg", graduation, 10},
		// Other spellings.
		{"100 KG", Mass, 1e5}, {"100gr", Mass, 100}, {"100 Grams", Mass, 100}, {"0,5 Kilo", Mass, 500}, {"5cc", Volume, 5}, {"1.5 litres", Volume, 1500},
		{"3 inches", Length, 76.2}, {"10 percent", percent.read, 10}, {"3 seconds", duration.read, 3}, {"2 mins.", duration.read, 120},
		{"5 cm3", graduation, 5}, {"1 gram", graduation, 1},
	} {
		got, err := c.read(c.text)
		if err != nil || got != c.want {
			t.Errorf("%q: %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	for text, want := range map[string]string{"5 mL": "mL", "1 g": "g", "0.01 kg": "g", "2 cl": "mL", "5 grams": "g", "5 cc": "mL"} {
		if _, in, err := Graduation(text); err != nil || in != want {
			t.Errorf("%q is in %q, %v; want %q", text, in, err, want)
		}
	}
}

func TestSize(t *testing.T) {
	for _, c := range []struct {
		text string
		w, h float64
	}{
		{"50 x 100 mm", 50, 100}, {"5x10cm", 50, 100}, {"50 × 100 mm", 50, 100}, {"50 mm x 10 cm", 50, 100}, {"45,5 X 90 mm", 45.5, 90},
		{"2 x 4 in", 50.8, 101.6}, {`2" x 4"`, 50.8, 101.6}, {"2 in x 4 in", 50.8, 101.6}, {"50 * 100 mm", 50, 100}, {"5 by 10 cm", 50, 100}, {"2 by 4 inches", 50.8, 101.6},
	} {
		if w, h, err := Size(c.text); err != nil || w != c.w || h != c.h {
			t.Errorf("%q: %v x %v, %v; want %v x %v", c.text, w, h, err, c.w, c.h)
		}
	}
}

func TestQuantities_refused(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "not a mass"}, {"g", "not a mass"}, {"nan g", "not a mass"}, {"inf g", "not a mass"}, {"a lot", "not a mass"},
		{"100", `"100 g"`}, {"100 mL", "wrong unit"}, {"100 gg", "wrong unit"}, {"1e300 g", "too large"}, {"0G5 g", `as in "100 g"`},
		{"4 oz", "wrong unit"}, {"2 lbs.", "wrong unit"}, {"100 m", "wrong unit"},
		{"1,234 gr", `"1.234 gr" or "1234 gr"`}, {"5 cc", "wrong unit"}, {"3 inches", "wrong unit"},
		{"-1 g", "negative"}, {"−1 g", "negative"},
		{"1,234 g", `"1.234 g" or "1234 g"`}, {"12,000 kg", `"12.000 kg" or "12000 kg"`},
		{"1.234,5 g", "not a number"}, {"1,234.5 g", "not a number"}, {"1.234.567 g", "not a number"}, {"1 234,5 g", "not a number"},
		{"1\u202f234\u00a0567,25 g", "not a number"}, {"100'5 g", "not a number"}, {"1.2,3 g", "not a number"}, {"1,2,3 g", "not a number"}, {"1.2.3 g", "not a number"},
		{"1 000 g", "not a number"}, {"1'000 g", "no other mark"}, {"5-6 g", "not a number"}, {"+-5 g", "not a number"},
		{strings.Repeat("9", 400) + " g", "too large"}, {"1001 kg", "at most 1000000 g"}, {"10000001 g", "too large"},
	} {
		if _, err := Mass(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v; want %q in it", c.text, err, c.want)
		}
	}
}

func TestQuantities_otherUnits(t *testing.T) {
	size := func(text string) (float64, error) { _, _, err := Size(text); return 0, err }
	for _, c := range []struct {
		read       reader
		text, want string
	}{
		{Volume, "0G5 mL", `not a volume (a number and its unit, as in "180 mL")`}, {Volume, "1 cup", "wrong unit"},
		{size, "50 x 100", `write "50 x 100 mm"`}, {size, "2 x 4", `write "2 x 4 in"`}, {size, "50 x 100 g", `as in "50 x 100 mm"`},
	} {
		if _, err := c.read(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v; want %q in it", c.text, err, c.want)
		}
	}
}

func TestReadBatch(t *testing.T) {
	for text, want := range map[string]Batch{
		"1370 mL":             {ML: 1370},
		"1.4 L":               {ML: 1400},
		"1,4 L":               {ML: 1400},
		"1990 g wet":          {WetG: 1990},
		"1000 g dry":          {DryG: 1000},
		"1 kg dry":            {DryG: 1000},
		"1000 g dry, 1370 mL": {DryG: 1000, ML: 1370},
		"1370 mL, 1000 g dry": {DryG: 1000, ML: 1370},
	} {
		if got, err := ReadBatch(text); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"1990 g":                `"1990 g dry" for the powder, "1990 g wet"`,
		"1990":                  "no unit",
		"0 mL":                  "not an amount of glaze",
		"1370 mL wet":           "not an amount of glaze",
		"1990 g wet, 1370 mL":   "one amount",
		"1000 g dry, 900 g dry": "given twice",
	} {
		if _, err := ReadBatch(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %q in it", text, err, want)
		}
	}
}

func TestShift(t *testing.T) {
	for _, c := range []struct {
		x     float64
		power int
		want  float64
	}{{0.29, 3, 290}, {7, -2, 0.07}, {0.07, 2, 7}, {1.1, 3, 1100}, {0, 5, 0}, {1e300, 100, math.Inf(1)}, {5e-324, -3, 0}} {
		if got := Shift(c.x, c.power); got != c.want {
			t.Errorf("Shift(%v, %d) = %v, want %v", c.x, c.power, got, c.want)
		}
	}
}

// Whatever the text, a quantity that reads is finite and not negative, and reads
// the same from its number with the unit that it is counted in.
func FuzzQuantity(f *testing.F) {
	for _, s := range []string{"100 g", "0,5 kg", "180 mL", "10 %", "50 x 100 mm", "3 s", "1,234 g", "1.5 min", "7 cm", "2 in", "nan g", "-0 mm", "5×5 m"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for unit, read := range map[string]reader{"g": Mass, "mL": Volume, "mm": Length, "%": percent.read, "s": duration.read} {
			x, err := read(text)
			if err != nil {
				if strings.ContainsAny(err.Error(), "\n\r") {
					t.Errorf("%q", err)
				}
				continue
			}
			if !(x >= 0 && x <= Most) || math.Signbit(x) {
				t.Errorf("%q reads as %v", text, x)
			}
			if back, err := read(Plain(x) + " " + unit); err != nil || back != x {
				t.Errorf("%q is %v %s, which reads as %v, %v", text, x, unit, back, err)
			}
		}
		if w, h, err := Size(text); err == nil && !(w >= 0 && w <= Most && h >= 0 && h <= Most) {
			t.Errorf("%q reads as %v x %v", text, w, h)
		}
		if b, err := ReadBatch(text); err == nil && !(b.ML+b.DryG+b.WetG > 0) {
			t.Errorf("%q reads as %+v", text, b)
		}
	})
}

// Lines end as the program that saved the file ends them: all of them are one.
func TestText_lineEnds(t *testing.T) {
	for _, file := range []string{"a\nb\n\nc", "a\r\nb\r\n\r\nc", "a\rb\r\rc"} {
		if text, _ := Text([]byte(file)); string(text) != "a\nb\n\nc" {
			t.Errorf("%q is %q", file, text)
		}
	}
}
