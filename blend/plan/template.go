package plan

import (
	"fmt"
	"strings"

	"pourboard/blend"
)

// Template is a plan with a comment beside every key for a potter to start
// from, by the name of its design. It passes Read as it stands. The error says
// which designs there are.
func Template(name string) ([]byte, error) {
	design, err := FindDesign(name)
	if err != nil {
		return nil, err
	}
	p := Start(design)
	w := writer{d: draftOf(p), design: designName(p.Blend.Kind, p.Blend.HasSeries()), remarks: true, options: true}
	w.WriteString(startHelp)
	w.all()
	return []byte(w.String()), nil
}

// Commented is a plan with a comment beside each of its keys.
func Commented(p *blend.Plan) []byte {
	w := writer{d: draftOf(p), design: designName(p.Blend.Kind, p.Blend.HasSeries()), remarks: true}
	w.all()
	return []byte(strings.TrimLeft(w.String(), "\n"))
}

// FindDesign is the design of that name.
func FindDesign(name string) (Design, error) {
	var all []string
	for _, d := range Designs() {
		if d.Name == name {
			return d, nil
		}
		all = append(all, d.Name)
	}
	return Design{}, fmt.Errorf("unknown kind %q (%s)", name, meantText(name, all))
}

const startHelp = `# A plan is one test. Change this one into your own, then run "pourboard check"
# with its name: every mistake is listed with its line. Text after # is a comment.
# The glazes here are invented to show how they are written. Put in your own.

`

// folded is text as comment lines of at most 78 characters.
func folded(text string) string {
	var b strings.Builder
	line := "#"
	for _, word := range strings.Fields(text) {
		if len([]rune(line))+1+len([]rune(word)) > 78 {
			b.WriteString(line + "\n")
			line = "#"
		}
		line += " " + word
	}
	return b.String() + line + "\n"
}

// help is what a commented plan says above a section.
func (w *writer) help(s *Section) string {
	if s.Path != "blend" {
		return s.Help
	}
	switch w.design {
	case "line":
		return "A line goes from all of the first glaze to all of the second in even steps."
	case "biaxial":
		return "A biaxial has a glaze at each corner of a rectangle: top left, top right, bottom left, bottom right."
	case "triaxial":
		return "A triaxial has a glaze at each corner of a triangle: the first at the top, the second at the left, the third at the right."
	case "quadraxial":
		return "A quadraxial is a stack of triaxials of the first three glazes. From layer to layer the share of the fourth grows, until the last cup is all of it."
	case "list":
		return "A list has a pair of brackets for each cup, with the parts of each glaze in the order of ends. [2, 1, 1] is a half and two quarters."
	case "centroid":
		return "A centroid takes each glaze alone, each pair half and half, and all of them in equal shares."
	case "pairs":
		return "Every two of the glazes are blended, in the order of ends."
	case "rows":
		return "Every cup has the same base. Each [[blend.series]] is a row of cups with its own colourant."
	case "line-series":
		return "Every cup has the same base and its own dose of one colourant."
	case "biaxial-series":
		return "Two colourants cross: the first goes from left to right, the second from the top down. Every cup has a dose of both."
	case "triaxial-series":
		return "Three colourants share a triangle: each reaches its full percentage at its own corner."
	}
	return ""
}

// Start is an invented plan of a design.
func Start(design Design) *blend.Plan {
	p := &blend.Plan{Cup: blend.Cup{Size: 100, Of: blend.Dry}}
	d := &draft{plan: p}
	for _, path := range []string{"measure", "tiles", "board"} {
		fields{reader: &reader{}, s: section(path)}.read(d)
	}
	p.Kit.Scale.Unit, p.Kit.Fine.Unit, p.Kit.Syringe.Unit = "g", "g", "mL"
	p.Kit.Fine.Size, p.Kit.FillG = 0.01, usualFillG
	p.Tiles.Bodies, p.Tiles.Coats = []string{"Porcelain", "Buff"}, 2
	b := &p.Blend
	b.Kind, b.Method, b.Basis = design.Kind, design.Method, blend.Dry
	all := startGlazes()
	if design.Series {
		p.Glazes = all[:1]
		startSeries(design, p)
		return p
	}
	if design.Method != blend.ByWeigh {
		p.Cup.Size = 200 // a jug marked every 5 mL needs that for small shares
	}
	least, _ := design.Kind.Ends()
	if least < 3 && design.Kind != blend.Line {
		least = 3
	}
	p.Glazes = all[:least]
	for i := range least {
		b.Ends = append(b.Ends, i)
	}
	startEnds(design, p)
	return p
}

