package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"pourboard/render/xlsx/xlsxtest"
	"runtime"
	"slices"
	"strings"
	"testing"

	"pourboard/blend/record"
)

// The parts of a small whole workbook, to be spoilt one at a time.
const (
	goodTypes = `<?xml version="1.0" encoding="UTF-8"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`
	goodBook  = `<?xml version="1.0" encoding="UTF-8"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Tiles" sheetId="1" r:id="rId1"/></sheets></workbook>`
	relsHead  = `<?xml version="1.0" encoding="UTF-8"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
	relType   = `Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/`
	goodRels  = relsHead + `<Relationship Id="rId1" ` + relType + `worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" ` + relType + `sharedStrings" Target="sharedStrings.xml"/><Relationship Id="rId3" ` + relType + `styles" Target="styles.xml"/></Relationships>`
	goodTexts = `<?xml version="1.0" encoding="UTF-8"?><sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="2" uniqueCount="2"><si><t>Mark</t></si><si><t>MR1</t></si></sst>`
	goodLooks = `<?xml version="1.0" encoding="UTF-8"?><styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd"/></numFmts><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs></styleSheet>`
	sheetHead = `<?xml version="1.0" encoding="UTF-8"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`
	sheetTail = `</sheetData></worksheet>`
	goodRows  = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>4</v></c></row><row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2"><v>4.5</v></c></row>`
	sheetPart = "xl/worksheets/sheet1.xml"
)

func goodParts() map[string]string {
	return map[string]string{
		"[Content_Types].xml":        goodTypes,
		"xl/workbook.xml":            goodBook,
		"xl/_rels/workbook.xml.rels": goodRels,
		"xl/sharedStrings.xml":       goodTexts,
		"xl/styles.xml":              goodLooks,
		sheetPart:                    sheetHead + goodRows + sheetTail,
	}
}

// with is the whole workbook with one part changed; "" takes it out.
func with(part, content string) []byte {
	parts := goodParts()
	parts[part] = content
	if content == "" {
		delete(parts, part)
	}
	return xlsxtest.Zipped(parts)
}

// rows is the whole workbook with other rows in its sheet.
func rows(content string) []byte { return with(sheetPart, sheetHead+content+sheetTail) }

// testLimits are those of a log of 66 tiles with 25 columns.
var testLimits = LimitsFor(66, 25)

// hostile is a file that is not what a person filled in. It is refused with a
// sentence that has want in it, or read when want is "".
type hostile struct {
	name string
	data []byte
	want string
}

