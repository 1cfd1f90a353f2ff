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
	var all []float64
	for _, item := range items {
		if x, ok := c.dose(item, c.k.Name); ok {
			all = append(all, x)
		}
	}
	*to.(*[]float64) = all
	return len(all) == len(items)
}

func writePercents(from any) string {
	if all := *from.(*[]float64); len(all) > 0 {
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
