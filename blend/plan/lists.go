package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// The forms of several values.
type (
	nameList   []string     // ["A", "B"]
	percents   []float64    // [0, 1, 2]
	cupNumbers []int        // [1, 8] or "7-25"
	partList   []blend.Part // [["Silica", 40]]
	cupList    struct {     // 6, or [[70, 30], [50, 50]]
		n     *int
		parts *[][]float64
	}
	analysis  []percentOf // { SiO2 = 60 }
	percentOf struct {
		key     string
		percent float64
		line    int
	}
	boundList []bound  // { "Wood ash" = ["20 %", "60 %"] }
	bound     struct { // percent
		name   string
		lo, hi float64
		line   int
	}
)

// leastPart is the smallest part of a recipe or a list that is not 0.
const leastPart = 1e-6

// items is the entries of a list, at most blend.MaxCells.
func (c cell) items(right string) ([]*value, bool) {
	switch n := len(c.v.items); {
	case c.v.kind != list:
		return nil, c.fault("is "+describe(c.v), "a list in square brackets: "+right)
	case n == 0:
		return nil, c.fault("is empty", "as in "+right)
	case n > blend.MaxCells:
		return nil, c.fault("has "+strconv.Itoa(n)+" entries", "at most "+strconv.Itoa(blend.MaxCells))
	}
	return c.v.items, true
}

// each reads every entry of a list; ok is false when one cannot be read.
func each[T any](entries []*value, read func(*value) (T, bool)) (all []T, ok bool) {
	for _, v := range entries {
		if x, ok := read(v); ok {
			all = append(all, x)
		}
	}
	return all, len(all) == len(entries)
}

// bracketed is a list as it is written, "" for an empty one.
func bracketed[T any](all []T, text func(T) string) string {
	if len(all) == 0 {
		return ""
	}
	return "[" + joined(all, text) + "]"
}

func joined[T any](all []T, text func(T) string) string {
	texts := make([]string, len(all))
	for i, x := range all {
		texts[i] = text(x)
	}
	return strings.Join(texts, ", ")
}

func (to *nameList) read(c cell) bool {
	items, ok := c.items(c.k.line())
	if !ok {
		return false
	}
	if most := int(c.k.Most); most > 0 && len(items) > most {
		return c.fault("lists "+strconv.Itoa(len(items))+" names", "at most "+strconv.Itoa(most))
	}
	*to = nil
	seen := map[string]bool{}
	for _, item := range items {
		s, ok := c.oneLine(item, "a name in "+c.k.Name, c.k.line())
		switch {
		case !ok:
		case seen[quantity.Fold(s)]:
			c.problem(item.line, c.k.Name+" lists "+quote(s)+" twice", "each name once")
		case c.k.Choices != nil && !slices.Contains(c.k.Choices, s):
			c.problem(item.line, "unknown part "+quote(s)+" in "+c.k.Name, meantText(s, c.k.Choices))
		default:
			seen[quantity.Fold(s)] = true
			*to = append(*to, s)
		}
	}
	return len(*to) > 0
}

func (to *nameList) write(*Key) string { return bracketed(*to, quantity.TOML) }

func (to *percents) read(c cell) bool {
	items, ok := c.items(c.k.line())
	if ok {
		*to, ok = each(items, c.dose)
	}
	return ok
}

func (to *percents) write(*Key) string { return bracketed(*to, number) }

func (to *cupNumbers) read(c cell) bool {
	if c.v.kind == text {
		all, err := readCupNumbers(c.v.text)
		if err != nil {
			return c.wrong(err)
		}
		*to = all
		return true
	}
	items, ok := c.items(c.k.line())
	if ok {
		*to, ok = each(items, c.cupNumber)
	}
	return ok
}

func (c cell) cupNumber(v *value) (int, bool) {
	x, ok := c.figure(v, "a cup in "+c.k.Name, "whole numbers: "+c.k.line())
	if n := int(x); !ok || float64(n) == x && n >= 1 && n <= blend.MaxCells {
		return n, ok
	}
	c.problem(v.line, "cup "+shown(v)+" in "+c.k.Name+" does not exist", "cups are numbered from 1")
	return 0, false
}

// readCupNumbers reads the numbers of cups, "7-25" or "1, 3, 8-10".
func readCupNumbers(s string) ([]int, error) {
	wrong := &quantity.Error{Fault: quote(s) + " does not list cups", Fix: `as in "7-25" or "1, 3, 8-10"`}
	var all []int
	for _, span := range strings.Split(s, ",") {
		first, last, ranged := strings.Cut(strings.ReplaceAll(span, "–", "-"), "-")
		if !ranged {
			last = first
		}
		lo, errLo := strconv.Atoi(strings.TrimSpace(first))
		hi, errHi := strconv.Atoi(strings.TrimSpace(last))
		if errLo != nil || errHi != nil || lo < 1 || hi < lo || len(all)+hi-lo >= blend.MaxCells {
			return nil, wrong
		}
		for n := lo; n <= hi; n++ {
			all = append(all, n)
		}
	}
	return all, nil
}

