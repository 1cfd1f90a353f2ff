// Package paper knows the sizes of paper by name and reads sizes of a maker's
// own. It knows nothing of margins or of what lies on a page: package layout
// does.
package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Size is a sheet of paper in mm, as it is fed: upright for the named sizes,
// as written for a maker's own.
type Size struct {
	Name string // "A4", or "300 x 420 mm"
	W, H float64
}

// The sides of a maker's own sheet, in mm. Below the least there is no room
// between the margins for one tile; above the most no desk printer goes.
const (
	minSide = 80
	maxSide = 2000
)

// Named lists the sheets that are known by name, in the order in which help
// texts name them. A sizes are those of ISO 216; Letter is ANSI A and Tabloid
// ANSI B (ASME Y14.1); Legal is US customary. Inches are 25.4 mm.
func Named() []Size {
	return []Size{
		{"A5", 148, 210},
		{"A4", 210, 297},
		{"A3", 297, 420},
		{"A2", 420, 594},
		{"Letter", 215.9, 279.4},
		{"Legal", 215.9, 355.6},
		{"Tabloid", 279.4, 431.8},
	}
}

// Parse reads the name of a sheet ("A4", "letter") or its two sides ("300 x
// 420 mm"; also cm and in, × for x, and mm when no unit is given). A maker's
// own sheet has sides of 80 to 2000 mm.
func Parse(text string) (Size, error) {
	text = strings.TrimSpace(text)
	var names []string
	for _, s := range Named() {
		if strings.EqualFold(s.Name, text) {
			return s, nil
		}
		names = append(names, s.Name)
	}
	unknown := fmt.Errorf("unknown paper %q (choose from %s, or give two sides: \"300 x 420 mm\")",
		text, strings.Join(names, ", "))
	plain := strings.ToLower(strings.ReplaceAll(text, "×", "x"))
	factor := 1.0
	for _, u := range []struct {
		sign string
		mm   float64
	}{{"mm", 1}, {"cm", 10}, {"in", 25.4}} {
		if rest, found := strings.CutSuffix(plain, u.sign); found {
			plain, factor = rest, u.mm
			break
		}
	}
	left, right, found := strings.Cut(plain, "x")
	if !found {
		return Size{}, unknown
	}
	var side [2]float64
	for i, part := range []string{left, right} {
		v, err := strconv.ParseFloat(strings.TrimSpace(part), 64)
		if err != nil || math.IsNaN(v) {
			return Size{}, unknown
		}
		v *= factor
		if v < minSide || v > maxSide {
			return Size{}, fmt.Errorf("paper %q has a side of %.4g mm (sides are %d to %d mm)", text, v, minSide, maxSide)
		}
		side[i] = math.Round(v*1e6) / 1e6 // 8.5 in is 215.9 mm, not 215.89999999999998
	}
	return Size{
		Name: strconv.FormatFloat(side[0], 'f', -1, 64) + " x " + strconv.FormatFloat(side[1], 'f', -1, 64) + " mm",
		W:    side[0],
		H:    side[1],
	}, nil
}
