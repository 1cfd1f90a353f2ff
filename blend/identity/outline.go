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
	glazes := b.Ends
	if b.HasSeries() {
		glazes = []int{b.Base}
		o.add("base", "", p.Glazes[b.Base].Name)
		o.series(b)
	} else {
		var ends []string
		for _, e := range b.Ends {
			ends = append(ends, quantity.TOML(p.Glazes[e].Name))
		}
		o.add("ends", "", ends...)
		o.add("basis", "", string(b.Basis))
	}
	o.design(p)
	for _, i := range glazes {
		o.glaze(p.Glazes[i], !b.HasSeries() && b.Basis != blend.Dry)
	}
	var bodies []string
	for _, body := range p.Tiles.Bodies {
		bodies = append(bodies, quantity.TOML(body))
	}
	o.add("bodies", "", bodies...)
	o.add("coats", "", strconv.Itoa(p.Tiles.Coats))
	o.add("repeats", "", strconv.Itoa(p.Tiles.Repeats))
	return o
}

func (o *Outline) add(label, name string, texts ...string) {
	*o = append(*o, Matter{label, name, strings.Join(texts, ", ")})
}

// series adds the steps of each series.
func (o *Outline) series(b blend.Blend) {
	for _, s := range b.Series {
		steps := percents(s.Percents)
		if b.Kind == blend.Triaxial {
			steps = []string{"to " + quantity.Plain(s.To) + " %"}
		}
		o.add("series", s.Label(), steps...)
	}
}

// design adds what the kind of design is laid out by.
func (o *Outline) design(p *blend.Plan) {
	b := p.Blend
	for _, n := range []struct {
		label string
		n     int
	}{{"cells", points(b)}, {"columns", b.Columns}, {"rows", b.Rows}, {"divisions", b.Divisions}} {
		if n.n > 0 {
			o.add(n.label, "", strconv.Itoa(n.n))
		}
	}
	for _, yes := range []struct {
		label string
		is    bool
	}{{"interior", b.Interior}, {"alone", b.Alone}, {"shared-zero", b.SharedZero}} {
		if yes.is {
			o.add(yes.label, "", "true")
		}
	}
	for i, bound := range b.Bounds {
		o.add("bounds of", p.Glazes[b.Ends[i]].Name, quantity.Plain(quantity.Shift(bound.Lo, 2))+" to "+quantity.Plain(quantity.Shift(bound.Hi, 2))+" %")
	}
	lists := func(label string, rows [][]float64) {
		var all []string
		for _, row := range rows {
			all = append(all, "["+strings.Join(numbers(row), ", ")+"]")
		}
		if all != nil {
			o.add(label, "", all...)
		}
	}
	lists("cells", b.Parts)
	if len(b.PairShares) > 0 {
		o.add("shares", "", percents(b.PairShares)...)
	}
	if len(b.Repeat) > 0 {
		var all []string
		for _, n := range b.Repeat {
			all = append(all, strconv.Itoa(n))
		}
		o.add("repeat", "", all...)
	}
}

// points is the points of a line, as logs have always counted them: the ends that
// interior leaves out among them.
func points(b blend.Blend) int {
	if b.Cells == 0 {
		return 0
	}
	_, n := b.Design().LineSteps()
	return n
}

// glaze adds a glaze's recipe; where shares are not of dry glaze, the water in
// it decides how much dry glaze a share brings.
func (o *Outline) glaze(g blend.Glaze, wet bool) {
	if recipe := parts(g.Recipe); len(recipe) > 0 {
		o.add("recipe of", g.Name, recipe...)
	} else {
		o.add("recipe of", g.Name, "none") // from the bucket
	}
	if len(g.Additions) > 0 {
		o.add("additions to", g.Name, parts(g.Additions)...)
	}
	if wet {
		o.add(slipLabel, g.Name, "specific gravity "+quantity.Plain(g.SG), "water "+quantity.Plain(g.WaterPer)+" g", "solids "+quantity.Plain(g.Solids))
	}
}