// hostileFiles are the others, all of them small.
func hostileFiles() []hostile {
	good := xlsxtest.Zipped(goodParts())
	files := []hostile{
		// Far rows and columns.
		{"value in row 1048576", rows(`<row r="1048576"><c r="A1048576"><v>1</v></c></row>`), "has a value in row 1048576 of sheet \"Tiles\", far below its table (clear it there; row 1132"},
		{"nothing in row 1048576", rows(goodRows + `<row r="1048576"><c r="A1048576" s="1"/></row>`), ""},
		{"row 999999999", rows(`<row r="999999999"><c r="A999999999"><v>1</v></c></row>`), `a row numbered "999999999"`},
		{"row 99999999999999999999", rows(`<row r="99999999999999999999"/>`), "a row numbered"},
		{"row 0", rows(`<row r="0"/>`), "a row numbered"},
		{"row -1", rows(`<row r="-1"/>`), "a row numbered"},
		{"row one", rows(`<row r="one"/>`), "a row numbered"},
		{"the same row twice", rows(goodRows + goodRows), "a row numbered"},
		{"value in column XFD", rows(`<row r="1"><c r="XFD1"><v>1</v></c></row>`), "column DU is the last that is read"},
		{"rows that end in column XFD with nothing", rows(strings.Replace(goodRows, "</row>", `<c r="XFD1"/></row>`, 1)), ""},
		{"column XFE", rows(`<row r="1"><c r="XFE1"><v>1</v></c></row>`), `a cell "XFE1"`},
		{"column AAAAAAAA", rows(`<row r="1"><c r="AAAAAAAA1"><v>1</v></c></row>`), "a cell"},

		// Bad references.
		{"cell of another row", rows(`<row r="1"><c r="A7"><v>1</v></c></row>`), `a cell "A7" in row 1`},
		{"cell without a row", rows(`<row r="1"><c r="A"><v>1</v></c></row>`), "a cell"},
		{"cell without a column", rows(`<row r="1"><c r="1"><v>1</v></c></row>`), "a cell"},
		{"cell B+1", rows(`<row r="1"><c r="B+1"><v>1</v></c></row>`), "a cell"},
		{"cells out of order", rows(`<row r="1"><c r="B1"><v>1</v></c><c r="A1"><v>2</v></c></row>`), `a cell "A1" in row 1`},
		{"rows out of order", rows(`<row r="2"/><row r="1"/>`), "a row numbered"},
		{"the same cell twice", rows(`<row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row>`), "a cell"},
		{"text that is not there", rows(`<row r="1"><c r="A1" t="s"><v>2</v></c></row>`), "refers in row 1 to text"},
		{"text -1", rows(`<row r="1"><c r="A1" t="s"><v>-1</v></c></row>`), "refers in row 1"},
		{"text by name", rows(`<row r="1"><c r="A1" t="s"><v>x</v></c></row>`), "refers in row 1"},
		{"cell format that is not there", rows(`<row r="1"><c r="A1" s="999"><v>1</v></c></row>`), ""},
		{"cell format by name", rows(`<row r="1"><c r="A1" s="x"><v>1</v></c></row>`), ""},
		{"number format by name", with("xl/styles.xml", strings.Replace(goodLooks, `numFmtId="164" f`, `numFmtId="x" f`, 1)), "number format"},
		{"sheet part that is not there", with(sheetPart, ""), `"xl/worksheets/sheet1.xml" is missing`},
		{"sheet target from the root", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", "/xl/worksheets/sheet1.xml", 1)), ""},
		{"sheet target in the root", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", "/etc/passwd", 1)), `"/etc/passwd" is missing`},
		{"sheet target that is a file", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", "file:///etc/passwd", 1)), "is missing"},
		{"sheet target in the net", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, `worksheets/sheet1.xml"`, `http://127.0.0.1:9/x.xml" TargetMode="External"`, 1)), "is missing"},
		{"sheet that is its own workbook", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", "workbook.xml", 1)), ""},
		{"sheet that is its own relations", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", "_rels/workbook.xml.rels", 1)), ""},
		{"texts that are the sheet", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "sharedStrings.xml", "worksheets/sheet1.xml", 1)), "refers in row 1 to text"},
		{"relations that are a sheet", with("xl/_rels/workbook.xml.rels", sheetHead+goodRows+sheetTail), "no sheets"},
		{"sheet target outside", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", "../../../../etc/passwd", 1)), "is missing"},
		{"merged cells that are a lie", with(sheetPart, strings.Replace(sheetHead+goodRows+sheetTail, "</worksheet>", `<mergeCells><mergeCell ref="x"/></mergeCells></worksheet>`, 1)), ""},
		{"link that is a lie", with(sheetPart, strings.Replace(sheetHead+goodRows+sheetTail, "</worksheet>", `<hyperlinks><hyperlink ref="?"/></hyperlinks></worksheet>`, 1)), ""},

		// Cells as other programs write them.
		{"cells without an address", rows(`<row><c t="s"><v>0</v></c><c><v>4</v></c></row>`), ""},
		{"dates, truths, faults and text in a column of numbers", rows(`<row r="1"><c r="A1" s="1"><v>45717</v></c></row><row r="2"><c r="A2" t="b"><v>1</v></c></row><row r="3"><c r="A3" t="e"><v>#N/A</v></c></row><row r="4"><c r="A4" t="inlineStr"><is><t>4,5</t></is></c></row>`), ""},
		{"strict workbook", strict(), ""},
		{"name of a sheet of 60000 signs", withBoth("xl/workbook.xml", strings.Replace(goodBook, `name="Tiles"`, `name="`+strings.Repeat("T", 60_000)+`"`, 1), sheetPart, sheetHead+`<row r="9999"><c><v>1</v></c></row>`+sheetTail), "far below its table"},
		{"unknown type of cell", rows(`<row r="1"><c r="A1" t="zz"><v>1</v></c></row>`), ""},
		{"number that is none", rows(`<row r="1"><c r="A1"><v>NaN</v></c><c r="B1"><v>abc</v></c><c r="C1"><v>1e999</v></c></row>`), ""},
		{"date beyond all", rows(`<row r="1"><c r="A1" s="1"><v>1e300</v></c><c r="B1" s="1"><v>-5</v></c></row>`), ""},

		// XML that is none, or is more.
		{"document type with entities", with(sheetPart, `<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>`+sheetHead+goodRows+sheetTail), "document type"},
		{"document type in the texts", with("xl/sharedStrings.xml", `<!DOCTYPE x SYSTEM "file:///etc/passwd">`+goodTexts), "document type"},
		{"document type in the workbook", with("xl/workbook.xml", strings.Replace(goodBook, "<workbook", "<!DOCTYPE x><workbook", 1)), "document type"},
		{"document type in the relations", with("xl/_rels/workbook.xml.rels", `<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>`+goodRels), "document type"},
		{"document type in the styles", with("xl/styles.xml", `<!DOCTYPE x [<!ENTITY % a "b">%a;]>`+goodLooks), "document type"},
		{"document type behind the sheet", with(sheetPart, sheetHead+goodRows+sheetTail+`<!DOCTYPE x>`), "document type"},
		{"style sheet of its own", with(sheetPart, `<?xml-stylesheet href="file:///etc/passwd"?>`+sheetHead+goodRows+sheetTail), ""},
		{"entity that is not declared", rows(`<row r="1"><c r="A1"><v>&xxe;</v></c></row>`), ""},
		{"nested 100000 deep", rows(strings.Repeat("<a>", 100_000) + strings.Repeat("</a>", 100_000)), "nests elements deeper"},
		{"nested without end", rows(strings.Repeat("<a>", 500_000)), "nests elements deeper"},
		{"texts nested deep", with("xl/sharedStrings.xml", strings.Replace(goodTexts, "Mark", strings.Repeat("<r>", 10_000), 1)), "nests elements deeper"},
		{"elements that cross", rows(`<row r="1"><c r="A1"><v>1</c></v></row>`), "not open"},
		{"more ends than starts", with(sheetPart, sheetHead+sheetTail+"</x></x>"), "not open"},
		{"sheet cut in a row", with(sheetPart, sheetHead+goodRows[:60]), "ends in the middle"},
		{"sheet cut in a tag", with(sheetPart, sheetHead+goodRows[:53]), "ends in the middle"},
		{"empty sheet part", with(sheetPart, " "), ""},
		{"sheet that is a picture", with(sheetPart, "\x89PNG\r\n\x1a\n\x00\x00"), "is not XML in UTF-8"},
		{"sheet in UTF-16", with(sheetPart, "\xFF\xFE<\x00w\x00/\x00>\x00"), "is not XML in UTF-8"},
		{"texts in UTF-16, big end first", with("xl/sharedStrings.xml", "\xFE\xFF\x00<\x00s\x00/\x00>"), "is not XML in UTF-8"},
		{"workbook in UTF-16 without a mark", with("xl/workbook.xml", "<\x00w\x00/\x00>\x00"), "is not XML in UTF-8"},
		{"byte order mark of UTF-8", with(sheetPart, "\xEF\xBB\xBF"+sheetHead+goodRows+sheetTail), ""},
		{"sheet in Latin-1 as it says", with(sheetPart, strings.Replace(sheetHead, "UTF-8", "ISO-8859-1", 1)+goodRows+sheetTail), ""},
		{"sheet in Latin-1 without saying so", rows("<row r=\"1\"><c r=\"A1\" t=\"str\"><v>caf\xE9</v></c></row>"), "is not XML in UTF-8"},
		{"control character", rows("<row r=\"1\"><c r=\"A1\" t=\"str\"><v>a\x00b</v></c></row>"), "is not XML in UTF-8"},

		// Parts that are missing, and files that are something else.
		{"no workbook part", with("xl/workbook.xml", ""), "is not an Excel workbook"},
		{"no relations", with("xl/_rels/workbook.xml.rels", ""), "is missing"},
		{"no texts", with("xl/sharedStrings.xml", ""), "refers in row 1"},
		{"no styles", with("xl/styles.xml", ""), ""},
		{"no sheets", with("xl/workbook.xml", strings.Replace(goodBook, `<sheet name="Tiles" sheetId="1" r:id="rId1"/>`, "", 1)), "no sheets"},
		{"binary workbook", xlsxtest.Zipped(map[string]string{"xl/workbook.bin": "x"}), "is not an Excel workbook"},
		{"OpenDocument sheet", xlsxtest.Zipped(map[string]string{"content.xml": "<x/>", "mimetype": "application/vnd.oasis.opendocument.spreadsheet"}), "is not an Excel workbook"},
		{"zip of photographs", xlsxtest.Zipped(map[string]string{"IMG_1.jpg": "x"}), "is not an Excel workbook"},
		{"old workbook", []byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1" + strings.Repeat("\x00", 512)), "File, Save As, Excel .xlsx or .csv"},
		{"zip of nothing", xlsxtest.Zipped(nil), "is not an Excel workbook"},
		{"folder in place of the workbook", xlsxtest.Zipped(map[string]string{"xl/workbook.xml/": ""}), "is not an Excel workbook"},
		{"old workbook without its frame", []byte("\x09\x08\x10\x00\x00\x06\x05\x00"), "File, Save As, Excel .xlsx or .csv"},
		{"page of the web", []byte("<html><table><tr><td>Mark</td></tr></table></html>"), "File, Save As, Excel .xlsx or .csv"},
		{"workbook of 2003 as XML", []byte(`<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"/>`), "File, Save As, Excel .xlsx or .csv"},
		{"PDF", []byte("%PDF-1.7\n"), "is a PDF"},
		{"gzip", []byte("\x1f\x8b\x08\x00"), "File, Save As, Excel .xlsx or .csv"},
		{"zeros", make([]byte, 1<<20), "File, Save As, Excel .xlsx or .csv"},
		{"text", []byte("Mark,Gloss\nMR1,4\n"), "File, Save As, Excel .xlsx or .csv"},
		{"nothing", nil, "is empty"},
		{"two letters", []byte("PK"), "cut short"},

		// Zips that are broken or lie.
		{"size in the directory too small", falseSize(good, 10), "cannot be unpacked"},
		{"size in the directory too large", falseSize(good, 1<<20), "cannot be unpacked"},
		{"size in the directory 4 GB", falseSize(good, 0xFFFFFFF0), "would unpack to"},
		{"wrong checksum", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.CRC32++ }), "cannot be unpacked"},
		{"unknown compression", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.Method = 99 }), "cannot be unpacked"},
		{"locked part", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.Flags |= 1 }), "password"},
		{"part twice", zipOne(sheetPart, sheetHead+sheetTail, nil, sheetPart), "twice"},
		{"part twice, in other letters", zipOne(sheetPart, sheetHead+sheetTail, nil, `XL\worksheets\SHEET1.xml`), "twice"},
		{"backslashes", renamed("xl/", `xl\`), ""},
		{"part locked in an old way", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.Method = 1 }), "cannot be unpacked"},
		{"unpacked size of 4 exabytes", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.UncompressedSize64 = 1 << 62 }), "would unpack to"},
		{"packed size of 4 exabytes", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.CompressedSize64 = 1 << 62 }), ""},
		{"size of nothing", zipOne(sheetPart, sheetHead+goodRows+sheetTail, func(h *zip.FileHeader) { h.UncompressedSize64 = 0 }), "cannot be unpacked"},
		{"name of a part of 60000 signs", longName(60_000), "is missing"},
		{"name of a part that is broken, of 60000 signs", longBroken(60_000), "ends in the middle"},
		{"names that leave their folder", withAlso("../../../../etc/cron.d/x", "x"), ""},
		{"remark of 65535 bytes", remarked(good, 65535, 65535), ""},
		{"remark cut short", remarked(good, 65535, 10), "cut short"},
		{"rubbish behind", append(slices.Clone(good), strings.Repeat("x", 1000)...), ""},
		{"directory beyond the end", directoryAt(good, 1<<30), "is not a workbook"},
		{"directory that is the file", directoryAt(good, 0), "is not a workbook"},
		{"parts that lie on each other", onePlace(good, 0), "cannot be unpacked"},
		{"parts that lie beyond the end", onePlace(good, 1<<30), "is not a workbook"},
		{"count of parts that is a lie", endField(good, 10, 0xFFFE), "is not a workbook"},
		{"end record of a zip64 that is none", endField(good, 10, 0xFFFF), "is not a workbook"},
		{"directory of lies", append(bytes.Repeat([]byte("PK\x01\x02"), 5000), good[len(good)-22:]...), "is not a workbook"},
		{"rubbish in front", append([]byte("PK rubbish"), good...), ""},
	}
	for i := 1; i < 12; i++ {
		at := len(good) * i / 12
		files = append(files, hostile{fmt.Sprintf("cut after %d of %d bytes", at, len(good)), good[:at], "is not a workbook"})
	}
	return files
}

func readBytes(name string, data []byte) ([]record.Sheet, error) {
	return Read(name, bytes.NewReader(data), int64(len(data)), testLimits)
}

func TestHostile(t *testing.T) {
	files := append(bombs(testLimits), hostileFiles()...)
	if len(files) < 60 {
		t.Errorf("%d hostile files", len(files))
	}
	for _, f := range files {
		t.Run(f.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			tables, err := readBytes("log.xlsx", f.data)
			runtime.ReadMemStats(&after)
			// All that was ever allocated, which is more than was ever held.
			if got := after.TotalAlloc - before.TotalAlloc; got > 128<<20 {
				t.Errorf("%d MB allocated", got>>20)
			}
			if f.want == "" {
				if err != nil {
					t.Fatalf("refused: %v", err)
				}
				if len(tables) == 0 || tables[0].Name != "Tiles" {
					t.Errorf("read as %+v", tables)
				}
				return
			}
			if err == nil {
				t.Fatalf("was read as %.200v", fmt.Sprint(tables))
			}
			checkSentence(t, err, "log.xlsx", f.want)
		})
	}
}

// checkSentence checks that an error is one plain sentence.
func checkSentence(t *testing.T, err error, name, want string) {
	t.Helper()
	s := err.Error()
	if !strings.HasPrefix(s, name+" ") || !strings.Contains(s, want) {
		t.Errorf("error %q, want %q … %q", s, name, want)
	}
	if strings.ContainsAny(s, "\n\t\x00") || len(s) > 300 || strings.Contains(s, "goroutine") || strings.Contains(s, "xml:") || strings.Contains(s, "zip:") {
		t.Errorf("error is no plain sentence: %q", s)
	}
}

func BenchmarkHostile(b *testing.B) {
	for _, f := range append(bombs(testLimits), hostileFiles()...) {
		b.Run(f.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				readBytes("log.xlsx", f.data)
			}
		})
	}
}
