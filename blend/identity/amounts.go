package identity

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// Amounts is what decides, beside the outline, how much was really measured
// into each cup.
type Amounts struct {
	CupKey  string       // "dry", "volume", "weight" or "batch" of [cup], "" when not known
	Cup     measure.Step // its size: g or mL
	Have    []blend.Have // batches that were mixed already
	Share   bool         // all of them is shared out
	Scale   measure.Step
	Fine    measure.Step // Size 0 when there is none
	Pour    measure.Step
	Method  blend.Method
	Syringe measure.Step // of a stock
	Glazes  []Water      // those with a specific gravity or water
	Rest    []string     // lines that this version does not know
}

// Water is how a glaze is mixed: by its specific gravity or by its water.
type Water struct {
	Glaze  string
	SG     float64
	WaterG float64 // g for 100 g of dry glaze
}

// AmountsOf is the amounts of a plan.
func AmountsOf(p *blend.Plan) Amounts {
	k, b := p.Kit, p.Blend
	a := Amounts{CupKey: string(p.Cup.Size.Of), Have: p.Have, Share: p.ShareAll, Scale: k.Scale, Fine: k.Fine, Pour: k.Pour}
	// A size that --have worked out has the noise of a product in its last digits.
	size, err := strconv.ParseFloat(strconv.FormatFloat(p.Cup.Size.Value, 'g', 12, 64), 64)
	if err != nil {
		size = p.Cup.Size.Value
	}
	a.Cup = measure.Step{Size: size, Unit: measure.Gram}
	switch {
	case p.Cup.BatchG > 0:
		a.CupKey, a.Cup.Size = "batch", p.Cup.BatchG
	case p.Cup.Size.Of == blend.Volume:
		a.Cup.Unit = measure.Millilitre
	case p.Cup.Size.Of == "":
		a.CupKey = string(blend.Dry)
	}
	glazes := b.Ends
	if b.HasSeries() {
		glazes = []int{b.Base}
		if b.Method == blend.ByStock {
			a.Syringe = k.Syringe
		}
	}
	a.Method = b.Method
	for _, i := range glazes {
		switch g := p.Glazes[i]; {
		case g.WaterPer > 0:
			a.Glazes = append(a.Glazes, Water{Glaze: g.Name, WaterG: g.WaterPer})
		case g.SG > 0:
			a.Glazes = append(a.Glazes, Water{Glaze: g.Name, SG: g.SG})
		}
	}
	return a
}

// In is a plan with these amounts in place of its own, as far as they are known.
// The size of its cups is one that batches which are there already have given.
func (a Amounts) In(p *blend.Plan) *blend.Plan {
	q := *p
	switch {
	case a.CupKey == "batch":
		q.Cup.BatchG = a.Cup.Size
	case a.CupKey != "":
		q.Cup.Size, q.Cup.BatchG = blend.Amount{Value: a.Cup.Size, Of: blend.Basis(a.CupKey)}, 0
	}
	q.Have, q.ShareAll = a.Have, a.Share && a.CupKey == "batch"
	known := func(step, own measure.Step) measure.Step {
		if step.Size > 0 {
			return step
		}
		return own
	}
	k := &q.Kit
	k.Scale, k.Fine, k.Pour, k.Syringe = known(a.Scale, k.Scale), a.Fine, known(a.Pour, k.Pour), known(a.Syringe, k.Syringe)
	if a.Method != "" {
		q.Blend.Method = a.Method
	}
	q.Glazes = slices.Clone(p.Glazes)
	for i := range q.Glazes {
		for _, w := range a.Glazes {
			if g := &q.Glazes[i]; g.Name == w.Glaze {
				g.SG, g.WaterPer = w.SG, w.WaterG
			}
		}
	}
	return &q
}

// Empty reports whether nothing is known, as of a log in CSV.
func (a Amounts) Empty() bool { return len(a.Lines()) == 0 }

// Lines is the amounts as a log has them: lines of the plan's file with the
// section before each, `[cup] dry = "500 g"`, and batches as the flags that said
// them, `--have "Ash=1450 mL"`.
func (a Amounts) Lines() []string {
	var lines []string
	step := func(key string, s measure.Step) {
		if s.Size > 0 {
			lines = append(lines, key+" = "+quantity.TOML(quantity.Plain(s.Size)+" "+string(s.Unit)))
		}
	}
	if a.CupKey != "" {
		step("[cup] "+a.CupKey, a.Cup)
	}
	for _, h := range a.Have {
		lines = append(lines, "--have "+quantity.TOML(h.Glaze+"="+haveText(h)))
	}
	if a.Share {
		lines = append(lines, shareAll)
	}
	step("[measure] scale", a.Scale)
	step("[measure] fine", a.Fine)
	step("[measure] pour", a.Pour)
	if a.Method != "" {
		lines = append(lines, "[blend] method = "+quantity.TOML(string(a.Method)))
	}
	step("[measure] syringe", a.Syringe)
	for _, g := range a.Glazes {
		if g.WaterG > 0 {
			lines = append(lines, "[[glaze]] "+quantity.TOML(g.Glaze)+" water = "+quantity.TOML(quantity.Plain(g.WaterG)+" g"))
		} else {
			lines = append(lines, "[[glaze]] "+quantity.TOML(g.Glaze)+" specific-gravity = "+quantity.Plain(g.SG))
		}
	}
	return append(lines, a.Rest...)
}

