package xlsx

import (
	"archive/zip"
	"cmp"
	"compress/flate"
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
)

// program is named in the file's properties as its maker.
const program = "pourboard"

// The names of the vocabularies.
const (
	mainNames     = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relationNames = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packageNames  = "http://schemas.openxmlformats.org/package/2006/"
	contentTypes  = "application/vnd.openxmlformats-"
)

// begin begins the file with the parts that say what the others are: every part is a
// sheet, but for those that are named.
func (b *Book) begin() {
	b.zip = zip.NewWriter(&b.file)
	packer, _ := flate.NewWriter(nil, flate.BestSpeed) // half the time of the usual level, a quarter larger
	b.zip.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) {
		packer.Reset(w) // one takes 1 MB, and parts come one after the other
		return packer, nil
	})
	types := ""
	for _, part := range [][2]string{
		{"xl/workbook.xml", "officedocument.spreadsheetml.sheet.main"},
		{"xl/styles.xml", "officedocument.spreadsheetml.styles"},
		{"docProps/app.xml", "officedocument.extended-properties"},
		{coreProperties, "package.core-properties"},
	} {
		types += `<Override PartName="/` + part[0] + `" ContentType="` + contentTypes + part[1] + `+xml"/>`
	}
	b.part("[Content_Types].xml", `<Types xmlns="`+packageNames+`content-types">`+
		`<Default Extension="rels" ContentType="`+contentTypes+`package.relationships+xml"/>`+
		`<Default Extension="xml" ContentType="`+contentTypes+`officedocument.spreadsheetml.worksheet+xml"/>`+
		types+`</Types>`)
	b.part("_rels/.rels", relationships([][3]string{
		{"workbook", relationNames + "/officeDocument", "/xl/workbook.xml"},
		{"core", packageNames + "relationships/metadata/core-properties", "/" + coreProperties},
		{"app", relationNames + "/extended-properties", "/docProps/app.xml"},
	}))
}

// open begins a part, and ends the one before.
func (b *Book) open(name string) {
	part := &zip.FileHeader{Name: name, Method: zip.Deflate, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)}
	b.parts = append(b.parts, part)
	var err error
	if b.current, err = b.zip.CreateHeader(part); err != nil {
		b.Fail(err)
	}
}

// part writes a whole part.
func (b *Book) part(name, text string) {
	b.open(name)
	io.WriteString(b.current, xml.Header+text) // into memory, which does not fail
}

// relationships is a part that says which parts belong to another: identifier, type and
// target of each.
func relationships(all [][3]string) string {
	text := `<Relationships xmlns="` + packageNames + `relationships">`
	for _, r := range all {
		text += fmt.Sprintf(`<Relationship Id="%s" Type="%s" Target="%s"/>`, r[0], r[1], r[2])
	}
	return text + "</Relationships>"
}

// Write writes the workbook as an xlsx file (ECMA-376-1, 12.3; ECMA-376-2): the same
// bytes for the same content. It can be called once.
func (b *Book) Write(w io.Writer) error {
	sheets := ""
	relations := [][3]string{{"styles", relationNames + "/styles", "/xl/styles.xml"}}
	for i, s := range b.sheets {
		s.finish()
		sheets += fmt.Sprintf(`<sheet name="%s" sheetId="%[2]d" r:id="rId%[2]d"/>`, escaped(s.Name), i+1)
		relations = append(relations, [3]string{fmt.Sprint("rId", i+1), relationNames + "/worksheet", "/" + s.part()})
	}
	names := ""
	if len(b.names) > 0 {
		names = "<definedNames>" + string(b.names) + "</definedNames>"
	}
	b.part("xl/workbook.xml", `<workbook xmlns="`+mainNames+`" xmlns:r="`+relationNames+`"><fileVersion appName="`+program+
		`"/><workbookPr/><bookViews><workbookView/></bookViews><sheets>`+sheets+"</sheets>"+names+"</workbook>")
	b.part("xl/_rels/workbook.xml.rels", relationships(relations))
	b.part("xl/styles.xml", b.stylesXML())
	b.part("docProps/app.xml",
		`<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">`+
			"<Application>"+program+"</Application></Properties>")
	b.open(coreProperties)
	io.WriteString(b.current, xml.Header+`<cp:coreProperties xmlns:cp="`+packageNames+`metadata/core-properties" `+
		`xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>`+escaped(b.title)+"</dc:title><dc:creator>"+program+
		"</dc:creator><dc:identifier>"+seal(b.parts)+"</dc:identifier></cp:coreProperties>")
	if err := cmp.Or(b.err, b.zip.Close()); err != nil {
		return err
	}
	_, err := b.file.WriteTo(w)
	return err
}

// part is the name of the sheet's part.
func (s *Sheet) part() string { return fmt.Sprintf("xl/worksheets/sheet%d.xml", s.index+1) }

// mostRows is how many bytes of rows are kept as text: a test of 5000 cups has 50 MB,
// which are a tenth of it when packed.
const mostRows = 256 << 10

// pack packs the rows so far, behind the head of the sheet. The sheet before is
// finished by that.
func (s *Sheet) pack() {
	if b := s.book; b.packing != s {
		if b.packing != nil {
			b.packing.finish()
		}
		b.open(s.part())
		b.packing = s
		s.rows = slices.Insert(s.rows, 0, []byte(s.head())...)
	}
	s.book.current.Write(s.rows)
	s.rows = s.rows[:0]
}

// finish ends the sheet.
func (s *Sheet) finish() {
	if s.finished {
		return
	}
	s.endRow()
	s.printNames()
	s.finished = true
	s.rows = append(s.rows, s.tail()...)
	s.pack()
}

// head and tail are the part of a sheet before its rows and behind them, in the order
// of ECMA-376-1, 18.3.1.99, CT_Worksheet.
func (s *Sheet) head() string {
	fit, pane, columns := "", "", ""
	if s.Page.Percent == 0 {
		fit = `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`
	}
	if c, r := s.frozen[0], s.frozen[1]; r > 0 {
		pane = fmt.Sprintf(`<sheetViews><sheetView workbookViewId="0"><pane xSplit="%d" ySplit="%d" topLeftCell="%s" `+
			`activePane="bottomRight" state="frozen"/></sheetView></sheetViews>`, c, r, Address(c, r+1))
	}
	if s.widths != nil {
		columns = "<cols>" + string(s.widths) + "</cols>"
	}
	return xml.Header + `<worksheet xmlns="` + mainNames + `">` + fit + pane +
		fmt.Sprintf(`<sheetFormatPr defaultRowHeight="%d"/>`, rowHeight) + columns + "<sheetData>"
}

func (s *Sheet) tail() string {
	protection, merged, checks := "", "", ""
	if s.lock {
		protection = `<sheetProtection sheet="1" objects="1" scenarios="1" formatColumns="0" formatRows="0"/>`
	}
	if n := len(s.merged); n > 0 {
		merged = fmt.Sprintf(`<mergeCells count="%d"><mergeCell ref="%s"/></mergeCells>`,
			n, strings.Join(s.merged, `"/><mergeCell ref="`))
	}
	if n := len(s.checks); n > 0 {
		checks = fmt.Sprintf(`<dataValidations count="%d">%s</dataValidations>`, n, strings.Join(s.checks, ""))
	}
	return "</sheetData>" + protection + s.filter + merged + checks +
		fmt.Sprintf(`<pageMargins left="%[1]g" right="%[1]g" top="%[2]g" bottom="%[2]g" header="0.3" footer="0.3"/>`,
			sideMargin, headMargin) +
		s.Page.setup() + s.Page.headerFooter() + "</worksheet>"
}
