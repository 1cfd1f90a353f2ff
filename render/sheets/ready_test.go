package sheets

import (
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page/pagetest"
	"pourboard/render/wording"
)

// textOf is all that some parts print.
func textOf(t *testing.T, s Sheets, parts ...string) string {
	s.Only = parts
	var all []string
	for _, p := range pagetest.Read(t, written(t, s)) {
		all = append(all, p.Text())
	}
	return strings.Join(strings.Fields(strings.Join(all, " ")), " ")
}

// Of ten cups of 100 mL, a third each of three glazes in all: 333 1/3 mL, with
// the 10 % extra 366.7, which is 370 in steps of 5. The two without recipe are
// had ready, and nothing of them is mixed.
func TestStart_bucketGlazes(t *testing.T) {
	t.Parallel()
	s := sheetsOf(t, "bucket-glazes")
	start, tickets := textOf(t, s, "start"), textOf(t, s, "tickets")
	for _, name := range []string{"Shino", "Tenmoku"} {
		if !strings.Contains(start, "mL of "+name+" ready.") || strings.Contains(tickets, name) {
			t.Errorf("%s: start %q, tickets %q", name, start, tickets)
		}
	}
	if !strings.Contains(start, "Have 370 mL of Shino ready.") || !strings.Contains(start, "no recipe, chemistry or unity formula") {
		t.Errorf("start %q", start)
	}
}

// A card by which powder is weighed has its care; one by which glaze is poured
// has none.
func TestPourCard_care(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"line-weigh":      "Keep food, drink and children away.",
		"biaxial-series":  "Copper carbonate: Harmful if swallowed or inhaled.",
		"triaxial":        "",
		"triaxial-weight": "",
	} {
		got := textOf(t, sheetsOf(t, name), "pour")
		if want == "" && strings.Contains(got, "respirator") || !strings.Contains(got, want) {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// A tile's size stays as it was entered.
func TestStart_inches(t *testing.T) {
	t.Parallel()
	s := sheetsOf(t, "triaxial", func(p *blend.Plan) {
		p.Tiles.Size, p.Tiles.WidthMM, p.Tiles.HeightMM = "2 x 4 in", 50.8, 101.6
	})
	if got := textOf(t, s, "start"); !strings.Contains(got, "84 tiles of 2 x 4 in,") {
		t.Errorf("start %q", got)
	}
}

// The bench page of cups that are weighed dry has what to take care of, what to
// have ready, every amount, and every mark.
func TestBench_weigh(t *testing.T) {
	t.Parallel()
	s := sheetsOf(t, "line-weigh")
	got := " " + textOf(t, s, "bench") + " "
	want := []string{"Silica dust scars the lungs.", "Potash feldspar 88.0 g"}
	for _, c := range s.Test.Cells {
		for _, w := range c.Weighings {
			want = append(want, " "+wording.ScaleText(s.Test, w.ReadingG)+" ")
		}
	}
	for _, tile := range s.Places.Tiles {
		want = append(want, " "+tile.Mark+" ", " "+tile.Under+" ")
	}
	for _, text := range want {
		if !strings.Contains(got, text) {
			t.Errorf("no %q in %q", text, got)
		}
	}
	if strings.Contains(got, "bucket") {
		t.Error("cups that are weighed dry have a bucket")
	}
}

// A ticket's expected SG is whole on small paper too.
func TestTickets_expectedSG(t *testing.T) {
	t.Parallel()
	s := sheetsOf(t, "triaxial", onPaper(t, "A5"))
	got := textOf(t, s, "tickets")
	for _, b := range s.Test.Batches {
		if want := "expected " + quantity.SGText(b.SG); !strings.Contains(got, want) {
			t.Errorf("%s: no %q in %q", b.Glaze, want, got)
		}
	}
}

// A colourant that is stirred into water is not weighed into the cups.
func TestStart_stock(t *testing.T) {
	t.Parallel()
	start := textOf(t, sheetsOf(t, "line-stock"), "start")
	if !strings.Contains(start, "Add each stock with the syringe.") || strings.Contains(start, "Weigh each dose") {
		t.Errorf("start %q", start)
	}
}
