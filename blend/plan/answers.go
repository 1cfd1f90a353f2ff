package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Answers is what most plans differ in, in the words of a person: what the flags
// of `new` say. What is empty is left as in the plan to start from.
type Answers struct {
	Title, Mark string
	Glazes      []string // end glazes by name
	Base        string
	Colourants  []string // "Rutile=0,1,2,4"; of a triaxial "Rutile=5", the percentage at its corner
	Cups        string   // how many
	Divisions   string
	Batch       string // dry recipe, shared between the cups
	CupSize     string // "100 mL", or "100 g" of dry glaze
	Jug, Scale  string
	Bodies      string // "Porcelain, Buff"
	Tile, Paper string
}

// AnswerError is an answer that cannot be; Flag is the flag that gives it, ""
// when it is all of them together.
type AnswerError struct {
	Flag        string
	What, Right string
}

// Error is the fault and what to write, on one line.
func (e *AnswerError) Error() string {
	s := e.What
	if e.Flag != "" {
		s = e.Flag + ": " + s
	}
	if e.Right != "" {
		s += " (" + e.Right + ")"
	}
	return s
}

// AssumedSG is the specific gravity that a plan is given for a base of which
// only the name is known: doses need it.
const AssumedSG = 1.45

// New is a commented plan of a design with the answers in it. Each answer is
// checked as its key is, and all of them as a plan; the error is an AnswerError.
func New(design Design, a Answers) ([]byte, error) {
	if err := a.contradictions(design); err != nil {
		return nil, err
	}
	p := Start(design)
	p.Tiles.Bodies, p.Kit.Fine.Size = []string{"Test body"}, 0
	s := &setup{d: &draft{plan: p}, r: &reader{}}
	for _, set := range []func(*setup, Design) error{a.general, a.cup, a.design} {
		if err := set(s, design); err != nil {
			return nil, err
		}
	}
	text := Commented(p)
	if _, _, err := Read("", text); err != nil {
		first := err.(Problems)[0]
		return nil, &AnswerError{What: first.What, Right: first.Right}
	}
	return text, nil
}

// article is the design as the subject of a sentence.
func (d Design) article() string {
	if d.Kind == blend.Pairs || d.Kind == blend.Rows {
		return "kind " + d.Name
	}
	return "a " + d.Name
}

// contradictions is answers that exclude each other or the design.
func (a Answers) contradictions(design Design) error {
	refuse := func(flag, why, right string) error { return &AnswerError{Flag: flag, What: why, Right: right} }
	kind, name := design.article(), designName(design.Kind, design.Series)
	switch {
	case design.Series && a.Glazes != nil:
		return refuse("--glaze", kind+" has one base", "--base "+strconv.Quote(a.Glazes[0]))
	case !design.Series && a.Base != "":
		return refuse("--base", kind+" blends end glazes", "--glaze "+strconv.Quote(a.Base))
	case !design.Series && a.Colourants != nil:
		return refuse("--colourant", kind+" blends end glazes", "pourboard new line-series, or rows")
	case !design.Series && a.Batch != "":
		return refuse("--batch", kind+" mixes a batch of each end glaze", `the size of a cup: --cup-size "100 mL"`)
	case a.Batch != "" && a.CupSize != "":
		return refuse("--batch", "--cup-size is given as well", "keep one; the other follows")
	case a.Cups != "" && a.Divisions != "":
		return refuse("--cups", "--divisions is given as well", "keep one; the other follows")
	case a.Divisions != "" && !Find("blend", "divisions").fits(name):
		return refuse("--divisions", kind+" has no divisions", "leave it out")
	case a.Cups != "" && !Find("blend", "tiles").fits(name):
		return refuse("--cups", "the cups of "+kind+" follow from its other keys", "leave it out, and change the plan")
	}
	return nil
}

// setup puts answers into a draft through the schema.
type setup struct {
	d *draft
	r *reader
}

