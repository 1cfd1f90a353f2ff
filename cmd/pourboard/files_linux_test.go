package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode/utf16"
)

// Plans that are no plan files: each ends with one line, nothing hangs, and
// what has no end is not read.
func TestNoPlan(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plans/line.toml")
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	write := func(name string, body []byte) {
		t.Helper()
		if err := os.WriteFile(at(name), body, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	wide := []byte{0xFF, 0xFE}
	for _, u := range utf16.Encode([]rune(string(text))) {
		wide = append(wide, byte(u), byte(u>>8))
	}
	write("latin.toml", append([]byte("# caf\xe9\n"), text...))
	write("zero.toml", append([]byte("\x00"), text...))
	write("line.toml", append([]byte(`title = "`), bytes.Repeat([]byte("a"), 50<<20)...))
	write("sparse.toml", nil)
	if err := os.Truncate(at("sparse.toml"), 1<<30); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(at("pipe.toml"), 0o644); err != nil {
		t.Skip("pipes cannot be made here")
	}
	if err := os.Symlink(at("pipe.toml"), at("link.toml")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(at("loop.toml"), at("loop.toml")); err != nil {
		t.Fatal(err)
	}
	for file, want := range map[string]string{
		at("latin.toml"): "UTF-8", at("zero.toml"): "zero.toml:1:",
		at("line.toml"): "is it the right file?", at("sparse.toml"): "is it the right file?",
		at("pipe.toml"): "a device or a pipe", at("link.toml"): "a device or a pipe", "/dev/zero": "a device or a pipe",
		at("loop.toml"): "leads back to itself", folder: "is a folder",
	} {
		var out, errs bytes.Buffer
		code := run([]string{"check", file}, &out, &errs)
		if code != exitFile || strings.Count(errs.String(), "\n") != 1 || !strings.Contains(errs.String(), want) || out.Len() > 0 {
			t.Errorf("%s: %d: %s%s, want one line with %q", file, code, out.String(), errs.String(), want)
		}
	}
	for name, body := range map[string][]byte{
		"crlf.toml": bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")),
		"mark.toml": append([]byte("\uFEFF"), text...),
		"wide.toml": wide, // as some editors call Unicode
	} {
		write(name, body)
		var out, errs bytes.Buffer
		if code := run([]string{"check", at(name)}, &out, &errs); code != exitDone {
			t.Errorf("%s: %d: %s", name, code, errs.String())
		}
	}
}

// A device is neither written to nor, as root could, put a file in place of.
func TestDevice(t *testing.T) {
	for _, name := range []string{os.DevNull, "/dev/full"} {
		before, err := os.Lstat(name)
		if err != nil {
			t.Skip(err)
		}
		if err := writeFile(name, []byte("%PDF")); err == nil || !strings.Contains(err.Error(), "a device or a pipe") {
			t.Errorf("%s: %v", name, err)
		}
		if after, err := os.Lstat(name); err != nil || after.Mode() != before.Mode() {
			t.Errorf("%s was %v, is %v, %v", name, before.Mode(), after.Mode(), err)
		}
	}
}

// limitSize makes the test's own binary be the program with a limit on the size
// of files, which ends writing in the middle as a full disk does.
const limitSize = "POURBOARD_FILE_SIZE"

func TestWrittenUpToLimit(t *testing.T) {
	if limit := os.Getenv(limitSize); limit != "" {
		file := os.Getenv(limitSize + "_FILE")
		var most uint64
		if _, err := fmt.Sscan(limit, &most); err != nil {
			t.Fatal(err)
		}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: most, Max: most}); err != nil {
			t.Skip(err)
		}
		if err := writeFile(file, append([]byte("%PDF"), make([]byte, 2*most)...)); err == nil {
			t.Error("more was written than goes")
		}
		return
	}
	folder := t.TempDir()
	file := filepath.Join(folder, "test.pdf")
	if err := os.WriteFile(file, []byte("%PDF old"), 0o644); err != nil {
		t.Fatal(err)
	}
	c := program(t, []string{limitSize + "=65536", limitSize + "_FILE=" + file}, "-test.run=^TestWrittenUpToLimit$")
	c.Env = append(c.Env, asProgram+"=")
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if got, err := os.ReadFile(file); err != nil || string(got) != "%PDF old" {
		t.Errorf("the file is now %.20q, %v", got, err)
	}
	if left := unfinishedIn(t, folder); left != nil {
		t.Errorf("left: %q", left)
	}
}

// A file that others may not read stays so, and a new one is as the person's
// mask says.
func TestMask(t *testing.T) {
	old := syscall.Umask(0o077)
	defer syscall.Umask(old)
	file := filepath.Join(t.TempDir(), "test.pdf")
	if err := writeFile(file, []byte("%PDF")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

// What cannot be printed is reported in one line, whatever the command, and ends
// with 1.
func TestPrintedOntoFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	const plan = "../../testdata/plans/line.toml"
	for _, args := range [][]string{
		{"show", plan}, {"show", "--json", plan}, {"show", "--csv", plan}, {"show", "--chemistry", plan}, {"check", plan},
		{"new", "line", "-o", "-"}, {"find", plan, "ML2A"}, {"materials"}, {"materials", "talc"}, {"version"}, {"help"}, {"make", "--help"},
		{"batch", plan, "--cup", "2", "--dry", "1 kg"}, {"next", plan, "--cup", "2,3", "-o", "-"}, {"completion", "bash"},
	} {
		var errs bytes.Buffer
		code := run(args, full, &errs)
		lines := strings.Split(strings.TrimSpace(errs.String()), "\n")
		if code != exitFile || lines[len(lines)-1] != "pourboard: output incomplete: the disk is full" {
			t.Errorf("%q: %d: %s", args, code, errs.String())
		}
	}
}

// TestInterrupted holds that a run that is interrupted, ended or whose terminal
// is closed leaves whole files and no temporary ones.
func TestInterrupted(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "cells-66")
	began := time.Now()
	if out, err := program(t, nil, "make", plan).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	took := time.Since(began)
	whole := outputs(t, plan)
	points, stopped := moments(4, 10), 0
	for i := range points {
		for _, signal := range []os.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT} {
			c := program(t, nil, "make", plan)
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(took * time.Duration(i) / time.Duration(points))
			c.Process.Signal(signal)
			if c.Wait() != nil {
				stopped++
			}
			if left := unfinishedIn(t, filepath.Dir(plan)); left != nil {
				t.Fatalf("%v left %q", signal, left)
			}
			for name, body := range outputs(t, plan) {
				if !bytes.Equal(body, whole[name]) {
					t.Fatalf("%v: %s has other bytes", signal, name)
				}
			}
		}
	}
	if stopped == 0 {
		t.Error("no run was stopped before its end")
	}
}

// TestPipeClosed holds that a run whose output nobody reads finishes its files,
// leaves no temporary ones, says nothing and ends as a shell expects.
func TestPipeClosed(t *testing.T) {
	t.Parallel()
	plan := planIn(t, "line")
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	read.Close()
	defer write.Close()
	var errs bytes.Buffer
	c := program(t, nil, "make", "-q", plan)
	c.Stdout, c.Stderr = write, &errs
	if c.Run(); c.ProcessState.ExitCode() != exitUnread || errs.Len() > 0 {
		t.Errorf("%v: %s", c.ProcessState, &errs)
	}
	if made := outputs(t, plan); len(made) != 3 {
		t.Errorf("%d files made, not 3", len(made))
	}
	if left := unfinishedIn(t, filepath.Dir(plan)); left != nil {
		t.Errorf("left %q", left)
	}
}
