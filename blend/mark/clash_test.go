package mark

import "testing"

func TestClash(t *testing.T) {
	for _, c := range []struct {
		a, b        Scheme
		first, last string
	}{
		{scheme("A", 66, 1, 1), scheme("A1", 8, 1, 1), "A11", "A18"},
		{scheme("A1", 8, 1, 1), scheme("A", 66, 1, 1), "A11", "A18"},
		{scheme("A", 10, 1, 1), scheme("A1", 8, 1, 1), "", ""},
		{scheme("TO", 5, 1, 1), scheme("T0", 3, 1, 1), "T01", "T03"},
		{scheme("I", 5, 1, 1), scheme("1", 3, 1, 1), "11", "13"},
		{scheme("A", 66, 2, 1), scheme("A1", 8, 1, 1), "", ""}, // A has letters behind
		{scheme("MR", 5, 1, 1), scheme("MT", 5, 1, 1), "", ""},
		{scheme("", 20, 1, 1), scheme("1", 5, 1, 1), "11", "15"},
	} {
		shared := Shared(c.a, c.b)
		first, last := "", ""
		if shared != nil {
			first, last = shared[0], shared[len(shared)-1]
		}
		if first != c.first || last != c.last {
			t.Errorf("%s and %s share %s to %s, want %s to %s", c.a.Form(), c.b.Form(), first, last, c.first, c.last)
		}
		if shared != nil && !MayClash(c.a.prefix, c.b.prefix) {
			t.Errorf("%s and %s are not compared", c.a.prefix, c.b.prefix)
		}
	}
}
