package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// asProgram makes the test's own binary be the program when this is set.
const asProgram = "POURBOARD_AS_PROGRAM"

// program is the program as a process of its own.
func program(t testing.TB, env []string, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(self, args...)
	c.Env = append(append(os.Environ(), asProgram+"=1"), env...)
	return c
}

// planIn copies a plan of testdata into a folder of its own.
func planIn(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/plans/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), name+".toml")
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// outputs are the files beside a plan, by name, without hidden ones.
func outputs(t *testing.T, plan string) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(filepath.Dir(plan), "*"))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, f := range files {
		if f == plan || strings.HasPrefix(filepath.Base(f), ".") {
			continue
		}
		body, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(f)] = body
	}
	return all
}

// The same plan gives the same bytes on one core and on many, in any language
// and time zone.
func TestSameBytes(t *testing.T) {
	var first map[string][]byte
	for _, env := range [][]string{
		{"GOMAXPROCS=1", "TZ=UTC", "LANG=C"},
		{"GOMAXPROCS=8", "TZ=Pacific/Auckland", "LANG=de_DE.UTF-8", "LC_ALL=de_DE.UTF-8"},
		{"GOMAXPROCS=2", "TZ=America/St_Johns", "LANG=tr_TR.UTF-8", "NO_COLOR=1"},
	} {
		plan := planIn(t, "triaxial")
		if out, err := program(t, env, "make", plan).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		got := outputs(t, plan)
		if first == nil {
			first = got
			continue
		}
		if len(got) != len(first) {
			t.Errorf("%v: %d files, %d before", env, len(got), len(first))
		}
		for name, body := range first {
			if !bytes.Equal(got[name], body) {
				t.Errorf("%v: %s has other bytes", env, name)
			}
		}
	}
}

// moments is few, or many in a run with every check.
func moments(few, many int) int {
	if os.Getenv("POURBOARD_OUTSIDE") == "1" {
		return many
	}
	return few
}

// Two runs at once do not mix: what stays is wholly of one or of the other.
func TestAtOnce(t *testing.T) {
	plan := planIn(t, "cells-66")
	cups := []string{"100 g", "130 g"}
	var want []map[string][]byte
	for _, cup := range cups {
		if out, err := program(t, nil, "make", plan, "--cup-size", cup).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		want = append(want, outputs(t, plan))
	}
	for range moments(2, 5) {
		var wait sync.WaitGroup
		errs := make([]error, len(cups))
		for i, cup := range cups {
			c := program(t, nil, "make", plan, "--cup-size", cup)
			wait.Go(func() {
				if out, err := c.CombinedOutput(); err != nil {
					errs[i] = fmt.Errorf("%w: %s", err, out)
				}
			})
		}
		wait.Wait()
		for _, err := range errs {
			if err != nil {
				t.Fatal(err)
			}
		}
		for name, body := range outputs(t, plan) {
			if !bytes.Equal(body, want[0][name]) && !bytes.Equal(body, want[1][name]) {
				t.Errorf("%s is of neither run", name)
			}
		}
	}
}

// A folder that may not be written to, a folder in a file's place, a link.
func TestAwkwardPlaces(t *testing.T) {
	plan := planIn(t, "line")
	folder := filepath.Dir(plan)
	if err := os.Mkdir(filepath.Join(folder, "line.pdf"), 0o755); err != nil {
		t.Fatal(err)
	}
	var out, stderr bytes.Buffer
	if code := run([]string{"make", plan}, &out, &stderr); code != exitFile || !strings.Contains(stderr.String(), "line.pdf is a folder") {
		t.Errorf("%d: %s", code, stderr.String())
	}
	if err := os.Remove(filepath.Join(folder, "line.pdf")); err != nil {
		t.Fatal(err)
	}

	elsewhere := filepath.Join(t.TempDir(), "elsewhere.pdf")
	if err := os.WriteFile(elsewhere, []byte("%PDF old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(elsewhere, filepath.Join(folder, "line.pdf")); err != nil {
		t.Skip("links cannot be made here")
	}
	stderr.Reset()
	if code := run([]string{"make", plan}, &out, &stderr); code != exitDone {
		t.Fatalf("%d: %s", code, stderr.String())
	}
	info, err := os.Lstat(filepath.Join(folder, "line.pdf"))
	if err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Error("the link was replaced by a file")
	}
	body, err := os.ReadFile(elsewhere)
	if err != nil || !bytes.HasPrefix(body, []byte("%PDF")) {
		t.Error("what the link points at was not replaced")
	}
	if info, err := os.Stat(elsewhere); err != nil || info.Mode().Perm() != 0o600 {
		t.Error("the file's mode was not kept")
	}

	if os.Getuid() == 0 {
		return // nothing is read-only to root
	}
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(folder, 0o755)
	stderr.Reset()
	if code := run([]string{"make", plan}, &out, &stderr); code != exitFile || !strings.Contains(stderr.String(), "may not be written") {
		t.Errorf("%d: %s", code, stderr.String())
	}
}
