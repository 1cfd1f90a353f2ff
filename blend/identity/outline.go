// Package identity ties a log to the plan that it was made for.
//
// An Outline is what decides which mark stands for which mixture on which body,
// a Fingerprint its short form: a log with the plan's fingerprint is the plan's.
// Amounts is what decides, beside the outline, how much was really measured into
// each cup. Both are written into logs as lines of text, and read back from
// there, logs of earlier versions too.
//
// Package logbook writes OutlineOf(p).Lines() and AmountsOf(p).Lines() into its
// sheet Plan; package record reads them with ReadOutline and ReadAmounts.
// [[poured]] belongs to neither: the log's sheet Cups wins over it.
package identity

import (
	"crypto/sha256"
	"encoding/base32"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Outline is a matter to an entry. Two plans with equal outlines give tiles that
// can be read with either. Titles, amounts in the cups, instruments and the
// board do not belong to it.
type Outline []Matter

// Matter is one thing that an outline says: "divisions: 6", or, with a name,
// `recipe of "Ash": "Silica" 40`.
type Matter struct {
	Label string // "divisions", "recipe of"
	Name  string // of a glaze or a material, "" for none
	Text  string
}

// String is the matter as a log has it.
func (m Matter) String() string { return m.key() + ": " + m.Text }

// key is the label with its name in quotes.
func (m Matter) key() string {
	if m.Name == "" {
		return m.Label
	}
	return m.Label + " " + quantity.TOML(m.Name)
}

// OutlineOf is the outline of a plan.
func OutlineOf(p *blend.Plan) Outline {
	b := p.Blend
	o := Outline{{Label: "mark", Text: p.Mark}, {Label: "kind", Text: string(b.Kind)}}
	if b.HasSeries() {
		o.add("base", "", p.Glazes[b.Base].Name)
		for _, s := range b.Series {
			steps := each(s.Percents, percent)
			if b.Kind == blend.Triaxial {
				steps = []string{"to " + quantity.Plain(s.To) + " %"}
			}
			o.add("series", s.Label(), steps...)
		}
	} else {
		o.add("ends", "", each(b.Ends, func(i int) string { return quantity.TOML(p.Glazes[i].Name) })...)
		o.add("basis", "", string(b.Basis))
	}
	o.design(p)
	for _, i := range b.Glazes() {
		o.glaze(p.Glazes[i], !b.HasSeries() && b.Basis != blend.Dry)
	}
	o.add("bodies", "", each(p.Tiles.Bodies, quantity.TOML)...)
	o.add("coats", "", strconv.Itoa(p.Tiles.Coats))
	o.add("repeats", "", strconv.Itoa(p.Tiles.Repeats))
	return o
}

func (o *Outline) add(label, name string, texts ...string) {
	*o = append(*o, Matter{label, name, strings.Join(texts, ", ")})
}

// design adds what the kind of design is laid out by.
func (o *Outline) design(p *blend.Plan) {
	b := p.Blend
	add := func(label string, is bool, texts ...string) {
		if is {
			o.add(label, "", texts...)
		}
	}
	// The outline of a line counts its points, with the ends that interior leaves
	// out: logs have always done so.
	_, points := b.LineSteps()
	add("cells", b.Cells > 0, strconv.Itoa(points))
	add("columns", b.Columns > 0, strconv.Itoa(b.Columns))
	add("rows", b.Rows > 0, strconv.Itoa(b.Rows))
	add("divisions", b.Divisions > 0, strconv.Itoa(b.Divisions))
	add("interior", b.Interior, "true")
	add("alone", b.Alone, "true")
	add("shared-zero", b.SharedZero, "true")
	for i, bound := range b.Bounds {
		low, high := quantity.Shift(bound.Lo, 2), quantity.Shift(bound.Hi, 2)
		o.add("bounds of", p.Glazes[b.Ends[i]].Name, quantity.Plain(low)+" to "+percent(high))
	}
	add("cells", b.Parts != nil, each(b.Parts, func(parts []float64) string {
		return "[" + strings.Join(each(parts, quantity.Plain), ", ") + "]"
	})...)
	add("shares", len(b.PairShares) > 0, each(b.PairShares, percent)...)
	add("repeat", len(b.Repeat) > 0, each(b.Repeat, strconv.Itoa)...)
}

// glaze adds a glaze's recipe; where shares are not of dry glaze, the water in
// it decides how much dry glaze a share brings.
func (o *Outline) glaze(g blend.Glaze, wet bool) {
	part := func(p blend.Part) string { return quantity.TOML(p.Material) + " " + quantity.Plain(p.Percent) }
	recipe := each(g.Recipe, part)
	if len(recipe) == 0 {
		recipe = []string{"none"} // from the bucket
	}
	o.add("recipe of", g.Name, recipe...)
	if len(g.Additions) > 0 {
		o.add("additions to", g.Name, each(g.Additions, part)...)
	}
	if wet {
		o.add(slipLabel, g.Name, "specific gravity "+quantity.Plain(g.SG), "water "+quantity.Plain(g.WaterPer)+" g",
			"solids "+quantity.Plain(g.Solids))
	}
}

// Lines is the outline as a log has it, a matter to a line.
func (o Outline) Lines() []string {
	return each(o, Matter.String)
}

// ReadOutline reads the lines of a log; a line without a colon is a matter
// without a text.
func ReadOutline(lines []string) Outline {
	o := make(Outline, len(lines))
	for i, line := range lines {
		label, text, _ := strings.Cut(line, ":")
		name := ""
		if before, _, quoted := strings.Cut(label, `"`); quoted { // the name may have a colon
			if quote, rest, ok := cutQuoted(line[len(before):]); ok {
				label, name, text = before, quote, strings.TrimPrefix(rest, ":")
			}
		}
		o[i] = Matter{strings.TrimSpace(label), name, strings.TrimSpace(text)}
	}
	return o
}

// cutQuoted is the text in quotes that s begins with, and what comes behind it.
func cutQuoted(s string) (text, rest string, ok bool) {
	quoted, err := strconv.QuotedPrefix(s)
	if err == nil {
		text, err = strconv.Unquote(quoted)
	}
	return text, strings.TrimPrefix(s, quoted), err == nil
}

// Text is the text of the first matter with a label and a name; "" for none.
func (o Outline) Text(label, name string) string {
	for _, m := range o {
		if m.Label == label && quantity.Fold(m.Name) == quantity.Fold(name) {
			return m.Text
		}
	}
	return ""
}

// SameRecipe reports whether a glaze of one outline and a glaze of another are
// of one recipe with the same additions.
func (o Outline) SameRecipe(name string, other Outline, otherName string) bool {
	recipe := o.Text("recipe of", name)
	return recipe != "" && recipe == other.Text("recipe of", otherName) &&
		o.Text("additions to", name) == other.Text("additions to", otherName)
}

// Fingerprint is ten characters that stand for the outline of a plan: equal
// plans have equal ones, and a change of any matter gives another.
func Fingerprint(p *blend.Plan) string {
	sum := sha256.Sum256([]byte(strings.Join(OutlineOf(p).Lines(), "\n")))
	const characters = 10 // 50 bits
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:]))[:characters]
}

