package quantity

import (
	"bytes"
	"encoding/binary"
	"unicode/utf16"
	"unicode/utf8"

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
	if order := wide(file); order != nil {
		text = make([]byte, 0, len(file))
		for i := 0; i < len(file); i += 2 {
			r := rune(order.Uint16(file[i:]))
			if utf16.IsSurrogate(r) && i+3 < len(file) {
				if pair := utf16.DecodeRune(r, rune(order.Uint16(file[i+2:]))); pair != utf8.RuneError {
					r, i = pair, i+2
				}
			}
			text = utf8.AppendRune(text, r)
		}
	}
	// An accent that is a character of its own, as some systems write it, would
	// make two names of one.
	text = norm.NFC.Bytes(bytes.TrimPrefix(text, []byte("\uFEFF")))
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(text, []byte("\r"), []byte("\n")), ""
}

// wide is the order of bytes of a text in UTF-16, nil of any other: it begins
// with a byte order mark, or every second of its first bytes is 0, since a plan
// begins in ASCII.
func wide(file []byte) binary.ByteOrder {
	if len(file) < 4 || len(file)%2 != 0 {
		return nil
	}
	zeros := [4]bool{file[0] == 0, file[1] == 0, file[2] == 0, file[3] == 0}
	switch {
	case file[0] == 0xFF && file[1] == 0xFE || zeros == [4]bool{false, true, false, true}:
		return binary.LittleEndian
	case file[0] == 0xFE && file[1] == 0xFF || zeros == [4]bool{true, false, true, false}:
		return binary.BigEndian
	}
	return nil
}

// foreignKind is what a file is by its first bytes, when that is no text; ""
// otherwise. The signatures are those of the formats' own standards: ZIP
// (APPNOTE 4.3.7), of which ISO/IEC 29500 and 26300 documents are made, RTF,
// PDF (ISO 32000) and the compound file of older office programs (MS-CFB 2.2).
func foreignKind(file []byte) string {
	begins := func(sign string) bool { return bytes.HasPrefix(file, []byte(sign)) }
	has := func(name string) bool { return bytes.Contains(file, []byte(name)) }
	switch {
	case begins("PK\x03\x04") && has("word/"):
		return "a word processor's document (.docx)"
	case begins("PK\x03\x04") && has("xl/"):
		return "a workbook (.xlsx)"
	case begins("PK\x03\x04") && has("opendocument.text"):
		return "a word processor's document (.odt)"
	case begins("PK\x03\x04") && has("opendocument.spreadsheet"):
		return "a workbook (.ods)"
	case begins("PK\x03\x04"):
		return "a ZIP archive"
	case begins(`{\rtf`):
		return "a word processor's document (.rtf)"
	case begins("%PDF-"):
		return "a PDF"
	case begins("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"):
		return "a document of an older office program (.doc, .xls)"
	case begins("<!DOCTYPE"), begins("<html"), begins("<?xml"):
		return "a web page or another XML document"
	}
	return ""
}
