package xlsx

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"pourboard/blend/record"
)

// flat is a table as one text: row numbers and fields.
func flat(t record.Sheet) string {
	var b strings.Builder
	for _, r := range t.Rows {
		fmt.Fprintf(&b, "%d", r.Number)
		for _, v := range r.Cells {
			fmt.Fprintf(&b, "|%s", v.Text)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// TestOtherFiles gives in place of a log the files that lie beside it.
func TestOtherFiles(t *testing.T) {
	for name, test := range map[string]struct{ file, want string }{
		"test.toml":  {"title = \"Ash\"\n", "is a plan, not a log"},
		"test.pdf":   {"%PDF-1.7\n", "is a PDF, not a log"},
		"notes.docx": {"PK\x03\x04 cut", "is not a workbook"},
		"notes":      {"glossy", "is not a workbook (in its program: File, Save As, Excel .xlsx or .csv, without a password)"},
	} {
		_, err := readBytes(name, []byte(test.file))
		if err == nil {
			t.Errorf("%s is read", name)
			continue
		}
		checkSentence(t, err, name, test.want)
	}
}

func TestCSV(t *testing.T) {
	utf16LE := func(s string) string {
		b := []byte{0xFF, 0xFE}
		for _, u := range utf16.Encode([]rune(s)) {
			b = append(b, byte(u), byte(u>>8))
		}
		return string(b)
	}
	utf16BE := func(s string) string {
		b := []byte{0xFE, 0xFF}
		for _, u := range utf16.Encode([]rune(s)) {
			b = append(b, byte(u>>8), byte(u))
		}
		return string(b)
	}
	for name, test := range map[string]struct{ text, want string }{
		"commas":                 {"Mark,Gloss\nMR1,4\n", "1|Mark|Gloss\n2|MR1|4\n"},
		"semicolons":             {"Mark;Gloss\nMR1;4,5\n", "1|Mark|Gloss\n2|MR1|4,5\n"},
		"tabs":                   {"Mark\tGloss\nMR1\t4\n", "1|Mark|Gloss\n2|MR1|4\n"},
		"byte order mark":        {"\xEF\xBB\xBFMark,Gloss\nMR1,4", "1|Mark|Gloss\n2|MR1|4\n"},
		"UTF-16 little end":      {utf16LE("Mark\tGläsern 𝛼\r\nMR1\t4\r\n"), "1|Mark|Gläsern 𝛼\n2|MR1|4\n"},
		"UTF-16 big end":         {utf16BE("Mark\tGloss\r\nMR1\t4\r\n"), "1|Mark|Gloss\n2|MR1|4\n"},
		"CR LF":                  {"Mark,Gloss\r\nMR1,4\r\n", "1|Mark|Gloss\n2|MR1|4\n"},
		"CR":                     {"Mark,Gloss\rMR1,4\r", "1|Mark|Gloss\n2|MR1|4\n"},
		"empty lines":            {"\nMark,Gloss\n\n,\nMR1,4\n", "2|Mark|Gloss\n5|MR1|4\n"},
		"quotes and line breaks": {"Mark,\"Surface; dry\"\nMR1,\"two\nlines \"\"so\"\"\"\nMR2,x\n", "1|Mark|Surface; dry\n2|MR1|two\nlines \"so\"\n4|MR2|x\n"},
		"short and long rows":    {"a,b,c\n1\n1,2,3,4\n", "1|a|b|c\n2|1\n3|1|2|3|4\n"},
		"quotes with commas":     {"Mark,\"" + strings.Repeat(",", 2_000) + "\"\n", "1|Mark|" + strings.Repeat(",", 2_000) + "\n"},
		"half of a pair":         {"\xFF\xFEa\x00\x35\xD8b\x00\x35\xD8", "1|a\uFFFDb\uFFFD\n"},
		"one column":             {"Mark\nMR1\n", "1|Mark\n2|MR1\n"},
		"blank in the middle":    {"a,b,c\n1,,3\n", "1|a|b|c\n2|1||3\n"},
	} {
		t.Run(name, func(t *testing.T) {
			tables, err := readBytes("log.csv", []byte(test.text))
			if err != nil {
				t.Fatal(err)
			}
			if got := flat(tables[0]); got != test.want {
				t.Errorf("read\n%s\nwant\n%s", got, test.want)
			}
		})
	}
	for name, test := range map[string]struct{ text, want string }{
		"Latin-1":         {"Mark,caf\xe9\n", "not written in UTF-8"},
		"zeros":           {"Mark\x00,a\n", "not a table of text"},
		"half a UTF-16":   {"\xFF\xFEa\x00b", "is not a table of text"},
		"open quote":      {"Mark,\"a\nb\n", "has a quotation mark in the wrong place"},
		"stray quote":     {"Mark,a\"b\n", "line 1 has a quotation mark in the wrong place"},
		"too many lines":  {strings.Repeat("a,b\n", 2000), "more than 1132 lines"},
		"too many fields": {strings.Repeat(",", 200) + "x\n", "line 1 has more than 125 fields"},
		"too many filled": {strings.Repeat(strings.Repeat("a,", 100)+"\n", 500), "more than 13300 fields"},
		"commas":          {"Mark\n" + strings.Repeat(",", 1_000_000), "more than 13300 fields"},
		"too large":       {strings.Repeat("a", 8<<20), "larger than"},
		"empty":           {"", "is empty"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := readBytes("log.csv", []byte(test.text))
			if err == nil {
				t.Fatal("was read")
			}
			checkSentence(t, err, "log.csv", test.want)
		})
	}
}

func FuzzCSV(f *testing.F) {
	f.Add([]byte("Mark,Gloss\nMR1,4\n"))
	f.Add([]byte("\xEF\xBB\xBFMark;\"a\"\"b\"\r\nMR1;1.234,5\r\n"))
	f.Add([]byte("\xFF\xFEM\x00\t\x00"))
	f.Add([]byte("sep=\t\na\tb\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		tables, err := Read("log.csv", bytes.NewReader(data), int64(len(data)), testLimits)
		checkRead(t, tables, err, "log.csv")
	})
}
