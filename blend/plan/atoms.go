package plan

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// Signs that people's programs put for quotes.
const (
	curlyDouble = "“”„‟«»″"
	curlySingle = "‘’‚‹›"
	curly       = curlyDouble + curlySingle
)

// pattern is a regular expression that is put together when it is first asked
// for: most plans, and most commands, need none.
func pattern(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}

// atom is one entry of a list that is written somehow: a name, a number or
// both, "Silica 40".
type atom struct {
	line int // of the text that it was found in, from 0
	row  int // how many brackets were opened before it
	text string
}

// atoms is the entries of a list, whatever brackets, quotes and signs part
// them. With comma, a comma between two figures is a decimal one.
func atoms(text string, comma bool) []atom {
	var all []atom
	row := 0
	for n, line := range strings.Split(text, "\n") {
		signs := []rune(evenQuotes(line))
		from, solid := 0, -1 // where the entry begins, and the last sign that is no blank
		end := func(at int) {
			if word := strings.TrimFunc(string(signs[from:at]), unicode.IsSpace); word != "" {
				all = append(all, atom{line: n, row: row, text: word})
			}
			from = at + 1
		}
		figure := func(i int) bool { return i >= 0 && i < len(signs) && signs[i] >= '0' && signs[i] <= '9' }
		for i := 0; i < len(signs); i++ {
			c := signs[i]
			begins := solid < from
			if !unicode.IsSpace(c) {
				solid = i
			}
			switch {
			case c == '#' || begins && c == '/' && i+1 < len(signs) && signs[i+1] == '/':
				end(i)
				from, i = len(signs), len(signs)
			case c == '"' || strings.ContainsRune(curlyDouble, c) || begins && (c == '\'' || strings.ContainsRune(curlySingle, c)):
				closing := closingQuote(signs, i)
				if closing < 0 {
					continue
				}
				end(i)
				all = append(all, atom{n, row, strings.TrimFunc(string(signs[i+1:closing]), unicode.IsSpace)})
				from, i = closing+1, closing
			case c == ',' && comma && figure(i-1) && figure(i+1):
			case strings.ContainsRune(",;:=", c):
				end(i)
			case strings.ContainsRune("[({", c):
				end(i)
				row++
			case strings.ContainsRune("])}", c):
				end(i)
			}
		}
		if from < len(signs) {
			end(len(signs))
		}
	}
	return all
}

// atomsOf is the entries of a value that could be read, but is of another form
// than it should be.
func atomsOf(v *value) []atom {
	switch v.kind {
	case text:
		return atoms(v.text, true)
	case list:
		var all []atom
		for _, item := range v.items {
			if item.kind == text {
				all = append(all, atom{text: item.text}) // a comma in it parts nothing
				continue
			}
			all = append(all, atomsOf(item)...)
		}
		return all
	case group:
		var all []atom
		for _, e := range v.table.entries {
			all = append(append(all, atom{text: e.key}), atomsOf(e.value)...)
		}
		return all
	}
	return []atom{{text: v.text}}
}

// closingQuote is where the text ends that the quote at a place opens, or -1.
func closingQuote(signs []rune, at int) int {
	kin := "'" + curlySingle
	if !strings.ContainsRune(kin, signs[at]) {
		kin = `"` + curlyDouble
	}
	for i := at + 1; i < len(signs); i++ {
		if strings.ContainsRune(kin, signs[i]) {
			return i
		}
	}
	return -1
}

// evenQuotes takes the double quotes out of a line that has one too few: which
// one is missing cannot be told, and commas and brackets part its entries too.
func evenQuotes(line string) string {
	if !oddQuotes(line) {
		return line
	}
	return strings.Map(func(r rune) rune {
		if r == '"' || strings.ContainsRune(curlyDouble, r) {
			return ' '
		}
		return r
	}, line)
}

// oddQuotes reports whether a line lacks a double quote.
func oddQuotes(line string) bool {
	n := 0
	for _, r := range line {
		if r == '#' && n%2 == 0 {
			break
		}
		if r == '"' || strings.ContainsRune(curlyDouble, r) {
			n++
		}
	}
	return n%2 == 1
}

// named is a name with the numbers that follow it.
type named struct {
	line   int
	name   string
	digits []string
}

