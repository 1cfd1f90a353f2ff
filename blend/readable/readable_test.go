package readable

import "testing"

func TestText(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Grès blanc, 日本\n\t", "Grès blanc, 日本\n\t"},
		{"\x1b[31mred", `\u001b[31mred`},
		{"a\u202eb\u2066c\u200fd", `a\u202eb\u2066c\u200fd`},
		{"a\u009bb\r", `a\u009bb\u000d`},
		{"a\xffb", "a\ufffdb"},
	} {
		if got := Text(c.text); got != c.want {
			t.Errorf("Text(%q) = %q, want %q", c.text, got, c.want)
		}
	}
}
