package oxide

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// reference reads a table of published or independently computed values; its
// source is named in testdata/reference/SOURCES.md.
func reference(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, head := range rows[0] {
			m[head] = r[i]
		}
		list = append(list, m)
	}
	if len(list) == 0 {
		t.Fatalf("%s holds no rows", name)
	}
	return list
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.6f, want %.6f within %g", what, got, want, within)
	}
}

// Prohaska et al., Standard atomic weights of the elements 2021 (IUPAC
// Technical Report), Pure Appl. Chem. 94 (2022) 573-600, Table 1.
func TestAtomicWeights(t *testing.T) {
	rows, weights := reference(t, "atomic_weights.csv"), weights()
	for _, r := range rows {
		got, ok := weights[r["symbol"]]
		if !ok {
			t.Errorf("%s is missing", r["symbol"])
			continue
		}
		near(t, r["symbol"], got, number(t, r["single_value_for_tests"]), 0)
	}
	if len(weights) != len(rows) {
		t.Errorf("%d elements, the reference has %d", len(weights), len(rows))
	}
	// Old tables that are still about have 65.409 and 78.96.
	for symbol, old := range map[string]float64{"Zn": 65.409, "Se": 78.96} {
		if weights[symbol] == old {
			t.Errorf("%s has the weight of a table before 2007", symbol)
		}
	}
}

// Computed outside this program from the same IUPAC 2021 weights.
func TestOxideMolarMasses(t *testing.T) {
	for _, r := range reference(t, "oxide_molar_masses.csv") {
		name, want := r["oxide"], number(t, r["molar_mass_iupac2021"])
		f, err := parseFormula(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		near(t, "formula "+name, f.molarMass(), want, 1e-5)
		if i, ok := Oxide(name).Place(); ok {
			near(t, "oxide "+name, oxides()[i].molar, want, 1e-5)
		}
	}
}

// Weight % of ideal minerals, computed outside this program from the same
// weights; for kaolinite, orthoclase, calcite, talc, magnesite, spodumene,
// zircon and colemanite a published figure was found to agree.
func TestTheoreticalCompositions(t *testing.T) {
	for _, r := range reference(t, "materials_theoretical.csv") {
		a, err := fromFormula(r["formula"])
		if err != nil {
			t.Errorf("%s: %v", r["material"], err)
			continue
		}
		f, _ := parseFormula(r["formula"])
		near(t, r["material"]+" molar mass", f.molarMass(), number(t, r["molar_mass"]), 6e-5)
		loi := 0.0
		for head, cell := range r {
			name, isOxide := strings.CutSuffix(head, "_wt_pct")
			if !isOxide || name == "sum" || cell == "" {
				continue
			}
			v := number(t, cell)
			switch name {
			case "CO2", "H2O", "SO3":
				loi += v
			default:
				near(t, r["material"]+" "+name, a.Of(Oxide(name)), v, 6e-5)
			}
		}
		near(t, r["material"]+" LOI", a.LOI, loi, 2e-4)
	}
}

// Computed outside this program from the same weights.
func TestOxygenLoss(t *testing.T) {
	for _, r := range reference(t, "oxygen_loss_conversions.csv") {
		if r["fired_as"] == "FeO" {
			continue // iron is counted as Fe2O3 here
		}
		a, err := fromFormula(r["material"])
		if err != nil {
			t.Errorf("%s: %v", r["material"], err)
			continue
		}
		near(t, r["material"], a.Of(Oxide(r["fired_as"]))/100, number(t, r["grams_fired_oxide_per_gram_material"]), 6e-7)
		near(t, r["material"]+" loss", a.LOI, number(t, r["loss_pct"]), 6e-5)
	}
}

// Published mineral data where the reference says found, memory otherwise;
// the material's own DensitySource must say which.
func TestParticleDensities(t *testing.T) {
	trade := map[string]string{
		"quartz": "Silica", "orthoclase": "Potash feldspar", "microcline": "Microcline", "kaolinite": "Kaolin",
		"spodumene_alpha": "Spodumene", "hematite": "Red iron oxide", "nepheline": "Nepheline syenite",
	}
	checked := 0
	for _, r := range reference(t, "particle_densities.csv") {
		name := r["material"]
		if n, ok := trade[name]; ok {
			name = n
		}
		if name == "spodumene_beta" || name == "Microcline" {
			continue // calcined spodumene is not on the list; microcline is listed under orthoclase's figure
		}
		m, ok := Builtin().Find(name)
		if !ok {
			t.Errorf("%s is not on the list", name)
			continue
		}
		checked++
		near(t, name, m.Density, number(t, r["single_value_for_tests"]), 0)
		if low, high := number(t, r["density_g_cm3_low"]), number(t, r["density_g_cm3_high"]); m.Density < low-0.005 || m.Density > high+0.005 {
			t.Errorf("%s: %g g/mL is outside the published %g to %g", name, m.Density, low, high)
		}
		if found := r["status"] == "found"; found == (m.DensitySource == "from memory") {
			t.Errorf("%s: reference says %s, the list says %q", name, r["status"], m.DensitySource)
		}
	}
	if checked < 20 {
		t.Errorf("only %d densities were compared", checked)
	}
}
