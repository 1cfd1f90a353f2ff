package pdf

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/signintech/gopdf"
)

// gopdfWith is a gopdf document with one font, at a size of 1000 points.
func gopdfWith(t *testing.T, ttf []byte) *gopdf.GoPdf {
	t.Helper()
	pdf := &gopdf.GoPdf{}
	pdf.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: 595.28, H: 841.89}})
	if err := pdf.AddTTFFontData("f", ttf); err != nil {
		t.Fatal(err)
	}
	pdf.AddPage()
	if err := pdf.SetFont("f", "", 1000); err != nil {
		t.Fatal(err)
	}
	return pdf
}

// TestFaceAgreesWithGopdf compares every character of the first plane with
// gopdf's own reading of the fonts.
func TestFaceAgreesWithGopdf(t *testing.T) {
	fs, err := newFaces()
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		face *face
		ttf  []byte
	}{{fs.regular, dejavusans.TTF}, {fs.bold, dejavusansbold.TTF}} {
		pdf := gopdfWith(t, tt.ttf)
		compared := 0
		for r := rune(0); r <= 0xFFFF; r++ {
			if r >= 0xD800 && r < 0xE000 { // surrogates are no characters
				continue
			}
			has, err := pdf.IsCurrFontContainGlyph(r)
			if err != nil {
				t.Fatal(err)
			}
			if got := tt.face.glyph(r) != 0; got != has {
				t.Fatalf("%s: U+%04X: has a glyph %v, gopdf says %v", tt.face.name, r, got, has)
			}
			if !has {
				continue
			}
			want, err := pdf.MeasureTextWidth(string(r))
			if err != nil {
				t.Fatal(err)
			}
			if got := tt.face.advance(r); float64(got) != want {
				t.Fatalf("%s: U+%04X is %d wide, gopdf says %g", tt.face.name, r, got, want)
			}
			compared++
		}
		if compared < 5000 {
			t.Errorf("%s: only %d characters compared", tt.face.name, compared)
		}
		for _, r := range []rune{-1, 0x10000, 0x1F600, 0x10FFFF} {
			if tt.face.glyph(r) != 0 {
				t.Errorf("%s: U+%04X has a glyph, want none beyond the first plane", tt.face.name, r)
			}
		}
	}
}

// clean does not look for these in the fonts.
func TestFontsHaveAllOfLatin1(t *testing.T) {
	fs, err := newFaces()
	if err != nil {
		t.Fatal(err)
	}
	for r := '\u00A0'; r <= '\u00FF'; r++ {
		if fs.regular.glyph(r) == 0 || fs.bold.glyph(r) == 0 {
			t.Errorf("%U is missing", r)
		}
	}
}

func TestWidthOfText(t *testing.T) {
	fs, err := newFaces()
	if err != nil {
		t.Fatal(err)
	}
	pdf := gopdfWith(t, dejavusans.TTF)
	for _, text := range []string{"", "A", "Magnesia matte 44 %", "AVAVAV To", "Ærøskøbing Жж ₂ → ☐ é ế", "e\u0301"} {
		points, err := pdf.MeasureTextWidth(text)
		if err != nil {
			t.Fatal(err)
		}
		want := points * 11 / 1000 * 25.4 / 72
		if got := fs.widthMM(text, regular(11)); got-want > 1e-9 || want-got > 1e-9 {
			t.Errorf("%q is %.9f mm wide, gopdf says %.9f", text, got, want)
		}
	}
}

// subsetTexts have plain letters, letters composed of others, two levels of
// composition, signs, and the replacement.
var subsetTexts = []string{
	"The quick brown fox, 0123456789 (%)", "ÀÉîõüÅçñøæœßŁłŐ ế ợ ǖ ḹ", "ЖяЙё Ωμµ αβγ", "☐☑☒ → ± × ÷ ≤ ½ ⅓ ₂ ⁴ ° \uFFFD",
}

// TestSubsetLooksTheSame draws texts with the whole fonts and with the subsets
// and compares the pictures that poppler makes of both.
func TestSubsetLooksTheSame(t *testing.T) {
	fs, err := newFaces()
	if err != nil {
		t.Fatal(err)
	}
	var runes []rune
	for _, text := range subsetTexts {
		runes = append(runes, []rune(text)...)
	}
	for _, fc := range []*face{fs.regular, fs.bold} {
		small, _ := fc.subset(runes)
		if len(small) > 60_000 || len(small) < 2000 {
			t.Errorf("%s: the subset has %d bytes", fc.name, len(small))
		}
		var pictures [][]byte
		for _, ttf := range [][]byte{fc.ttf, small} {
			pdf := gopdfWith(t, ttf)
			if err := pdf.SetFontSize(24); err != nil {
				t.Fatal(err)
			}
			if len(ttf) == len(fc.ttf) {
				// gopdf forgets the parts of parts, as of ế; in the whole font
				// they come in as parts of other letters.
				var letters []rune
				for r := rune(0xC0); r <= 0x1EFF; r++ {
					letters = append(letters, r)
				}
				if _, err := pdf.MeasureTextWidth(string(letters)); err != nil {
					t.Fatal(err)
				}
			}
			for i, text := range subsetTexts {
				pdf.SetXY(30, float64(60+50*i))
				if err := pdf.Text(text); err != nil {
					t.Fatal(err)
				}
			}
			var file bytes.Buffer
			if _, err := pdf.WriteTo(&file); err != nil {
				t.Fatal(err)
			}
			picture := filepath.Join(t.TempDir(), "picture")
			outside(t, file.Bytes(), "pdftoppm", "-r", "100", "-gray", "-singlefile", "FILE", picture)
			pixels, err := os.ReadFile(picture + ".pgm")
			if err != nil {
				t.Fatal(err)
			}
			pictures = append(pictures, pixels)
		}
		// Letters whose parts were taken apart lose their hints: an accent of
		// theirs can lie a part of a pixel elsewhere.
		const hints = 60
		if n := unlike(pictures[0], pictures[1]); n > hints {
			t.Errorf("%s: the subset looks different from the whole font in %d pixels", fc.name, n)
		}
		if bytes.Count(pictures[0], []byte{0}) < 1000 {
			t.Errorf("%s: the picture is all but empty", fc.name)
		}
	}
}

// unlike counts the bytes in which two pictures differ, all of them when they
// are of different size.
func unlike(a, b []byte) int {
	if len(a) != len(b) {
		return max(len(a), len(b))
	}
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

func TestSubsetIsReadAsWritten(t *testing.T) {
	d := mustDoc(t, "t")
	p := d.addPage("s", 210, 297)
	p.bare = true
	for i, text := range subsetTexts {
		p.text(20, float64(30+20*i), text, font{i%2 == 1, 14}, left)
	}
	got := outside(t, mustWrite(t, d), "pdftotext", "-layout", "FILE", "-")
	for _, text := range subsetTexts {
		for _, word := range strings.Fields(text) {
			if !strings.Contains(got, word) {
				t.Errorf("%q is not in the text of the file: %q", word, got)
			}
		}
	}
}

func TestNewFaceRefusesOtherFonts(t *testing.T) {
	for name, ttf := range map[string][]byte{"empty": {}, "no tables": make([]byte, 12)} {
		if _, err := newFace(name, ttf); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
