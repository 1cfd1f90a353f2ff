package main

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pourboard/render/page/pagetest"
)

// TestSigns holds that signs which turn text round or steer a terminal never
// leave the program raw, whether they come from a plan, a log, the name of a
// file or a flag.
func TestSigns(t *testing.T) {
	t.Parallel()
	const bad = "\u202ealc\u2066\x1b[31m"
	text, err := os.ReadFile("../../testdata/plans/line.toml")
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	at := func(name, body string) string {
		file := filepath.Join(folder, name)
		if err := os.WriteFile(file, []byte(body), 0o644); err != nil {
			t.Skip(err) // not every file system takes such names
		}
		return file
	}
	plain := at("plain.toml", string(text))
	named := at("na"+bad+"me.toml", string(text))
	raw := at("raw.toml", `title = "Test`+bad+"\"\n"+string(text))
	titled := at("titled.toml", strings.NewReplacer("Magnesia matte", `Mag\u202Enesia\u2066 \u001B[31m`).Replace(string(text)))
	spelt := at("spelt.toml", strings.Replace(string(text), "bodies", "# bodies", 1)+"\n[moon]\n\"a\\u202Eb\\u001B[31m\" = 1\n")
	log := at("log"+bad+".csv", "Mark,Rating,Notes\nZZ9"+bad+",3,x\n"+bad+",,\n")
	for _, args := range [][]string{
		{"check", plain}, {"check", named}, {"check", raw}, {"check", spelt}, {"check", titled}, {"show", titled}, {"show", "--json", titled}, {"make", titled}, {"show", named}, {"show", raw}, {"show", "--json", named},
		{"make", named, "--only", bad}, {"make", plain, "--also", bad}, {"make", plain, "--cup-size", bad}, {"make", plain, "--measured", bad},
		{"find", plain, bad}, {"find", plain, "ML2", "--body", bad}, {"results", plain, log}, {"results", raw, log},
		{"check", bad}, {"results", plain, bad}, {"materials", bad}, {bad}, {"check", "--" + bad}, {"book", bad}, {"show", plain, "--sg", bad + "=1.4"},
		{"batch", plain, "--cup", bad, "--dry", "1 kg"}, {"next", plain, "--cup", bad}, {"new", bad}, {"make", plain, "--out", filepath.Join(folder, bad)},
	} {
		var out, errs bytes.Buffer
		run(args, &out, &errs)
		for _, sign := range []string{"\u202e", "\u2066", "\x1b"} {
			if strings.Contains(out.String(), sign) || strings.Contains(errs.String(), sign) {
				t.Errorf("%q prints %q: %.300q", args, sign, out.String()+errs.String())
			}
		}
	}
}

// TestSigns_files is TestSigns for what is printed, drawn and written of such a
// plan and such a log, by every command that takes both.
func TestSigns_files(t *testing.T) {
	t.Parallel()
	const bad = "\u202ealc\u2066\x1b[31m\u2028"
	plan := planIn(t, "line-series")
	folder := filepath.Dir(plan)
	text, err := os.ReadFile(plan)
	if err != nil {
		t.Fatal(err)
	}
	named := strings.NewReplacer("Magnesia matte", `Mag\u202Enesia\u2066`, `title = "`, `title = "T\u202E`, `"Red"`, `"R\u2066ed"`).Replace(string(text))
	log := "Mark,Rating,Notes,Surface,Defects,Colour,Coat 1,Photograph,Firing\nMC2P,4" + strings.Repeat(`,"`+bad+`"`, 6) + ",A\nMC3P,3,n,,,,,,A\n"
	for name, body := range map[string]string{"line-series.toml": named, "line-series-log.csv": log} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(body), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	csv := filepath.Join(folder, "line-series-log.csv")
	hidden := func(where, text string) {
		t.Helper()
		for _, sign := range []string{"\u202e", "\u2066", "\u2028", "\x1b"} {
			if at := strings.Index(text, sign); at >= 0 {
				t.Errorf("%s has %q raw: %.40q", where, sign, text[max(0, at-20):])
			}
		}
	}
	for _, args := range [][]string{
		{"make", plan}, {"show", plan, "--json"}, {"show", plan, "--csv"}, {"show", plan, "--chemistry"},
		{"results", plan, csv}, {"results", plan, csv, "--csv"}, {"results", plan, csv, "--json"}, {"results", plan, csv, plan, filepath.Join(folder, "line-series-log.xlsx")},
		{"find", folder, "MC2P"}, {"next", plan, "--cup", "2,3", "-o", "-"}, {"batch", plan, "--cup", "2", "--dry", "1 kg", "--pdf", filepath.Join(folder, "ticket.pdf")},
		{"book", folder, "--out", folder},
	} {
		var out, errs bytes.Buffer
		if code := run(args, &out, &errs); code != exitDone && len(args) != 5 { // the log in the workbook is blank
			t.Errorf("%q: %d: %s", args, code, errs.String())
		}
		hidden(strings.Join(args, " "), out.String()+errs.String())
	}
	files := outputs(t, plan)
	if len(files) != 8 { // sheets, two workbooks, results, ticket, the log, the book's two
		t.Errorf("%d files", len(files))
	}
	for name, body := range files {
		if filepath.Ext(name) != ".xlsx" {
			continue
		}
		z, err := zip.NewReader(bytes.NewReader(body), int64(len(body)))
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range z.File {
			r, err := part.Open()
			if err != nil {
				t.Fatal(err)
			}
			text, err := io.ReadAll(r)
			if err != nil {
				t.Fatal(err)
			}
			hidden(name+" "+part.Name, string(text))
		}
	}
	for name, body := range files {
		if filepath.Ext(name) == ".pdf" {
			hidden(name, pagetest.Outside(t, body, "pdftotext", "FILE", "-")+pagetest.Outside(t, body, "pdfinfo", "FILE"))
		}
	}
}

// TestMeasuredBar holds that a bar of no length is refused, and a plan whose file
// has only an ending.
func TestMeasuredBar(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "line")
	bare := filepath.Join(filepath.Dir(plan), ".toml")
	text, err := os.ReadFile(plan)
	if err == nil {
		err = os.WriteFile(bare, text, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"make", plan, "--measured", "0"}, {"make", plan, "--measured", "-97"}, {"make", plan, "--measured", "NaN"}, {"make", plan, "--measured", "50"},
		{"make", bare}, {"check", bare},
	} {
		var out, errs bytes.Buffer
		if code := run(args, &out, &errs); code == exitDone || errs.Len() == 0 || out.Len() > 0 {
			t.Errorf("%q: %d: %s%s", args, code, out.String(), errs.String())
		}
	}
	if made := outputs(t, plan); len(made) > 0 {
		t.Errorf("written: %d files", len(made))
	}
}
