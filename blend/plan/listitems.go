package plan

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// shape is what a value looks like on the page, for lines that have to be
// guessed at.
type shape int

const (
	inWords     shape = iota // a text in quotes, an amount with its unit too
	inDigits                 // a plain number
	yesOrNo                  // true or false
	nameShape                // ["A", "B"]
	digitShape               // [0, 1, 2]
	rowShape                 // [[70, 30], [50, 50]]
	pairShape                // [["Silica", 40], ["Kaolin", 60]]
	figureShape              // { SiO2 = 60, LOI = 15 }
	rangeShape               // { "Wood ash" = ["20 %", "60 %"] }
)

// Characters that people's programs put for quotes.
const (
	curlyDouble = "“”„‟«»″"
	curlySingle = "‘’‚‹›"
	curly       = curlyDouble + curlySingle
)

// pattern compiles an expression when it is first needed: most plans need none.
func pattern(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}

// item is one entry of a list that is written somehow: a name, a number or
// both, "Silica 40".
type item struct {
	line int // of the text that it was found in, from 0
	row  int // how many brackets were opened before it
	text string
}

// items is the entries of a list, whatever brackets, quotes and commas part
// them. With comma, a comma between two figures is a decimal one.
func listItems(text string, comma bool) []item {
	s := itemScanner{comma: comma}
	for n, line := range strings.Split(text, "\n") {
		s.line(n, []rune(evenQuotes(line)))
	}
	return s.all
}

type itemScanner struct {
	comma bool
	all   []item
	row   int
}

// line adds the entries of a line.
func (s *itemScanner) line(n int, line []rune) {
	from, solid := 0, -1 // where the entry begins, and the last character that is no blank
	end := func(at int) {
		if word := strings.TrimFunc(string(line[from:at]), unicode.IsSpace); word != "" {
			s.all = append(s.all, item{line: n, row: s.row, text: word})
		}
		from = at + 1
	}
	figure := func(i int) bool { return i >= 0 && i < len(line) && line[i] >= '0' && line[i] <= '9' }
	for i := 0; i < len(line); i++ {
		c := line[i]
		begins := solid < from
		if !unicode.IsSpace(c) {
			solid = i
		}
		switch {
		case c == '#' || begins && c == '/' && i+1 < len(line) && line[i+1] == '/':
			end(i)
			return
		case c == '"' || strings.ContainsRune(curlyDouble, c) || begins && (c == '\'' || strings.ContainsRune(curlySingle, c)):
			closing := closingQuote(line, i)
			if closing < 0 {
				continue
			}
			end(i)
			s.all = append(s.all, item{n, s.row, strings.TrimFunc(string(line[i+1:closing]), unicode.IsSpace)})
			from, i = closing+1, closing
		case c == ',' && s.comma && figure(i-1) && figure(i+1):
		case strings.ContainsRune(",;:=])}", c):
			end(i)
		case strings.ContainsRune("[({", c):
			end(i)
			s.row++
		}
	}
	if from < len(line) {
		end(len(line))
	}
}

// spelled is a value that could be read but has the wrong shape, as the entries
// of the right one; nil when it cannot be told.
func spelled(v *value, s shape) []string {
	texts, _ := entries(itemsOf(v), s)
	return texts
}

// itemsOf is the entries of a value.
func itemsOf(v *value) []item {
	switch v.kind {
	case text:
		return listItems(v.text, true)
	case list:
		var all []item
		for _, each := range v.items {
			if each.kind == text {
				all = append(all, item{text: each.text}) // a comma in it parts nothing
				continue
			}
			all = append(all, itemsOf(each)...)
		}
		return all
	case group:
		var all []item
		for _, e := range v.table.entries {
			all = append(append(all, item{text: e.key}), itemsOf(e.value)...)
		}
		return all
	}
	return []item{{text: v.text}}
}

// closingQuote is where the text ends that the quote at a place opens, or -1.
func closingQuote(line []rune, at int) int {
	kin := "'" + curlySingle
	if !strings.ContainsRune(kin, line[at]) {
		kin = `"` + curlyDouble
	}
	for i := at + 1; i < len(line); i++ {
		if strings.ContainsRune(kin, line[i]) {
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

// pairs groups entries by name: "Silica", 40, or Silica 40, or, when count is
// 1, 40, "Silica". It is nil when they are not names with count numbers each.
func pairs(list []item, count int) []named {
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
		numbered := false // the next entry is its number
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
	match := withUnit().FindStringSubmatch(strings.TrimSpace(text))
	if match == nil {
		return "", false
	}
	digits = strings.NewReplacer("−", "-", "+", "", ",", ".").Replace(match[1])
	if whole, after, comma := strings.Cut(match[1], ","); comma && len(after) == 3 && strings.Trim(whole, "+-−0") != "" {
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

// entries is a list's entries in a shape, each with the line that it begins on;
// nil when they do not fit it.
func entries(list []item, s shape) (texts []string, lines []int) {
	add := func(text string, line int) { texts, lines = append(texts, text), append(lines, line) }
	switch s {
	case nameShape:
		for _, a := range list {
			add(tomlText(a.text), a.line)
		}
	case digitShape:
		for _, a := range list {
			digits, ok := plainNumber(a.text)
			if !ok {
				return nil, nil
			}
			add(digits, a.line)
		}
	case rowShape:
		return rows(list)
	case pairShape:
		for _, p := range pairs(list, 1) {
			add("["+tomlText(p.name)+", "+p.digits[0]+"]", p.line)
		}
	case figureShape:
		for _, p := range pairs(list, 1) {
			add(quoteKey(lowered.Replace(p.name))+" = "+p.digits[0], p.line)
		}
	case rangeShape:
		for _, p := range pairs(list, 2) {
			add(tomlText(p.name)+` = ["`+p.digits[0]+` %", "`+p.digits[1]+` %"]`, p.line)
		}
	}
	return texts, lines
}

// rows is the entries as lists of numbers, one for each bracket.
func rows(list []item) (texts []string, lines []int) {
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
		texts, lines = append(texts, "["+strings.Join(row, ", ")+"]"), append(lines, first.line)
	}
	return texts, lines
}
