package xlsxtest

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	tealeg "github.com/tealeg/xlsx/v3"

	"pourboard/render/xlsx"
)

// An office is a LibreOffice, driven by testdata/office.py: another program that
// works formulas out. It serves one test at a time; others make their workbooks
// meanwhile.
type office struct {
	sync.Mutex
	begun   bool
	in      io.WriteCloser
	out     *bufio.Scanner
	process *exec.Cmd
	dir     string
	files   int
}

// offices are those for all checks here, for tests to take in turn; turns counts
// those taken.
var (
	offices [2]office
	turns   atomic.Int64
)

func TestMain(m *testing.M) {
	code := m.Run()
	for i := range offices {
		if err := offices[i].end(); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = 1
		}
	}
	os.Exit(code)
}

// theOffice is a LibreOffice for a test, started for the first that asks.
func theOffice(t *testing.T) *office {
	t.Helper()
	if testing.Short() {
		t.Skip("LibreOffice takes seconds to start")
	}
	Tool(t, "soffice")
	if !hasUno() {
		missing(t, "python3 with uno")
	}
	o := &offices[int(turns.Add(1))%len(offices)]
	o.Lock()
	defer o.Unlock()
	if !o.begun {
		o.begun = true
		if err := o.start(); err != nil {
			t.Fatal(err)
		}
	}
	if o.out == nil {
		t.Fatal("LibreOffice did not start")
	}
	return o
}

const python = "/usr/bin/python3" // the interpreter that has uno

var hasUno = sync.OnceValue(func() bool { return exec.Command(python, "-c", "import uno").Run() == nil })

func (o *office) start() (err error) {
	if o.dir, err = os.MkdirTemp("", "office"); err != nil {
		return err
	}
	o.process = exec.Command(python, "testdata/office.py", filepath.Join(o.dir, "profile"))
	o.process.Stderr = os.Stderr
	if o.in, err = o.process.StdinPipe(); err != nil {
		return err
	}
	out, err := o.process.StdoutPipe()
	if err != nil {
		return err
	}
	if err = o.process.Start(); err == nil {
		o.out = bufio.NewScanner(out)
		o.out.Buffer(nil, 64<<20)
	}
	return err
}

func (o *office) end() error {
	if o.out == nil {
		return nil
	}
	o.in.Close()
	defer os.RemoveAll(o.dir)
	return o.process.Wait()
}

// ask sends a request and reads the answer.
func (o *office) ask(t *testing.T, request map[string]any, answer any) {
	t.Helper()
	o.Lock()
	defer o.Unlock()
	line, err := json.Marshal(request)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := o.in.Write(append(line, '\n')); err != nil {
		t.Fatal(err)
	}
	if !o.out.Scan() {
		t.Fatalf("LibreOffice ended: %v", o.out.Err())
	}
	if err := json.Unmarshal(o.out.Bytes(), answer); err != nil {
		t.Fatalf("%v in %.200s", err, o.out.Bytes())
	}
}

