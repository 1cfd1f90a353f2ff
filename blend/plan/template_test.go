package plan

import (
	"strings"
	"testing"

	"pourboard/blend"
)

func TestTemplate_readsAsItStands(t *testing.T) {
	for _, series := range []bool{false, true} {
		kinds := blend.Kinds()
		if series {
			kinds = SeriesKinds()
		}
		for _, kind := range kinds {
			text, err := Template(kind, series)
			if err != nil {
				t.Fatalf("%s, series %v: %v", kind, series, err)
			}
			p, warnings, err := Read("new.toml", text)
			if err != nil {
				t.Errorf("%s, series %v:\n%v", kind, series, err)
				continue
			}
			if len(warnings) > 0 {
				t.Errorf("%s, series %v: a plan to start from raises %v", kind, series, warnings)
			}
			if p.Blend.Kind != kind || p.Blend.HasSeries() != series {
				t.Errorf("asked for %s, series %v; it is %s, %v", kind, series, p.Blend.Kind, p.Blend.HasSeries())
			}
			if strings.Contains(string(text), "#include") {
				t.Errorf("%s, series %v: a part was not drawn in", kind, series)
			}
			if !strings.Contains(string(text), "invented") {
				t.Errorf("%s, series %v: does not say that its glazes are invented", kind, series)
			}
			for i, line := range strings.Split(string(text), "\n") {
				if len(line) > 110 {
					t.Errorf("%s, series %v: line %d is %d signs long", kind, series, i+1, len(line))
				}
			}
		}
	}
}

// The keys behind a remark sign must be right too: with all of them put into
// force, save those that exclude others, the plan reads.
func TestTemplate_keysInRemarks(t *testing.T) {
	text, err := Template(blend.Triaxial, false)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	forced := 0
	for i, line := range lines {
		body, remark := strings.CutPrefix(line, "# ")
		key, _, assigned := strings.Cut(body, " = ")
		if !remark || key == "water" { // water excludes specific-gravity
			continue
		}
		if assigned && !strings.Contains(key, " ") || strings.HasPrefix(body, "[") {
			lines[i] = body
			forced++
		}
	}
	p, _, err := Read("new.toml", []byte(strings.Join(lines, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	if forced < 30 || p.Labels == nil || len(p.Materials) != 1 || p.Blend.Bounds == nil || !p.Board.Shuffle || p.Kit.Capacity != 5000 {
		t.Errorf("%d lines put into force, and not all had an effect: %+v", forced, p)
	}
}

func TestTemplate_unknownKind(t *testing.T) {
	for _, c := range []struct {
		kind   blend.Kind
		series bool
		want   string
	}{
		{"triaxal", false, `did you mean "triaxial"?`},
		{blend.Centroid, true, `"line", "biaxial" or "triaxial"`},
		{"../parts/cup", false, "one of"},
	} {
		_, err := Template(c.kind, c.series)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("Template(%q, %v): %v; want %q in it", c.kind, c.series, err, c.want)
		}
	}
}
