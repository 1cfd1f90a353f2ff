package book

import (
	"slices"
	"testing"
)

func TestCompareNames(t *testing.T) {
	want := []string{"", "01/test", "1/test", "2025/07/a.toml", "2025/07 copy/a.toml", "2025/10/a.toml", "Test 1: rows", "Test 2", "Test 10", "Test 10a", "the"}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, compareNames)
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestConeNumber(t *testing.T) {
	for typed, want := range map[string]string{
		"6": "6", "cone 6": "6", "Cone6": "6", "^6": "6", " △ 04 ": "04", "Δ10": "10", "cone 6 soft": "6 soft", "6-7": "6-7", "conehead": "conehead", "cone": "cone", "": "",
	} {
		if got := coneNumber(typed); got != want {
			t.Errorf("coneNumber(%q) is %q, want %q", typed, got, want)
		}
	}
}