// startEnds gives a blend of end glazes its steps.
func startEnds(design Design, p *blend.Plan) {
	b := &p.Blend
	switch design.Name {
	case "line":
		p.Title, p.Mark, b.Cells = "Magnesia matt into chalk white", "ML", 6
	case "biaxial":
		p.Title, p.Mark, b.Columns, b.Rows = "Four glazes in a rectangle", "MR", 5, 4
	case "triaxial":
		p.Title, p.Mark, b.Divisions = "Magnesia matt, chalk white and soda blue", "MT", 5
	case "quadraxial":
		p.Title, p.Mark, b.Divisions = "Four glazes in layers", "MF", 4
	case "list":
		p.Title, p.Mark = "Blends written out", "MW"
		b.Parts = [][]float64{{70, 30, 0}, {50, 50, 0}, {2, 1, 1}, {1, 1, 1}}
	case "centroid":
		p.Title, p.Mark = "Three glazes, alone, in pairs and all together", "MC"
	case "pairs":
		p.Title, p.Mark, b.PairShares, b.Alone = "Three glazes, each with each", "MP", []float64{50}, true
	case "weigh":
		p.Title, p.Mark, b.Divisions = "Feldspar, silica and whiting", "FW", 5
		p.Glazes = nil
		for _, name := range []string{"Potash feldspar", "Silica", "Whiting"} {
			p.Glazes = append(p.Glazes, blend.Glaze{Name: name, Recipe: []blend.Part{{Material: name, Amount: 100}}, SG: 1.45})
		}
	}
}

// startSeries gives a design of one base its colourants.
func startSeries(design Design, p *blend.Plan) {
	b := &p.Blend
	copper := blend.Series{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 2}}
	rutile := blend.Series{Material: "Rutile", Percents: []float64{0, 2, 4}}
	switch design.Name {
	case "line-series":
		// A batch shared between ten cups of about 100 g: how a colourant test
		// begins in most studios.
		p.Cup.Size, p.Cup.BatchG = 0, 1000
		p.Title, p.Mark = "Copper over a magnesia matt", "MK"
		copper.Percents = []float64{0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4}
		b.Series = []blend.Series{copper}
	case "biaxial-series":
		p.Title, p.Mark = "Copper across, rutile down", "KR"
		b.Series = []blend.Series{copper, rutile}
	case "triaxial-series":
		p.Title, p.Mark, b.Divisions = "Copper, rutile and tin toward three corners", "KT", 5
		b.Series = []blend.Series{{Material: "Copper carbonate", To: 3}, {Material: "Rutile", To: 5}, {Material: "Tin oxide", To: 4}}
	case "rows":
		p.Title, p.Mark, b.SharedZero = "Three colourants over a magnesia matt", "KW", true
		copper.Name, rutile.Name = "Copper", "Rutile"
		copper.Percents, rutile.Percents = []float64{0, 0.5, 1, 2, 4}, []float64{0, 1, 2, 4, 8}
		iron := blend.Series{Name: "Iron", Material: "Red iron oxide", Percents: []float64{0, 1, 2, 4, 8}}
		b.Series = []blend.Series{copper, rutile, iron}
	}
}

// startGlazes is four invented glazes.
func startGlazes() []blend.Glaze {
	glaze := func(name string, sg float64, addition string, percent float64, recipe ...any) blend.Glaze {
		g := blend.Glaze{Name: name, SG: sg, Additions: []blend.Part{{Material: addition, Amount: percent}}}
		for i := 0; i < len(recipe); i += 2 {
			g.Recipe = append(g.Recipe, blend.Part{Material: recipe[i].(string), Amount: float64(recipe[i+1].(int))})
		}
		return g
	}
	return []blend.Glaze{
		glaze("Magnesia matt", 1.45, "Bentonite", 2, "Potash feldspar", 44, "Silica", 22, "Talc", 16, "Whiting", 10, "Kaolin", 8),
		glaze("Chalk white", 1.48, "Tin oxide", 4, "Nepheline syenite", 38, "Silica", 25, "Whiting", 17, "Kaolin", 14, "Talc", 6),
		glaze("Soda blue", 1.42, "Cobalt carbonate", 1, "Soda feldspar", 46, "Silica", 24, "Whiting", 18, "Kaolin", 12),
		glaze("Iron amber", 1.46, "Red iron oxide", 5, "Potash feldspar", 50, "Silica", 20, "Whiting", 20, "Kaolin", 10),
	}
}
