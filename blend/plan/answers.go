package plan

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Flag is a flag of `new`: what most plans differ in, as a key of the plan.
type Flag struct {
	Name    string
	Several bool // given once for each glaze, or colourant

	path, key string // a design that takes the key takes the flag
}

// Flags returns all flags that fill in a new plan.
func Flags() []Flag {
	return []Flag{
		{"glaze", true, "blend", "ends"}, {"base", false, "blend", "base"}, {"colourant", true, "blend", "base"},
		{"cups", false, "blend", "tiles"}, {"divisions", false, "blend", "divisions"},
		{"batch", false, "cup", "batch"}, {"cup-size", false, "cup", "dry"},
		{"jug", false, "measure", "pour"}, {"scale", false, "measure", "scale"},
		{"bodies", false, "tiles", "bodies"}, {"tile", false, "tiles", "size"}, {"paper", false, "board", "paper"},
		{"title", false, "", "title"}, {"mark", false, "", "mark"},
	}
}

// AssumedSG is the specific gravity that a plan is given for a base of which
// only the name is known: doses need it.
const AssumedSG = 1.45

// New is a commented plan of a design with what the flags give it, by their names.
// They are read as their keys, and checked as a plan; the error is the first problem,
// with its flag.
func New(design Design, given map[string][]string) ([]byte, error) {
	start := design.plan()
	name := designName(start.Blend.Kind, start.Blend.HasSeries())
	if err := misplaced(name, given); err != nil {
		return nil, err
	}
	a := answers{given: given, root: parse(design.text()), weigh: start.Blend.Method == blend.ByWeigh,
		kind: start.Blend.Kind}
	if err := a.put(); err != nil {
		return nil, err
	}
	r := &reader{design: name}
	p := r.plan(a.root)
	if i := slices.IndexFunc(r.problems, func(p Problem) bool { return p.Line >= firstLine }); i >= 0 {
		wrong := r.problems[i]
		return nil, errors.New("--" + Flags()[wrong.Line-firstLine].Name + ": " + withFix(wrong.What, wrong.Right))
	}
	if len(r.problems) > 0 {
		return nil, errors.New(withFix(r.problems[0].What, r.problems[0].Right))
	}
	if given["glaze"] != nil && !a.weigh && (p.Kit.OnScale() || p.Cup.Size.Of == blend.Dry) {
		return nil, errors.New("amounts in g need each glaze's SG " +
			"(give --cup-size and --jug in mL, or write the SG into the plan)")
	}
	if given["glaze"] != nil || given["base"] != nil || given["colourant"] != nil {
		a.entitle(p)
	}
	p.Kit.Defaults = []string{"syringe 1 mL"} // of a stock only
	return commented(p), nil
}

// misplaced is an error where a flag is for other designs.
func misplaced(design string, given map[string][]string) error {
	var takes, not []string
	for _, f := range Flags() {
		k := section(f.path).find(f.key)
		switch {
		case !k.fits(design) && given[f.Name] != nil:
			not = append(not, "--"+f.Name)
		case k.fits(design) && k.Designs != nil:
			takes = append(takes, "--"+f.Name)
		}
	}
	if not == nil {
		return nil
	}
	return errors.New(withFix(kindText(design)+" takes no "+not[0], "it takes "+listed(takes, "and")))
}

// answers puts what the flags give into a plan to start from.
type answers struct {
	given map[string][]string
	root  *value // of the plan to start from
	kind  blend.Kind
	weigh bool
	line  int // of the flag at work
}

// firstLine is beyond the lines of a plan to start from, so that a problem is put
// down to its flag.
const firstLine = 10_000

func (a *answers) put() error {
	a.drop("tiles.bodies", "measure.fine")
	for i, f := range Flags() {
		values := a.given[f.Name]
		if values == nil {
			continue
		}
		a.line = firstLine + i
		path, key := strings.TrimPrefix(f.path+"."+f.key, "."), section(f.path).find(f.key)
		switch f.Name {
		case "glaze":
			a.endGlazes(values)
			continue
		case "colourant":
			if err := a.colourants(values); err != nil {
				return err
			}
			continue
		case "base":
			a.set("glaze", "[{ name = "+quantity.TOML(values[0])+", specific-gravity = "+number(AssumedSG)+" }]")
		case "cups":
			a.drop("blend.cells", "blend.divisions")
		case "cup-size", "batch":
			a.drop("cup.dry", "cup.volume", "cup.batch")
			if _, in, err := quantity.Graduation(values[0]); err == nil && in == "mL" && f.key == "dry" {
				path = "cup.volume"
			}
		}
		a.set(path, key.typed(values[0]))
	}
	return nil
}