// shareAll is the line of amounts whose batches are shared out wholly.
const shareAll = "--share-all"

// haveText is a batch as --have takes it.
func haveText(h blend.Have) string {
	var all []string
	if h.DryG > 0 {
		all = append(all, quantity.Plain(h.DryG)+" g dry")
	}
	if h.ML > 0 {
		all = append(all, quantity.Plain(h.ML)+" mL")
	}
	if h.WetG > 0 {
		all = append(all, quantity.Plain(h.WetG)+" g wet")
	}
	return strings.Join(all, ", ")
}

// ReadAmounts reads the lines of a log, those of earlier versions too, whose
// batches in g were of wet glaze without saying so.
func ReadAmounts(lines []string) Amounts {
	var a Amounts
	for _, line := range lines {
		if !a.read(line) {
			a.Rest = append(a.Rest, line)
		}
	}
	return a
}

func (a *Amounts) read(line string) bool {
	if text, ok := strings.CutPrefix(line, "--have "); ok {
		return a.readHave(text)
	}
	if line == shareAll {
		a.Share = true
		return true
	}
	at := strings.LastIndex(line, " = ")
	if at < 0 {
		return false
	}
	key, text := line[:at], line[at+len(" = "):]
	if plain, err := strconv.Unquote(text); err == nil {
		text = plain
	}
	if rest, ok := strings.CutPrefix(key, "[[glaze]] "); ok {
		return a.readGlaze(rest, text)
	}
	if key == "[blend] method" {
		a.Method = blend.Method(text)
		return true
	}
	places := map[string]*measure.Step{"[measure] scale": &a.Scale, "[measure] fine": &a.Fine, "[measure] pour": &a.Pour, "[measure] syringe": &a.Syringe}
	place := places[key]
	cup, isCup := strings.CutPrefix(key, "[cup] ")
	if isCup {
		place = &a.Cup
	}
	size, in, err := quantity.Graduation(text)
	if place == nil || err != nil {
		return false
	}
	if isCup {
		a.CupKey = cup
	}
	*place = measure.Step{Size: size, Unit: measure.Unit(in)}
	return true
}

func (a *Amounts) readHave(text string) bool {
	plain, err := strconv.Unquote(text)
	at := strings.LastIndex(plain, "=")
	if err != nil || at < 1 {
		return false
	}
	h := blend.Have{Glaze: plain[:at]}
	batch, err := quantity.ReadBatch(plain[at+1:])
	if err != nil { // logs of the first version give grams of wet glaze without a word
		if batch, err = quantity.ReadBatch(plain[at+1:] + " wet"); err != nil {
			return false
		}
	}
	h.ML, h.WetG, h.DryG = batch.ML, batch.WetG, batch.DryG
	a.Have = append(a.Have, h)
	return true
}

func (a *Amounts) readGlaze(key, text string) bool {
	at := strings.LastIndex(key, " ")
	name, err := strconv.Unquote(key[:max(at, 0)])
	if err != nil {
		return false
	}
	g := Water{Glaze: name}
	switch key[at+1:] {
	case "water":
		g.WaterG, err = quantity.Mass(text)
	case "specific-gravity":
		g.SG, err = strconv.ParseFloat(text, 64)
	default:
		return false
	}
	if err != nil {
		return false
	}
	a.Glazes = append(a.Glazes, g)
	return true
}

// Same reports whether the amounts of two plans are the same, as far as those of
// the first are known. Of glazes only those that both have are compared: another
// glaze, or one under another name, is reported as a change of the plan.
func Same(was, is Amounts) bool {
	if was.Empty() {
		return true
	}
	was, is = Common(was, is)
	a, b := was.Lines(), is.Lines()
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b)
}

// Common leaves out of the amounts of two plans what is of a glaze that only one
// of them has.
func Common(was, is Amounts) (ofWas, ofIs Amounts) {
	common := func(list, other []Water) []Water {
		return slices.DeleteFunc(slices.Clone(list), func(g Water) bool {
			return !slices.ContainsFunc(other, func(o Water) bool { return o.Glaze == g.Glaze })
		})
	}
	ofWas, ofIs = was, is
	ofWas.Glazes, ofIs.Glazes = common(was.Glazes, is.Glazes), common(is.Glazes, was.Glazes)
	return ofWas, ofIs
}
