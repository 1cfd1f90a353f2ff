package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
)

// Amounts is what decides, beside the outline, how much was really measured
// into each cup, a line of the plan's file to a matter, with its table before
// it: `[cup] dry = "500 g"`. A batch that was mixed already, which no file
// says, stands as the flag that said it: `--have "Ash=1450 mL"`.
func Amounts(p *blend.Plan) []string {
	var lines []string
	line := func(key, text string) { lines = append(lines, key+" = "+text) }
	amount := func(key string, x float64, unit string) { line(key, tomlText(number(x)+" "+unit)) }
	// A size that --have worked out has the noise of a product in its last digits.
	size, err := strconv.ParseFloat(strconv.FormatFloat(p.Cup.Size, 'g', 12, 64), 64)
	if err != nil {
		size = p.Cup.Size
	}
	switch {
	case p.Cup.BatchG > 0:
		amount("[cup] batch", p.Cup.BatchG, "g")
	case p.Cup.Of == blend.Volume:
		amount("[cup] volume", size, "mL")
	case p.Cup.Of == blend.Weight:
		amount("[cup] weight", size, "g")
	default:
		amount("[cup] dry", size, "g")
	}
	for _, h := range p.Have {
		text := number(h.ML) + " mL"
		if h.ML == 0 {
			text = number(h.G) + " g"
		}
		lines = append(lines, "--have "+tomlText(h.Glaze+"="+text))
	}
	k, b := p.Kit, p.Blend
	amount("[measure] scale", k.Scale.Size, "g")
	if k.Fine.Size > 0 {
		amount("[measure] fine", k.Fine.Size, "g")
	}
	amount("[measure] pour", k.Pour.Size, string(k.Pour.Unit))
	if b.HasSeries() {
		line("[blend] method", tomlText(string(b.Method)))
		if b.Method == blend.ByStock {
			amount("[measure] syringe", k.Syringe.Size, "mL")
		}
	}
	glazes := b.Ends
	if b.HasSeries() {
		glazes = []int{b.Base}
	}
	for _, i := range glazes {
		if g := p.Glazes[i]; g.WaterPer > 0 {
			amount("[[glaze]] "+tomlText(g.Name)+" water", g.WaterPer, "g")
		} else if g.SG > 0 {
			line("[[glaze]] "+tomlText(g.Name)+" specific-gravity", number(g.SG))
		}
	}
	return lines
}

// SameAmounts reports whether the amounts of two plans are the same, as far as
// those of the first are known. A size of cup that follows from batches is not
// looked at beside them.
func SameAmounts(was, is []string) bool {
	if len(was) == 0 {
		return true
	}
	was, is = CommonAmounts(was, is)
	if slices.ContainsFunc(was, isBatch) || slices.ContainsFunc(is, isBatch) {
		isCup := func(line string) bool { return strings.HasPrefix(line, "[cup] ") }
		was, is = slices.DeleteFunc(was, isCup), slices.DeleteFunc(is, isCup)
	}
	slices.Sort(was)
	slices.Sort(is)
	return slices.Equal(was, is)
}

// CommonAmounts leaves out of the amounts of two plans what is of a glaze that
// only one of them has: another glaze, or one under another name, is told of as
// a change of the plan.
func CommonAmounts(was, is []string) (ofWas, ofIs []string) {
	common := func(lines, others []string) []string {
		return slices.DeleteFunc(slices.Clone(lines), func(line string) bool {
			name := glazeIn(line)
			return name != "" && !slices.ContainsFunc(others, func(other string) bool { return glazeIn(other) == name })
		})
	}
	return common(was, is), common(is, was)
}

// glazeIn is the glaze that a line of Amounts is of, quoted, or "".
func glazeIn(line string) string {
	key, ok := strings.CutPrefix(line[:max(0, strings.LastIndex(line, " = "))], "[[glaze]] ")
	if !ok {
		return ""
	}
	return key[:max(0, strings.LastIndex(key, " "))]
}

// isBatch reports whether a line of Amounts is of a batch that was mixed.
func isBatch(line string) bool { return strings.HasPrefix(line, "--have ") }
