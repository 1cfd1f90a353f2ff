// Package report draws what was learnt from a crate of fired tiles: first what
// came out best and what to do next, then the readings by map, then the models
// behind them.
package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// How much of long lists is printed.
const (
	mostNotes      = 16
	mostComplaints = 12
	mostRecipes    = 6
)

var (
	body   = page.Regular(page.Body)
	strong = page.Bold(page.Body)
	fine   = page.Regular(page.Small)
)

// report draws what a log says about a test.
type report struct {
	r        *results.Results
	test     *blend.Test
	places   *layout.Places
	tried    string
	doc      *page.Doc
	w, h     float64
	measures []*results.Measure
}

// Results draws what was learnt from a log as a PDF file. tried is what was
// asked for otherwise than the plan's file says, or nothing. Nothing is written
// if anything is wrong. The notes are about texts that cannot be printed as they
// are.
func Results(w io.Writer, places *layout.Places, r *results.Results, tried string) ([]string, error) {
	doc := page.New(r.Test.Plan.Title, "results", "results")
	measures := slices.Concat(r.Judged(), r.Coats())
	p := &report{r: r, test: r.Test, places: places, tried: tried, doc: doc, measures: measures}
	p.w, p.h = layout.HandPaper(r.Test.Plan.Board)
	p.first()
	for _, m := range p.measures {
		p.measure(m)
	}
	p.log()
	for _, m := range p.measures {
		p.models(m)
	}
	if err := doc.Write(w); err != nil {
		return nil, err
	}
	return doc.Unprinted(), nil
}

// begin begins a part on a new page.
func (p *report) begin(title, lead string) *page.Flow {
	at := p.doc.Add(title, p.w, p.h)
	at.Bookmark(title)
	return page.NewFlow(at, page.Titles{Title: title, Test: p.test.Plan.Title, Tried: p.tried, Lead: lead}.Draw)
}

// first is what came out best, by the first measure, which is the rating where
// there is one, and what to do next. The others' rankings are on their own pages.
func (p *report) first() {
	lead := fmt.Sprintf("%d of %d tiles recorded.", p.r.Tiles, p.places.Scheme.Tiles())
	for _, m := range p.measures {
		lead += fmt.Sprintf(" %s: %d tiles.", m.Head, m.N)
	}
	f := p.begin("Results", lead)
	if judged := p.r.Judged(); len(judged) > 0 {
		p.rankings(f, "Best cups by "+judged[0].Head, judged[0])
	} else {
		f.List("Best cups", body, []string{"No ratings or numbers: cups cannot be ranked."})
	}
	p.next(f)
	p.recipes(f)
	f.Y += 1
	f.Para(strong, wording.NoProof)
}

// rankings are the best cups by a measure, and the lowest, on every body.
func (p *report) rankings(f *page.Flow, title string, m *results.Measure) {
	columns := []page.Column{{Head: "body", Style: strong}, {Head: "highest", Grow: 1, Style: body}}
	if len(m.Lowest) > 0 {
		columns = append(columns, page.Column{Head: "lowest", Grow: 1, Style: body})
	}
	var rows [][]string
	for k, high := range m.Highest {
		row := []string{wording.RankingText(p.r, m, high), p.ranks(m, high), ""}
		if k < len(m.Lowest) {
			row[2] = p.ranks(m, m.Lowest[k])
		}
		rows = append(rows, row)
	}
	if rows != nil {
		f.Heading(title, 25)
		f.Table(columns, rows)
	}
}

// ranks are the places of a ranking, a line each.
func (p *report) ranks(m *results.Measure, ranking results.Ranking) string {
	var lines []string
	for _, k := range ranking.Ranks {
		lines = append(lines, wording.RankedText(p.r, m, ranking.Body, k))
	}
	return strings.Join(lines, "\n")
}

// next says what to go on with.
func (p *report) next(f *page.Flow) {
	steps, bucket := p.r.Next()
	if bucket == 0 {
		return
	}
	var items []string
	if len(steps) > 0 {
		items = append(items, fmt.Sprintf("For finer steps, go on from %s (pourboard next).", quantity.Cups(steps, 8)))
	}
	f.List("Next, from the best on "+wording.BodyText(p.r, p.r.Chooser().Body), body, append(items,
		fmt.Sprintf("For a bucket, scale cup %d up (pourboard batch).", bucket),
		"Look at the tiles again before you do: a rating is a number, a tile is a glaze.",
	))
}

