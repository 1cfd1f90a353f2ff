package oxide

import (
	"maps"
	"math"
	"strings"
	"testing"
)

func TestParseFormula(t *testing.T) {
	for _, tt := range []struct {
		text string
		want formula
	}{
		{"SiO2", formula{"Si": 1, "O": 2}},
		{"Al2Si2O5(OH)4", formula{"Al": 2, "Si": 2, "O": 9, "H": 4}},
		{"CaSO4.2H2O", formula{"Ca": 1, "S": 1, "O": 6, "H": 4}},
		{"CaSO4·2H2O", formula{"Ca": 1, "S": 1, "O": 6, "H": 4}},
		{"Na2B4O7.10H2O", formula{"Na": 2, "B": 4, "O": 17, "H": 20}},
		{"2PbCO3·Pb(OH)2", formula{"Pb": 3, "C": 2, "O": 8, "H": 2}},
		{"((CaO)2(SiO2)3)2", formula{"Ca": 4, "O": 16, "Si": 6}},
		{" K Al Si₃O₈ ", formula{"K": 1, "Al": 1, "Si": 3, "O": 8}},
	} {
		got, err := parseFormula(tt.text)
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		if !maps.Equal(got, tt.want) {
			t.Errorf("%q = %v, want %v", tt.text, got, tt.want)
		}
	}
	for _, bad := range []string{
		"", " ", "Xx2", "SIO2", "SiO2)", "(SiO2", "()", "Si()2", "SiO0", "SiO2.", ".SiO2", "Si..O", "0H2O", "SiO99999",
		"Si-O", "siO2", "2", "Ca(SO4.2H2O)", "Si\x00", "(Si",
	} {
		if f, err := parseFormula(bad); err == nil {
			t.Errorf("%q is read as %v, want an error", bad, f)
		} else if strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: the message has more than one line: %v", bad, err)
		}
	}
}

func FuzzParseFormula(f *testing.F) {
	for _, s := range []string{"SiO2", "Al2Si2O5(OH)4", "CaSO4·½H2O", "Na2B4O7.10H2O", "2PbCO3·Pb(OH)2", "((CaO)2(SiO2)3)2", "(", "2.5", "Ca(", "C.5.O"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		read, err := parseFormula(s)
		if err != nil {
			return
		}
		if m := read.molarMass(); !(m > 0 && m < math.MaxFloat64) {
			t.Errorf("%q has molar mass %v", s, m)
		}
		for element, count := range read {
			if !(count > 0) {
				t.Errorf("%q has %v of %s", s, count, element)
			}
		}
		if a, err := fromFormula(s); err == nil {
			if sum := a.Total(); math.Abs(sum-100) > 1e-6 {
				t.Errorf("%q fires to %v, which sums to %v", s, a, sum)
			}
		}
	})
}
