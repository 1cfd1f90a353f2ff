package plan

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
)

// unquoted is a line on which a value stands that is no TOML value, most often
// a quantity or a word without quotes.
var unquoted = regexp.MustCompile(`^(\s*([A-Za-z0-9_-]+)\s*=\s*)([^\s"'\[\]{}#][^\x00-\x1f\x7f"'\[\]{}#]*?)(\s*(?:#.*)?)$`)

// withUnit is a number and what follows it.
var withUnit = regexp.MustCompile(`^[0-9.,]+\s*[^0-9.,\s]`)

// mend puts quotes around the value that the parser stopped at, so that the
// rest of the plan can be read, and says what should have been written.
func mend(src []byte, fault *syntax) (mended []byte, what, right string, ok bool) {
	start, end := lineAt(src, fault.line)
	parts := unquoted.FindSubmatch(src[start:end])
	if parts == nil || fault.start != fault.line {
		return nil, "", "", false
	}
	key, value := string(parts[2]), string(parts[3])
	switch {
	case strings.EqualFold(value, "true") || strings.EqualFold(value, "yes") || strings.EqualFold(value, "on"):
		what, right = key+" = "+value+" is not understood", key+" = true"
	case strings.EqualFold(value, "false") || strings.EqualFold(value, "no") || strings.EqualFold(value, "off"):
		what, right = key+" = "+value+" is not understood", key+" = false"
	case strings.ContainsAny(value, "“”„«»‘’‚"):
		what, right = key+" has curly quotes", "straight ones: "+key+" = "+quote(strings.Trim(value, "“”„«»‘’‚ "))
	case strings.Trim(value, "0123456789.,-+ ") == "":
		what, right = key+" = "+value+" is not a number", "one decimal point and no comma: "+key+" = "+strings.Replace(value, ",", ".", 1)
	case withUnit.MatchString(value):
		what, right = key+" = "+value+" has no quotes", "a value with a unit needs quotes: "+key+" = "+quote(value)
	default:
		what, right = key+" = "+value+" has no quotes", "text needs quotes: "+key+" = "+quote(value)
	}
	line := string(parts[1]) + strconv.Quote(value) + string(parts[4])
	return bytes.Join([][]byte{src[:start], []byte(line), src[end:]}, nil), what, right, true
}

// lineAt is where a line, from 1, begins and ends.
func lineAt(src []byte, line int) (start, end int) {
	for ; line > 1; line-- {
		next := bytes.IndexByte(src[start:], '\n')
		if next < 0 {
			break
		}
		start += next + 1
	}
	end = len(src)
	if next := bytes.IndexByte(src[start:], '\n'); next >= 0 {
		end = start + next
	}
	return start, end
}

// spoken says in the maker's words why the parser stopped.
func spoken(src []byte, fault *syntax) (what, right string) {
	start, end := lineAt(src, fault.line)
	body := strings.TrimSpace(string(src[start:end]))
	since := ""
	if fault.start != fault.line {
		since = ", which begins on line " + strconv.Itoa(fault.start) + ","
	}
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(fault.what, w) {
				return true
			}
		}
		return false
	}
	switch {
	case strings.ContainsAny(body, "“”„"):
		return "there are curly quotes", `straight ones: "…"`
	case has("array is incomplete", "after array value"):
		return "a list" + since + " is not closed or lacks a comma", "a comma between the entries and as many ] as ["
	case has("expected ',' or '}'", "inline table"):
		return "a group in braces" + since + " is not closed or lacks a comma", "a comma between the entries and a } at the end"
	case has("have new lines", "unterminated", "not terminated"):
		return "a text" + since + " is not closed", `a quote before it and one after it, on one line: "…"`
	case has("escape", `after \`):
		return `a \ stands in a text`, `\\ for the sign itself, or single quotes around the text`
	case has("after key"):
		return "a line is neither a key with its value nor a heading", `as in key = "value", or [heading], or # remark`
	case has("to close"):
		return "a heading is not closed", "[heading], or [[heading]] where there can be several"
	case has("invalid character at start of key", "expected key"):
		return "a line begins with what is not a key", `as in key = "value", or [heading], or # remark`
	case has("expected value", "start of value", "expected keyword", "must be quoted"):
		return "a value is missing or lacks its quotes", `as in key = "text" or key = 3`
	case has("expected newline"):
		return "something is left over after the value", `one key = value on a line, texts and quantities in quotes: "100 g"`
	case has("control character", "carriage return"):
		return "there is a control sign in the text", "save the file as plain text"
	case has("leading zero", "digit", "number", "radix", "exponent", "too large", "float"):
		return "a number is not written as one", "digits with one decimal point: 12.5"
	default:
		return "this cannot be read: " + fault.what, `as in key = "value", or [heading], or # remark`
	}
}
