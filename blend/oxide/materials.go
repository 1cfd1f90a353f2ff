package oxide

import (
	_ "embed"
	"encoding/json"
	"sync"
)

// materialsText is the list of generic raw materials: pure substances by their
// formula, rocks and clays by round figures that stand for the kind, not for a
// delivery. A density with a mineral was read in published mineral data for it.
//
//go:embed materials.json
var materialsText []byte

// read unpacks a table of this package, which a test has read.
func read[T any](table []byte) (rows []T) {
	if err := json.Unmarshal(table, &rows); err != nil {
		panic(err)
	}
	return rows
}

// builtinMaterials is the list worked out.
var builtinMaterials = sync.OnceValue(func() []Material {
	var list []Material
	for _, row := range read[struct {
		Material
		Analysis map[string]float64
		Mineral  string
	}](materialsText) {
		m := row.Material
		var err error
		if m.Formula != "" {
			m.Analysis, err = fromFormula(m.Formula)
			m.Basis, m.Source = Theoretical, "computed from the formula with IUPAC 2021 atomic weights"
		} else {
			m.Analysis, _, err = ParseAnalysis(row.Analysis)
			m.Basis = Typical
		}
		if err != nil {
			panic(m.Name + ": " + err.Error())
		}
		if m.Source == "" {
			m.Source = "typical figures, from memory"
		}
		m.DensitySource = "from memory"
		if row.Mineral != "" {
			m.DensitySource = "published mineral data, " + row.Mineral
		}
		list = append(list, m)
	}
	return list
})
