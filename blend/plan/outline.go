package plan

import (
	"crypto/sha256"
	"encoding/base32"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Outline is what decides which mark stands for which mixture on which body,
// a matter to a line, as in "divisions: 6". Two plans with equal outlines give
// tiles that can be read with either. Titles, amounts in the cups,
// instruments and the board do not belong to it.
func Outline(p *blend.Plan) []string {
	b := p.Blend
	lines := []string{"mark: " + p.Mark, "kind: " + string(b.Kind)}
	line := func(label string, texts ...string) {
		lines = append(lines, label+": "+strings.Join(texts, ", "))
	}
	glazes := b.Ends
	if b.HasSeries() {
		glazes = []int{b.Base}
		line("base", p.Glazes[b.Base].Name)
		for _, s := range b.Series {
			if b.Kind == blend.Triaxial {
				line("series "+tomlText(s.Material), "to "+number(s.To)+" %")
			} else {
				line("series "+tomlText(s.Label()), percentTexts(s.Percents)...)
			}
		}
	} else {
		var ends []string
		for _, e := range b.Ends {
			ends = append(ends, tomlText(p.Glazes[e].Name))
		}
		line("ends", ends...)
		line("basis", string(b.Basis))
	}
	// The points of a line, its ends with them, whichever are left out.
	_, points := b.Design().LineSteps()
	if b.Cells == 0 {
		points = 0
	}
	for _, n := range []struct {
		label string
		n     int
	}{{"cells", points}, {"columns", b.Columns}, {"rows", b.Rows}, {"divisions", b.Divisions}} {
		if n.n > 0 {
			line(n.label, number(float64(n.n)))
		}
	}
	for _, yes := range []struct {
		label string
		is    bool
	}{{"interior", b.Interior}, {"alone", b.Alone}, {"shared-zero", b.SharedZero}} {
		if yes.is {
			line(yes.label, "true")
		}
	}
	if len(b.PairShares) > 0 {
		line("shares", percentTexts(b.PairShares)...)
	}
	if len(b.Repeat) > 0 {
		var cups []string
		for _, n := range b.Repeat {
			cups = append(cups, number(float64(n)))
		}
		line("repeat", cups...)
	}
	for i, bound := range b.Bounds {
		line("bounds of "+tomlText(p.Glazes[b.Ends[i]].Name), number(quantity.Shift(bound.Lo, 2))+" to "+number(quantity.Shift(bound.Hi, 2))+" %")
	}
	if len(b.Parts) > 0 {
		var cells []string
		for _, parts := range b.Parts {
			cells = append(cells, bracket(parts))
		}
		line("cells", cells...)
	}
	for _, i := range glazes {
		g := p.Glazes[i]
		line("recipe of "+tomlText(g.Name), materialsOf(g.Recipe)...)
		if len(g.Additions) > 0 {
			line("additions to "+tomlText(g.Name), materialsOf(g.Additions)...)
		}
		if !b.HasSeries() && b.Basis != blend.Dry { // the slip decides how much dry a share brings
			line("slip of "+tomlText(g.Name), "specific gravity "+number(g.SG), "water "+number(g.WaterPer)+" g", "solids "+number(g.Solids))
		}
	}
	var bodies []string
	for _, body := range p.Tiles.Bodies {
		bodies = append(bodies, tomlText(body))
	}
	line("bodies", bodies...)
	line("coats", number(float64(p.Tiles.Coats)))
	line("repeats", number(float64(p.Tiles.Repeats)))
	return lines
}

func percentTexts(xs []float64) []string {
	all := make([]string, len(xs))
	for i, x := range xs {
		all[i] = number(x) + " %"
	}
	return all
}

func materialsOf(parts []blend.Part) []string {
	all := make([]string, len(parts))
	for i, p := range parts {
		all[i] = tomlText(p.Material) + " " + number(p.Amount)
	}
	return all
}

// Fingerprint is ten signs that stand for the outline of a plan: equal plans
// have equal ones, and a change of any line gives another.
func Fingerprint(p *blend.Plan) string {
	sum := sha256.Sum256([]byte(strings.Join(Outline(p), "\n")))
	const signs = 10 // 50 bits
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:]))[:signs]
}

// Differences says what is different between two outlines, a matter to a line:
// "divisions: was 6, is 7". It is empty when they are equal.
func Differences(was, is []string) []string {
	labels := func(outline []string) (order []string, texts map[string]string) {
		texts = map[string]string{}
		for _, line := range outline {
			label, text := labelled(Said(line))
			order = append(order, label)
			texts[label] = text
		}
		return order, texts
	}
	wasOrder, wasText := labels(was)
	isOrder, isText := labels(is)
	var all []string
	for _, label := range wasOrder {
		text, there := isText[label]
		switch {
		case !there:
			all = append(all, label+": was "+wasText[label]+", is no more")
		case text != wasText[label]:
			all = append(all, label+": was "+wasText[label]+", is "+text)
		}
	}
	for _, label := range isOrder {
		if _, there := wasText[label]; !there {
			all = append(all, label+": is new, "+isText[label])
		}
	}
	if all == nil && !slices.Equal(was, is) {
		all = []string{"the order of the series or of the glazes"}
	}
	return all
}

// Said is a line of an outline as a person is told it: without the nought that
// stands for what a plan does not give.
func Said(line string) string {
	if !strings.HasPrefix(line, "slip of ") {
		return line
	}
	line = strings.TrimSuffix(line, ", solids 0")
	for _, nought := range []string{", water 0 g", " specific gravity 0,"} {
		if at := strings.LastIndex(line, nought); at >= 0 {
			line = line[:at] + line[at+len(nought):]
		}
	}
	return line
}

// labelled parts a line of an outline at the colon after its label, which may
// hold a name in quotes with colons of its own.
func labelled(line string) (label, text string) {
	quoted := false
	for i := 0; i < len(line); i++ {
		switch {
		case line[i] == '\\':
			i++
		case line[i] == '"':
			quoted = !quoted
		case line[i] == ':' && !quoted:
			return line[:i], strings.TrimSpace(line[i+1:])
		}
	}
	return line, ""
}
