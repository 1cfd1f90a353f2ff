package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"pourboard/render/page/pagetest"
)

// The class sheet has the batches of all tests. By hand: 500 g of the clear are
// 500/(0.45·2.6/1.6) = 684 mL, for Ana and for Ben, and 44 % of the 1000 g of
// matt is potash feldspar.
func TestClassSheet(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, args := range [][]string{
		{"new", "line-series", "-q", "--base", "Clear", "--colourant", "Rutile=0,2,4", "--batch", "500 g", "--mark", "AN", "-o", "ana.toml"},
		{"new", "line-series", "-q", "--base", "Clear", "--colourant", "Red iron oxide=0,4,8", "--batch", "500 g", "--mark", "AN", "-o", "ben.toml"},
		{"new", "line-series", "-q", "-o", "cem.toml"},
		{"make", "-q", "ana.toml", "ben.toml", "cem.toml"},
	} {
		var out bytes.Buffer
		if code := run(args, &out, &out); code != exitDone {
			t.Fatal(out.String())
		}
	}
	body, err := os.ReadFile("class-sheet.pdf")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(pagetest.Outside(t, body, "pdftotext", "-layout", "FILE", "-")), " ")
	for _, want := range []string{"ana.toml and ben.toml share the marks AN1 and 2 more", "Have ready: Clear 1368 mL 684 mL for ana.toml", "Potash feldspar 440.0", "class sheet · page 1 of 1"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
}