func (to *cupNumbers) write(*Key) string {
	text := bracketed(*to, strconv.Itoa)
	const long = 40
	if len(text) < long {
		return text
	}
	_, spans, _ := strings.Cut(quantity.Cups(*to, len(*to)), " ")
	return quote(spans)
}

func (to *partList) read(c cell) bool {
	right := "a material and its amount in each pair of brackets: " + c.k.line()
	const most = 60
	switch n := len(c.v.items); {
	case c.v.kind != list:
		return c.fault("is "+describe(c.v), right)
	case n == 0 && c.k.Name == "recipe":
		return c.fault("is empty", right)
	case n > most:
		return c.fault("has "+strconv.Itoa(n)+" lines", "at most "+strconv.Itoa(most))
	}
	seen := map[string]bool{}
	all, ok := each(c.v.items, func(v *value) (blend.Part, bool) {
		p, ok := c.part(v, right)
		if name := quantity.Fold(p.Material); ok && seen[name] {
			c.caution(v.line, c.k.Name+c.of, "lists "+quote(p.Material)+" twice", "", "add the two up")
		} else {
			seen[name] = ok
		}
		return p, ok
	})
	*to = all
	return ok
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
		p.Percent, ok = c.percent(v, what, c.k.Most)
	} else {
		p.Percent, ok = c.figure(v, what, "a number above 0, without quotes or unit")
	}
	right = ""
	if p.Percent < leastPart {
		right = "a number above 0; leave out what is not used"
	} else if p.Percent > c.k.Most {
		right = "at most " + number(c.k.Most)
	}
	if ok && right != "" {
		c.problem(v.line, what+" is "+shown(v), right)
	}
	return p, ok && right == ""
}

func (to *partList) write(*Key) string {
	return bracketed(*to, func(p blend.Part) string { return "[" + quantity.TOML(p.Material) + ", " + number(p.Percent) + "]" })
}

// writtenCups is how the cups of a list are written.
const writtenCups = "cells = [[70, 30], [50, 50]]"

func (to *cupList) read(c cell) bool {
	if c.v.kind != list {
		return (*whole)(to.n).read(c)
	}
	items, ok := c.items(writtenCups)
	if !ok {
		return false
	}
	*to.parts = nil
	for i, item := range items {
		place := "cup " + strconv.Itoa(i+1)
		if item.kind != list {
			c.problem(item.line, place+" is "+describe(item), "a pair of brackets for each cup: "+writtenCups)
			continue
		}
		if parts, ok := c.cupParts(item, place); ok {
			*to.parts = append(*to.parts, parts)
		}
	}
	return len(*to.parts) == len(items)
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

func (to *cupList) write(k *Key) string {
	if len(*to.parts) == 0 {
		return (*whole)(to.n).write(k)
	}
	text := "["
	for _, parts := range *to.parts {
		text += "\n  " + bracketed(parts, number) + ","
	}
	return text + "\n]"
}

func (to *analysis) read(c cell) bool {
	if c.v.kind != group {
		return c.fault("is "+describe(c.v), "weight percent in braces: "+c.k.line())
	}
	*to = nil
	for _, e := range c.v.table.entries {
		key := quoteKey(e.key)
		if x, ok := c.figure(e.value, key, "a number in weight percent: "+key+" = 12.5"); ok {
			*to = append(*to, percentOf{e.key, x, e.line})
		}
	}
	return len(*to) == len(c.v.table.entries)
}

func (to *analysis) write(*Key) string {
	if len(*to) == 0 {
		return ""
	}
	return "{ " + joined(*to, func(e percentOf) string { return quoteKey(e.key) + " = " + number(e.percent) }) + " }"
}

func (to *boundList) read(c cell) bool {
	right := "the least and the most of an end glaze: " + c.k.line()
	if c.v.kind != group {
		return c.fault("is "+describe(c.v), right)
	}
	*to = nil
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
		case lo == hi:
			c.problem(e.line, what+": minimum and maximum are "+number(lo)+" %", "two figures, the smaller first")
		case lo > hi:
			c.problem(e.line, what+": minimum "+number(lo)+" % is above maximum "+number(hi)+" %", "the smaller figure first")
		default:
			*to = append(*to, bound{e.key, lo, hi, e.line})
		}
	}
	return len(*to) == len(c.v.table.entries)
}

func (to *boundList) write(*Key) string {
	if len(*to) == 0 {
		return ""
	}
	return "{ " + joined(*to, func(b bound) string {
		return quoteKey(b.name) + ` = ["` + number(b.lo) + ` %", "` + number(b.hi) + ` %"]`
	}) + " }"
}
