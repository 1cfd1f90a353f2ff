package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// leastPart is the smallest part of a recipe or a list that is not 0.
const leastPart = 1e-6

// items is the entries of a list, at most blend.MaxCells.
func (c cell) items(right string) ([]*value, bool) {
	if c.v.kind != list {
		if texts := spelled(c.v, c.k.form.codec().shape); texts != nil {
			right = c.k.Name + " = [" + strings.Join(texts, ", ") + "]"
		}
		return nil, c.fault("is "+describe(c.v), "a list in square brackets: "+right)
	}
	if len(c.v.items) == 0 {
		return nil, c.fault("is empty", "as in "+right)
	}
	if n := len(c.v.items); n > blend.MaxCells {
		return nil, c.fault("has "+strconv.Itoa(n)+" entries", "at most "+strconv.Itoa(blend.MaxCells))
	}
	return c.v.items, true
}

func readNames(c cell, to any) bool {
	items, ok := c.items(c.k.line())
	if !ok {
		return false
	}
	if most := int(c.k.Most); most > 0 && len(items) > most {
		return c.fault("lists "+strconv.Itoa(len(items))+" names", "at most "+strconv.Itoa(most))
	}
	var all nameList
	seen := map[string]bool{}
	for _, item := range items {
		s, ok := c.oneLine(item, "a name in "+c.k.Name, c.k.line())
		switch {
		case !ok:
			continue
		case seen[fold(s)]:
			c.problem(item.line, c.k.Name+" lists "+quote(s)+" twice", "each name once")
			continue
		case c.k.Choices != nil && !slices.Contains(c.k.Choices, s):
			c.problem(item.line, "unknown part "+quote(s)+" in "+c.k.Name, meantText(s, c.k.Choices))
			continue
		}
		seen[fold(s)] = true
		all.names, all.lines = append(all.names, s), append(all.lines, item.line)
	}
	*to.(*nameList) = all
	return len(all.names) > 0
}

func writeNames(from any) string {
	all := from.(*nameList).names
	if len(all) == 0 {
		return ""
	}
	texts := make([]string, len(all))
	for i, n := range all {
		texts[i] = tomlText(n)
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// percent is a percentage from 0 to most: a plain number or a text with %.
func (r *reader) percent(v *value, what string, most float64) (float64, bool) {
	right := "a percentage, 0 to " + number(most)
	var x float64
	if v.kind == text && strings.Contains(v.text, "%") {
		var err error
		if x, err = quantity.Percent(v.text); err != nil {
			fault, fix := faultOf(err)
			r.problem(v.line, what+" = "+fault, fix)
			return 0, false
		}
	} else {
		var ok bool
		if x, ok = r.figure(v, what, right); !ok {
			return 0, false
		}
	}
	if x < 0 || x > most {
		r.problem(v.line, what+" = "+shown(v)+" is out of range", "0 to "+number(most)+" %")
		return 0, false
	}
	return x, true
}

// largestDose is what a percentage of the dry glaze stays below.
const largestDose = 100

// dose is one percentage of a series.
func (r *reader) dose(v *value, key string) (float64, bool) {
	x, ok := r.percent(v, key, largestDose)
	switch {
	case !ok:
	case x == largestDose:
		r.problem(v.line, key+" = "+shown(v)+" is too much", "below 100 %")
	case x > 0 && x < leastPart:
		r.problem(v.line, key+" = "+shown(v)+" is too small to be measured", "0, or at least 0.000001 %")
	default:
		return x, true
	}
	return 0, false
}

func readPercentNumber(c cell, to any) bool {
	x, ok := c.dose(c.v, c.k.Name)
	if ok {
		*to.(*float64) = x
	}
	return ok
}

func readPercents(c cell, to any) bool {
	items, ok := c.items(c.k.line())
	if !ok {
		return false
	}
	all := numberList{line: c.v.line, joined: joinedDecimals(items)}
	seen := map[float64]bool{}
	for _, item := range items {
		x, ok := c.dose(item, c.k.Name)
		if ok && seen[x] && all.joined != "" {
			c.problem(item.line, c.k.Name+" has a comma for a point: "+number(x)+" % is listed twice", c.k.Name+" = "+all.joined)
			return false
		}
		seen[x] = true
		if ok {
			all.values = append(all.values, x)
		}
	}
	*to.(*numberList) = all
	return len(all.values) == len(items)
}

func writePercents(from any) string {
	if all := from.(*numberList).values; len(all) > 0 {
		return bracket(all)
	}
	return ""
}

func bracket(xs []float64) string {
	all := make([]string, len(xs))
	for i, x := range xs {
		all[i] = number(x)
	}
	return "[" + strings.Join(all, ", ") + "]"
}

// joinedDecimals is a list of numbers in which some commas have a blank after
// them and others have none, with the others read as decimal commas; "" when
// there is no such thing in it.
func joinedDecimals(items []*value) string {
	whole := func(v *value) bool { return v.kind == figure && strings.Trim(v.text, "0123456789") == "" }
	var texts []string
	loose, tight := false, false
	joined := false // the last text has its decimals
	for i, item := range items {
		if i > 0 && item.tight && !joined && whole(items[i-1]) && whole(item) {
			texts[len(texts)-1] += "." + item.text
			tight, joined = true, true
			continue
		}
		loose = loose || i > 0 && !item.tight
		texts = append(texts, shown(item))
		joined = false
	}
	if !loose || !tight {
		return ""
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

func readCups(c cell, to any) bool {
	var all []int
	if c.v.kind == text {
		var err error
		if all, err = CupNumbers(c.v.text); err != nil {
			return c.wrong(err)
		}
		*to.(*[]int) = all
		return true
	}
	items, ok := c.items(c.k.line())
	if !ok {
		return false
	}
	for _, item := range items {
		x, ok := c.figure(item, "a cup in "+c.k.Name, "whole numbers: "+c.k.line())
		if !ok {
			return false
		}
		n := int(x)
		if float64(n) != x || n < 1 || n > blend.MaxCells {
			c.problem(item.line, "cup "+shown(item)+" in "+c.k.Name+" does not exist", "cups are numbered from 1")
			return false
		}
		all = append(all, n)
	}
	*to.(*[]int) = all
	return true
}

// CupNumbers reads the numbers of cups, "7-25" or "1, 3, 8-10".
func CupNumbers(s string) ([]int, error) {
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

func writeCups(from any) string {
	all := *from.(*[]int)
	if len(all) == 0 {
		return ""
	}
	var spans []string
	long := false
	for i := 0; i < len(all); {
		j := i
		for j+1 < len(all) && all[j+1] == all[j]+1 {
			j++
		}
		if j-i < 2 {
			j = i
			spans = append(spans, strconv.Itoa(all[i]))
		} else {
			long = true
			spans = append(spans, strconv.Itoa(all[i])+"-"+strconv.Itoa(all[j]))
		}
		i = j + 1
	}
	joined := strings.Join(spans, ", ")
	if long {
		return tomlText(joined)
	}
	return "[" + joined + "]"
}

func readParts(c cell, to any) bool {
	right := "a material and its amount in each pair of brackets: " + c.k.line()
	if texts := spelled(c.v, pairShape); texts != nil {
		right = c.k.Name + " = [" + strings.Join(texts, ", ") + "]"
	}
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
	case item.kind == list && len(item.items) == 3 && item.items[0].kind == text && item.items[2].tight:
		c.problem(item.line, line+" has a decimal comma", "a point: "+right)
		return p, false
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
