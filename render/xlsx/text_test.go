package xlsx

import (
	"strings"
	"testing"
)

func TestSheetName(t *testing.T) {
	long := strings.Repeat("Magnesia ", 6)
	for _, test := range []struct {
		wishes []string
		want   []string
	}{
		{[]string{"Mix", "mix", "MIX"}, []string{"Mix", "mix (2)", "MIX (3)"}},
		{[]string{"History", "history"}, []string{"The history", "The history (2)"}},
		{[]string{"", " ", "\x00\x07"}, []string{"Sheet", "Sheet (2)", "Sheet (3)"}},
		{[]string{"'quoted'", `a"b`}, []string{"’quoted’", "a’b"}},
		{[]string{`a:b\c/d?e*f[g]`}, []string{"a-b-c-d-e-f-g-"}},
		{[]string{"two\nlines\tand  spaces "}, []string{"two lines and spaces"}},
		{[]string{long, long}, []string{"Magnesia Magnesia Magnesia Mag…", "Magnesia Magnesia Magnesia… (2)"}},
		{[]string{strings.Repeat("𝛼", 20)}, []string{strings.Repeat("𝛼", 15) + "…"}},
		{[]string{"bad \xff byte"}, []string{"bad byte"}},
	} {
		taken := map[string]bool{}
		for i, wish := range test.wishes {
			got := sheetName(wish, taken)
			if got != test.want[i] {
				t.Errorf("%q becomes %q, want %q", wish, got, test.want[i])
			}
			if n := units(got); n < 1 || n > maxSheetName {
				t.Errorf("%q has %d characters", got, n)
			}
		}
	}
}

func TestEscapeUnder(t *testing.T) {
	for text, want := range map[string]string{
		"_x0041_":         "_x005F_x0041_",
		"_x0041_x0042_":   "_x005F_x0041_x005F_x0042_",
		"a_x00zz_":        "a_x00zz_",
		"_x41_":           "_x41_",
		"__x0041_":        "__x005F_x0041_",
		"_x005F_x0041_":   "_x005F_x005F_x005F_x0041_",
		"plain":           "plain",
		"_x004":           "_x004",
		"_x00e9_ and _x_": "_x005F_x00e9_ and _x_",
	} {
		got := escapeUnder(text)
		if got != want {
			t.Errorf("%q is written as %q, want %q", text, got, want)
		}
		if back := unescapeUnder(got); back != text {
			t.Errorf("%q comes back as %q", text, back)
		}
	}
	if got := unescapeUnder("caf_x00E9_"); got != "café" {
		t.Errorf("read %q", got)
	}
}

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"a\r\nb\rc":        "a\nb\nc",
		"a\tb":             "a\tb",
		"a\x00\x07b":       "a��b",
		"\xff":             "�",
		"\uFFFE\uFFFF":     "��",
		"ünï ₂ 𝛼":          "ünï ₂ 𝛼",
		"a\u0085b\u007fc ": "a�b�c ",
	} {
		if got := clean(text); got != want {
			t.Errorf("clean(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestLetters(t *testing.T) {
	for column, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 701: "ZZ", 702: "AAA", 16383: "XFD"} {
		if got := Letters(column); got != want {
			t.Errorf("column %d is %s, want %s", column, got, want)
		}
		if c, row, ok := parseAddress(want + "7"); c != column || row != 7 || !ok {
			t.Errorf("%s7 is column %d, row %d, %v", want, c, row, ok)
		}
	}
}

func TestInlineItems(t *testing.T) {
	for _, test := range []struct {
		items []string
		want  bool
	}{
		{[]string{"matte", "semi-matte"}, true},
		{[]string{"a,b"}, false},
		{[]string{`6"`}, false},
		{[]string{" a"}, false},
		{[]string{"=A1"}, false},
		{[]string{""}, false},
		{[]string{strings.Repeat("x", 255)}, true},
		{[]string{strings.Repeat("x", 256)}, false},
	} {
		if got := inlineItems(test.items); got != test.want {
			t.Errorf("inlineItems(%.20q) = %v", test.items, got)
		}
	}
}
