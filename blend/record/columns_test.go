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
		{"triaxial", nil, "Mark|Rating|Surface|Defects|Colour|Coat 1|Coat 2|Coat 3|Gloss|Run length mm|Notes|Photograph|Firing|Cup|Body|Magnesia matte %|Field ash runny %|Soda blue %|Magnesia matte comes to %|Field ash runny comes to %|Soda blue comes to %|Plan code"},
		{"biaxial-series", func(p *blend.Plan) { p.Tiles.Repeats = 2; p.Tiles.Coats = 1 }, "Mark|Rating|Surface|Defects|Colour|Coat 1|Notes|Photograph|Firing|Cup|Body|Repeat|Copper carbonate %|Rutile %|Copper carbonate comes to %|Rutile comes to %|Plan code"},
		{"biaxial-series", func(p *blend.Plan) { p.Tiles.Coats = 1; p.Log.Numbers = []string{"photograph", "RUTILE %"} }, "Mark|Rating|Surface|Defects|Colour|Coat 1|photograph (2)|RUTILE % (2)|Notes|Photograph|Firing|Cup|Body|Copper carbonate %|Rutile %|Copper carbonate comes to %|Rutile comes to %|Plan code"},
	} {
		m := recordtest.Planned(t, test.plan, test.change)
		var heads []string
		for _, c := range Columns(m.Test.Plan) {
			heads = append(heads, c.Head)
		}
		if got := strings.Join(heads, "|"); got != test.want {
			t.Errorf("%s:\n got %s\nwant %s", test.plan, got, test.want)
		}
	}
}

func TestPrinted(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	got := map[string]string{}
	for _, c := range Columns(m.Test.Plan) {
		got[c.Head] = c.Printed(m.Test, m.Scheme.Tile(4)).Text // cell 2, second body
	}
	for head, want := range map[string]string{
		"Mark": m.Scheme.Tile(4).Mark, "Rating": "", "Firing": "A", "Cup": "2", "Body": "Buff",
		"Magnesia matte %": "83.333333", "Field ash runny %": "16.666667", "Soda blue %": "0", "Soda blue comes to %": "0",
	} {
		if got[head] != want {
			t.Errorf("%s: %q, want %q", head, got[head], want)
		}
	}
	m = recordtest.Planned(t, "triaxial-series", nil)
	for _, c := range Columns(m.Test.Plan) {
		if c.Field != ShareField || c.Index > 0 {
			continue
		}
		if got := c.Printed(m.Test, m.Scheme.Tile(0)); got.Number != 3 { // the first cell is the first series' corner
			t.Errorf("first cell has %v %% %s", got.Number, c.Head)
		}
	}
}
