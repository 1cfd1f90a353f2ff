package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

func readParts(c cell, to any) bool {
	right := "a material and its amount in each pair of brackets: " + c.k.line()
	if c.v.kind != list {
		return c.fault("is "+describe(c.v), right)
	}
	const most = 60
	if n := len(c.v.items); n == 0 && c.k.Name == "recipe" {
		return c.fault("is empty", right)
	} else if n > most {
		return c.fault("has "+strconv.Itoa(n)+" lines", "at most "+strconv.Itoa(most))
	}
	all := partList{}
	for _, item := range c.v.items {
		p, ok := c.part(item, right)
		if !ok {
			continue
		}
		if slices.ContainsFunc(all.parts, func(q blend.Part) bool { return fold(q.Material) == fold(p.Material) }) {
			c.caution(item.line, c.k.Name+c.of, "lists "+quote(p.Material)+" twice", "", "add the two up")
		}
		all.parts, all.lines = append(all.parts, p), append(all.lines, item.line)
	}
	*to.(*partList) = all
	return len(all.parts) == len(c.v.items)
}

// part is one line of a recipe.
func (c cell) part(item *value, right string) (p blend.Part, ok bool) {
	line := "a line of " + c.k.Name + c.of
	switch {
	case item.kind != list || len(item.items) != 2:
		c.problem(item.line, line+" is not a material and its amount", right)
		return p, false
	case item.items[0].kind == figure && item.items[1].kind == text:
		c.problem(item.line, line+" has the amount before the material", right)
		return p, false
	}
	p.Material, ok = c.oneLine(item.items[0], "a material in "+c.k.Name, c.k.line())
	if !ok {
		return p, false
	}
	what := "the amount of " + quote(p.Material)
	v := item.items[1]
	if v.kind == text && strings.HasSuffix(strings.TrimSpace(v.text), "%") && c.k.Name == "additions" {
		p.Amount, ok = c.percent(v, what, c.k.Most)
	} else {
		p.Amount, ok = c.figure(v, what, "a number above 0, without quotes or unit")
	}
	switch {
	case !ok:
		return p, false
	case p.Amount < leastPart:
		c.problem(v.line, what+" is "+shown(v), "a number above 0; leave out what is not used")
		return p, false
	case p.Amount > c.k.Most:
		c.problem(v.line, what+" is "+shown(v), "at most "+number(c.k.Most))
		return p, false
	}
	return p, true
}

func writeParts(from any) string {
	list := from.(*partList).parts
	if len(list) == 0 {
		return ""
	}
	all := make([]string, len(list))
	for i, p := range list {
		all[i] = "[" + tomlText(p.Material) + ", " + number(p.Amount) + "]"
	}
	return "[" + strings.Join(all, ", ") + "]"
}

func readCells(c cell, to any) bool {
	if c.v.kind != list {
		return readWhole(c, &to.(*count).n)
	}
	items, ok := c.items("cells = [[70, 30], [50, 50]]")
	if !ok {
		return false
	}
	const right = "a pair of brackets for each cup: cells = [[70, 30], [50, 50]]"
	all := count{}
	for i, item := range items {
		place := "cup " + strconv.Itoa(i+1)
		if item.kind != list {
			c.problem(item.line, place+" is "+describe(item), right)
			continue
		}
		if parts, ok := c.cupParts(item, place); ok {
			all.parts, all.lines = append(all.parts, parts), append(all.lines, item.line)
		}
	}
	*to.(*count) = all
	return len(all.parts) == len(items)
}

// cupParts is the parts of one cup of a list.
func (c cell) cupParts(item *value, place string) (parts []float64, ok bool) {
	sum := 0.0
	for _, v := range item.items {
		x, ok := c.figure(v, "a part of "+place, "plain numbers")
		if !ok {
			return nil, false
		}
		if x < 0 || x > quantity.Most || x > 0 && x < leastPart {
			c.problem(v.line, "a part of "+place+" is "+shown(v), "0, or 0.000001 to "+number(quantity.Most))
			return nil, false
		}
		parts = append(parts, x)
		sum += x
	}
	if sum == 0 {
		c.problem(item.line, place+" is empty", "at least one part above 0")
	}
	return parts, sum > 0
}

func writeCells(from any) string {
	all := from.(*count)
	if len(all.parts) == 0 {
		return writeWhole(&all.n)
	}
	texts := make([]string, len(all.parts))
	for i, parts := range all.parts {
		texts[i] = bracket(parts)
	}
	return "[\n  " + strings.Join(texts, ",\n  ") + ",\n]"
}

func readFigures(c cell, to any) bool {
	if c.v.kind != group {
		return c.fault("is "+describe(c.v), "weight percent in braces: "+c.k.line())
	}
	var all []entryOf
	for _, e := range c.v.table.entries {
		key := quoteKey(e.key)
		if x, ok := c.figure(e.value, key, "a number in weight percent: "+key+" = 12.5"); ok {
			all = append(all, entryOf{e.key, x, e.line})
		}
	}
	*to.(*[]entryOf) = all
	return len(all) == len(c.v.table.entries)
}

func writeFigures(from any) string {
	list := *from.(*[]entryOf)
	if len(list) == 0 {
		return ""
	}
	all := make([]string, len(list))
	for i, e := range list {
		all[i] = quoteKey(e.key) + " = " + number(e.value)
	}
	return "{ " + strings.Join(all, ", ") + " }"
}

func readBounds(c cell, to any) bool {
	right := "the least and the most of an end glaze: " + c.k.line()
	if c.v.kind != group {
		return c.fault("is "+describe(c.v), right)
	}
	var all []bound
	for _, e := range c.v.table.entries {
		what := "bounds of " + quote(e.key)
		if e.value.kind != list || len(e.value.items) != 2 {
			c.problem(e.line, what+" are not two percentages", right)
			continue
		}
		lo, okLo := c.percent(e.value.items[0], "minimum in "+what, 100)
		hi, okHi := c.percent(e.value.items[1], "maximum in "+what, 100)
		switch {
		case !okLo || !okHi:
		case lo >= hi:
			relation := "above"
			if lo == hi {
				relation = "equal to"
			}
			c.problem(e.line, what+": minimum "+number(lo)+" % is "+relation+" maximum "+number(hi)+" %", "the smaller figure first")
		default:
			all = append(all, bound{e.key, lo, hi, e.line})
		}
	}
	*to.(*[]bound) = all
	return len(all) == len(c.v.table.entries)
}

func writeBounds(from any) string {
	list := *from.(*[]bound)
	if len(list) == 0 {
		return ""
	}
	all := make([]string, len(list))
	for i, b := range list {
		all[i] = quoteKey(b.name) + ` = ["` + number(b.lo) + ` %", "` + number(b.hi) + ` %"]`
	}
	return "{ " + strings.Join(all, ", ") + " }"
}
