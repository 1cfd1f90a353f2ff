package xlsx

import "testing"

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