// file writes a workbook where LibreOffice finds it.
func (o *office) file(t *testing.T, data []byte) string {
	t.Helper()
	o.Lock()
	defer o.Unlock()
	o.files++
	name := filepath.Join(o.dir, fmt.Sprint(o.files, ".xlsx"))
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// A workbook is one that LibreOffice works out.
type workbook struct {
	*office
	written []byte
	file    string
	heads   map[string][]string // of the tables, by sheet
}

// open is a workbook for LibreOffice to open.
func (o *office) open(t *testing.T, data []byte) *workbook {
	t.Helper()
	return &workbook{office: o, written: data, file: o.file(t, data), heads: map[string][]string{}}
}

// resaved is a workbook as LibreOffice saves it.
func (o *office) resaved(t *testing.T, data []byte) []byte {
	t.Helper()
	in := o.file(t, data)
	o.ask(t, map[string]any{"save": in, "as": in + ".out.xlsx"}, &struct{}{})
	data, err := os.ReadFile(in + ".out.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// values are the numbers and texts of a workbook by sheet and address: "Pour
// card!B4". Empty cells are not among them.
type values map[string]any

// typed types numbers, texts and nil, for nothing, into a workbook, by the names
// of cells or their addresses, and returns what some sheets come to then, all where
// none is named. No cell of any may come to an error.
func (w *workbook) typed(t *testing.T, entries map[string]any, sheets ...string) values {
	t.Helper()
	if entries == nil {
		entries = map[string]any{}
	}
	var answer map[string]struct {
		Rows   [][]any `json:"rows"`
		Errors string  `json:"errors"`
	}
	w.ask(t, map[string]any{"in": w.file, "type": entries, "sheets": sheets}, &answer)
	all := values{}
	for name, s := range answer {
		if s.Errors != "" {
			t.Errorf("after %v: errors in %s", entries, s.Errors)
		}
		for r, row := range s.Rows {
			for c, v := range row {
				if v != "" && v != nil {
					all[fmt.Sprintf("%s!%s%d", name, xlsx.Letters(c), r+1)] = v
				}
			}
		}
	}
	return all
}

var (
	formulaCell = regexp.MustCompile(`<c r="([A-Z]+[0-9]+)"[^>]*?( t="str")?><f[^>]*>([^<]*)</f><v>([^<]*)</v></c>`)
	definedName = regexp.MustCompile(`<definedName name="([A-Za-z_0-9]+)"[^>]*>([^<]*)</definedName>`)
	sheetName   = regexp.MustCompile(`<sheet name="([^"]+)"`)
)

// addressOf is the address of a named cell: "Inputs!B5".
func (w *workbook) addressOf(t *testing.T, name string) string {
	t.Helper()
	at := w.find(t, name)
	if at == "" {
		t.Fatalf("no cell %s", name)
	}
	return at
}

// find is addressOf, "" where no cell has the name.
func (w *workbook) find(t *testing.T, name string) string {
	t.Helper()
	for _, m := range definedName.FindAllStringSubmatch(Unzipped(t, w.written)["xl/workbook.xml"], -1) {
		if m[1] == name {
			return strings.NewReplacer("'", "", "&#39;", "", "&apos;", "", "$", "").Replace(m[2])
		}
	}
	return ""
}

// ofPlan is the cells that say something of the plan as it was: the workbook of a
// changed plan has something else there.
func (w *workbook) ofPlan(t *testing.T) []string {
	smallest := w.find(t, "Smallest_cup")
	return []string{smallest, strings.Replace(smallest, "!B", "!D", 1), w.addressOf(t, "As_planned"), "Chemistry!A1", "Recipes!A1"}
}

// columnOf is a column of a sheet, "Pour card!C", the n-th from 0 whose head
// contains some words.
func (w *workbook) columnOf(t *testing.T, sheet, head string, n int) string {
	t.Helper()
	if w.heads[sheet] == nil {
		file, err := tealeg.OpenBinary(w.written)
		if err != nil {
			t.Fatal(err)
		}
		s := file.Sheet[sheet]
		for c := range s.MaxCol {
			cell, err := s.Cell(2, c)
			if err != nil {
				t.Fatal(err)
			}
			w.heads[sheet] = append(w.heads[sheet], cell.Value)
		}
	}
	for c, text := range w.heads[sheet] {
		if strings.Contains(text, head) {
			if n == 0 {
				return sheet + "!" + xlsx.Letters(c)
			}
			n--
		}
	}
	t.Fatalf("no column %q", head)
	return ""
}

// compare checks that every formula of a written workbook carries the value that
// LibreOffice came to, and returns how many there are. Some cells are
// skipped.
func compare(t *testing.T, name string, written []byte, got values, skip ...string) int {
	t.Helper()
	parts := Unzipped(t, written)
	n, wrong := 0, 0
	for i, sheet := range sheetName.FindAllStringSubmatch(parts["xl/workbook.xml"], -1) {
		for _, m := range formulaCell.FindAllStringSubmatch(parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)], -1) {
			at := sheet[1] + "!" + m[1]
			if slices.Contains(skip, at) {
				continue
			}
			n++
			same := false
			switch is := got[at].(type) {
			case string:
				same = m[2] != "" && is == unescape(m[4])
			case float64:
				want, err := strconv.ParseFloat(m[4], 64)
				same = m[2] == "" && err == nil && math.Abs(is-want) <= 1e-9*(1+math.Abs(want))
			case nil:
				same = m[2] != "" && m[4] == ""
			}
			if same {
				continue
			}
			if wrong++; wrong <= 5 {
				t.Errorf("%s, %s: %s = %v in LibreOffice, %s here", name, at, m[3], got[at], m[4])
			}
		}
	}
	if wrong > 5 {
		t.Errorf("%s: %d of %d formulas differ", name, wrong, n)
	}
	return n
}

func unescape(s string) string {
	return strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">", "&quot;", `"`, "&#10;", "\n", "&#9;", "\t").Replace(s)
}
