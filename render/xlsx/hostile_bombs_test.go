package xlsx

import (
	"fmt"
	"strings"
)

// bombs are small files that would unpack to much, or take long to read. Some
// are made to come close below the limits.
func bombs(l Limits) []hostile {
	book := func(sheets int) string {
		return strings.Replace(goodBook, "</sheets>",
			strings.Repeat(`<sheet name="x" sheetId="2" r:id="rId1"/>`, sheets)+"</sheets>", 1)
	}
	// filled is unit as often as fits into a part beside the good one.
	filled := func(unit string) string { return strings.Repeat(unit, (int(l.PartBytes)-2000)/len(unit)) }
	padded := strings.Builder{}
	for row := 1; row <= l.Rows; row++ {
		fmt.Fprintf(&padded, `<row r="%d"><c r="%s"><v>1</v></c></row>`, row, Address(l.Columns-1, row))
	}
	largeText := `<row><c t="inlineStr"><is><t>` + strings.Repeat("&#x4E2D;", maxText) + `</t></is></c></row>`
	return []hostile{
		{"sheet of nothing that unpacks to 16 MB", with(sheetPart, sheetHead+strings.Repeat(" ", 16<<20)+sheetTail), "would unpack to 16 MB"},
		{"texts that unpack to 16 MB", with("xl/sharedStrings.xml", goodTexts+strings.Repeat("\n", 16<<20)), "would unpack to 16 MB"},
		{"workbook that unpacks to 16 MB", with("xl/workbook.xml", goodBook+strings.Repeat("\n", 16<<20)), "would unpack to"},
		{"styles that unpack to 16 MB", with("xl/styles.xml", goodLooks+strings.Repeat("\n", 16<<20)), "would unpack to"},
		{"relations that unpack to 16 MB", with("xl/_rels/workbook.xml.rels", goodRels+strings.Repeat("\n", 16<<20)), "would unpack to"},
		{"picture that unpacks to 16 MB is never unpacked", withAlso("xl/media/image1.png", strings.Repeat("\x00", 16<<20)), ""},
		{"as many cells as fit", rows(`<row r="1">` + strings.Repeat(`<c><v>1</v></c>`, 200_000) + `</row>`), "holds more than a log of this plan can"},
		{"many rows of one cell", rows(strings.Repeat(`<row><c><v>1</v></c></row>`, l.Rows+1)), fmt.Sprintf("value in row %d", l.Rows+1)},
		{"as many empty cells as fit", rows(`<row r="1">` + filled(`<c/>`) + `</row>`), ""},
		{"as many empty rows as fit", rows(filled(`<row/>`)), ""},
		{"twenty sheets that are one part", with("xl/workbook.xml", book(20)), ""},
		{"9000 sheets", with("xl/workbook.xml", book(9000)), "its rows come to more than"},
		{"one large part as 500 sheets", withBoth("xl/workbook.xml", book(500), sheetPart, sheetHead+filled("<x>"+strings.Repeat(" ", 200_000)+"</x>")+sheetTail), "would unpack to"},
		{"500 parts in one place", inOnePlace(500), "would unpack to"},
		{"blanks before a value", withBoth("xl/workbook.xml", book(100), sheetPart, sheetHead+padded.String()+sheetTail), "its rows come to more than"},
		{"row of 16384 columns with nothing", rows(`<row r="1">` + strings.Repeat(`<c s="1"/>`, 16384) + `</row>`), ""},
		{"row of 16384 columns", rows(`<row r="1">` + strings.Repeat(`<c><v>1</v></c>`, 16384) + `</row>`), "is the last that is read"},
		{"row of 16385 columns with nothing", rows(`<row r="1">` + strings.Repeat(`<c/>`, 16384) + `<c r="XFE1"/></row>`), "a cell"},
		{"tag of as many attributes as fit", rows(`<row r="1"` + filled(` a=""`) + `/>`), "an element of more than"},
		{"tag of as many attributes as its length allows", rows(`<x` + strings.Repeat(` a=""`, maxToken/5-10) + `/>`), ""},
		{"tags of as many attributes as pass", rows(filled(`<x` + strings.Repeat(` a=""`, 100) + `/>`)), ""},
		{"declaration of as many signs as fit", with(sheetPart, "<?x "+filled("x")+"?>"+sheetHead+sheetTail), "an element of more than"},
		{"remark of as many signs as fit", with(sheetPart, sheetHead+"<!--"+filled("x")+"-->"+sheetTail), "an element of more than"},
		{"text in as many pieces as fit", rows(`<row><c t="inlineStr"><is>` + filled("<r><t>"+strings.Repeat("x", 30_000)+"</t></r>") + `</is></c></row>`), "a text longer than 32767"},
		{"value in as many pieces as fit", rows(`<row><c><v>` + filled(strings.Repeat("x", 30_000)+"<!---->") + `</v></c></row>`), "a text longer than 32767"},
		{"texts of as many signs as fit, written out", rows(filled(largeText)), ""},
		{"as many relations as fit", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "</Rel", filled(`<Relationship Id="1" Type="worksheet" Target="a"/>`)+"</Rel", 1)), ""},
		{"as many sheets' relations as fit", with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "</Rel", numbered(int(l.PartBytes)/60, `<Relationship Id="%d" Type="worksheet" Target="a"/>`)+"</Rel", 1)), ""},
		{"as many number formats as fit", with("xl/styles.xml", strings.Replace(goodLooks, "</numFmts>", numbered(int(l.PartBytes)/30, `<numFmt numFmtId="%d"/>`)+"</numFmts>", 1)), ""},
		{"as many cell formats as fit", with("xl/styles.xml", strings.Replace(goodLooks, "</cellXfs>", filled("<xf/>")+"</cellXfs>", 1)), ""},
		{"code of a number format that opens brackets only", with("xl/styles.xml", strings.Replace(goodLooks, `yyyy\-`, strings.Repeat("[", 200_000), 1)), ""},
		{"a million empty texts", with("xl/sharedStrings.xml", strings.Replace(goodTexts, "</sst>", strings.Repeat("<si/>", 1_000_000)+"</sst>", 1)), "would unpack to"},
		{"as many texts as fit, spoken", with("xl/sharedStrings.xml", strings.Replace(goodTexts, "</sst>", "<si>"+filled("<rPh><t>x</t></rPh>")+"</si></sst>", 1)), ""},
		{"3000 parts", manyParts(3000), "it has 3000 parts"},
		{"60000 parts", manyParts(60_000), "list of parts is too long"},
		{"texts without end", with("xl/sharedStrings.xml", strings.Replace(goodTexts, "</sst>", strings.Repeat("<si/>", 400_000)+"</sst>", 1)), "texts"},
		{"text of a million signs", with("xl/sharedStrings.xml", strings.Replace(goodTexts, "Mark", strings.Repeat("a", 1_000_000), 1)), "a text longer than 32767"},
		{"inline text of a million signs", rows(`<row r="1"><c r="A1" t="inlineStr"><is><t>` + strings.Repeat("a", 1_000_000) + `</t></is></c></row>`), "a text longer than 32767"},
		{"value of a million digits", rows(`<row r="1"><c r="A1"><v>` + strings.Repeat("1", 1_000_000) + `</v></c></row>`), "a text longer than 32767"},
		{"formula of a million signs", rows(`<row r="1"><c r="A1"><f>` + strings.Repeat("1+", 500_000) + `1</f><v>7</v></c></row>`), "a text longer than"},
		{"attribute of a million signs", rows(`<row r="1" x="` + strings.Repeat("a", 1_000_000) + `"><c r="A1"><v>7</v></c></row>`), "an element of more than"},
		{"count of texts that is a lie", with("xl/sharedStrings.xml", strings.Replace(goodTexts, `count="2"`, `count="999999999"`, 1)), ""},
		{"spans that are a lie", rows(`<row r="1" spans="1:999999999"><c r="A1"><v>7</v></c></row>`), ""},
		{"dimension that is a lie", with(sheetPart, strings.Replace(sheetHead, "<sheetData>", `<dimension ref="A1:XFD1048576"/><sheetData>`, 1)+goodRows+sheetTail), ""},
		{"columns that are a lie", with(sheetPart, strings.Replace(sheetHead, "<sheetData>", `<cols><col min="1" max="999999999"/></cols><sheetData>`, 1)+goodRows+sheetTail), ""},
	}
}

// numbered is unit for the numbers from 1000 on, n times.
func numbered(n int, unit string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, unit, 1000+i)
	}
	return b.String()
}