// Differences says what is different between two outlines, a matter to a line:
// "divisions: was 6, is 7". It is empty when they are equal.
func Differences(was, is Outline) (all []string) {
	at := func(o Outline, m Matter) int {
		return slices.IndexFunc(o, func(x Matter) bool { return x.key() == m.key() })
	}
	for _, m := range was {
		if i := at(is, m); i < 0 {
			all = append(all, m.subject()+": was "+m.detail()+", now removed")
		} else if is[i].Text != m.Text {
			all = append(all, m.subject()+": was "+m.detail()+", is "+is[i].detail())
		}
	}
	for _, m := range is {
		if at(was, m) < 0 {
			all = append(all, m.subject()+": is new, "+m.detail())
		}
	}
	if all == nil && !slices.Equal(was, is) {
		all = []string{"the order of the series or of the glazes"}
	}
	return all
}

// slipLabel is the label of a wet glaze. Logs have it, so it stays.
const slipLabel = "slip of"

// subject is what the matter is about, for a person.
func (m Matter) subject() string {
	if m.Label == slipLabel {
		return "wet glaze " + quantity.TOML(m.Name)
	}
	return m.key()
}

// detail is the matter's text, without the nought that stands for what a plan
// does not give.
func (m Matter) detail() string {
	if m.Label != slipLabel {
		return m.Text
	}
	given := slices.DeleteFunc(strings.Split(m.Text, ", "), func(part string) bool {
		return strings.HasSuffix(strings.TrimSuffix(part, " g"), " 0")
	})
	if len(given) == 0 {
		return "no SG"
	}
	return strings.Replace(strings.Join(given, ", "), "specific gravity", "SG", 1)
}

func percent(x float64) string { return quantity.Plain(x) + " %" }

// each is the text of each entry of a list.
func each[T any](list []T, text func(T) string) []string {
	all := make([]string, len(list))
	for i, x := range list {
		all[i] = text(x)
	}
	return all
}

// Tiles are the bodies, and how many tiles of each a cup has; none where the
// outline does not say.
func (o Outline) Tiles() (bodies []string, repeats int) {
	for rest := o.Text("bodies", ""); rest != ""; {
		body, behind, ok := cutQuoted(rest)
		if !ok {
			return nil, 0
		}
		bodies, rest = append(bodies, body), strings.TrimPrefix(behind, ", ")
	}
	repeats, _ = strconv.Atoi(o.Text("repeats", ""))
	return bodies, max(repeats, 1)
}
