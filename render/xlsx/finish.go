package xlsx

import (
	"archive/zip"
	"cmp"
	"encoding/xml"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// program is named in the file's properties as its maker.
const program = "pourboard"

// Write writes the workbook as an xlsx file: the same bytes for the same content.
// It can be called once.
func (b *Book) Write(w io.Writer) error {
	for _, s := range b.sheets {
		s.endRow()
		s.printNames()
	}
	if b.err != nil {
		return b.err
	}
	return b.zip(w, b.frame())
}

// The names of the vocabularies.
const (
	mainNames     = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relationNames = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packageNames  = "http://schemas.openxmlformats.org/package/2006/"
	contentTypes  = "application/vnd.openxmlformats-officedocument."
)

// frame is the parts beside the sheets (ECMA-376-1, 12.3; ECMA-376-2).
func (b *Book) frame() map[string]string {
	sheets, types, relations := "", "", ""
	part := func(name, kind string) {
		types += `<Override PartName="/` + name + `" ContentType="` + kind + `+xml"/>`
	}
	relate := func(id, kind, target string) string {
		return fmt.Sprintf(`<Relationship Id="%s" Type="%s" Target="%s"/>`, id, kind, target)
	}
	for i, s := range b.sheets {
		sheets += fmt.Sprintf(`<sheet name="%s" sheetId="%[2]d" r:id="rId%[2]d"/>`, escaped(s.Name), i+1)
		relations += relate(fmt.Sprint("rId", i+1), relationNames+"/worksheet", "/"+partOfSheet(i))
		part(partOfSheet(i), contentTypes+"spreadsheetml.worksheet")
	}
	relations += relate("styles", relationNames+"/styles", "/xl/styles.xml")
	part("xl/workbook.xml", contentTypes+"spreadsheetml.sheet.main")
	part("xl/styles.xml", contentTypes+"spreadsheetml.styles")
	part("docProps/app.xml", contentTypes+"extended-properties")
	part(coreProperties, "application/vnd.openxmlformats-package.core-properties")
	names := ""
	if len(b.names) > 0 {
		names = "<definedNames>" + string(b.names) + "</definedNames>"
	}
	const relationships = `<Relationships xmlns="` + packageNames + `relationships">`
	return map[string]string{
		"[Content_Types].xml": xml.Header + `<Types xmlns="` + packageNames + `content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` + types + `</Types>`,
		"_rels/.rels": xml.Header + relationships + relate("workbook", relationNames+"/officeDocument", "/xl/workbook.xml") +
			relate("core", packageNames+"relationships/metadata/core-properties", "/"+coreProperties) +
			relate("app", relationNames+"/extended-properties", "/docProps/app.xml") + "</Relationships>",
		"xl/_rels/workbook.xml.rels": xml.Header + relationships + relations + "</Relationships>",
		"xl/workbook.xml": xml.Header + `<workbook xmlns="` + mainNames + `" xmlns:r="` + relationNames + `"><fileVersion appName="` + program +
			`"/><workbookPr/><bookViews><workbookView/></bookViews><sheets>` + sheets + "</sheets>" + names + "</workbook>",
		"xl/styles.xml": b.stylesXML(),
		"docProps/app.xml": xml.Header + `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>` +
			program + "</Application></Properties>",
		coreProperties: xml.Header + `<cp:coreProperties xmlns:cp="` + packageNames + `metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>` +
			escaped(b.title) + "</dc:title><dc:creator>" + program + "</dc:creator></cp:coreProperties>",
	}
}

// zip writes a zip of parts: those that say what the rest is first, the rest by name,
// all at one time.
func (b *Book) zip(w io.Writer, parts map[string]string) error {
	all, seals := map[string]*packed{}, map[string]seal{}
	for name, part := range parts {
		if name != coreProperties {
			all[name] = new(packed)
			all[name].write(b.packer, []byte(part))
		}
	}
	for i, s := range b.sheets {
		s.rows = append(s.rows, s.tail()...)
		s.pack()
		all[partOfSheet(i)] = &s.part
	}
	for name, p := range all {
		seals[partName(name)] = p.seal
	}
	all[coreProperties] = new(packed)
	all[coreProperties].write(b.packer, []byte(sealed(parts[coreProperties], seals)))
	z := zip.NewWriter(w)
	first := []string{"_rels/.rels", "[Content_Types].xml"} // the last comes first
	for _, name := range slices.SortedFunc(maps.Keys(all), func(x, y string) int {
		return cmp.Or(slices.Index(first, y)-slices.Index(first, x), strings.Compare(x, y))
	}) {
		if err := all[name].add(z, b.packer, name); err != nil {
			return err
		}
	}
	return z.Close()
}

// partOfSheet is the name of the part of sheet i, from 0.
func partOfSheet(i int) string { return fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1) }

// head and tail are the part of a sheet before its rows and behind them. The order is that of ECMA-376-1, 18.3.1.99,
// CT_Worksheet.
func (s *Sheet) head() string {
	fit, pane, columns := "", "", ""
	if s.Page.Percent == 0 {
		fit = `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`
	}
	if c, r := s.frozen[0], s.frozen[1]; r > 0 {
		pane = fmt.Sprintf(`<sheetViews><sheetView workbookViewId="0"><pane xSplit="%d" ySplit="%d" topLeftCell="%s" activePane="bottomRight" state="frozen"/></sheetView></sheetViews>`,
			c, r, Address(c, r+1))
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
		merged = fmt.Sprintf(`<mergeCells count="%d"><mergeCell ref="%s"/></mergeCells>`, n, strings.Join(s.merged, `"/><mergeCell ref="`))
	}
	if n := len(s.checks); n > 0 {
		checks = fmt.Sprintf(`<dataValidations count="%d">%s</dataValidations>`, n, strings.Join(s.checks, ""))
	}
	return "</sheetData>" + protection + s.filter + merged + checks +
		fmt.Sprintf(`<pageMargins left="%[1]g" right="%[1]g" top="%[2]g" bottom="%[2]g" header="0.3" footer="0.3"/>`, sideMargin, headMargin) +
		s.Page.setup() + s.Page.headerFooter() + "</worksheet>"
}