// drop takes keys of the plan to start from out of it.
func (a *answers) drop(paths ...string) {
	for _, path := range paths {
		in, key := parted(path)
		if v := a.root.below(path); v != nil && v.line < firstLine {
			delete(a.root.below(in).byKey, key)
		}
	}
}

// set gives a key a value for the flag at work.
func (a *answers) set(path, text string) {
	p := newParser(ignore)
	p.add([]byte(strings.ToValidUTF8(path+" = "+text, "\uFFFD")), a.line)
	p.within(a.root, strings.Split(path, "."), a.line).put(p.root.below(path))
}

// typed is an answer in the form that the key's example has.
func (k *Key) typed(answer string) string {
	form := quantity.TOML
	if strings.Trim(k.Example[:min(2, len(k.Example))], "[0123456789") == "" { // 5, or [0, 1]
		form = figureOrText
	}
	if k.Example[0] == '[' {
		return bracketed(strings.Split(answer, ","), form)
	}
	return form(answer)
}

// figureOrText is a number, or a text that is none.
func figureOrText(s string) string {
	if x, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil && x-x == 0 {
		return number(x)
	}
	return quantity.TOML(s)
}

// endGlazes puts in the glazes that are blended, known by their names alone;
// those of a weighed design are raw materials.
func (a *answers) endGlazes(names []string) {
	a.set("blend.ends", bracketed(names, quantity.TOML))
	a.set("glaze", bracketed(names, func(name string) string {
		if a.weigh {
			name = quantity.TOML(name)
			return "{ name = " + name + ", specific-gravity = " + number(AssumedSG) + ", recipe = [[" + name + ", 100]] }"
		}
		return "{ name = " + quantity.TOML(name) + " }"
	}))
	if a.kind == blend.List { // to be changed: a cup of equal parts
		a.set("blend.cells", "["+bracketed(slices.Repeat([]float64{1}, len(names)), number)+"]")
	}
	if !a.weigh {
		a.set("blend.basis", quote(string(blend.Volume)))
		a.drop("cup.dry")
		if a.given["cup-size"] == nil {
			a.set("cup.volume", `"100 mL"`)
		}
	}
}

// colourants puts in the series.
func (a *answers) colourants(all []string) error {
	key := "percent"
	if a.kind == blend.Triaxial {
		key = "to"
	}
	var series []string
	zeros := true
	for _, answer := range all {
		name, percent, ok := strings.Cut(answer, "=")
		if name = strings.TrimSpace(name); !ok || name == "" || strings.TrimSpace(percent) == "" {
			return errors.New(withFix("--colourant: "+quote(answer)+" has no percentages", `as in "Rutile=0,1,2,4"`))
		}
		value := section("blend.series").find(key).typed(percent)
		series = append(series, "{ material = "+quantity.TOML(name)+", "+key+" = "+value+" }")
		zeros = zeros && strings.HasPrefix(value+",", "[0,")
	}
	a.set("blend.series", "["+strings.Join(series, ", ")+"]")
	if a.kind == blend.Rows {
		a.set("blend.shared-zero", strconv.FormatBool(zeros))
	}
	return nil
}

// entitle gives a plan of other glazes a title that names them, and a mark of
// their initials.
func (a *answers) entitle(p *blend.Plan) {
	var names []string
	in := ""
	for _, s := range p.Blend.Series {
		names, in = append(names, s.Material), " in "+p.Glazes[0].Name
	}
	for _, g := range p.Glazes {
		if in == "" {
			names = append(names, g.Name)
		}
	}
	if a.given["title"] == nil {
		p.Title = listed(names, "and") + in
	}
	initials := ""
	for _, name := range names {
		if c := strings.ToUpper(name[:1]); strings.Contains(clear, c) && len(initials) < 2 {
			initials += c
		}
	}
	if a.given["mark"] == nil && initials != "" {
		p.Mark = initials
	}
}
