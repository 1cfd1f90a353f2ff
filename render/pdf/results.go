package pdf

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/wording"
)

// How much of the long lists the first section prints.
const (
	mostNotes      = 16
	mostComplaints = 12
	mostRecipes    = 12
)

// narrowMM is the width of text below which wide tables are set smaller.
const narrowMM = 150.0

// report draws what a log says about a test, on sheets like the packet's.
type report struct {
	*sheets
	r        *results.Results
	measures []*results.Measure // in the order of the sections
}

// Results draws what was learnt from a crate of fired tiles as a PDF file: a
// section on what was read and which cups came out best, with their recipes,
// then one for each measure with its maps and its models. tried is what was
// asked for otherwise than the plan's file says, or nothing. Nothing is written
// if anything is wrong. Warnings are about texts that cannot be printed as they
// are.
func Results(w io.Writer, places *layout.Places, r *results.Results, tried string) ([]wording.Line, error) {
	p, err := drawResults(places, r, tried)
	if err != nil {
		return nil, err
	}
	if err := p.doc.write(w); err != nil {
		return nil, err
	}
	return p.strange("results"), nil
}

// drawResults is Results without the writing.
func drawResults(places *layout.Places, r *results.Results, tried string) (*report, error) {
	s, err := newSheets(r.Test, places, "results of "+wording.Summary(r.Test))
	if err != nil {
		return nil, err
	}
	s.Tried = tried
	p := &report{s, r, slices.Concat(r.Judged(), r.Coats())}
	p.overview()
	for _, m := range p.measures {
		p.measure(m)
	}
	p.said()
	return p, nil
}

// newSheets are sheets of the plan's paper for something other than the packet.
func newSheets(t *blend.Test, places *layout.Places, subject string) (*sheets, error) {
	d, err := newDoc(t.Plan.Title, subject)
	if err != nil {
		return nil, err
	}
	s := &sheets{Packet: Packet{Test: t, Places: places}, test: t, plan: t.Plan, doc: d}
	s.wMM, s.hMM = benchPaper(t.Plan.Board)
	return s, nil
}

// overview says what was read, and which cups came out best.
func (p *report) overview() {
	p.section.title = "Results"
	f := p.begin("")
	f.facts(p.readFacts())
	p.best(f)
	p.firing(f)
	f.limited("About the log", p.r.Log.Notes, mostNotes)
	var complaints []string
	for _, c := range p.r.Log.Complaints {
		complaints = append(complaints, c.String())
	}
	f.limited("Skipped, or read with a doubt", complaints, mostComplaints)
	f.space(2)
	f.para(wording.NoProof+" Have a laboratory leach-test it.", bold(benchPt))
	f.longTexts()
}

// readFacts says of how many tiles what was read, and of which nothing.
func (p *report) readFacts() []fact {
	facts := []fact{{"Tiles", fmt.Sprintf("%d of %d recorded", p.r.Tiles, p.Places.Scheme.Tiles())}}
	var read []string
	for _, m := range p.measures {
		read = append(read, fmt.Sprintf("%s of %s", m.Head, counted(m.N, "tile", "tiles")))
	}
	if read == nil {
		read = []string{"no column of numbers"}
	}
	facts = append(facts, fact{"Numbers", strings.Join(read, ", ")})
	for _, text := range wording.MissingText(p.r, p.r.Missing, "no entries") {
		facts = append(facts, fact{"Missing", text})
	}
	return facts
}

// firing is what was written down of the firing.
func (p *report) firing(f *flow) {
	f.subheading("Firing")
	if len(p.r.Log.Firing) == 0 {
		f.para("No entries.", regular(benchPt))
		return
	}
	var facts []fact
	for _, e := range p.r.Log.Firing {
		facts = append(facts, fact{e.Label, e.Value})
	}
	f.facts(facts)
}

// limited sets a part of the first so many texts, and says how many there are
// beyond them.
func (f *flow) limited(title string, texts []string, most int) {
	if len(texts) == 0 {
		return
	}
	f.subheading(title)
	f.items("–", texts[:min(most, len(texts))], regular(benchPt))
	if more := len(texts) - most; more > 0 {
		f.para(fmt.Sprintf("And %d more: pourboard results lists them.", more), regular(benchPt))
	}
}

// best ranks the cups by every measure, and gives the recipes of the first.
func (p *report) best(f *flow) {
	f.need(80)
	f.subheading("Best cups")
	f.doc.bookmark(1, "Best cups")
	ranked := p.rankTable()
	if f.width() < narrowMM {
		ranked.pt = deskPt
	}
	if len(ranked.rows) == 0 {
		f.para("No ratings or numbers: cups cannot be ranked.", regular(benchPt))
		return
	}
	f.table(ranked)
	if len(p.plan.Tiles.Bodies) > 1 {
		f.para("All bodies together are the means of the bodies' means, of the cups that were read on each body.", regular(benchPt))
	}
	p.recipes(f)
}

// rankTable has a row for each measure and body.
func (p *report) rankTable() table {
	t := table{columns: []column{
		{title: ""}, {title: "on"}, {title: "cups", align: right, whole: true}, {title: "highest", grow: 1},
	}}
	judged := p.r.Judged()
	lowest := slices.ContainsFunc(judged, func(m *results.Measure) bool { return len(m.Lowest) > 0 })
	if lowest {
		t.columns = append(t.columns, column{title: "lowest", grow: 1})
	}
	for _, m := range judged {
		for k, high := range m.Highest {
			r := row{rule: k == 0 && len(t.rows) > 0, cells: []cell{{}, words(wording.BodyText(p.r, high.Body)), words(fmt.Sprint(high.Of)), words(p.ranks(m, high))}}
			if k == 0 {
				r.cells[0] = words(m.Head)
			}
			if lowest {
				r.cells = append(r.cells, cell{})
			}
			if k < len(m.Lowest) {
				r.cells[4] = words(p.ranks(m, m.Lowest[k]))
			}
			t.rows = append(t.rows, r)
		}
	}
	return t
}