// recipes sets the recipes of the cups in a first place side by side.
func (p *report) recipes(f *page.Flow) {
	cups := slices.DeleteFunc(slices.Clone(p.r.Firsts()), func(cup int) bool { return p.test.WithoutRecipe(cup-1) != nil })
	if len(cups) == 0 {
		return
	}
	f.Heading("Their recipes", 40)
	f.Para(fine, "As measured into the cups, % of the dry recipe, rounded to 100. + = addition, over the 100. "+
		wording.EndsText(p.r)+".")
	if more := len(cups) - mostRecipes; more > 0 {
		f.Para(fine, "Not shown: "+quantity.Plural(more, "cup", "cups")+
			" in a first place. The command batch prints any cup’s recipe.")
		cups = cups[:mostRecipes]
	}
	slices.Sort(cups)
	columns := []page.Column{{Style: body, Grow: 1.4}}
	asked := []string{"asked"}
	var recipe, over [][]string // a row for each material
	put := func(rows *[][]string, name string, cup int, text string) {
		at := slices.IndexFunc(*rows, func(row []string) bool { return row[0] == name })
		if at < 0 {
			at = len(*rows)
			*rows = append(*rows, append([]string{name}, slices.Repeat([]string{"–"}, len(cups))...))
		}
		(*rows)[at][cup+1] = text
	}
	for i, n := range cups {
		columns = append(columns, page.Column{Head: fmt.Sprint("cup ", n), Grow: 1, Style: body.To(page.Right)})
		asked = append(asked, strings.ReplaceAll(wording.CellText(p.r, n), ", ", "\n"))
		parts, additions := p.test.Recipe(n-1, blend.Measured)
		for _, part := range blend.Written(parts, blend.Measured) {
			put(&recipe, part.Material, i, quantity.AtMost(part.Percent, 3))
		}
		for _, part := range additions {
			put(&over, "+ "+part.Material, i, quantity.AtMost(part.Percent, 2))
		}
	}
	f.Table(columns, slices.Concat([][]string{asked}, recipe, over))
}

// log is what was written down, a row for each cup, the firing, what is missing,
// and what was skipped.
func (p *report) log() {
	var rows [][]string
	for i := range p.test.Cells {
		if s := p.r.Observations(i+1, results.AllBodies); !s.Empty() {
			rows = append(rows, []string{fmt.Sprint(s.Cell), fmt.Sprint(s.Tiles), wording.CountsText(s, s.Defects),
				wording.CountsText(s, s.Surface), wording.CountsText(s, s.Colour),
				strings.Join(append(wording.CoatTexts(s), s.Notes...), "\n")})
		}
	}
	var f *page.Flow
	if rows == nil {
		f = p.begin("Log", "")
	} else {
		f = p.begin("Notes by cup", "All tiles of a cup together. A number such as 2 of 3 counts the tiles with an entry.")
		f.Table([]page.Column{{Head: "cup", Style: strong.To(page.Right)}, {Head: "tiles", Style: fine.To(page.Right)},
			{Head: "defects", Grow: 1, Style: page.Bold(page.Small)}, {Head: "surface", Grow: 1, Style: fine},
			{Head: "colour", Grow: 1, Style: fine}, {Head: "coats, notes", Grow: 2, Style: fine}}, rows)
	}
	if len(p.r.Log.Firings) == 0 {
		f.List("Firing", body, []string{"No entries."})
	}
	for _, firing := range p.r.Log.Firings {
		var entries []string
		for _, e := range firing.Entries {
			entries = append(entries, e.Label+": "+e.Value)
		}
		f.List("Firing "+firing.Letter, body, entries)
	}
	list := func(title string, texts []string, most int) {
		if more := len(texts) - most; more > 0 {
			texts = append(texts[:most:most], fmt.Sprintf("And %d more: pourboard results lists them.", more))
		}
		f.List(title, body, texts)
	}
	list("Missing", wording.MissingText(p.r, p.r.Missing, "no entries"), mostNotes)
	list("About the log", p.r.Log.Notes, mostNotes)
	var complaints []string
	for _, c := range p.r.Log.Complaints {
		complaints = append(complaints, c.String())
	}
	list("Skipped or doubtful", complaints, mostComplaints)
}
