package record

import (
	"math"
	"testing"
)

func TestParseNumber(t *testing.T) {
	for _, test := range []struct {
		text      string
		want      float64
		ambiguous bool
	}{
		{"12.5", 12.5, false},
		{"12,5", 12.5, false},
		{" 12 ", 12, false},
		{"0", 0, false},
		{"-3,25", -3.25, false},
		{"−3", -3, false},
		{"+ 3", 3, false},
		{".5", 0.5, false},
		{",5", 0.5, false},
		{"5.", 5, false},
		{"1 234,5", 1234.5, false},
		{"1\u202f234.5", 1234.5, false},
		{"1\u00a0234", 1234, false},
		{"1'234.5", 1234.5, false},
		{"1’234,5", 1234.5, false},
		{"1.234", 1.234, true},
		{"1,234", 1.234, true},
		{"-12,345", -12.345, true},
		{"123.456", 123.456, true},
		{"1234.567", 1234.567, false}, // a group of thousands has at most three digits
		{"0.125", 0.125, false},       // no group of thousands begins with 0
		{"0,125", 0.125, false},
		{".125", 0.125, false},
		{"1.23", 1.23, false},
		{"1.2345", 1.2345, false},
		{"1 234.567", 1234.567, false},
		{"1e-3", 0.001, false},
		{"1,5E3", 1500, false},
		{"1.234e2", 123.4, false},
	} {
		got, ok := parseNumber(test.text)
		if !ok || got.value != test.want || got.ambiguous != test.ambiguous {
			t.Errorf("parseNumber(%q) = %+v, %v; want %v, %v", test.text, got, ok, test.want, test.ambiguous)
		}
	}
	for _, text := range []string{
		"", " ", "-", ".", ",", "abc", "12 g", "5%", "1 2", "1.2.3", "1,23,456", "1.234,567.8",
		"12 34", "1234 567", "1.234,5", "1,234.5", "1.234.567", "NaN", "Inf", "infinity", "0x10", "1_000", "1e", "e5", "1e999", "--1", "1.,5", "½", "٣",
	} {
		if got, ok := parseNumber(text); ok {
			t.Errorf("parseNumber(%q) = %v, which is no number", text, got)
		}
	}
}

func FuzzParseNumber(f *testing.F) {
	for _, s := range []string{"12.5", "1.234", "1 234,5", "-1e-3", "1.234.567,8", "1’234", "..", "−"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		f, ok := parseNumber(s)
		if math.IsNaN(f.value) || math.IsInf(f.value, 0) {
			t.Errorf("parseNumber(%q) = %v", s, f.value)
		}
		if !ok && f != (figure{}) {
			t.Errorf("parseNumber(%q) = %+v although it is no number", s, f)
		}
	})
}
