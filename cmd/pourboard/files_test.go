package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func TestNotOnWindows(t *testing.T) {
	for _, name := range []string{
		"ash-triaxial.pdf", "Ash & soda (2).pdf", "grün ₂ 𝛼.pdf", ".toml", "a.b.c",
		"console.pdf", "com.pdf", "com0.pdf", "COM10.pdf", "lpt.pdf", "nulls", "auxiliary.toml", "my con.pdf", "com9-",
	} {
		if notOnWindows.MatchString(name) {
			t.Errorf("%q is refused", name)
		}
	}
	for _, name := range []string{
		"", "a:b.pdf", "a<b", "a>b", `a"b`, "a/b", `a\b`, "a|b", "what?.pdf", "a*", "a\tb", "a\x00", "a.", "a ", "..", "test.pdf. .",
		"CON", "con.pdf", "nul", "Aux.toml", "PRN.tar.gz", "COM1", "com9.pdf", "LPT1.xlsx", "COM¹.pdf", "CON .pdf",
	} {
		if !notOnWindows.MatchString(name) {
			t.Errorf("%q is taken", name)
		}
	}
}

func TestNotWritten(t *testing.T) {
	wrap := func(err error) error { return &os.LinkError{Op: "rename", Old: "a", New: "b", Err: err} }
	for _, test := range []struct {
		err  error
		want string
	}{
		{wrap(syscall.ENOSPC), "a.pdf: not written: the disk is full"},
		{wrap(syscall.EDQUOT), "a.pdf: not written: the disk is full"},
		{wrap(syscall.EROFS), "a.pdf: not written: the disk is write-protected"},
		{&fs.PathError{Op: "open", Path: "a", Err: syscall.EACCES}, "a.pdf: not written: you have no permission, or another program has it open"},
		{wrap(errors.New("odd")), "a.pdf: not written: odd"},
	} {
		if got := isUnwritten("a.pdf", test.err).Error(); got != test.want {
			t.Errorf("%v: %q, want %q", test.err, got, test.want)
		}
	}
}

