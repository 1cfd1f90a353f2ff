package quantity

import (
	"bytes"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"
)

// Text is the text of a file in UTF-8 without a byte order mark, accents
// composed, every line ended by a line feed alone; editors of Windows save in
// UTF-16 too, old ones of Macintosh end lines by a carriage return. foreign says what the file is
// when it is not text: "a workbook (.xlsx)". Bytes that are not UTF-8 stay as
// they are.
func Text(file []byte) (text []byte, foreign string) {
	if foreign = foreignKind(file); foreign != "" {
		return nil, foreign
	}
	text = file
	if len(file)%2 == 0 || utf8.Valid(file) { // otherwise a UTF-16 text is cut off
		if decoded, _, err := transform.Bytes(unicode.BOMOverride(transform.Nop), file); err == nil {
			text = decoded
		}
	}
	// An accent that is a character of its own, as some systems write it, would
	// make two names of one.
	text = norm.NFC.Bytes(text)
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(text, []byte("\r"), []byte("\n")), ""
}

// signatures are the first bytes of files that are not text, what is in them too,
// and what they are: those of the formats' own standards, ZIP (APPNOTE 4.3.7), of
// which ISO/IEC 29500 and 26300 documents are made, RTF, PDF (ISO 32000) and the
// compound file of older office programs (MS-CFB 2.2).
var signatures = []struct{ begin, has, kind string }{
	{"PK\x03\x04", "word/", "a word processor's document (.docx)"},
	{"PK\x03\x04", "xl/", "a workbook (.xlsx)"},
	{"PK\x03\x04", "opendocument.text", "a word processor's document (.odt)"},
	{"PK\x03\x04", "opendocument.spreadsheet", "a workbook (.ods)"},
	{"PK\x03\x04", "", "a ZIP archive"},
	{`{\rtf`, "", "a word processor's document (.rtf)"},
	{"%PDF-", "", "a PDF"},
	{"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", "", "a document of an older office program (.doc, .xls)"},
	{"<!DOCTYPE", "", "a web page or another XML document"},
	{"<html", "", "a web page or another XML document"},
	{"<?xml", "", "a web page or another XML document"},
}

// foreignKind names the kind of a file that is no text, by its first bytes; "" for
// others.
func foreignKind(file []byte) string {
	for _, s := range signatures {
		if bytes.HasPrefix(file, []byte(s.begin)) && bytes.Contains(file, []byte(s.has)) {
			return s.kind
		}
	}
	return ""
}
