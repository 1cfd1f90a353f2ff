package layout

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
)

// A sheet of 3 x 8 labels of 63.5 x 33.9 mm on A4, a size of the trade.
func stock() *blend.Labels {
	return &blend.Labels{Columns: 3, Rows: 8, WidthMM: 63.5, HeightMM: 33.9, LeftMM: 7, TopMM: 12.9, GapXMM: 2.5, SheetW: 210, SheetH: 297}
}

func TestLabels(t *testing.T) {
	all := Labels(stock(), 30, nil)
	if len(all) != 30 || all[23].Sheet != 0 || all[24].Sheet != 1 {
		t.Fatalf("30 labels on sheets of 24: %+v", all[20:])
	}
	// Fifth label: second row, second column.
	if want := (Rect{7 + 66, 12.9 + 33.9, 63.5, 33.9}); all[4].Rect != want || all[4].Cell != 5 {
		t.Errorf("label 5: %+v, want %v", all[4], want)
	}
	sheet := Rect{0, 0, 210, 297}
	for i, l := range all {
		if !l.inside(sheet) {
			t.Errorf("label %d leaves the sheet: %v", i+1, l.Rect)
		}
		for _, other := range all[:i] {
			if l.Sheet == other.Sheet && l.meets(other.Rect) {
				t.Errorf("labels of cups %d and %d overlap", l.Cell, other.Cell)
			}
		}
	}
	free := Labels(stock(), 9, []int{3, 4, 5, 6, 7, 20})
	for i, place := range []int{3, 4, 5, 6, 7, 20, 1, 2, 3} {
		if free[i].Rect != all[place-1].Rect || free[i].Sheet != i/6 {
			t.Errorf("part-used sheet: label %d is %+v, want place %d", i+1, free[i], place)
		}
	}
}

func TestParseFree(t *testing.T) {
	for _, c := range []struct {
		text string
		want []int
	}{
		{"3-7,20", []int{3, 4, 5, 6, 7, 20}},
		{" 20 , 3 - 5", []int{3, 4, 5, 20}},
		{"1", []int{1}},
		{"24-24", []int{24}},
		{"3-7,5", []int{3, 4, 5, 6, 7}},
	} {
		if got, err := ParseFree(c.text, 24); err != nil || !slices.Equal(got, c.want) {
			t.Errorf("ParseFree(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	for text, part := range map[string]string{
		"": "", "3,,4": "", "three": "three", "3-": "3-", "-3": "-3", "0": "0", "20-25": "20-25", "1-999999999": "1-999999999",
		"99999999999999999999": "99999999999999999999", "7-3": "7-3", "3,24-25": "24-25",
	} {
		want := fmt.Sprintf("%q does not name places (write places and ranges from 1 to 24", part)
		if got, err := ParseFree(text, 24); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("ParseFree(%q) = %v, %v; want an error with %q", text, got, err, want)
		}
	}
}

func FuzzParseFree(f *testing.F) {
	f.Add("3-7,20", 24)
	f.Add("-1--2", 4)
	f.Fuzz(func(t *testing.T, text string, n int) {
		n = n & 0xfff
		free, err := ParseFree(text, n)
		if err != nil {
			return
		}
		for i, place := range free {
			if place < 1 || place > n || i > 0 && place <= free[i-1] {
				t.Fatalf("ParseFree(%q, %d) = %v", text, n, free)
			}
		}
		if len(free) == 0 {
			t.Fatalf("ParseFree(%q, %d) finds no place and no fault", text, n)
		}
	})
}