// pairs groups atoms by name: "Silica", 40, or Silica 40, or, when count is 1,
// 40, "Silica". It is nil when they are not names that each have count numbers.
func pairs(list []atom, count int) []named {
	if len(list) == 0 {
		return nil
	}
	if _, first := plainNumber(list[0].text); first && count == 1 {
		list = slices.Clone(list)
		for i := 0; i+1 < len(list); i += 2 {
			list[i], list[i+1] = list[i+1], list[i]
		}
	}
	var all []named
	for i, a := range list {
		digits, isNumber := plainNumber(a.text)
		if isNumber && i == 0 {
			return nil
		}
		if isNumber {
			last := &all[len(all)-1]
			last.digits = append(last.digits, digits)
			continue
		}
		next := named{line: a.line, name: a.text}
		numbered := false // the next atom is its number
		if i+1 < len(list) {
			_, numbered = plainNumber(list[i+1].text)
		}
		if name, digits, ok := nameAndNumber(a.text); ok && !numbered {
			next.name, next.digits = name, []string{digits}
		}
		all = append(all, next)
	}
	for i, n := range all {
		if count == 1 && len(n.digits) == 2 && !strings.Contains(n.digits[0]+n.digits[1], ".") {
			all[i].digits = []string{n.digits[0] + "." + n.digits[1]} // "Silica", 40,5
		}
		if len(all[i].digits) != count {
			return nil
		}
	}
	return all
}

// withUnit is a number and, perhaps, what it counts.
var withUnit = pattern(`^([+\-−]?(?:\d+[.,]?\d*|[.,]\d+))\s*(%|[\pL]+\.?(?:/[\pL]+)?)?$`)

// plainNumber is the digits of a number that may have a decimal comma and a
// unit, as TOML has them.
func plainNumber(text string) (digits string, ok bool) {
	parts := withUnit().FindStringSubmatch(strings.TrimSpace(text))
	if parts == nil {
		return "", false
	}
	digits = strings.NewReplacer("−", "-", "+", "", ",", ".").Replace(parts[1])
	if whole, after, comma := strings.Cut(parts[1], ","); comma && len(after) == 3 && strings.Trim(whole, "+-−0") != "" {
		return "", false // it can be read in two ways
	}
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return "", false
	}
	return number(x), true
}

// nameAndNumber parts "Silica 40 %".
func nameAndNumber(text string) (name, digits string, ok bool) {
	words := strings.Fields(text)
	for _, last := range []int{1, 2} { // with or without a unit
		if len(words) > last {
			if digits, ok := plainNumber(strings.Join(words[len(words)-last:], " ")); ok {
				return strings.Join(words[:len(words)-last], " "), digits, true
			}
		}
	}
	return "", "", false
}

// lowered puts the small figures of formulas on the line.
var lowered = strings.NewReplacer("₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4", "₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9")

// entries is the atoms as entries of a list or group of a form, each with the
// line that it begins on; nil when they are not.
func entries(list []atom, f form) (texts []string, lines []int) {
	add := func(text string, line int) { texts, lines = append(texts, text), append(lines, line) }
	switch f {
	case nameList:
		for _, a := range list {
			add(tomlText(a.text), a.line)
		}
	case digitList:
		for _, a := range list {
			digits, ok := plainNumber(a.text)
			if !ok {
				return nil, nil
			}
			add(digits, a.line)
		}
	case rowList:
		for i := 0; i < len(list); {
			var row []string
			first := list[i]
			for ; i < len(list) && list[i].row == first.row; i++ {
				digits, ok := plainNumber(list[i].text)
				if !ok {
					return nil, nil
				}
				row = append(row, digits)
			}
			add("["+strings.Join(row, ", ")+"]", first.line)
		}
	case pairList:
		for _, p := range pairs(list, 1) {
			add("["+tomlText(p.name)+", "+p.digits[0]+"]", p.line)
		}
	case pairGroup:
		for _, p := range pairs(list, 1) {
			add(quoteKey(lowered.Replace(p.name))+" = "+p.digits[0], p.line)
		}
	case rangeGroup:
		for _, p := range pairs(list, 2) {
			add(tomlText(p.name)+` = ["`+p.digits[0]+` %", "`+p.digits[1]+` %"]`, p.line)
		}
	}
	return texts, lines
}
