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
type Amounts []Amount

// Amount is one of them. Line is as a log has it: a line of the plan's file with
// the section before it, `[[glaze]] "Ash" water = "98 g"`, or the flag that said
// it, `--have "Ash=1450 mL"`. A line of a later version is its own key.
type Amount struct {
	Key   string // "[cup] dry", "[[glaze]] water", "--have"
	Glaze string // of a glaze, otherwise empty
	Text  string // "98 g"
	Line  string
}

// Keys of amounts.
const (
	KeyHave     = "--have"
	KeyShareAll = "--share-all"
	KeyMethod   = "[blend] method"
	KeyPour     = "[measure] pour"
	cupPrefix   = "[cup] "
	glazePrefix = "[[glaze]] "
	keyWater    = glazePrefix + "water"
	keyGravity  = glazePrefix + "specific-gravity"
)

// AmountsOf is the amounts of a plan.
func AmountsOf(p *blend.Plan) (a Amounts) {
	add := func(key, text string) { a = append(a, Amount{key, "", text, key + " = " + quantity.TOML(text)}) }
	step := func(key string, s measure.Step) {
		if s.Size > 0 {
			add(key, quantity.Plain(s.Size)+" "+string(s.Unit))
		}
	}
	cup := p.Cup
	// A size that --have worked out has the noise of a product in its last digits.
	settled, _ := strconv.ParseFloat(strconv.FormatFloat(cup.Size.Value, 'g', 12, 64), 64)
	size := measure.Step{Size: settled, Unit: measure.Gram}
	switch {
	case cup.BatchG > 0:
		step(cupPrefix+"batch", measure.Step{Size: cup.BatchG, Unit: measure.Gram})
	case cup.Size.Of == blend.Volume:
		size.Unit = measure.Millilitre
		step(cupPrefix+"volume", size)
	case cup.Size.Of == blend.Weight:
		step(cupPrefix+"weight", size)
	default:
		step(cupPrefix+"dry", size)
	}
	for _, h := range p.Have {
		a = append(a, have(h))
	}
	if p.ShareAll {
		a = append(a, Amount{Key: KeyShareAll, Line: KeyShareAll})
	}
	k, method := p.Kit, p.Blend.Method
	step("[measure] scale", k.Scale)
	step("[measure] fine", k.Fine)
	step(KeyPour, k.Pour)
	if method != "" {
		add(KeyMethod, string(method))
	}
	if method == blend.ByStock {
		step("[measure] syringe", k.Syringe)
	}
	for _, i := range p.Blend.Glazes() {
		g := p.Glazes[i]
		quoted := glazePrefix + quantity.TOML(g.Name)
		if g.WaterPer > 0 {
			water := quantity.Plain(g.WaterPer) + " g"
			a = append(a, Amount{keyWater, g.Name, water, quoted + " water = " + quantity.TOML(water)})
		} else if g.SG > 0 {
			sg := quantity.Plain(g.SG)
			a = append(a, Amount{keyGravity, g.Name, sg, quoted + " specific-gravity = " + sg})
		}
	}
	return a
}

// have is a batch as --have takes it.
func have(h blend.Have) Amount {
	var parts []string
	for _, x := range []struct {
		amount float64
		unit   string
	}{{h.DryG, " g dry"}, {h.ML, " mL"}, {h.WetG, " g wet"}} {
		if x.amount > 0 {
			parts = append(parts, quantity.Plain(x.amount)+x.unit)
		}
	}
	text := strings.Join(parts, ", ")
	return Amount{KeyHave, h.Glaze, text, KeyHave + " " + quantity.TOML(h.Glaze+"="+text)}
}