// set reads an answer as the value of a key.
func (s *setup) set(flag, path, key, answer string) error {
	if answer == "" {
		return nil
	}
	k := Find(path, key)
	v := &value{kind: text, line: 1, text: answer}
	switch k.form {
	case whole, percentNumber:
		v = figureOf(answer)
	case names:
		v = &value{kind: list, line: 1}
		for _, name := range strings.Split(answer, ",") {
			v.items = append(v.items, &value{kind: text, line: 1, text: name})
		}
	case percents:
		v = &value{kind: list, line: 1}
		for _, digits := range strings.Split(answer, ",") {
			v.items = append(v.items, figureOf(digits))
		}
	}
	s.r.problems = nil
	if k.form.codec().read(cell{reader: s.r, k: k, v: v}, k.at(s.d)) {
		return nil
	}
	e := &AnswerError{Flag: flag, What: strconv.Quote(answer) + " cannot be read", Right: "as in " + k.Example}
	if len(s.r.problems) > 0 {
		e.What, e.Right = s.r.problems[0].What, s.r.problems[0].Right
	}
	return e
}

// figureOf is an answer as a number, or as a text that is none.
func figureOf(answer string) *value {
	answer = strings.TrimSpace(answer)
	if _, err := strconv.ParseFloat(answer, 64); err != nil {
		return &value{kind: text, line: 1, text: answer}
	}
	return &value{kind: figure, line: 1, text: answer}
}

// general sets what every design has.
func (a Answers) general(s *setup, _ Design) error {
	p := s.d.plan
	for _, answer := range []struct{ flag, path, key, text string }{
		{"--title", "", "title", a.Title}, {"--mark", "", "mark", a.Mark},
		{"--jug", "measure", "pour", a.Jug}, {"--scale", "measure", "scale", a.Scale},
		{"--bodies", "tiles", "bodies", a.Bodies}, {"--tile", "tiles", "size", a.Tile},
		{"--paper", "board", "paper", a.Paper},
	} {
		if err := s.set(answer.flag, answer.path, answer.key, answer.text); err != nil {
			return err
		}
	}
	if a.Bodies != "" {
		p.Tiles.Bodies = s.d.bodies.names
	}
	if p.Kit.Pour.Unit != "mL" && a.Jug != "" && a.Glazes != nil {
		return &AnswerError{"--jug", "pouring on the scale needs each glaze's SG", `a jug, such as --jug "5 mL", or write the SG into the plan`}
	}
	if a.Mark != "" && !wellMarked(p.Mark) {
		return &AnswerError{"--mark", quote(p.Mark) + " cannot be a mark", `1 to 4 of A-Z and 0-9, letters first: --mark "MR"`}
	}
	p.Kit.Defaults = []string{"syringe 1 mL"} // of a stock only
	return nil
}

// cup sets what goes into each cup.
func (a Answers) cup(s *setup, design Design) error {
	p := s.d.plan
	key := "dry"
	if _, in, err := quantity.Graduation(a.CupSize); err == nil && in == "mL" {
		key = "volume"
	}
	if err := s.set("--cup-size", "cup", key, a.CupSize); err != nil {
		return err
	}
	if err := s.set("--batch", "cup", "batch", a.Batch); err != nil {
		return err
	}
	switch {
	case s.d.volume > 0:
		p.Cup.Size, p.Cup.Of, p.Cup.BatchG = s.d.volume, blend.Volume, 0
	case s.d.dry > 0:
		p.Cup.Size, p.Cup.Of, p.Cup.BatchG = s.d.dry, blend.Dry, 0
	case a.Batch != "":
		p.Cup.Size = 0
	case a.Glazes != nil && design.Method != blend.ByWeigh:
		p.Cup.Size, p.Cup.Of = 100, blend.Volume
	}
	if a.Glazes != nil && design.Method != blend.ByWeigh && p.Cup.Of == blend.Dry {
		return &AnswerError{"--cup-size", strconv.Quote(a.CupSize) + " needs each glaze's SG", `a volume, such as --cup-size "100 mL", or write the SG into the plan`}
	}
	return nil
}

