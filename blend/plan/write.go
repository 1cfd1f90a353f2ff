package plan

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// Write is p as the text of a plan. Read of it gives an equal plan; comments and
// the way amounts are put in the maker's own file are not kept.
func Write(p *blend.Plan) []byte { return writerOf(p).all() }

// commented is a plan with a comment beside each of its keys.
func commented(p *blend.Plan) []byte {
	w := writerOf(p)
	w.remarks = true
	return w.all()
}

// Template is a plan of a design with a comment beside every key, those that it
// does not set as well, for a potter to start from. It passes Read as it is.
func Template(design Design) []byte {
	w := writerOf(design.plan())
	w.remarks, w.options = true, true
	return append([]byte(startHelp), w.all()...)
}

const startHelp = `# A plan is one test. Change this one into your own, then run "pourboard check"
# with its name: every mistake is listed with its line. Text after # is a comment.
# The glazes here are invented to show how they are written. Put in your own.

`

// writer puts the keys of a draft into a text.
type writer struct {
	text    strings.Builder
	d       *draft
	design  string
	remarks bool // each key's help behind it
	options bool // keys that are not set are in comments
}

func writerOf(p *blend.Plan) *writer {
	return &writer{d: draftOf(p), design: designName(p.Blend.Kind, p.Blend.HasSeries())}
}

// all writes every section of the schema.
func (w *writer) all() []byte {
	for _, s := range sections() {
		if !s.Several {
			w.section(s, nil, true)
		} else if w.d.items[s.Path] == nil && w.options && s.Path != "blend.series" {
			w.d.add(s.Path, &item{})
		}
		for n, it := range w.d.items[s.Path] {
			w.section(s, it, n == 0)
		}
	}
	return []byte(w.text.String())
}

// section writes a section with the keys that are set; one without any is left
// out. it is one of several, first the first of them.
func (w *writer) section(s *Section, it *item, first bool) {
	var lines []string
	set := false
	for _, k := range s.Keys {
		line := k.Name + " = "
		if text := w.value(s, k, it); text != "" {
			set = true
			line += text
		} else if line = w.option(s, k); line == "" || !first {
			continue
		}
		if w.remarks && first {
			line = remarked(line, k.Help)
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return
	}
	if s.Path != "" {
		heading := s.heading()
		if !set {
			heading = "# " + heading
		}
		if w.remarks && first {
			heading = remark(w.help(s)) + heading
		}
		lines = append([]string{"", heading}, lines...)
	}
	w.text.WriteString(strings.Join(lines, "\n") + "\n")
}

// value is the text of a key, "" when it is left out.
func (w *writer) value(s *Section, k *Key, it *item) string {
	if s.Path == "labels" && w.d.plan.Labels == nil || !k.fits(w.design) {
		return ""
	}
	text := k.write(w.d.place(s, k, it))
	if s.Path == "measure" && slices.Contains(w.d.plan.Kit.Defaults, k.Name+" "+strings.Trim(text, `"`)) {
		return "" // the plan leaves it out, and it still is the default
	}
	return text
}

// write is the value in a place as a file has it, "" for one that is not set.
func (k *Key) write(place any) string {
	v := reflect.ValueOf(place).Elem()
	unset := v.IsZero() || v.Kind() == reflect.Slice && v.Len() == 0
	// A 0 is written where the key left out would be something else.
	needed := k.Default != "" || v.CanFloat() && k.Needed && k.Range[0] == 0
	if unset && !needed {
		return ""
	}
	return k.literal(v)
}

// literal is a value by its type.
func (k *Key) literal(v reflect.Value) string {
	switch x := v.Interface().(type) {
	case measure.Step:
		return quote(number(x.Size) + " " + string(x.Unit))
	case quantity.Paper:
		return quantity.TOML(x.Name)
	case blend.Part:
		return "[" + quantity.TOML(x.Material) + ", " + number(x.Percent) + "]"
	case []percentOf:
		return "{ " + joined(x, percentOf.String) + " }"
	case []bound:
		return "{ " + joined(x, bound.String) + " }"
	}
	switch {
	case v.Kind() == reflect.String:
		return quantity.TOML(v.String())
	case v.Kind() == reflect.Slice:
		var all []string
		for i := range v.Len() {
			all = append(all, k.literal(v.Index(i)))
		}
		return "[" + strings.Join(all, ", ") + "]"
	case v.CanFloat() && k.Unit == "%":
		return quote(number(quantity.Shift(v.Float(), 2)) + " %")
	case v.CanFloat() && k.Unit != "":
		return quote(number(v.Float()) + " " + k.Unit)
	case v.CanFloat():
		return number(v.Float())
	}
	return fmt.Sprint(v)
}

// option is a key that is not set, as it would be written; "" for one that has
// no place in the design or that another key says.
func (w *writer) option(s *Section, k *Key) string {
	switch {
	case !w.options, !k.fits(w.design), k.Name == "tiles", s.Path == "blend.series" && k.Name == "to" && w.design == "triaxial-series":
		return ""
	case k.Name == "method":
		return `# method = "weigh"`
	}
	return "# " + strings.Replace(k.line(), "Magnesia matt", w.d.plan.Glazes[0].Name, 1)
}

// remarked is a line with what it means behind it.
func remarked(line, help string) string {
	const column = 28
	if help == "" || strings.Contains(line, "\n") || len(line) > 76 {
		return line
	}
	return fmt.Sprintf("%-*s# %s", column-1, line+" ", help)
}

// remark is lines as comments.
func remark(lines string) string {
	if lines == "" {
		return ""
	}
	return "# " + strings.ReplaceAll(lines, "\n", "\n# ") + "\n"
}

// help is what a commented plan says above a section.
func (w *writer) help(s *Section) string {
	if design, err := FindDesign(w.design); err == nil && s.Path == "blend" {
		return design.Help
	}
	return s.Help
}
