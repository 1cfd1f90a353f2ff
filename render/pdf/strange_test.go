package pdf

import (
	"io"
	"slices"
	"testing"

	"pourboard/blend"
)

// One note tells of all that the font lacks, and one of what is written from
// right to left, each with the names of the plan and nothing composed of them.
func TestStrangeLettersAreToldOnce(t *testing.T) {
	tests := []struct {
		name   string
		change func(*blend.Plan)
		want   []string
	}{
		{"none", func(p *blend.Plan) { p.Glazes[0].Name = "Æble, Жук, “q”" }, nil},
		{"chinese", func(p *blend.Plan) { p.Glazes[0].Name = "釉 blue" }, []string{
			`packet: its font has no "釉"; a � stands for it, in "釉 blue" (write it in Latin, Greek or Cyrillic letters)`,
		}},
		{"several", func(p *blend.Plan) {
			p.Title, p.Tiles.Bodies[0], p.Glazes[0].Recipe[0].Material = "Test 🔥", "青瓷", "Ash 🔥"
		}, []string{
			`packet: its font has no "🔥", "青" and "瓷"; a � stands for each, in "Test 🔥", "Ash 🔥" and "青瓷" (write it in Latin, Greek or Cyrillic letters)`,
		}},
		{"hebrew", func(p *blend.Plan) { p.Glazes[0].Name = "כחול matte" }, []string{
			`packet: "כחול matte" is written from right to left, which it cannot print in order (write it in Latin, Greek or Cyrillic letters)`,
		}},
		{"arabic", func(p *blend.Plan) { p.Title, p.Tiles.Bodies[1] = "أزرق", "أحمر" }, []string{
			`packet: "أزرق" and "أحمر" are written from right to left, which it cannot print in order (write it in Latin, Greek or Cyrillic letters)`,
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := packetOf(t, "triaxial", tt.change)
			p.Only = []string{"summary", "tickets", "marks", "map", "chemistry", "log"}
			notes, err := p.Write(io.Discard)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, n := range notes {
				got = append(got, n.String())
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("got  %q\nwant %q", got, tt.want)
			}
		})
	}
}

// What stands in no name of the plan, such as a remark in a log, is quoted as it
// is printed, once for each character.
func TestStrangeLettersElsewhere(t *testing.T) {
	s, _, err := packetOf(t, "triaxial").draw()
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"a 釉 b", "c 釉 d"} {
		s.doc.clean(text)
	}
	notes := s.strange("results")
	if len(notes) != 1 || notes[0].Why != `a � stands for it, in "a 釉 b"` {
		t.Errorf("got %q", notes)
	}
}
