package oxide

import "sync"

// weights are standard atomic weights: Prohaska et al., Standard atomic
// weights of the elements 2021 (IUPAC Technical Report), Pure Appl. Chem. 94
// (2022) 573-600, Table 1. Where that table gives an interval, its abridged
// value is used (H, Li, B, C, N, O, Mg, Si, S, Cl, Pb). In g/mol, by symbol; made
// when first asked for, like all tables here, because most commands never do.
var weights = sync.OnceValue(func() map[string]float64 {
	return map[string]float64{
		"H": 1.008, "Li": 6.94, "B": 10.81, "C": 12.011, "N": 14.007, "O": 15.999,
		"F": 18.998403162, "Na": 22.98976928, "Mg": 24.305, "Al": 26.9815384,
		"Si": 28.085, "P": 30.973761998, "S": 32.06, "Cl": 35.45, "K": 39.0983,
		"Ca": 40.078, "Ti": 47.867, "V": 50.9415, "Cr": 51.9961, "Mn": 54.938043,
		"Fe": 55.845, "Co": 58.933194, "Ni": 58.6934, "Cu": 63.546, "Zn": 65.38,
		"Se": 78.971, "Rb": 85.4678, "Sr": 87.62, "Y": 88.905838, "Zr": 91.224,
		"Mo": 95.95, "Ag": 107.8682, "Cd": 112.414, "Sn": 118.710, "Sb": 121.760,
		"Ba": 137.327, "La": 138.90547, "Ce": 140.116, "Pr": 140.90766,
		"Nd": 144.242, "Er": 167.259, "Hf": 178.486, "W": 183.84,
		"Au": 196.966570, "Pb": 207.2, "Bi": 208.98040, "U": 238.02891,
	}
})
