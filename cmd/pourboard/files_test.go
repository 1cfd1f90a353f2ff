package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestWindowsName(t *testing.T) {
	for name, want := range map[string]string{
		"ash-triaxial.pdf": "", "Ash & soda (2).pdf": "", "grün ₂ 𝛼.pdf": "", ".toml": "", "a.b.c": "",
		"console.pdf": "", "com.pdf": "", "com0.pdf": "", "COM10.pdf": "", "lpt.pdf": "", "nulls": "", "auxiliary.toml": "", "my con.pdf": "",
		"": "empty", "a:b.pdf": ":", "a<b": "<", "a>b": ">", `a"b`: `"`, "a/b": "/", `a\b`: `\`, "a|b": "|", "what?.pdf": "?", "a*": "*",
		"a\tb": "control character", "a\x00": "control character", "a.": "at the end", "a ": "at the end", "..": "at the end", "test.pdf. .": "at the end",
		"CON": "device", "con.pdf": "CON is reserved", "nul": "device", "Aux.toml": "AUX is reserved", "PRN.tar.gz": "device",
		"COM1": "device", "com9-": "", "com9.pdf": "COM9 is reserved", "LPT1.xlsx": "device", "COM¹.pdf": "device", "CON .pdf": "device", "conin$": "device",
		strings.Repeat("a", 255): "", strings.Repeat("a", 256): "256 characters", strings.Repeat("ü", 255): "", strings.Repeat("𝛼", 128): "256 characters",
	} {
		got := windowsName(name)
		if (got == "") != (want == "") || !strings.Contains(got, want) {
			t.Errorf("%.40q: %q, want %q", name, got, want)
		}
	}
}

func TestInWords(t *testing.T) {
	wrap := func(err error) error { return &os.LinkError{Op: "rename", Old: "a", New: "b", Err: err} }
	for _, test := range []struct {
		system    string
		err       error
		elsewhere string // of what is written
		want      string // "" for nothing
	}{
		{"windows", wrap(syscall.Errno(5)), byOut, "you may not write it, or another program has it open (close it there, or choose another folder with --out)"},
		{"windows", wrap(syscall.Errno(5)), "", "you may not read it, or another program has it open (close it there and try again)"},
		{"windows", wrap(syscall.Errno(32)), byOut, "it is open in another program (close it there and try again)"},
		{"windows", wrap(syscall.Errno(33)), "", "it is open in another program (close it there and try again)"},
		{"windows", wrap(syscall.Errno(112)), byPage, "the disk is full; this file is unchanged (make room, or choose another name with --pdf)"},
		{"windows", wrap(syscall.Errno(123)), byOut, `not a file name (leave out < > : " / \ | ? *)`},
		{"windows", wrap(syscall.Errno(206)), byOut, "the name is too long (choose a shorter one)"},
		{"linux", wrap(syscall.Errno(32)), byOut, ""}, // a broken pipe there
		{"linux", wrap(syscall.ENOSPC), byOutput, "the disk is full; this file is unchanged (make room, or choose another name with -o)"},
		{"darwin", wrap(syscall.EDQUOT), byOut, "the disk is full; this file is unchanged (make room, or choose another folder with --out)"},
		{"linux", wrap(syscall.EROFS), byFolder, "the disk is write-protected (name another folder)"},
		{"linux", wrap(syscall.EACCES), byOut, "you may not replace this file (choose another folder with --out)"},
		{"linux", &fs.PathError{Op: "open", Path: filepath.Join("a", "b"), Err: syscall.EACCES}, byOutput, "you may not write into the folder a (choose another name with -o)"},
		{"linux", &fs.PathError{Op: "open", Path: filepath.Join("a", "b"), Err: syscall.EACCES}, "", "you may not read it (its owner can allow that)"},
		{"linux", wrap(syscall.ENAMETOOLONG), byOut, "the name is too long (choose a shorter one)"},
		{"linux", wrap(syscall.ELOOP), "", "the link leads back to itself (name the file itself)"},
		{"linux", wrap(syscall.ENOTDIR), byOut, "one of the folders in this name is a file"},
		{"linux", wrap(syscall.EIO), "", "the disk cannot be read or written (is it still connected?)"},
		{"linux", errors.New("odd"), byOut, ""},
	} {
		if got := inWords(test.system, test.err, test.elsewhere); got != test.want {
			t.Errorf("%s, %v, %q: %q, want %q", test.system, test.err, test.elsewhere, got, test.want)
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
		"no/a/b.toml": "no/a/b.toml: folder no does not exist",
		"in/a/b.toml": "in/a/b.toml: folder " + filepath.Join("in", "a") + " does not exist",
	} {
		if _, err := readFile(name, 10); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
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
	write("short.pdf", "x", 0o644)
	for link, to := range map[string]string{"nowhere.pdf": at("none/at/all.pdf"), "loop.pdf": at("loop.pdf")} {
		if err := os.Symlink(to, at(link)); err != nil {
			t.Skip("links cannot be made here")
		}
	}
	for name, want := range map[string]string{
		"plan.toml":       "another kind of file; not overwritten",
		"log.xlsx":        "another kind of file; not overwritten",
		"short.pdf":       "another kind of file; not overwritten",
		"locked.pdf":      "read-only; not overwritten",
		"nowhere.pdf":     "a link to a missing file",
		"loop.pdf":        "leads back to itself",
		"plan.toml/a.pdf": "one of the folders in this name is a file",
		"none/a.pdf":      "folder " + at("none") + " does not exist (make it first, or choose another folder with --out)",
		"":                "is a folder",
	} {
		before, _ := os.ReadFile(at(name))
		err := writeFile(at(name), []byte("%PDF new"), byOut)
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
		if after, _ := os.ReadFile(at(name)); !bytes.Equal(before, after) {
			t.Errorf("%s is now %q", name, after)
		}
	}
	if err := createFile(at("log.xlsx"), []byte("PK\x03\x04"), byOutput); err == nil || !strings.Contains(err.Error(), "not overwritten") {
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
		if err := writeFile(file, body, byOut); err != nil {
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

// What a killed run has left is removed by a later one, but not what another run
// may be at work on, nor what is not the program's.
func TestSweep(t *testing.T) {
	folder := t.TempDir()
	old := time.Now().Add(-2 * unfinishedFor)
	for name, keep := range map[string]bool{
		unfinishedStart + "77-0" + unfinishedEnd: false,
		unfinishedStart + "78-0" + unfinishedEnd: true, // of just now
		unfinishedStart + "79-0.pdf":             true,
		"test.tmp":                               true,
	} {
		file := filepath.Join(folder, name)
		if err := os.WriteFile(file, []byte("%PDF ha"), 0o644); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(name, "78") {
			if err := os.Chtimes(file, old, old); err != nil {
				t.Fatal(err)
			}
		}
		if err := writeFile(filepath.Join(folder, "test.pdf"), []byte("%PDF new"), byOut); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Stat(file); (err == nil) != keep {
			t.Errorf("%s: kept %v, want %v", name, err == nil, keep)
		}
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
	m := makeOptions{elsewhere: byOut}
	for _, made := range []bool{false, true} { // nothing is there, or what make wrote
		if made {
			var out bytes.Buffer
			if code := run([]string{"make", "-q", plan}, &out, &out); code != exitDone {
				t.Fatal(out.String())
			}
			os.Remove(base + "-log.xlsx")
		}
		p := &packet{}
		if err := p.addWorkbooks(j, base, m); err != nil {
			t.Fatal(err)
		}
		defer p.drop()
		if err := p.draw(m.elsewhere); err != nil {
			t.Fatal(err)
		}
		saved := map[string][]byte{}
		for _, o := range p.outputs {
			saved[o.file] = []byte("PK\x03\x04 saved by hand")
			if err := os.WriteFile(o.file, saved[o.file], 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if err := p.place(u); err != nil {
			t.Fatal(err)
		}
		if len(saved) != 2 || p.keptPour != base+"-pour.xlsx" || p.keptLog != base+"-log.xlsx" {
			t.Errorf("%d files saved, kept %q and %q", len(saved), p.keptPour, p.keptLog)
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