// ranks are the places of a ranking, a line each.
func (p *report) ranks(m *results.Measure, ranking results.Ranking) string {
	var lines []string
	for _, k := range ranking.Ranks {
		lines = append(lines, wording.RankedText(p.r, m, ranking.Body, k))
	}
	return strings.Join(lines, "\n")
}

// recipes sets the recipes of the cups in a first place side by side.
func (p *report) recipes(f *flow) {
	cups := p.r.Firsts()
	f.need(50)
	f.subheading("Recipes of the first")
	f.doc.bookmark(1, "Recipes of the first")
	f.para("As they were measured into the cups, in percent of the dry recipe; what has a + comes on top of that.", regular(benchPt))
	f.para(wording.EndsText(p.r)+".", regular(benchPt))
	if more := len(cups) - mostRecipes; more > 0 {
		slices.Sort(cups[mostRecipes:])
		f.para(fmt.Sprintf("So many share a first place that the recipes of %s are left out here: the command batch gives that of any cup.",
			quantity.Cups(cups[mostRecipes:], 20)), regular(benchPt))
		cups = cups[:mostRecipes]
	}
	slices.Sort(cups)
	abreast := 6
	if f.width() < narrowMM {
		abreast = 4
	}
	for some := range slices.Chunk(cups, abreast) {
		f.table(p.recipeTable(some))
	}
}

// recipeTable has a column for each of a few cups.
func (p *report) recipeTable(cups []int) table {
	t := table{pt: 10, padMM: 0.8, columns: []column{{title: ""}}}
	asked := row{cells: []cell{words("asked")}}
	var recipes, additions [][]blend.Part
	for _, n := range cups {
		t.columns = append(t.columns, column{title: cupText(n), align: right})
		asked.cells = append(asked.cells, words(strings.ReplaceAll(wording.CellText(p.r, n), ", ", "\n")))
		recipe, over := p.test.Recipe(n-1, blend.Measured)
		recipes, additions = append(recipes, recipe), append(additions, over)
	}
	t.rows = append(t.rows, asked)
	for k, lists := range [][][]blend.Part{recipes, additions} {
		sign := [...]string{"", "+ "}[k]
		for i, material := range materialsOf(lists) {
			r := row{rule: i == 0, cells: []cell{words(sign + material)}}
			for _, list := range lists {
				text := "–"
				if at := slices.IndexFunc(list, func(p blend.Part) bool { return p.Material == material }); at >= 0 {
					text = quantity.RecipeText(list[at].Amount)
				}
				r.cells = append(r.cells, words(text))
			}
			t.rows = append(t.rows, r)
		}
	}
	return t
}

// materialsOf names the materials of several recipes, each once.
func materialsOf(lists [][]blend.Part) []string {
	var names []string
	for _, list := range lists {
		for _, part := range list {
			if !slices.Contains(names, part.Material) {
				names = append(names, part.Material)
			}
		}
	}
	return names
}

// measure is the section of one column of numbers.
func (p *report) measure(m *results.Measure) {
	p.section.title = m.Head
	f := p.begin("")
	facts := []fact{{"Read of", counted(m.N, "tile", "tiles")}}
	for _, text := range wording.MissingText(p.r, m.Missing, "no "+m.Head) {
		facts = append(facts, fact{"Missing", text})
	}
	f.facts(append(facts, fact{"Scatter", sentence(wording.ScatterText(m))}))
	p.resultMaps(f, m)
	if len(m.Models) > 0 {
		p.models(f, m)
	}
	f.longTexts()
}

// said is the section of what was written in words, a row for each cup.
func (p *report) said() {
	t := table{pt: 10, padMM: 0.8, columns: []column{
		{title: "cup", align: right, whole: true}, {title: "tiles", align: right, whole: true},
		{title: "defects", grow: 1, bold: true}, {title: "surface", grow: 1}, {title: "colour", grow: 1}, {title: "coats, notes", grow: 2},
	}}
	for i := range p.test.Cells {
		s := p.r.Said(i+1, results.AllBodies)
		if s.Empty() {
			continue
		}
		t.rows = append(t.rows, row{cells: []cell{
			words(fmt.Sprint(s.Cell)), words(fmt.Sprint(s.Tiles)), words(wording.CountsText(s, s.Defects)),
			words(wording.CountsText(s, s.Surface)), words(wording.CountsText(s, s.Colour)), words(strings.Join(append(wording.CoatTexts(s), s.Notes...), "\n")),
		}})
	}
	if len(t.rows) == 0 {
		return
	}
	p.section.title = "Notes by cup"
	f := p.begin("")
	f.para("Of all tiles of a cup, whatever their body; a number such as 2 of 3 is of the tiles of which anything was written.", regular(benchPt))
	f.table(t)
	f.longTexts()
}

// sentence is a clause with a capital and a full stop.
func sentence(clause string) string {
	first, size := utf8.DecodeRuneInString(clause)
	return string(unicode.ToUpper(first)) + clause[size:] + "."
}
