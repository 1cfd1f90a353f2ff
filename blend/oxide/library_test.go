package oxide

import (
	"math"
	"testing"
)

func TestFind(t *testing.T) {
	l := Builtin()
	for _, tt := range []struct{ typed, want string }{
		{"Whiting", "Whiting"}, {"calcium carbonate", "Whiting"}, {"CHALK", "Whiting"}, {"CaCO3", "Whiting"}, {"CaCO₃", "Whiting"},
		{"flint", "Silica"}, {"Quartz", "Silica"}, {"SiO2", "Silica"},
		{"china-clay", "Kaolin"}, {"China clay", "Kaolin"}, {"Kaolín", "Kaolin"},
		{"potash  feldspar", "Potash feldspar"}, {"K-feldspar", "Potash feldspar"},
		{"Barium sulfate", "Barium sulphate"}, {"magnesium sulfate", "Magnesium sulphate"}, {"aluminum oxide", "Alumina"},
		{"Gray cobalt oxide", "Grey cobalt oxide"}, {"cobalt(II) oxide", "Grey cobalt oxide"}, {"Yellow ocher", "Yellow ochre"},
		{"TiO2", "Titanium dioxide"}, {"Haematite", "Red iron oxide"}, {"malachite", "Copper carbonate"},
	} {
		m, ok := l.Find(tt.typed)
		if !ok || m.Name != tt.want {
			t.Errorf("Find(%q) = %q, %v, want %q", tt.typed, m.Name, ok, tt.want)
		}
	}
	for _, typed := range []string{"", "  ", "-", "Wood ash", "Feldspar", "unobtainium"} {
		if m, ok := l.Find(typed); ok {
			t.Errorf("Find(%q) found %q", typed, m.Name)
		}
	}
}

func TestNearest(t *testing.T) {
	l := Builtin()
	for _, tt := range []struct{ typed, want string }{
		{"Kaoiln", "Kaolin"}, {"whitting", "Whiting"}, {"Nephline syenite", "Nepheline syenite"}, {"Tlac", "Talc"},
		{"Cobalt carbonat", "Cobalt carbonate"}, {"Silica 325 mesh", "Silica"}, {"Feldspar", "K-feldspar"},
		{"unobtainium", ""}, {"", ""}, {"x", ""},
	} {
		if got := l.Nearest(tt.typed); got != tt.want {
			t.Errorf("Nearest(%q) = %q, want %q", tt.typed, got, tt.want)
		}
	}
}

func TestBuiltinMaterials(t *testing.T) {
	l := Builtin()
	if n := len(l.All()); n < 60 {
		t.Errorf("%d materials, want at least 60", n)
	}
	seen := map[string]string{}
	for _, m := range l.All() {
		for _, n := range append([]string{m.Name}, m.Aliases...) {
			k := key(n)
			if other, ok := seen[k]; ok {
				t.Errorf("%q of %s is also a name of %s", n, m.Name, other)
			}
			seen[k] = m.Name
			if found, ok := l.Find(n); !ok || found.Name != m.Name {
				t.Errorf("%q of %s finds %q", n, m.Name, found.Name)
			}
		}
		if !usable(m.Analysis) {
			t.Errorf("%s: analysis %v cannot be used", m.Name, m.Analysis)
		}
		if sum := m.Analysis.Total(); math.Abs(sum-100) > 1e-9 {
			t.Errorf("%s sums to %.12g %%, want 100", m.Name, sum)
		}
		if !(m.Density > 0.5 && m.Density < 10) || m.DensitySource == "" {
			t.Errorf("%s: density %g (%s)", m.Name, m.Density, m.DensitySource)
		}
		if (m.Basis == Theoretical) != (m.Formula != "") || m.Source == "" {
			t.Errorf("%s: formula %q, basis %q, source %q", m.Name, m.Formula, m.Basis, m.Source)
		}
		at := -1
		for _, x := range m.Analysis.Oxides {
			i, ok := x.Oxide.Place()
			if !ok || i <= at {
				t.Errorf("%s: %s is unknown or out of order", m.Name, x.Oxide)
			}
			at = i
		}
	}
}

func TestWith(t *testing.T) {
	own := Material{Name: "whiting", Basis: Own, Analysis: Analysis{Oxides: []Amount{{"MgO", 1}, {"CaO", 55}}, LOI: 44}}
	ash := Material{Name: "Wood ash", Basis: Own, Analysis: Analysis{Oxides: []Amount{{"CaO", 80}}, LOI: 20}, Density: 2.6}
	l := Builtin().With(own, ash)
	if len(l.All()) != len(Builtin().All())+1 {
		t.Errorf("%d materials, want one more than %d", len(l.All()), len(Builtin().All()))
	}
	if l.All()[0].Name != "whiting" || l.All()[1].Name != "Wood ash" {
		t.Errorf("own materials are not first")
	}
	m, _ := l.Find("Whiting")
	if m.Basis != Own || m.Analysis.Of("MgO") != 1 {
		t.Errorf("the own material is not found first: %+v", m)
	}
	if m.Density != 2.71 {
		t.Errorf("density %g, want the built-in one's 2.71", m.Density)
	}
	if m, _ := l.Find("Chalk"); m.Basis != Own {
		t.Errorf("Chalk is another name of whiting, yet does not find the own one")
	}
	if m, _ := Builtin().Find("Whiting"); m.Basis != Theoretical {
		t.Errorf("With changed the library that it started from")
	}
	flint := Builtin().With(Material{Name: "Flint", Density: 2.5}, Material{Name: "Sand", Aliases: []string{"Kaolin"}, Density: 2.7})
	for name, want := range map[string]float64{"flint": 2.5, "Silica": 2.65, "Quartz": 2.65, "Kaolin": 2.7, "China clay": 2.60} {
		if m, ok := flint.Find(name); !ok || m.Density != want {
			t.Errorf("%s has density %g, want %g", name, m.Density, want)
		}
	}
	m, _ = Builtin().With(Material{Name: "Kaolin", Density: 2.63}).Find("KAOLIN")
	if m.Density != 2.63 || m.Analysis.Of("SiO2") < 46 {
		t.Errorf("own density with the built-in analysis expected, got %+v", m)
	}
}

func FuzzFind(f *testing.F) {
	for _, s := range []string{"Whiting", "CaCO₃", "Kaolín", "", "--", "Silica 325 mesh", "\xff\xfe", "ßæœ", "Lead-free frit"} {
		f.Add(s)
	}
	l := Builtin()
	f.Fuzz(func(t *testing.T, s string) {
		m, ok := l.Find(s)
		if again, ok2 := l.Find(m.Name); ok && (!ok2 || again.Name != m.Name) {
			t.Errorf("%q finds %q, which is not found", s, m.Name)
		}
		if near := l.Nearest(s); near != "" {
			if _, ok := l.Find(near); !ok {
				t.Errorf("%q is near %q, which is not found", s, near)
			}
		}
		l.Hazards([]string{s})
	})
}
