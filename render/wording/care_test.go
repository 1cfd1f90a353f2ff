package wording

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pourboard/blend/oxide"
)

// Every hazard that is known is worded, in sentences of at most 20 words, and
// nothing is ever called safe.
func TestCareLine_all(t *testing.T) {
	texts, used := careTexts().Substances, 0
	for _, h := range oxide.KnownHazards() {
		text, ok := texts[h.Substance]
		if !ok {
			t.Errorf("%s is not worded", h.Substance)
			continue
		}
		used++
		for _, sentence := range strings.Split(text, ". ") {
			if n := len(strings.Fields(sentence)); n > 20 {
				t.Errorf("%s: %d words: %s", h.Substance, n, sentence)
			}
		}
		if careTexts().Harms[h.Harm] == "" {
			t.Errorf("%s is not worded", h.Harm)
		}
	}
	if used != len(texts) {
		t.Errorf("%d texts, %d are used", len(texts), used)
	}
}

func TestCareLines(t *testing.T) {
	for _, tt := range []struct {
		materials []string
		want      []string // in these lines, in order
		count     int
	}{
		{[]string{"Whiting"}, []string{"Wear a fitted respirator", "Keep food", "Test tiles prove nothing about food."}, 3},
		{[]string{"Silica", "Whiting"}, []string{"Silica dust scars the lungs. Wear a fitted respirator", "Keep food", "data sheets"}, 3},
		{[]string{"Kaolin", "Copper carbonate", "Talc", "Tin oxide"},
			[]string{"Silica dust", "", "Talc: Dust may cause cancer.", "Copper carbonate: Harmful if swallowed", "data sheets"}, 5},
		{[]string{"Cobalt carbonate", "Barium carbonate", "Copper carbonate", "Nickel oxide", "Soda ash", "Litharge", "Silica"},
			[]string{"", "Never pour", "Litharge: Poison that builds up",
				"Dust may cause cancer: Nickel oxide, Cobalt carbonate. Poison: Barium carbonate. Harmful dust: Copper carbonate. Irritates eyes, so wear goggles: Soda ash.",
				"Not for food ware: lead and barium."}, 5},
	} {
		got := CareLines(oxide.Builtin().Hazards(tt.materials))
		if len(got) != tt.count {
			t.Errorf("%v: %d lines, want %d:\n%s", tt.materials, len(got), tt.count, strings.Join(got, "\n"))
			continue
		}
		for i, want := range tt.want {
			if !strings.Contains(got[i], want) {
				t.Errorf("%v: line %d is %q, want %q", tt.materials, i+1, got[i], want)
			}
		}
	}
}

func TestWorst(t *testing.T) {
	lib := oxide.Builtin()
	for _, tt := range []struct {
		materials []string
		want      string
	}{
		{[]string{"Whiting", "Tin oxide"}, ""},
		{[]string{"Silica"}, "Silica: Dust scars the lungs and causes cancer. Wear a respirator, work wet, never sweep."},
		{[]string{"Silica", "Barium carbonate", "Vanadium pentoxide"}, "Vanadium pentoxide: Fatal if inhaled; may cause cancer. Buy it as a stain. Not for food ware: vanadium and barium."},
	} {
		if got := Worst(lib.Hazards(tt.materials)); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.materials, got, tt.want)
		}
	}
}

func TestCareSources(t *testing.T) {
	hazards := oxide.Builtin().Hazards([]string{"Silica", "Copper carbonate", "Barium carbonate", "Lithium carbonate"})
	text := strings.Join(slices.Concat(CareClasses(hazards), CareSources(hazards), CareLines(hazards)), "\n")
	for _, want := range []string{
		"Copper carbonate: Acute Tox. 4; Acute Tox. 4; Eye Irrit. 2; Aquatic Acute 1; Aquatic Chronic 1 (H302 H319 H332 H400 H410; 17th ATP (EU) 2021/849, from 2022-12-17).",
		"Lithium carbonate: not law: H360D H360F H362",
		"legal limits: OSHA (USA) 50 µg/m³ over 8 h (29 CFR 1910.1053), EU 100 µg/m³",
		"not a limit): OSHA (USA) 25 µg/m³", "recommended, not law: NIOSH 50 µg/m³ over 10 h",
		"Not for food ware, whatever a leach test says: glazes with barium.",
		"glaze with lithium and copper, have a laboratory leach-test it", "ASTM C738", "ISO 6486-1:2019", "directive 84/500/EEC",
		"safety data sheets, local codes and licensed practice decide",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	if m := regexp.MustCompile(`(?i)\bsafe\b|food-?safe`).FindString(text); m != "" {
		t.Errorf("the cautions say %q", m)
	}
	if plain := strings.Join(CareSources(oxide.Builtin().Hazards([]string{"Whiting"})), "\n"); strings.Contains(plain, "leach") || strings.Contains(plain, "µg") {
		t.Errorf("whiting alone brings:\n%s", plain)
	}
}
