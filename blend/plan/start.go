package plan

import (
	"embed"
	"fmt"
	"strings"

	"pourboard/blend"
)

// Design is a shape of test by the name that `new` knows it by.
type Design struct {
	Name string // "line", "line-series"
	Line string // what it is, for a list of designs
	help string // above [blend] in a commented plan
}

// Designs is every shape of test that a plan can start from.
func Designs() []Design {
	return []Design{
		{"line", "two glazes blended in steps",
			"A line goes from all of the first glaze to all of the second in even steps."},
		{"biaxial", "four glazes at the corners of a rectangle",
			"A biaxial has a glaze at each corner of a rectangle: top left, top right, bottom left, bottom right."},
		{"triaxial", "three glazes on a triangle",
			"A triaxial has a glaze at each corner of a triangle: the first at the top, the second at the left, the third at the right."},
		{"quadraxial", "four glazes on triangles in layers",
			"A quadraxial is a stack of triaxials of the first three glazes. From layer to layer the share of the fourth grows, until the last cup is all of it."},
		{"list", "blends that you write out one by one",
			"A list has brackets for each cup, with the parts of each glaze in the order of ends. [2, 1, 1] is a half and two quarters."},
		{"centroid", "each glaze alone, each pair, each three in equal shares",
			"A centroid takes each glaze alone, each pair half and half, and all of them in equal shares."},
		{"pairs", "3 to 12 glazes, each blended with each",
			"Every two of the glazes are blended, in the order of ends."},
		{"weigh", "three glazes on a triangle, weighed dry cup by cup",
			""},
		{"line-series", "one base with a colourant in steps",
			"Every cup has the same base and its own dose of one colourant."},
		{"rows", "one base, each row a colourant in its own steps",
			"Every cup has the same base. Each [[blend.series]] is a row of cups with its own colourant."},
		{"biaxial-series", "one base with two colourants, across and down",
			"Two colourants cross: the first goes from left to right, the second from the top down. Every cup has a dose of both."},
		{"triaxial-series", "one base with three colourants on a triangle",
			"Three colourants share a triangle: each reaches its full percentage at its own corner."},
	}
}

// FindDesign is the design of that name. The error says which there are.
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

// starts is an invented plan of each design, but for its glazes and for what all
// have alike. A jug marked every 5 mL needs cups of 200 g for the small shares of
// end glazes. A batch shared between ten cups of about 100 g is how a colourant
// test begins in most studios.
//
//go:embed starts
var starts embed.FS

// text is the invented plan of a design, with the invented glazes that it names.
func (d Design) text() string {
	file := func(name string) string {
		text, err := starts.ReadFile("starts/" + name + ".toml")
		if err != nil {
			panic(err) // a test reads each
		}
		return string(text)
	}
	text := file(d.Name)
	for _, glaze := range strings.SplitAfter(file("glazes"), "\n\n") {
		if name := strings.Split(glaze, `"`)[1]; strings.Contains(text, quote(name)) {
			text += "\n" + glaze
		}
	}
	return text + `
[measure]
fine = "0.01 g"
[tiles]
bodies = ["Porcelain", "Buff"]
coats = 2
`
}

// plan is the invented plan of a design.
func (d Design) plan() *blend.Plan {
	p, _, err := Read(d.Name, []byte(d.text()))
	if err != nil {
		panic(err) // a test reads each
	}
	p.Kit.Defaults = nil // all are written
	return p
}
