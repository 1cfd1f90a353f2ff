package main

import (
	"bytes"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// writer is a command that writes files, given in two ways, so that a file that
// is there already is another than the one that takes its place.
type writer struct {
	first, second []string
	fresh         []string // files that must not be there yet
}

// writers are the commands that write, run in a folder with the folder "studio".
func writers() []writer {
	const plan, log = "studio/copper-series.toml", "studio/copper-series-log.xlsx"
	return []writer{
		{[]string{"make", plan}, []string{"make", plan, "--cup-size", "130 g"}, nil},
		{[]string{"new", "line", "-o", "new.toml", "--make"}, []string{"new", "line", "-o", "new.toml", "--make"}, []string{"new.toml"}},
		{[]string{"results", plan, log}, []string{"results", plan, log, "--cup-size", "130 g"}, nil},
		{[]string{"next", plan, "--cup", "2,3", "-o", "next.toml"}, []string{"next", plan, "--cup", "2,3", "-o", "next.toml"}, []string{"next.toml"}},
		{[]string{"book", "studio"}, []string{"book", "studio"}, nil},
		{[]string{"batch", plan, "--cup", "2", "--dry", "1 kg", "--pdf", "ticket.pdf"}, []string{"batch", plan, "--cup", "2", "--dry", "2 kg", "--pdf", "ticket.pdf"}, nil},
	}
}

// filesIn are the files below a folder, by path, but for those that are being
// written.
func filesIn(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || strings.HasPrefix(e.Name(), unfinishedStart) {
			return err
		}
		body, err := os.ReadFile(path)
		all[path] = body
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// TestKilled kills every command that writes at random moments: each file is the
// old one or the new one, whole, no other is touched, and the next run does its
// work and clears what was left.
func TestKilled(t *testing.T) {
	t.Parallel()
	points := moments(12, 102)
	folder := t.TempDir()
	in := func(args ...string) *exec.Cmd {
		c := program(t, nil, args...)
		c.Dir = folder
		return c
	}
	whole := func(args ...string) map[string][]byte {
		t.Helper()
		if out, err := in(args...).CombinedOutput(); err != nil {
			t.Fatalf("%q: %v\n%s", args, err, out)
		}
		return filesIn(t, folder)
	}
	clear := func(w writer) {
		for _, name := range w.fresh {
			os.Remove(filepath.Join(folder, name))
		}
	}
	whole("demo", "studio")
	killed := 0
	for _, w := range writers() {
		clear(w)
		began := time.Now()
		second := whole(w.second...)
		took := time.Since(began)
		clear(w)
		first := whole(w.first...)
		for i := range points / len(writers()) {
			clear(w)
			args := [][]string{w.first, w.second}[i%2]
			c := in(args...)
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			moment := rand.N(took)
			time.Sleep(moment)
			if c.Process.Kill() == nil {
				killed++
			}
			c.Wait()
			now := filesIn(t, folder)
			for path, body := range now {
				if !bytes.Equal(body, first[path]) && !bytes.Equal(body, second[path]) {
					t.Fatalf("%q killed after %v: %s is neither the old file nor the new one", args, moment, path)
				}
			}
			for path := range first {
				if _, there := now[path]; !there && !slices.Contains(w.fresh, filepath.Base(path)) {
					t.Fatalf("%q killed after %v: %s is gone", args, moment, path)
				}
			}
		}
		clear(w)
		if got := whole(w.first...); !maps.EqualFunc(got, first, bytes.Equal) {
			t.Errorf("%q: other files after it was killed", w.first)
		}
	}
	t.Logf("%d runs killed", killed)
	if killed < points/2 {
		t.Errorf("only %d of %d runs were killed before they ended", killed, points)
	}
}
