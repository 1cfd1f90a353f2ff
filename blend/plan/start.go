package plan

import (
	"embed"
	"fmt"

	"pourboard/blend"
)

// Design is a shape of test that a plan can start from.
type Design struct {
	Name string // "line", "line-series"
	Line string // what it is, for a list of designs
	Help string // above [blend] in a commented plan
}

// Designs is every shape of test that a plan can start from.
func Designs() []Design { return schema().Design }

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

// starts is an invented plan of each design. A jug marked every 5 mL needs cups of
// 200 g for the small shares of end glazes. A batch shared between ten cups of about
// 100 g is how a colourant test begins in most studios.
//
//go:embed starts
var starts embed.FS

// text is the invented plan of a design.
func (d Design) text() string {
	text, err := starts.ReadFile("starts/" + d.Name + ".toml")
	if err != nil {
		panic(err) // a test reads each
	}
	return string(text)
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