// Lines is the outline as a log has it, a matter to a line.
func (o Outline) Lines() []string {
	all := make([]string, len(o))
	for i, m := range o {
		all[i] = m.String()
	}
	return all
}

// ReadOutline reads the lines of a log; a line without a colon is a matter
// without a text.
func ReadOutline(lines []string) Outline {
	o := make(Outline, len(lines))
	for i, line := range lines {
		label, text := parted(line)
		m := Matter{Label: label, Text: text}
		if at := strings.IndexByte(label, '"'); at > 0 {
			if name, err := strconv.Unquote(label[at:]); err == nil {
				m.Label, m.Name = strings.TrimSpace(label[:at]), name
			}
		}
		o[i] = m
	}
	return o
}

// parted cuts a line at the colon after its label, which may hold a name in
// quotes with colons of its own.
func parted(line string) (label, text string) {
	inQuotes := false
	for i := 0; i < len(line); i++ {
		switch {
		case line[i] == '\\':
			i++
		case line[i] == '"':
			inQuotes = !inQuotes
		case line[i] == ':' && !inQuotes:
			return line[:i], strings.TrimSpace(line[i+1:])
		}
	}
	return line, ""
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
func Differences(was, is Outline) []string {
	find := func(o Outline, m Matter) (Matter, bool) {
		i := slices.IndexFunc(o, func(x Matter) bool { return x.key() == m.key() })
		if i < 0 {
			return Matter{}, false
		}
		return o[i], true
	}
	var all []string
	for _, m := range was {
		now, there := find(is, m)
		switch {
		case !there:
			all = append(all, m.subject()+": was "+m.detail()+", now removed")
		case now.Text != m.Text:
			all = append(all, m.subject()+": was "+m.detail()+", is "+now.detail())
		}
	}
	for _, m := range is {
		if _, there := find(was, m); !there {
			all = append(all, m.subject()+": is new, "+m.detail())
		}
	}
	if all == nil && !slices.Equal(was, is) {
		all = []string{"the order of the series or of the glazes"}
	}
	return all
}

// Sentence is the matter as a person is told it.
func (m Matter) Sentence() string { return m.subject() + ": " + m.detail() }

// slipLabel is the label of a wet glaze, in the logs that there are.
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
	text := " " + strings.TrimSuffix(m.Text, ", solids 0")
	for _, nought := range []string{", water 0 g", " specific gravity 0,", " specific gravity 0"} {
		if at := strings.LastIndex(text, nought); at >= 0 && !strings.HasPrefix(text[at+len(nought):], ".") {
			text = text[:at] + text[at+len(nought):]
		}
	}
	if text = strings.TrimSpace(text); text == "" {
		return "no SG"
	}
	return strings.Replace(text, "specific gravity", "SG", 1)
}

func percents(xs []float64) []string {
	all := numbers(xs)
	for i := range all {
		all[i] += " %"
	}
	return all
}

func numbers(xs []float64) []string {
	all := make([]string, len(xs))
	for i, x := range xs {
		all[i] = quantity.Plain(x)
	}
	return all
}

func parts(list []blend.Part) []string {
	all := make([]string, len(list))
	for i, p := range list {
		all[i] = quantity.TOML(p.Material) + " " + quantity.Plain(p.Percent)
	}
	return all
}

// Tiles are the bodies, and how many tiles of each a cup has; none where the
// outline does not say.
func (o Outline) Tiles() (bodies []string, repeats int) {
	rest := o.Text("bodies", "")
	for rest != "" {
		quoted, err := strconv.QuotedPrefix(rest)
		if err != nil {
			return nil, 0
		}
		body, err := strconv.Unquote(quoted)
		if err != nil {
			return nil, 0
		}
		bodies = append(bodies, body)
		rest = strings.TrimPrefix(rest[len(quoted):], ", ")
	}
	repeats, _ = strconv.Atoi(o.Text("repeats", ""))
	return bodies, max(repeats, 1)
}