// design sets glazes, colourants and how many cups there are.
func (a Answers) design(s *setup, design Design) error {
	p := s.d.plan
	b := &p.Blend
	if a.Glazes != nil {
		if err := a.endGlazes(s, design); err != nil {
			return err
		}
	}
	if a.Base != "" {
		if err := s.set("--base", "blend", "base", a.Base); err != nil {
			return err
		}
		p.Glazes = []blend.Glaze{{Name: s.d.base, SG: AssumedSG}}
	}
	if a.Colourants != nil {
		if err := a.colourants(s); err != nil {
			return err
		}
	}
	if err := s.set("--divisions", "blend", "divisions", a.Divisions); err != nil {
		return err
	}
	if err := s.set("--cups", "blend", "tiles", a.Cups); err != nil {
		return err
	}
	if s.d.tiles > 0 && b.Kind == blend.Line {
		b.Cells = s.d.tiles
	} else if s.d.tiles > 0 {
		s.r.problems = nil
		q := 3
		if b.Kind == blend.Quadraxial {
			q = 4
		}
		if b.Divisions = (fields{reader: s.r}).divisions(s.d.tiles, q, false); b.Divisions == 0 {
			return &AnswerError{"--cups", s.r.problems[0].What, s.r.problems[0].Right}
		}
	}
	a.name(p)
	return nil
}

// endGlazes makes the glazes that are blended, known by their names alone; those
// of a weighed design are raw materials.
func (a Answers) endGlazes(s *setup, design Design) error {
	p := s.d.plan
	p.Glazes, p.Blend.Ends = nil, nil
	for i, name := range a.Glazes {
		if err := s.set("--glaze", "blend", "base", name); err != nil {
			return err
		}
		g := blend.Glaze{Name: s.d.base}
		if design.Method == blend.ByWeigh {
			g.Recipe, g.SG = []blend.Part{{Material: s.d.base, Amount: 100}}, AssumedSG
		} else {
			p.Blend.Basis = blend.Volume
		}
		if slices.ContainsFunc(p.Glazes, func(o blend.Glaze) bool { return fold(o.Name) == fold(g.Name) }) {
			return &AnswerError{"--glaze", quote(g.Name) + " is given twice", "each glaze once"}
		}
		p.Glazes, p.Blend.Ends = append(p.Glazes, g), append(p.Blend.Ends, i)
	}
	if p.Blend.Kind == blend.List {
		p.Blend.Parts = equalParts(len(a.Glazes))
	}
	return nil
}

// equalParts is a list to change: each glaze alone, then all in equal parts.
func equalParts(n int) [][]float64 {
	var all [][]float64
	last := make([]float64, n)
	for i := range n {
		row := make([]float64, n)
		row[i], last[i] = 1, 1
		all = append(all, row)
	}
	return append(all, last)
}

// colourants makes the series.
func (a Answers) colourants(s *setup) error {
	b := &s.d.plan.Blend
	b.Series = nil
	for _, answer := range a.Colourants {
		name, percent, ok := strings.Cut(answer, "=")
		if !ok || strings.TrimSpace(name) == "" || strings.TrimSpace(percent) == "" {
			return &AnswerError{"--colourant", quote(answer) + " has no percentages", `as in "Rutile=0,1,2,4"`}
		}
		s.d.series = &seriesDraft{}
		if err := s.set("--colourant", "blend.series", "material", strings.TrimSpace(name)); err != nil {
			return err
		}
		key := "percent"
		if b.Kind == blend.Triaxial {
			key = "to"
		}
		if err := s.set("--colourant", "blend.series", key, percent); err != nil {
			return err
		}
		s.d.series.Percents = s.d.series.percents
		b.Series = append(b.Series, s.d.series.Series)
	}
	for i := range b.Series {
		b.SharedZero = b.Kind == blend.Rows && b.Series[i].Percents[0] == 0 && (i == 0 || b.SharedZero)
	}
	return nil
}

// name gives a plan of other glazes a title that says them, and a mark of their
// initials.
func (a Answers) name(p *blend.Plan) {
	called := a.Glazes
	title := listed(called, "and")
	if a.Base != "" || a.Colourants != nil {
		called = nil
		for _, s := range p.Blend.Series {
			called = append(called, s.Material)
		}
		title = listed(called, "and") + " in " + p.Glazes[0].Name
		called = append(called, p.Glazes[0].Name)
	}
	if called == nil {
		return
	}
	if a.Title == "" {
		p.Title = title
	}
	initials := ""
	for _, name := range called {
		if c := strings.ToUpper(name[:1]); strings.Contains(clear, c) && len(initials) < 2 {
			initials += c
		}
	}
	if a.Mark == "" && initials != "" {
		p.Mark = initials
	}
}
