package plan

import (
	"strings"
	"testing"
)

func TestTemplate_readsAsItStands(t *testing.T) {
	for _, d := range Designs() {
		text := Template(d)
		p, warnings, err := Read("new.toml", text)
		if err != nil {
			t.Errorf("%s:\n%v\n%s", d.Name, err, text)
			continue
		}
		if len(warnings) > 0 {
			t.Errorf("%s: a plan to start from raises %v", d.Name, warnings)
		}
		if name := designName(p.Blend.Kind, p.Blend.HasSeries()); name != d.Name && d.Name != "weigh" {
			t.Errorf("%s: it is a %s", d.Name, name)
		}
		if !strings.Contains(string(text), "invented") {
			t.Errorf("%s: does not say that its glazes are invented", d.Name)
		}
		for i, line := range strings.Split(string(text), "\n") {
			if len([]rune(line)) > 140 {
				t.Errorf("%s: line %d is %d characters long", d.Name, i+1, len([]rune(line)))
			}
		}
	}
}

// The keys in comments must be right too: with all of them put into force, save
// those that exclude others, every plan reads.
func TestTemplate_keysInComments(t *testing.T) {
	excluded := map[string]bool{"dry": true, "volume": true, "weight": true, "batch": true, "water": true, "method": true, "from": true, "to": true, "cells": true, "spacing": true}
	for _, d := range Designs() {
		lines := strings.Split(string(Template(d)), "\n")
		forced := 0
		for i, line := range lines {
			body, remark := strings.CutPrefix(line, "# ")
			key, _, assigned := strings.Cut(body, " = ")
			if !remark || excluded[key] {
				continue
			}
			if assigned && !strings.Contains(key, " ") || strings.HasPrefix(body, "[") {
				lines[i] = body
				forced++
			}
		}
		p, _, err := Read("new.toml", []byte(strings.Join(lines, "\n")))
		if err != nil {
			t.Errorf("%s: %v", d.Name, err)
			continue
		}
		if forced < 30 || p.Labels == nil || len(p.Materials) != 1 || !p.Board.Shuffle || p.Kit.Capacity != 5000 || len(p.Poured) != 1 || len(p.Also) != 2 {
			t.Errorf("%s: %d lines put into force, and not all had an effect: %+v", d.Name, forced, p)
		}
	}
}

func TestFindDesign_unknown(t *testing.T) {
	for name, want := range map[string]string{
		"triaxal":         `did you mean "triaxial"?`,
		"centroid-series": `"line", "biaxial"`,
		"../parts/cup":    "one of",
	} {
		_, err := FindDesign(name)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("FindDesign(%q): %v; want %q in it", name, err, want)
		}
	}
}
