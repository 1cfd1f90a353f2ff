package plan

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
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
			w.section(s, w.d, true)
			continue
		}
		if w.d.items[s.Path] == nil && w.options && s.Path != "blend.series" {
			w.d.add(s.Path, &item{})
		}
		for n, it := range w.d.items[s.Path] {
			w.section(s, it, n == 0)
		}
	}
	return []byte(w.text.String())
}

// section writes a section with the keys that are set in the draft or its item; one
// without any is left out. first is false from the second of several on.
func (w *writer) section(s *Section, in any, first bool) {
	var lines []string
	set := false
	for _, k := range s.Keys {
		line := k.Name + " = "
		if text := w.value(s, k, in); text != "" {
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
func (w *writer) value(s *Section, k *Key, in any) string {
	if s.Path == "labels" && w.d.Plan.Labels == nil || k.Name == "seed" && w.d.Order == "" || !k.fits(w.design) {
		return ""
	}
	text := w.write(k, k.place(in))
	if s.Path == "measure" && slices.Contains(w.d.Kit.Defaults, k.Name+" "+strings.Trim(text, `"`)) {
		return "" // the plan leaves it out, and it still is the default
	}
	return text
}

// write is the value in a place as a file has it, "" for one that is not set.
func (w *writer) write(k *Key, v reflect.Value) string {
	unset := v.IsZero() || v.Kind() == reflect.Slice && v.Len() == 0
	if size, ok := v.Interface().(blend.Amount); ok && k.Place == "Cup.Size" { // by one of three keys
		unset = size.Value == 0 || size.Of != blend.Basis(k.Name)
	}
	// A 0 is written where the key left out would be something else.
	needed := k.Default != "" || v.CanFloat() && k.Needed && k.Range[0] == 0
	if unset && !needed {
		return ""
	}
	return w.literal(k, v)
}

// literal is a value by its type.
func (w *writer) literal(k *Key, v reflect.Value) string {
	switch x := v.Interface().(type) {
	case blend.Amount:
		unit := map[blend.Basis]string{blend.Dry: "g", blend.Weight: "g", blend.Volume: "mL"}[x.Of]
		return quote(number(x.Value) + " " + unit)
	case measure.Step:
		return quote(number(x.Size) + " " + string(x.Unit))
	case quantity.Paper:
		return quantity.TOML(x.Name)
	case blend.Part:
		return "[" + quantity.TOML(x.Material) + ", " + number(x.Percent) + "]"
	case oxide.Analysis:
		var all []string
		for _, a := range x.Oxides {
			all = append(all, string(a.Oxide)+" = "+number(a.Value))
		}
		if x.LOI != 0 || !x.NoLOI {
			all = append(all, "LOI = "+number(x.LOI))
		}
		return "{ " + strings.Join(all, ", ") + " }"
	case []blend.Bound:
		var all []string
		for i, b := range x {
			lo, hi := number(quantity.Shift(b.Lo, 2)), number(quantity.Shift(b.Hi, 2))
			all = append(all, quoteKey(w.d.Ends[i])+` = ["`+lo+` %", "`+hi+` %"]`)
		}
		return "{ " + strings.Join(all, ", ") + " }"
	case cupList:
		if x.Parts == nil {
			return strconv.Itoa(x.N)
		}
		text := "["
		for _, parts := range x.Parts {
			text += "\n  " + bracketed(parts, number) + ","
		}
		return text + "\n]"
	}
	return w.plain(k, v)
}

// plain is a text, a number, a truth or a list of such.
func (w *writer) plain(k *Key, v reflect.Value) string {
	switch {
	case v.Kind() == reflect.String:
		return quantity.TOML(v.String())
	case v.Kind() == reflect.Slice:
		var all []string
		for i := range v.Len() {
			all = append(all, w.literal(k, v.Index(i)))
		}
		return "[" + strings.Join(all, ", ") + "]"
	case v.CanFloat() && k.Unit == "%" && !k.Plain:
		return quote(number(quantity.Shift(v.Float(), 2)) + " %")
	case v.CanFloat() && k.Unit != "" && !k.Plain:
		return quote(number(v.Float()) + " " + k.Unit)
	case v.CanFloat():
		return number(v.Float())
	}
	return fmt.Sprint(v)
}

// bracketed is a list as it is written.
func bracketed[T any](all []T, text func(T) string) string {
	texts := make([]string, len(all))
	for i, x := range all {
		texts[i] = text(x)
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// option is a key that is not set, as it would be written; "" for one that has
// no place in the design or that another key says.
func (w *writer) option(s *Section, k *Key) string {
	switch {
	case !w.options, !k.fits(w.design), k.Name == "tiles", k.Place == "Series.To" && w.design == "triaxial-series":
		return ""
	case k.Name == "method":
		return `# method = "weigh"`
	}
	return "# " + strings.Replace(k.line(), "Magnesia matt", w.d.Glazes[0].Name, 1)
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
