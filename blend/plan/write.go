package plan

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Write is p as the text of a plan. Read of it gives an equal plan; comments and
// the way amounts are put in the maker's own file are not kept.
func Write(p *blend.Plan) []byte {
	w := writer{d: draftOf(p), design: designName(p.Blend.Kind, p.Blend.HasSeries())}
	w.all()
	return []byte(w.String())
}

// writer puts the keys of a draft into a text.
type writer struct {
	strings.Builder
	d       *draft
	design  string
	remarks bool // each key's help behind it
	options bool // keys that are not set stand in comments
}

// all writes every section of the schema.
func (w *writer) all() {
	for i := range sections() {
		s := &sections()[i]
		switch s.Path {
		case "glaze":
			for n, g := range w.d.glazes {
				g.recipe.parts, g.additions.parts = g.Recipe, g.Additions
				w.d.glaze = g
				w.section(s, n == 0)
			}
		case "blend.series":
			for n, series := range w.d.steps {
				w.d.series = series
				w.section(s, n == 0)
			}
		case "poured":
			for n, q := range w.d.pours {
				w.d.poured = q
				w.section(s, n == 0)
			}
			w.d.poured = &pouredDraft{}
			w.example(s, len(w.d.pours))
		case "material":
			for n, m := range w.d.materials {
				w.d.material = m
				w.section(s, n == 0)
			}
			w.d.material = &materialDraft{}
			w.example(s, len(w.d.materials))
		default:
			w.section(s, true)
		}
	}
}

// example writes a section that the plan does not have, in comments.
func (w *writer) example(s *Section, written int) {
	if written == 0 && w.options {
		w.section(s, true)
	}
}

// section writes a section with the keys that are set; one without any is left
// out. first is the first of several.
func (w *writer) section(s *Section, first bool) {
	var lines []string
	set := false
	for i := range s.Keys {
		k := &s.Keys[i]
		text := w.value(s, k)
		if text == "" {
			if line := w.option(s, k); line != "" && first {
				lines = append(lines, remarked("# "+line, k.Help))
			}
			continue
		}
		set = true
		line := k.Name + " = " + text
		if w.remarks && first {
			line = remarked(line, k.Help)
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return
	}
	if s.Path != "" {
		w.WriteString("\n")
	}
	if w.remarks && first && s.Help != "" {
		w.WriteString(folded(w.help(s)))
	}
	if s.Path != "" {
		heading := s.heading()
		if !set {
			heading = "# " + heading
		}
		w.WriteString(heading + "\n")
	}
	w.WriteString(strings.Join(lines, "\n") + "\n")
}

// value is the text of a key, "" when it is left out.
func (w *writer) value(s *Section, k *Key) string {
	if s.Path == "labels" && w.d.plan.Labels == nil || !k.fits(w.design) {
		return ""
	}
	text := k.form.codec().write(k.at(w.d))
	if s.Path == "measure" && slices.Contains(w.d.plan.Kit.Defaults, k.Name+" "+strings.Trim(text, `"`)) {
		return "" // the plan leaves it out, and it still is the default
	}
	if text == "" && k.Needed && k.Unit != "" && s.Path == "labels" {
		return `"0 ` + k.Unit + `"`
	}
	return text
}

// option is a key that is not set, as it would be written; "" for one that has
// no place in the design or that another key stands for.
func (w *writer) option(s *Section, k *Key) string {
	switch {
	case !w.options, !k.fits(w.design), k.Name == "tiles", s.Path == "blend.series" && k.Name == "to" && w.design == "triaxial-series":
		return ""
	case k.Name == "method":
		return `method = "weigh"`
	case k.Name == "bounds":
		return "bounds = { " + tomlText(w.d.ends.names[len(w.d.ends.names)-1]) + ` = ["20 %", "60 %"] }`
	case s.Path == "poured" && k.Name == "glaze":
		return "glaze = " + tomlText(w.d.plan.Glazes[0].Name)
	}
	return k.line()
}

// remarked is a line with what it means behind it.
func remarked(line, help string) string {
	const column = 28
	if help == "" || strings.Contains(line, "\n") || len(line) > 76 {
		return line
	}
	return fmt.Sprintf("%-*s# %s", column-1, line+" ", help)
}

func tomlText(s string) string { return quantity.TOML(s) }
