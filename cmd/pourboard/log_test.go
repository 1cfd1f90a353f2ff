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

// enter fills in a blank cell of the sheet Cups of a log, which is its second.
func enter(t *testing.T, log, cell, text string) {
	t.Helper()
	old, err := zip.OpenReader(log)
	if err != nil {
		t.Fatal(err)
	}
	defer old.Close()
	var body bytes.Buffer
	now := zip.NewWriter(&body)
	for _, f := range old.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		part, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if f.Name == "xl/worksheets/sheet2.xml" {
			head, tail, ok := strings.Cut(string(part), `<c r="`+cell+`" s="3"/>`)
			if !ok {
				t.Fatalf("no blank cell %s", cell)
			}
			part = []byte(head + `<c r="` + cell + `" s="3" t="inlineStr"><is><t>` + text + "</t></is></c>" + tail)
		}
		w, err := now.Create(f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(part); err != nil {
			t.Fatal(err)
		}
	}
	if err := now.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(log, body.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A CSV has no sheet Cups: what that of the log beside the plan says was spilled
// or dosed otherwise counts for it, and is said.
func TestCupsOfCSV(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "line-series")
	run := func(args ...string) string {
		t.Helper()
		text, err := program(t, nil, args...).CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		return string(text)
	}
	run("make", plan)
	log, table := logOf(plan), filepath.Join(filepath.Dir(plan), "phone.csv")
	enter(t, log, "E3", "1.7") // the dose of cup 2
	enter(t, log, "F4", "spilled")
	if err := os.WriteFile(table, []byte("Mark,Rating\nMC1P,2\nMC2P,3\nMC3P,5\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	got := run("results", plan, table)
	for _, want := range []string{
		"note: cup 2: dosed 1.7 g ", "note: cup 3 forgotten or spilled: tiles skipped",
		"note: what was done otherwise is read from " + log, "1. cup 2: 3 (",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("lacks %q: %s", want, got)
		}
	}
}