// What is not there is named: the folder where that is what is missing, the file
// that is likely meant where one is.
func TestNotThere(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"ash.toml", "ash-log.xlsx", "ash.pdf"} {
		if err := os.WriteFile(name, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir("in", 0o755); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"ash":         "ash: file not found (did you mean ash.toml?)",
		"ahs.toml":    "ahs.toml: file not found (did you mean ash.toml?)",
		"ash-lg.xlsx": "ash-lg.xlsx: file not found (did you mean ash-log.xlsx?)",
		"ash.csv":     "ash.csv: file not found",
		"in/ash.toml": "in/ash.toml: file not found",
		"no/a/b.toml": "no/a/b.toml: folder " + filepath.Join("no", "a") + " does not exist",
		"in/a/b.toml": "in/a/b.toml: folder " + filepath.Join("in", "a") + " does not exist",
	} {
		if _, err := readFile(name, 10); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
}

// writeFile makes body the content of the file name, as commands do.
func writeFile(name string, body []byte) error {
	u := &ui{out: io.Discard, err: io.Discard}
	_, err := u.writeAll(&output{file: name, render: func(w io.Writer) ([]string, error) {
		_, err := w.Write(body)
		return nil, err
	}})
	return err
}

// unfinishedIn is the files that writing has left in a folder.
func unfinishedIn(t *testing.T, folder string) []string {
	t.Helper()
	left, err := filepath.Glob(filepath.Join(folder, unfinishedStart+"*"))
	if err != nil {
		t.Fatal(err)
	}
	return left
}

// What stands in a file's place and is no file, or not the one that is meant, is
// kept, and nothing is left beside it.
func TestKept(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	write := func(name, text string, mode fs.FileMode) {
		t.Helper()
		if err := os.WriteFile(at(name), []byte(text), mode); err != nil {
			t.Fatal(err)
		}
	}
	write("plan.toml", "title = 1\n", 0o644)
	write("log.xlsx", "PK\x03\x04 filled in", 0o644)
	write("locked.pdf", "%PDF old", 0o444)
	for link, to := range map[string]string{"nowhere.pdf": at("none/at/all.pdf"), "loop.pdf": at("loop.pdf")} {
		if err := os.Symlink(to, at(link)); err != nil {
			t.Skip("links cannot be made here")
		}
	}
	for name, want := range map[string]string{
		"locked.pdf":      "read-only; not overwritten",
		"nowhere.pdf":     "a link to a missing file",
		"loop.pdf":        "leads back to itself",
		"plan.toml/a.pdf": "one of the folders in this name is a file",
		"":                "is a folder",
	} {
		before, _ := os.ReadFile(at(name))
		err := writeFile(at(name), []byte("%PDF new"))
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
		if after, _ := os.ReadFile(at(name)); !bytes.Equal(before, after) {
			t.Errorf("%s is now %q", name, after)
		}
	}
	if err := createFile(at("log.xlsx"), []byte("PK\x03\x04")); err == nil || !strings.Contains(err.Error(), "not overwritten") {
		t.Errorf("created over a file: %v", err)
	}
	if left := unfinishedIn(t, folder); left != nil {
		t.Errorf("left: %q", left)
	}
}

// An empty file and a PDF are replaced by a PDF; a name of the greatest length
// does not keep the file beside it from being made.
func TestReplaced(t *testing.T) {
	folder := t.TempDir()
	body := []byte("%PDF new")
	for _, name := range []string{"empty.pdf", "old.pdf", strings.Repeat("n", 251) + ".pdf"} {
		file := filepath.Join(folder, name)
		old := []byte("%PDF-1.7 old")
		if name == "empty.pdf" {
			old = nil
		}
		if err := os.WriteFile(file, old, 0o640); err != nil {
			t.Fatal(err)
		}
		if err := os.Link(file, file[:len(file)-1]); err != nil {
			t.Log(err)
		}
		if err := writeFile(file, body); err != nil {
			t.Error(err)
		}
		if got, err := os.ReadFile(file); err != nil || !bytes.Equal(got, body) {
			t.Errorf("%.20s is %q, %v", name, got, err)
		}
		if other, err := os.ReadFile(file[:len(file)-1]); err == nil && !bytes.Equal(other, old) {
			t.Errorf("the other name of %.20s is now %q", name, other)
		}
	}
	if left := unfinishedIn(t, folder); left != nil {
		t.Errorf("left: %q", left)
	}
}

// What a person saves while the sheets are drawn is kept: make asks again right
// before a file takes its place.
func TestSavedMeanwhile(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "line")
	j, err := load(plan, overrides{})
	if err != nil {
		t.Fatal(err)
	}
	base := strings.TrimSuffix(plan, ".toml")
	var out, errs bytes.Buffer
	u := &ui{out: &out, err: &errs}
	var m makeOptions
	for _, made := range []bool{false, true} { // nothing is there, or what make wrote
		if made {
			var out bytes.Buffer
			if code := run([]string{"make", "-q", plan}, &out, &out); code != exitDone {
				t.Fatal(out.String())
			}
			os.Remove(base + "-log.xlsx")
		}
		books := u.workbooks(j, base, m)
		saved, kept := map[string][]byte{}, 0
		for _, o := range books {
			if err := o.prepare(); err != nil || o.tmp == "" {
				t.Fatal(err)
			}
			defer o.drop()
			saved[o.file] = []byte("PK\x03\x04 saved by hand")
			if err := os.WriteFile(o.file, saved[o.file], 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for _, o := range books {
			if done, err := o.place(); err != nil {
				t.Fatal(err)
			} else if !done {
				kept++
			}
		}
		if len(saved) != 2 || kept != 2 {
			t.Errorf("%d files saved, %d kept", len(saved), kept)
		}
		for file, body := range saved {
			if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, body) {
				t.Errorf("%s was replaced by %.20q, %v", file, now, err)
			}
			if err := os.Remove(file); err != nil {
				t.Fatal(err)
			}
		}
	}
}
