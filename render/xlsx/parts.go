package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"path"
	"regexp"
	"strconv"
	"strings"
	"time"

	"pourboard/blend/record"
)

// reading is a workbook while it is read. Only values are wanted, so the few
// parts that hold them are read here, in one pass each. The library xlsx/v3 leaves
// out cells without an address, believes the counts and spans that a file states,
// and reads a sheet three times.
type reading struct {
	*archive
	sheets   []sheetEntry
	targets  map[string]string
	texts    []string
	formats  []readFormat
	cells    int           // read so far, of all sheets, with the blanks before each value
	line     []record.Cell // room for the row that is read
	textPart string
	lookPart string
}

type sheetEntry struct{ name, id string }

// readFormat is what the format of a cell says of its value.
type readFormat struct {
	moment momentKind
	struck bool // its text is crossed out
}

// readWorkbook reads all sheets of a workbook.
func readWorkbook(r io.ReaderAt, size int64, limits Limits) ([]record.Sheet, error) {
	a, err := openArchive(r, size, limits)
	if err != nil {
		return nil, err
	}
	w := &reading{archive: a, targets: map[string]string{}}
	for _, step := range []func() error{w.readSheetList, w.readTargets, w.readTexts, w.readFormats} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	var tables []record.Sheet
	for _, s := range w.sheets {
		target := w.targets[s.id]
		if target == "" { // a sheet that is a chart has no cells
			continue
		}
		if limits.Sheet != "" && s.name != limits.Sheet {
			continue
		}
		rows, err := w.readRows(s.name, target)
		if err != nil {
			return nil, err
		}
		tables = append(tables, record.Sheet{Name: s.name, Rows: rows})
	}
	if len(tables) == 0 && limits.Sheet == "" {
		return nil, damaged("it has no sheets")
	}
	return tables, nil
}

// each calls on for the start of every element of a part.
func (w *reading) each(part string, on func(s *scanner) error) error {
	file, err := w.open(part)
	if err != nil {
		return err
	}
	defer file.Close()
	for s := newScanner(w.archive, part, file); ; {
		switch kind, err := s.next(); {
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		case kind == startTag:
			if err := on(s); err != nil {
				return err
			}
		}
	}
}

func (w *reading) readSheetList() error {
	return w.each("xl/workbook.xml", func(s *scanner) error {
		if string(s.name) == "sheet" {
			w.sheets = append(w.sheets, sheetEntry{clean(s.attribute("name")), s.attribute("id")})
		}
		return nil
	})
}

