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
	p := drawn(places, r, tried)
	if err := p.doc.Write(w); err != nil {
		return nil, err
	}
	return p.doc.Unprinted([]string{r.Test.Plan.Title}), nil
}

// drawn is Results without the writing.
func drawn(places *layout.Places, r *results.Results, tried string) *report {
	doc := page.New(r.Test.Plan.Title, "results", "results")
	p := &report{r: r, test: r.Test, places: places, tried: tried, doc: doc, measures: slices.Concat(r.Judged(), r.Coats())}
	p.w, p.h = layout.HandPaper(r.Test.Plan.Board)
	p.first()
	for _, m := range p.measures {
		p.measure(m)
	}
	p.log(p.words())
	for _, m := range p.measures {
		p.models(m)
	}
	return p
}

// begin begins a part on a new page.
func (p *report) begin(title, lead string) *page.Flow {
	at := p.doc.Add(title, p.w, p.h)
	at.Bookmark(title)
	return page.NewFlow(at, page.Titles{Title: title, Test: p.test.Plan.Title, Tried: p.tried, Lead: lead}.Draw)
}

// first is what came out best, and what to do next.
func (p *report) first() {
	f := p.begin("Results", p.lead())
	p.best(f)
	p.next(f)
	p.recipes(f)
	f.Y += 1
	f.Para(strong, wording.NoProof)
}

// lead is how many tiles have each reading.
func (p *report) lead() string {
	text := fmt.Sprintf("%d of %d tiles recorded.", p.r.Tiles, p.places.Scheme.Tiles())
	for _, m := range p.measures {
		text += fmt.Sprintf(" %s: %d tiles.", m.Head, m.N)
	}
	return text
}

// best ranks the cups by the first measure, which is the rating where there is
// one; the others' rankings are on their own pages.
func (p *report) best(f *page.Flow) {
	judged := p.r.Judged()
	if len(judged) == 0 {
		f.Heading("Best cups", 10)
		f.Para(body, "No ratings or numbers: cups cannot be ranked.")
		return
	}
	p.rankings(f, "Best cups", judged[:1])
}

// rankings are the best cups, and the lowest, by some measures on every body.
func (p *report) rankings(f *page.Flow, title string, judged []*results.Measure) {
	var rows [][]string
	lowest := slices.ContainsFunc(judged, func(m *results.Measure) bool { return len(m.Lowest) > 0 })
	for _, m := range judged {
		for k, high := range m.Highest {
			row := []string{m.Head, wording.RankingText(p.r, m, high), p.ranks(m, high)}
			if lowest {
				low := ""
				if k < len(m.Lowest) {
					low = p.ranks(m, m.Lowest[k])
				}
				row = append(row, low)
			}
			rows = append(rows, row)
		}
	}
	if rows == nil {
		return
	}
	f.Heading(title, 25)
	columns := []page.Column{{Head: "read", Style: strong}, {Head: "body", Style: body}, {Head: "highest", Grow: 1, Style: body}}
	if lowest {
		columns = append(columns, page.Column{Head: "lowest", Grow: 1, Style: body})
	}
	f.Table(columns, rows)
}

// ranks are the places of a ranking, a line each.
func (p *report) ranks(m *results.Measure, ranking results.Ranking) string {
	var lines []string
	for _, k := range ranking.Ranks {
		text := wording.RankedText(p.r, m, ranking.Body, k)
		if len(k.Cells) == 1 {
			text += " (" + wording.CellText(p.r, k.Cells[0]) + ")"
		}
		lines = append(lines, text)
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

// bucket reports whether a cup, by its number, holds a glaze without a recipe.
func (p *report) bucket(cup int) bool { return p.test.WithoutRecipe(cup-1) != nil }

// recipes sets the recipes of the cups in a first place side by side.
func (p *report) recipes(f *page.Flow) {
	cups := slices.DeleteFunc(slices.Clone(p.r.Firsts()), p.bucket)
	if len(cups) == 0 {
		return
	}
	f.Heading("Their recipes", 40)
	f.Para(fine, "As measured into the cups, % of the dry recipe, rounded to 100. + = addition, over the 100. "+wording.EndsText(p.r)+".")
	if more := len(cups) - mostRecipes; more > 0 {
		f.Para(fine, fmt.Sprintf("Not shown: %s in a first place. The command batch prints any cup’s recipe.", quantity.Plural(more, "cup", "cups")))
		cups = cups[:mostRecipes]
	}
	slices.Sort(cups)
	columns := []page.Column{{Head: "", Style: body, Grow: 1.4}}
	asked := []string{"asked"}
	var recipes, additions [][]blend.Part
	for _, n := range cups {
		columns = append(columns, page.Column{Head: fmt.Sprint("cup ", n), Grow: 1, Style: body.To(page.Right)})
		asked = append(asked, strings.ReplaceAll(wording.CellText(p.r, n), ", ", "\n"))
		recipe, over := p.test.Recipe(n-1, blend.Measured)
		recipes, additions = append(recipes, blend.Written(recipe, blend.Measured)), append(additions, over)
	}
	rows := [][]string{asked}
	for k, lists := range [][][]blend.Part{recipes, additions} {
		sign := [...]string{"", "+ "}[k]
		for _, material := range materialsOf(lists) {
			row := []string{sign + material}
			for _, list := range lists {
				text := "–"
				if at := slices.IndexFunc(list, func(p blend.Part) bool { return p.Material == material }); at >= 0 {
					text = quantity.AtMost(list[at].Percent, 2+1-k)
				}
				row = append(row, text)
			}
			rows = append(rows, row)
		}
	}
	f.Table(columns, rows)
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

// words is what was written down, a row for each cup. It gives the flow to go on
// with, or nil where nothing was.
func (p *report) words() *page.Flow {
	var rows [][]string
	for i := range p.test.Cells {
		s := p.r.Observations(i+1, results.AllBodies)
		if s.Empty() {
			continue
		}
		rows = append(rows, []string{fmt.Sprint(s.Cell), fmt.Sprint(s.Tiles), wording.CountsText(s, s.Defects),
			wording.CountsText(s, s.Surface), wording.CountsText(s, s.Colour), strings.Join(append(wording.CoatTexts(s), s.Notes...), "\n")})
	}
	if rows == nil {
		return nil
	}
	f := p.begin("Notes by cup", "All tiles of a cup together. A number such as 2 of 3 counts the tiles with an entry.")
	f.Table([]page.Column{{Head: "cup", Style: strong.To(page.Right)}, {Head: "tiles", Style: fine.To(page.Right)}, {Head: "defects", Grow: 1, Style: page.Bold(page.Small)},
		{Head: "surface", Grow: 1, Style: fine}, {Head: "colour", Grow: 1, Style: fine}, {Head: "coats, notes", Grow: 2, Style: fine}}, rows)
	return f
}

// log is the firing, what is missing, and what was skipped.
func (p *report) log(f *page.Flow) {
	if f == nil {
		f = p.begin("Log", "")
	}
	if len(p.r.Log.Firings) == 0 {
		f.Heading("Firing", 10)
		f.Para(body, "No entries.")
	}
	for _, firing := range p.r.Log.Firings {
		f.Heading("Firing "+firing.Letter, 10)
		for _, e := range firing.Entries {
			f.Para(body, e.Label+": "+e.Value)
		}
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
