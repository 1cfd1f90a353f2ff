package plan

import (
	"bytes"
	"strconv"
	"strings"
	"unicode"

	"pourboard/blend/quantity"
)

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
	body := strings.TrimSpace(strings.Join(strings.FieldsFunc(string(src[start:end]), unicode.IsControl), " "))
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
		return "curly quotes", `straight ones: "…"`
	case has("array is incomplete", "after array value"):
		return "a list" + since + " is not closed or lacks a comma", "a comma between the entries and as many ] as ["
	case has("expected ',' or '}'", "inline table"):
		return "a group in braces" + since + " is not closed or lacks a comma", "a comma between the entries and a } at the end"
	case has("have new lines", "unterminated", "not terminated"):
		return "a text" + since + " is not closed", `a quote before it and one after it, on one line: "…"`
	case has("escape", `after \`):
		return `a \ is in a text`, `\\ for the character itself, or single quotes around the text`
	case has("after key"):
		return "a line is neither a key with its value nor a heading", "a comment begins with #: # " + quantity.Shorten(body)
	case has("to close"):
		return "a heading is not closed", "[heading], or [[heading]] where there can be several"
	case has("invalid character at start of key", "expected key"):
		return "a line begins with what is not a key", `as in key = "value", or [heading], or # comment`
	case has("expected value", "start of value", "expected keyword", "must be quoted"):
		return "a value is missing or lacks its quotes", `as in key = "text" or key = 3`
	case has("expected newline"):
		return "something is left over after the value", `one key = value on a line, texts and quantities in quotes: "100 g"`
	case has("control character", "carriage return"):
		return "a control character is in the text", "save the file as plain text"
	case has("leading zero", "digit", "number", "radix", "exponent", "too large", "float"):
		return "a number is not written as one", "digits with one decimal point: 12.5"
	default:
		return "this cannot be read: " + fault.what, `as in key = "value", or [heading], or # comment`
	}
}