// readTargets reads which part holds what.
func (w *reading) readTargets() error {
	return w.each("xl/_rels/workbook.xml.rels", func(s *scanner) error {
		if string(s.name) != "Relationship" {
			return nil
		}
		target := strings.ReplaceAll(s.attribute("Target"), `\`, "/")
		if !strings.HasPrefix(target, "/") {
			target = path.Join("xl", target)
		}
		switch path.Base(s.attribute("Type")) {
		case "worksheet":
			w.targets[s.attribute("Id")] = target
		case "sharedStrings":
			w.textPart = target
		case "styles":
			w.lookPart = target
		}
		return nil
	})
}

// readTexts reads the texts that cells refer to by number.
func (w *reading) readTexts() error {
	if w.textPart == "" || !w.has(w.textPart) {
		return nil
	}
	return w.each(w.textPart, func(s *scanner) error {
		if string(s.name) != "si" {
			return nil
		}
		if len(w.texts) >= w.limits.Cells {
			return tooLarge("it lists more than %d texts", w.limits.Cells)
		}
		text, err := s.readText("/t")
		w.texts = append(w.texts, text)
		return err
	})
}

// within calls on for every token in the element that was just begun, to its end.
func (s *scanner) within(on func(kind token) error) error {
	for outer := s.depth - 1; ; {
		kind, err := s.next()
		if err != nil || s.depth == outer {
			return err
		}
		if err := on(kind); err != nil {
			return err
		}
	}
}

// readText reads the rest of an element and returns the characters that are in
// elements of a path, but not those that say how others are spoken (rPh).
func (s *scanner) readText(path string) (string, error) {
	inner := len(s.path)
	s.long = s.long[:0]
	err := s.within(func(kind token) error {
		if kind == characters && s.isIn(path) && !bytes.Contains(s.path[inner:], []byte("/rPh/")) {
			s.long = append(s.long, s.chars...)
		}
		if len(s.long) > maxToken {
			return s.longText()
		}
		return nil
	})
	if units(string(s.long)) > maxText {
		return "", cmp.Or(err, s.longText())
	}
	return unescapeUnder(string(s.long)), err
}

func (s *scanner) longText() error {
	return s.broken(fmt.Sprintf("has a text longer than %d characters", maxText))
}

// readFormats reads which cell formats show a number as a date or time, and which
// cross their text out.
func (w *reading) readFormats() error {
	if w.lookPart == "" || !w.has(w.lookPart) {
		return nil
	}
	codes := map[int]momentKind{}
	var struck []bool // by font
	return w.each(w.lookPart, func(s *scanner) error {
		switch name := string(s.name); {
		case name == "numFmt":
			id, err := strconv.Atoi(s.attribute("numFmtId"))
			if err != nil {
				return s.broken("has a number format without a number")
			}
			codes[id] = codeMoment(s.attribute("formatCode"))
		case s.isIn("/fonts/font"):
			struck = append(struck, false)
		case s.isIn("/fonts/font/strike"):
			value := s.attribute("val")
			struck[len(struck)-1] = value == "" || truth(value)
		case s.isIn("/cellXfs/xf"):
			id, _ := strconv.Atoi(s.attribute("numFmtId"))
			kind, ok := codes[id]
			if !ok {
				kind = builtInMoment(id)
			}
			font, err := strconv.Atoi(s.attribute("fontId"))
			w.formats = append(w.formats, readFormat{kind, err == nil && font >= 0 && font < len(struck) && struck[font]})
		}
		return nil
	})
}

// isIn reports whether the names of the elements around end with these.
func (s *scanner) isIn(path string) bool { return bytes.HasSuffix(s.path, []byte(path)) }

// momentKind says whether a number format shows a date.
type momentKind uint8

const (
	plainNumber momentKind = iota
	dateOrTime
	span // hours that may be more than a day
)

// builtInMoment is the kind of a format that is known by its number
// (ECMA-376-1, 18.8.30, numFmt; 27-36 and 50-58 are dates of East Asia).
func builtInMoment(id int) momentKind {
	switch {
	case id == 46:
		return span
	case 14 <= id && id <= 22, 27 <= id && id <= 36, 45 <= id && id <= 47, 50 <= id && id <= 58:
		return dateOrTime
	}
	return plainNumber
}

// codeMoment is the kind of a format by its code: one with a letter of date or
// time outside quotes, brackets and escapes.
func codeMoment(code string) momentKind {
	code, _, _ = strings.Cut(literals.ReplaceAllString(strings.ToLower(code), ""), ";")
	switch {
	case spans.MatchString(code):
		return span
	case strings.ContainsAny(inBrackets.ReplaceAllString(code, ""), "ymdhs"):
		return dateOrTime
	}
	return plainNumber
}

var (
	literals   = regexp.MustCompile(`"[^"]*"|[\\_*].|general`)
	inBrackets = regexp.MustCompile(`\[[^]]*(\]|$)`)
	spans      = regexp.MustCompile(`\[[hms]+\]`)
)

// moment writes a serial day as a date, a time or a span of hours. Days count from
// 1900, as in the logs that are written here.
func moment(x float64, kind momentKind) (string, bool) {
	const lastDay = 2958466 // 10000-01-01
	if !(x >= 0 && x < lastDay) {
		return "", false
	}
	seconds := int64(math.Round(x * 86400))
	if kind == span || x < 1 {
		return strings.TrimSuffix(fmt.Sprintf("%02d:%02d:%02d", seconds/3600, seconds/60%60, seconds%60), ":00"), true
	}
	t := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).Add(time.Duration(seconds) * time.Second)
	return strings.TrimSuffix(strings.TrimSuffix(t.Format("2006-01-02 15:04:05"), ":00"), " 00:00"), true
}

func truth(s string) bool { return s == "1" || s == "true" || s == "on" }
