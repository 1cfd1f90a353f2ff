package oxide

// substance is a material whose analysis follows from its formula.
type substance struct {
	name    string
	formula string
	density density
	aliases []string
}

// mixture is a material whose analysis is a round figure.
type mixture struct {
	name    string
	density density
	aliases []string
	oxides  []Amount
	loi     float64
}

// density is that of a material's particles. Where mineral is filled, the
// figure was read in published mineral data for it; otherwise it is quoted
// from memory.
type density struct {
	gPerML  float64
	mineral string
}

const (
	byFormula     = "computed from the formula with IUPAC 2021 atomic weights"
	typicalMemory = "typical figures, from memory"
	organicLoss   = "organic: burns away"
)

func (d density) source() string {
	if d.mineral != "" {
		return "published mineral data, " + d.mineral
	}
	return "from memory"
}

// builtinMaterials puts the lists of this package together.
func builtinMaterials() []Material {
	var list []Material
	for _, group := range [][]substance{minerals, fluxes, opacifiers, colourants} {
		for _, s := range group {
			a, err := fromFormula(s.formula)
			if err != nil {
				panic("list of materials: " + err.Error()) // a test reads the whole list
			}
			list = append(list, Material{
				Name: s.name, Aliases: s.aliases, Formula: s.formula,
				Analysis: a, Basis: Theoretical, Source: byFormula,
				Density: s.density.gPerML, DensitySource: s.density.source(),
			})
		}
	}
	for _, m := range mixtures {
		list = append(list, Material{
			Name: m.name, Aliases: m.aliases,
			Analysis: Analysis{Oxides: m.oxides, LOI: m.loi}, Basis: Typical, Source: typicalMemory,
			Density: m.density.gPerML, DensitySource: m.density.source(),
		})
	}
	for _, m := range gums {
		list = append(list, Material{
			Name: m.name, Aliases: m.aliases,
			Analysis: Analysis{LOI: 100}, Basis: Typical, Source: organicLoss,
			Density: m.density.gPerML, DensitySource: m.density.source(),
		})
	}
	return list
}

// gums burn away; they count in a dry mix and leave no oxide.
var gums = []mixture{
	{name: "CMC gum", density: density{1.6, ""}, aliases: []string{"CMC", "Carboxymethyl cellulose", "Sodium carboxymethyl cellulose", "Cellulose gum"}},
	{name: "Gum arabic", density: density{1.4, ""}, aliases: []string{"Acacia gum"}},
	{name: "Dextrin", density: density{1.5, ""}, aliases: []string{"Dextrine"}},
}
