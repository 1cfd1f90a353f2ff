package plan

import (
	"encoding"
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
	amount := func(key string, q encoding.TextMarshaler) {
		if text, err := q.MarshalText(); err == nil {
			line(key, tomlText(string(text)))
		}
	}
	// A size that --have worked out has the noise of a product in its last digits.
	size, err := strconv.ParseFloat(strconv.FormatFloat(p.Cup.Size, 'g', 12, 64), 64)
	if err != nil {
		size = p.Cup.Size
	}
	switch p.Cup.Of {
	case blend.Volume:
		amount("[cup] volume", Volume{size})
	case blend.Weight:
		amount("[cup] weight", Mass{size})
	default:
		amount("[cup] dry", Mass{size})
	}
	for _, h := range p.Have {
		text := number(h.ML) + " mL"
		if h.ML == 0 {
			text = number(h.G) + " g"
		}
		lines = append(lines, "--have "+tomlText(h.Glaze+"="+text))
	}
	k, b := p.Kit, p.Blend
	amount("[measure] scale", Mass{k.Scale.Size})
	if k.Fine.Size > 0 {
		amount("[measure] fine", Mass{k.Fine.Size})
	}
	amount("[measure] pour", Graduation{k.Pour})
	if b.HasSeries() {
		line("[blend] method", tomlText(string(b.Method)))
		if b.Method == blend.ByStock {
			amount("[measure] syringe", Volume{k.Syringe.Size})
		}
	}
	glazes := b.Ends
	if b.HasSeries() {
		glazes = []int{b.Base}
	}
	for _, i := range glazes {
		if g := p.Glazes[i]; g.WaterPer > 0 {
			amount("[[glaze]] "+tomlText(g.Name)+" water", Mass{g.WaterPer})
		} else if g.SG > 0 {
			line("[[glaze]] "+tomlText(g.Name)+" specific-gravity", number(g.SG))
		}
	}
	return lines
}

// AmountsChanged says in what the amounts of two plans differ, a matter to a
// text: `[cup] dry was "500 g" and is "300 g"`. A size of cup that follows from
// batches is not told beside them. It is empty when they are equal, and where
// was is not known.
func AmountsChanged(was, is []string) []string {
	if len(was) == 0 {
		return nil
	}
	had := slices.ContainsFunc(was, isBatch)
	has := slices.ContainsFunc(is, isBatch)
	texts := func(lines []string) map[string]string {
		all := map[string]string{}
		for _, line := range lines {
			if key, text := assigned(line); !isBatch(line) {
				all[key] = text
			}
		}
		return all
	}
	wasText, isText := texts(was), texts(is)
	var all []string
	for _, line := range was {
		key, text := assigned(line)
		now, there := isText[key]
		switch {
		case isBatch(line):
			if !slices.Contains(is, line) {
				all = append(all, line+" was given")
			}
		case strings.HasPrefix(key, "[cup]") && (had || has):
		case !there:
			all = append(all, key+" was "+text)
		case now != text:
			all = append(all, key+" was "+text+" and is "+now)
		}
	}
	for _, line := range is {
		key, text := assigned(line)
		_, there := wasText[key]
		switch {
		case isBatch(line):
			if !slices.Contains(was, line) {
				all = append(all, line+" was not given")
			}
		case strings.HasPrefix(key, "[cup]") && (had || has):
		case !there:
			all = append(all, key+" is "+text)
		}
	}
	return all
}

// assigned is the two sides of a line; a name in the key may have an = too.
func assigned(line string) (key, text string) {
	i := strings.LastIndex(line, " = ")
	if i < 0 {
		return line, ""
	}
	return line[:i], line[i+len(" = "):]
}

// isBatch reports whether a line of Amounts is of a batch that was mixed.
func isBatch(line string) bool { return strings.HasPrefix(line, "--have ") }
