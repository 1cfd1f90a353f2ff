package plan

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// each reads every entry of the value, a list of most or fewer; ok is false when
// one cannot be read.
func each[T any](c cell, most int, name string, read func(cell) (T, bool)) (all []T, ok bool) {
	right := "a list in square brackets: " + c.k.line()
	switch n := len(c.v.items); {
	case c.v.kind != list:
		c.fault("is "+describe(c.v), right)
	case n == 0:
		c.fault("is empty", right)
	case n > most:
		c.fault("has "+strconv.Itoa(n)+" entries", "at most "+strconv.Itoa(most))
	default:
		for _, v := range c.v.items {
			if x, ok := read(c.item(v, name)); ok {
				all = append(all, x)
			}
		}
	}
	return all, all != nil && len(all) == len(c.v.items)
}

// names is a list of names. Those that cannot be read are left out, so that the
// others are looked up.
func (c cell) names() ([]string, bool) {
	seen := map[string]bool{}
	all, _ := each(c, cmp.Or(int(c.k.Range[1]), blend.MaxCells), "a name in "+c.k.Name, func(c cell) (string, bool) {
		s, ok := c.text()
		if ok && seen[quantity.Fold(s)] {
			c.problem(c.v.line, c.k.Name+" lists "+quote(s)+" twice", "each name once")
			return "", false
		}
		seen[quantity.Fold(s)] = ok
		return s, ok
	})
	return all, all != nil
}

// cupNumbers is the numbers of cups, [1, 8] or "7-25".
func (c cell) cupNumbers() ([]int, bool) {
	if c.v.kind != text {
		return each(c, blend.MaxCells, "a cup in "+c.k.Name, cell.whole)
	}
	all := readCupNumbers(c.v.text)
	if all == nil {
		c.unfit("does not list cups", `as in "7-25" or "1, 3, 8-10"`)
	}
	return all, all != nil
}

// readCupNumbers reads the numbers of cups, "7-25" or "1, 3, 8-10"; nil for a text
// that is something else.
func readCupNumbers(s string) (all []int) {
	for _, span := range strings.Split(s, ",") {
		first, last, ranged := strings.Cut(strings.ReplaceAll(span, "–", "-"), "-")
		if !ranged {
			last = first
		}
		lo, errLo := strconv.Atoi(strings.TrimSpace(first))
		hi, errHi := strconv.Atoi(strings.TrimSpace(last))
		if errLo != nil || errHi != nil || lo < 1 || hi < lo || len(all)+hi-lo >= blend.MaxCells {
			return nil
		}
		for n := lo; n <= hi; n++ {
			all = append(all, n)
		}
	}
	return all
}

// recipe is materials with their amounts.
func (c cell) recipe() ([]blend.Part, bool) {
	seen := map[string]bool{}
	const most = 60
	return each(c, most, "a line of "+c.name, func(line cell) (blend.Part, bool) {
		p, ok := line.part()
		if name := quantity.Fold(p.Material); ok && seen[name] {
			c.caution(line.v.line, c.name, "lists "+quote(p.Material)+" twice", "add the two up")
		} else {
			seen[name] = ok
		}
		return p, ok
	})
}

// part is one line of a recipe.
func (c cell) part() (p blend.Part, ok bool) {
	items := c.v.items
	if c.v.kind != list || len(items) != 2 || items[0].kind == figure {
		c.fault("is not a material and its amount", "both in each pair of brackets: "+c.k.line())
		return p, false
	}
	if p.Material, ok = c.item(items[0], "a material in "+c.k.Name).text(); !ok {
		return p, false
	}
	p.Percent, ok = c.item(items[1], "the amount of "+quote(p.Material)).number()
	return p, ok
}

// writtenCups is an example of the cups of a list, for errors.
const writtenCups = "[[70, 30], [50, 50]]"

// cups reads how many cups there are, or the parts of each.
func (c cell) cups() (all cupList, ok bool) {
	if c.v.kind != list {
		all.N, ok = c.whole()
		return all, ok
	}
	k := *c.k
	k.Example, k.Range = writtenCups, [2]float64{0, quantity.Most}
	c.k = &k
	n := 0
	all.Parts, _ = each(c, blend.MaxCells, "", func(cup cell) ([]float64, bool) {
		n++
		cup.name = "cup " + strconv.Itoa(n)
		parts, ok := each(cup, blend.MaxCells, "a part of "+cup.name, cell.number)
		if ok && slices.Max(parts) == 0 {
			cup.fault("is empty", "at least one part above 0")
			return nil, false
		}
		return parts, ok
	})
	return all, all.Parts != nil
}

// entries is the keys of a group in braces, or under a heading of its own.
func (c cell) entries(right string) ([]*value, bool) {
	if c.v.kind != group {
		c.fault("is "+describe(c.v), right+c.k.line())
	}
	return c.v.items, c.v.kind == group
}

// analysis is that of the raw material. One of the fired material adds up to 100 %
// without its loss.
func (c cell) analysis() (a oxide.Analysis, ok bool) {
	entries, ok := c.entries("weight percent in braces: ")
	percents, fired := map[string]float64{}, 1.0
	for _, e := range entries {
		x, read := c.item(e, quoteKey(e.key)).number()
		percents[e.key], ok = x, ok && read
		if strings.EqualFold(e.key, "LOI") {
			fired -= x / 100
		}
	}
	if !ok {
		return a, false
	}
	if basis := c.get("analysis-of"); basis != nil && basis.text == "fired" {
		for key := range percents {
			if !strings.EqualFold(key, "LOI") {
				percents[key] *= fired
			}
		}
	}
	a, wrong, err := oxide.ParseAnalysis(percents)
	if err != nil {
		c.problem(cmp.Or(c.v.byKey[wrong], c.v).line, err.Error(), "")
	}
	return a, err == nil
}

// bounds is the least and the most of each end glaze.
func (c cell) bounds() (all []blend.Bound, ok bool) {
	entries, ok := c.entries("the least and the most of an end glaze: ")
	if len(entries) == 0 || c.d.Ends == nil {
		return nil, ok
	}
	all = slices.Repeat([]blend.Bound{{Lo: 0, Hi: 1}}, len(c.d.Ends))
	for _, e := range entries {
		b := c.item(e, "bounds of "+quote(e.key))
		at := slices.Index(c.d.Ends, e.key)
		if at < 0 {
			c.problem(e.line, "unknown end glaze "+quote(e.key)+" in bounds", meantText(e.key, c.d.Ends))
			ok = false
			continue
		}
		limits, read := each(b, 2, b.name, cell.number)
		if read && !(len(limits) == 2 && 0 <= limits[0] && limits[0] < limits[1] && limits[1] <= 100) {
			b.fault("are not two percentages of 0 to 100 %", "the smaller one first: "+c.k.line())
			read = false
		}
		if ok = ok && read; ok {
			all[at] = blend.Bound{Lo: quantity.Shift(limits[0], -2), Hi: quantity.Shift(limits[1], -2)}
		}
	}
	return all, ok && c.vary(all)
}

// vary reports whether bounds leave shares to vary.
func (c cell) vary(bounds []blend.Bound) bool {
	least, most := 0.0, 0.0
	for _, b := range bounds {
		least, most = least+b.Lo, most+b.Hi
	}
	const hair = 1e-9
	ok := least < 1-hair && most > 1+hair
	if !ok {
		sums := "minimums add up to " + quantity.ShareText(least) + " %, maximums to " + quantity.ShareText(most) + " %"
		c.fault("leave nothing to vary: "+sums, "below and above 100 %")
	}
	return ok
}
