package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Links to nowhere, links in a circle, folders, pipes and devices in place of a
// file that is read or written each bring one plain line, and stay as they are.
func TestNoFile(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "line-series")
	folder := filepath.Dir(plan)
	at := func(name string) string { return filepath.Join(folder, name) }
	log := at("log.csv")
	if err := os.WriteFile(log, []byte("Mark,Rating\nMC2P,3\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	kinds := []struct {
		name string
		make func(name string) error
		says string
	}{
		{"dangling", func(name string) error { return os.Symlink("none/at/all", name) }, "is a link to a missing file"},
		{"loop", func(name string) error { return os.Symlink(name, name) }, "the link leads back to itself"},
		{"folder", func(name string) error { return os.Mkdir(name, 0o755) }, "is a folder"},
		{"pipe", func(name string) error { return syscall.Mkfifo(name, 0o644) }, "is a device or a pipe"},
		{"device", func(name string) error { return os.Symlink(os.DevNull, name) }, "is a device or a pipe"},
	}
	for _, kind := range kinds {
		for _, c := range []struct {
			file string
			args []string
		}{
			{"line-series.pdf", []string{"make", plan}},
			{"line-series-pour.xlsx", []string{"make", plan}},
			{"line-series-log.xlsx", []string{"make", plan}},
			{"line-series-results.pdf", []string{"results", plan, log}},
			{"ticket.pdf", []string{"batch", plan, "--cup", "2", "--dry", "1 kg", "--pdf", at("ticket.pdf")}},
			{"o.toml", []string{"next", plan, "--cup", "2,3", "-o", at("o.toml")}},
			{"o.toml", []string{"new", "line", "-o", at("o.toml")}},
			{"p.toml", []string{"check", at("p.toml")}},
			{"l.xlsx", []string{"results", plan, at("l.xlsx")}},
			{"l.csv", []string{"results", plan, at("l.csv")}},
		} {
			if err := kind.make(at(c.file)); err != nil {
				t.Skip(err)
			}
			before, err := os.Lstat(at(c.file))
			if err != nil {
				t.Fatal(err)
			}
			var out, errs bytes.Buffer
			code := run(append(c.args, "-q"), &out, &errs)
			if code != exitFile || strings.Count(errs.String(), "\n") != 1 || !strings.HasPrefix(errs.String(), at(c.file)) || !strings.Contains(errs.String(), kind.says) {
				t.Errorf("%s in place of %s, %s: %d: %s, want one line with %q", kind.name, c.file, c.args[0], code, errs.String(), kind.says)
			}
			if after, err := os.Lstat(at(c.file)); err != nil || after.Mode() != before.Mode() {
				t.Errorf("%s in place of %s was replaced: %v", kind.name, c.file, err)
			}
			if err := os.Remove(at(c.file)); err != nil {
				t.Fatal(err)
			}
			if made := outputs(t, plan); len(made) != 1 { // the log
				t.Fatalf("%s in place of %s: written all the same: %d files", kind.name, c.file, len(made))
			}
		}
	}
	if left := unfinishedIn(t, folder); left != nil {
		t.Errorf("left: %q", left)
	}
}
