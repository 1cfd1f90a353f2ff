package main

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
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

// TestSigns_workbooks is TestSigns for what is in the workbooks of such a plan.
func TestSigns_workbooks(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "line")
	text, err := os.ReadFile(plan)
	if err == nil {
		err = os.WriteFile(plan, bytes.ReplaceAll(text, []byte("Magnesia matte"), []byte(`Mag\u202Enesia\u2066`)), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if code := run([]string{"make", plan}, &out, &errs); code != exitDone {
		t.Fatalf("%d: %s", code, errs.String())
	}
	books, _ := filepath.Glob(filepath.Join(filepath.Dir(plan), "*.xlsx"))
	if len(books) != 2 {
		t.Fatalf("%d workbooks", len(books))
	}
	for _, book := range books {
		z, err := zip.OpenReader(book)
		if err != nil {
			t.Fatal(err)
		}
		defer z.Close()
		for _, part := range z.File {
			r, err := part.Open()
			if err != nil {
				t.Fatal(err)
			}
			body, err := io.ReadAll(r)
			if err != nil {
				t.Fatal(err)
			}
			for _, sign := range []string{"\u202e", "\u2066"} {
				if bytes.Contains(body, []byte(sign)) {
					t.Errorf("%s of %s has %q raw", part.Name, filepath.Base(book), sign)
				}
			}
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
