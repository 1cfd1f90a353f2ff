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

// Amount is one of them, by its key in the plan's file or the flag that gave it. A
// line of a later version is its own key.
type Amount struct {
	Key   string // "[cup] dry", "[[glaze]] water", "--have"
	Glaze string // of a glaze, otherwise empty
	Text  string // "98 g"
}

// Keys of amounts.
const (
	KeyHave     = "--have"
	KeyShareAll = "--share-all"
	KeyMethod   = "[blend] method"
	KeyPour     = "[measure] pour"
	keyScale    = "[measure] scale"
	keyFine     = "[measure] fine"
	keySyringe  = "[measure] syringe"
	keyBatch    = cupPrefix + "batch"
	keyWater    = glazePrefix + "water"
	keyGravity  = glazePrefix + "specific-gravity"
	cupPrefix   = "[cup] "
	glazePrefix = "[[glaze]] "
)

// String is the amount as a log has it: a line of the plan's file with the section
// before it, `[[glaze]] "Ash" water = "98 g"`, or the flag, `--have "Ash=1450 mL"`.
func (x Amount) String() string {
	key, text := x.Key, quantity.TOML(x.Text)
	switch {
	case key == KeyHave:
		return KeyHave + " " + quantity.TOML(x.Glaze+"="+x.Text)
	case x.Text == "":
		return key
	case key == keyGravity:
		text = x.Text
	}
	if of, ok := strings.CutPrefix(key, glazePrefix); ok {
		key = glazePrefix + quantity.TOML(x.Glaze) + " " + of
	}
	return key + " = " + text
}

// AmountsOf is the amounts of a plan.
func AmountsOf(p *blend.Plan) (a Amounts) {
	step := func(key string, s measure.Step) {
		if s.Size > 0 { // settled: a size that --have worked out has the noise of a product
			a = append(a, Amount{Key: key, Text: quantity.Significant(s.Size, 12) + " " + string(s.Unit)})
		}
	}
	k, method, size := p.Kit, p.Blend.Method, measure.Step{Size: p.Cup.Size.Value, Unit: measure.Gram}
	key := cupPrefix + string(p.Cup.Size.Of)
	if p.Cup.BatchG > 0 {
		key, size.Size = keyBatch, p.Cup.BatchG
	} else if p.Cup.Size.Of == blend.Volume {
		size.Unit = measure.Millilitre
	}
	step(key, size)
	for _, h := range p.Have {
		a = append(a, have(h))
	}
	if p.ShareAll {
		a = append(a, Amount{Key: KeyShareAll})
	}
	step(keyScale, k.Scale)
	step(keyFine, k.Fine)
	step(KeyPour, k.Pour)
	if method != "" {
		a = append(a, Amount{Key: KeyMethod, Text: string(method)})
	}
	if method == blend.ByStock {
		step(keySyringe, k.Syringe)
	}
	for _, i := range p.Blend.Glazes() {
		if g := p.Glazes[i]; g.WaterPer > 0 {
			a = append(a, Amount{keyWater, g.Name, quantity.Plain(g.WaterPer) + " g"})
		} else if g.SG > 0 {
			a = append(a, Amount{keyGravity, g.Name, quantity.Plain(g.SG)})
		}
	}
	return a
}

// have is a batch as --have takes it.
func have(h blend.Have) Amount {
	var parts []string
	add := func(amount float64, unit string) {
		if amount > 0 {
			parts = append(parts, quantity.Plain(amount)+unit)
		}
	}
	add(h.DryG, " g dry")
	add(h.ML, " mL")
	add(h.WetG, " g wet")
	return Amount{KeyHave, h.Glaze, strings.Join(parts, ", ")}
}

// In is a plan with these amounts in place of its own, as far as they are known.
// The size of its cups is one that batches which are there already have given.
func (a Amounts) In(p *blend.Plan) *blend.Plan {
	q := *p
	q.Have, q.ShareAll, q.Kit.Fine = nil, false, measure.Step{}
	q.Glazes = slices.Clone(p.Glazes)
	steps := map[string]*measure.Step{
		keyScale: &q.Kit.Scale, keyFine: &q.Kit.Fine, KeyPour: &q.Kit.Pour, keySyringe: &q.Kit.Syringe,
	}
	for _, x := range a {
		size, unit, err := quantity.Graduation(x.Text)
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
		case x.Key == keyWater || x.Key == keyGravity:
			x.mix(q.Glazes)
		case err != nil: // of a later version
		case x.Key == keyBatch:
			q.Cup.BatchG = size
		case isCup:
			q.Cup.Size, q.Cup.BatchG = blend.Amount{Value: size, Of: blend.Basis(cup)}, 0
		case steps[x.Key] != nil:
			*steps[x.Key] = measure.Step{Size: size, Unit: measure.Unit(unit)}
		}
	}
	return &q
}

// mix gives the glaze of its name the SG or the water that the amount is of.
func (x Amount) mix(glazes []blend.Glaze) {
	i := slices.IndexFunc(glazes, func(g blend.Glaze) bool { return g.Name == x.Glaze })
	if i < 0 {
		return
	}
	g := &glazes[i]
	if sg, err := strconv.ParseFloat(x.Text, 64); x.Key == keyGravity && err == nil {
		g.SG, g.WaterPer = sg, 0
	}
	if water, err := quantity.Mass(x.Text); x.Key == keyWater && err == nil {
		g.SG, g.WaterPer = 0, water
	}
}

// Lines is the amounts as a log has them.
func (a Amounts) Lines() []string { return each(a, Amount.String) }

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
		return Amount{Key: line}
	}
	at := strings.LastIndex(line, " = ")
	if at < 0 {
		return Amount{Key: line}
	}
	x := Amount{Key: line[:at], Text: line[at+len(" = "):]}
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
