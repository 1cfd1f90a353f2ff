package spell

import "testing"

func TestNearest(t *testing.T) {
	options := []string{"cells", "columns", "divisions", "specific-gravity"}
	for _, c := range []struct{ name, want string }{
		{"cell", "cells"}, {"Divisons", "divisions"}, {"specific gravity", "specific-gravity"}, {"clels", "cells"},
		{"dïvisions", "divisions"}, {"divisio\u0308ns", "divisions"}, {"", ""}, {"xyz", ""}, {"rows", ""},
	} {
		if got := Nearest(c.name, options); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.name, got, c.want)
		}
	}
}

func FuzzNearest(f *testing.F) {
	f.Add("cell", "cells")
	f.Fuzz(func(t *testing.T, name, option string) {
		if got := Nearest(name, []string{option}); got != "" && got != option {
			t.Errorf("%q is none of the options", got)
		}
	})
}