// In is a plan with these amounts in place of its own, as far as they are known.
// The size of its cups is one that batches which are there already have given.
func (a Amounts) In(p *blend.Plan) *blend.Plan {
	q := *p
	q.Have, q.ShareAll, q.Kit.Fine = nil, false, measure.Step{}
	q.Glazes = slices.Clone(p.Glazes)
	steps := map[string]*measure.Step{"[measure] scale": &q.Kit.Scale, "[measure] fine": &q.Kit.Fine,
		KeyPour: &q.Kit.Pour, "[measure] syringe": &q.Kit.Syringe}
	for _, x := range a {
		size, unit, err := quantity.Graduation(x.Text)
		known := err == nil
		cup, isCup := strings.CutPrefix(x.Key, cupPrefix)
		switch {
		case x.Key == KeyHave:
			if b, err := quantity.ReadBatch(x.Text); err == nil {
				q.Have = append(q.Have, blend.Have{Glaze: x.Glaze, ML: b.ML, WetG: b.WetG, DryG: b.DryG})
			}
		case x.Key == KeyShareAll:
			q.ShareAll = q.Cup.BatchG > 0
		case x.Key == KeyMethod:
			q.Blend.Method = blend.Method(x.Text)
		case isCup && known && cup == "batch":
			q.Cup.BatchG = size
		case isCup && known:
			q.Cup.Size, q.Cup.BatchG = blend.Amount{Value: size, Of: blend.Basis(cup)}, 0
		case steps[x.Key] != nil && known:
			*steps[x.Key] = measure.Step{Size: size, Unit: measure.Unit(unit)}
		}
		for i := range q.Glazes {
			if g := &q.Glazes[i]; g.Name == x.Glaze {
				x.mix(g)
			}
		}
	}
	return &q
}

// mix gives a glaze the SG or the water that the amount is of.
func (x Amount) mix(g *blend.Glaze) {
	sg, err := strconv.ParseFloat(x.Text, 64)
	if x.Key == keyGravity && err == nil {
		g.SG, g.WaterPer = sg, 0
	}
	water, err := quantity.Mass(x.Text)
	if x.Key == keyWater && err == nil {
		g.SG, g.WaterPer = 0, water
	}
}

// Lines is the amounts as a log has them.
func (a Amounts) Lines() []string {
	return each(a, func(x Amount) string { return x.Line })
}

// ReadAmounts reads the lines of a log, those of earlier versions too, whose
// batches in g were of wet glaze without saying so.
func ReadAmounts(lines []string) (a Amounts) {
	for _, line := range lines {
		a = append(a, readAmount(line))
	}
	return a
}

func readAmount(line string) Amount {
	if rest, ok := strings.CutPrefix(line, KeyHave+" "); ok {
		text, _, _ := cutQuoted(rest)
		at := max(0, strings.LastIndex(text, "="))
		for _, unit := range []string{"", " wet"} {
			if b, err := quantity.ReadBatch(strings.TrimPrefix(text[at:], "=") + unit); err == nil && at > 0 {
				return have(blend.Have{Glaze: text[:at], ML: b.ML, WetG: b.WetG, DryG: b.DryG})
			}
		}
		return Amount{Key: line, Line: line}
	}
	at := strings.LastIndex(line, " = ")
	if at < 0 {
		return Amount{Key: line, Line: line}
	}
	x := Amount{Key: line[:at], Text: line[at+len(" = "):], Line: line}
	if text, _, ok := cutQuoted(x.Text); ok {
		x.Text = text
	}
	if rest, ok := strings.CutPrefix(x.Key, glazePrefix); ok {
		if name, key, ok := cutQuoted(rest); ok {
			x.Key, x.Glaze = glazePrefix+strings.TrimSpace(key), name
		}
	}
	return x
}

// Same reports whether the amounts of two plans are the same, as far as those of
// the first are known. Of glazes only those that both have are compared: another
// glaze, or one under another name, is reported as a change of the plan.
func Same(was, is Amounts) bool {
	if len(was) == 0 {
		return true
	}
	was, is = Common(was, is)
	a, b := was.Lines(), is.Lines()
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b)
}

// Common leaves out of the amounts of two plans the SG and the water of a glaze
// for which only one of them has any.
func Common(was, is Amounts) (ofWas, ofIs Amounts) {
	mixed := func(x Amount) bool { return strings.HasPrefix(x.Key, glazePrefix) }
	common := func(list, other Amounts) Amounts {
		return slices.DeleteFunc(slices.Clone(list), func(x Amount) bool {
			return mixed(x) && !slices.ContainsFunc(other, func(o Amount) bool { return mixed(o) && o.Glaze == x.Glaze })
		})
	}
	return common(was, is), common(is, was)
}
