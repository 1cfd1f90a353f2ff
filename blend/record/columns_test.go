package record_test

import (
	"strings"
	"testing"

	"pourboard/blend"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
)

func TestColumns(t *testing.T) {
	for _, test := range []struct {
		plan   string
		change func(p *blend.Plan)
		want   string
	}{
		{"triaxial", nil, "Mark|Cup|Magnesia matte %|Field ash runny %|Soda blue %|Body|Place|Coat 1|Coat 2|Coat 3|Surface|Defects|Colour|Rating|Gloss|Run length mm|Photograph|Notes"},
		{"biaxial-series", func(p *blend.Plan) { p.Tiles.Repeats = 2; p.Tiles.Coats = 1 }, "Mark|Cup|Copper carbonate %|Rutile %|Body|Repeat|Place|Coat 1|Surface|Defects|Colour|Rating|Photograph|Notes"},
		{"biaxial-series", func(p *blend.Plan) { p.Tiles.Coats = 1; p.Log.Numbers = []string{"photograph", "RUTILE %"} }, "Mark|Cup|Copper carbonate %|Rutile %|Body|Place|Coat 1|Surface|Defects|Colour|Rating|photograph|RUTILE % (2)|Photograph (2)|Notes"},
	} {
		m := recordtest.Planned(t, test.plan, test.change)
		var heads []string
		for _, c := range Columns(m.Test.Plan) {
			heads = append(heads, c.Head)
			if c.Chars < len([]rune(c.Head)) {
				t.Errorf("%s: %q is %d wide", test.plan, c.Head, c.Chars)
			}
		}
		if got := strings.Join(heads, "|"); got != test.want {
			t.Errorf("%s:\n got %s\nwant %s", test.plan, got, test.want)
		}
	}
}

func TestPrinted(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	var got []string
	for _, c := range Columns(m.Test.Plan) {
		got = append(got, c.Printed(m.Test, m.Scheme.Tile(4)).Text) // cell 2, second body
	}
	for i, want := range []string{m.Scheme.Tile(4).Mark, "2", "83.333333", "16.666667", "0", "Buff"} {
		if got[i] != want {
			t.Errorf("column %d: %q, want %q", i, got[i], want)
		}
	}
	m = recordtest.Planned(t, "triaxial-series", nil)
	c := Columns(m.Test.Plan)[2]
	if got := c.Printed(m.Test, m.Scheme.Tile(0)); got.Number != 3 { // the first cell is the first series' corner
		t.Errorf("first cell has %v %% %s", got.Number, c.Head)
	}
}
