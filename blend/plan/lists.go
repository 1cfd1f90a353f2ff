package plan

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// Values of several parts.
type (
	cupList struct { // 6, or [[70, 30], [50, 50]]
		n     int
		parts [][]float64
	}
	percentOf struct { // of an analysis: SiO2 = 60
		key     string
		percent float64
		line    int
	}
	bound struct { // "Wood ash" = ["20 %", "60 %"]
		name   string
		lo, hi float64 // percent
		line   int
	}
)

// readSeveral reads a value of several parts, as read does.
func (c cell) readSeveral(place any) bool {
	switch to := place.(type) {
	case *[]string:
		return set(to, c.names)
	case *[]float64:
		return set(to, func() ([]float64, bool) { return each(c, blend.MaxCells, c.k.Name, cell.dose) })
	case *[]int:
		return set(to, c.cupNumbers)
	case *[]blend.Part:
		return set(to, c.recipe)
	case *cupList:
		return set(to, c.cups)
	case *[]percentOf:
		return set(to, c.analysis)
	case *[]bound:
		return set(to, c.bounds)
	}
	panic(c.k.Name + " has no place") // a test reads every key
}

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
	switch {
	case c.v.kind != list || len(items) != 2:
		c.fault("is not a material and its amount", "both in each pair of brackets: "+c.k.line())
		return p, false
	case items[0].kind == figure && items[1].kind == text:
		c.fault("has the amount before the material", c.k.line())
		return p, false
	}
	if p.Material, ok = c.item(items[0], "a material in "+c.k.Name).text(); !ok {
		return p, false
	}
	c = c.item(items[1], "the amount of "+quote(p.Material))
	read := c.figure
	if c.k.Name == "additions" {
		read = c.percent
	}
	p.Percent, ok = read()
	return p, ok && c.within(p.Percent, "")
}

// writtenCups is how the cups of a list are written.
const writtenCups = "[[70, 30], [50, 50]]"

// cups is how many cups there are, or the parts of each.
func (c cell) cups() (all cupList, ok bool) {
	if c.v.kind != list {
		all.n, ok = c.whole()
		return all, ok
	}
	k := *c.k
	k.Example, k.Range = writtenCups, [2]float64{0, quantity.Most}
	c.k = &k
	n := 0
	all.parts, _ = each(c, blend.MaxCells, "", func(cup cell) ([]float64, bool) {
		n++
		cup.name = "cup " + strconv.Itoa(n)
		parts, ok := each(cup, blend.MaxCells, "a part of "+cup.name, cell.number)
		if ok && slices.Max(parts) == 0 {
			cup.fault("is empty", "at least one part above 0")
			return nil, false
		}
		return parts, ok
	})
	return all, all.parts != nil
}

// entries is the keys of a group in braces, or under a heading of its own.
func (c cell) entries(right string) ([]*value, bool) {
	if c.v.kind != group {
		c.fault("is "+describe(c.v), right+c.k.line())
		return nil, false
	}
	return c.v.table.entries, true
}

func (c cell) analysis() (all []percentOf, ok bool) {
	entries, ok := c.entries("weight percent in braces: ")
	for _, e := range entries {
		x, read := c.item(e, quoteKey(e.key)).figure()
		all = append(all, percentOf{e.key, x, e.line})
		ok = ok && read
	}
	return all, ok
}

func (c cell) bounds() (all []bound, ok bool) {
	const right = "the least and the most of an end glaze: "
	entries, ok := c.entries(right)
	for _, e := range entries {
		b := c.item(e, "bounds of "+quote(e.key))
		if e.kind != list || len(e.items) != 2 {
			b.fault("are not two percentages", right+c.k.line())
			ok = false
			continue
		}
		lo, okLo := b.item(e.items[0], "minimum in "+b.name).percent()
		hi, okHi := b.item(e.items[1], "maximum in "+b.name).percent()
		if okLo && okHi && !(0 <= lo && lo < hi && hi <= 100) {
			b.fault("are "+number(lo)+" to "+number(hi)+" %", "the smaller figure first, from 0 to 100 %")
			ok = false
		}
		all, ok = append(all, bound{e.key, lo, hi, e.line}), ok && okLo && okHi
	}
	return all, ok
}

// bracketed is a list as it is written.
func bracketed[T any](all []T, text func(T) string) string { return "[" + joined(all, text) + "]" }

func joined[T any](all []T, text func(T) string) string {
	texts := make([]string, len(all))
	for i, x := range all {
		texts[i] = text(x)
	}
	return strings.Join(texts, ", ")
}

func (p percentOf) String() string { return quoteKey(p.key) + " = " + number(p.percent) }

func (b bound) String() string {
	return quoteKey(b.name) + ` = ["` + number(b.lo) + ` %", "` + number(b.hi) + ` %"]`
}

func (c cupList) String() string {
	if c.parts == nil {
		return strconv.Itoa(c.n)
	}
	text := "["
	for _, parts := range c.parts {
		text += "\n  " + bracketed(parts, number) + ","
	}
	return text + "\n]"
}
