package oxide

// opacifiers make a glaze cloudy or white.
var opacifiers = []substance{
	{"Titanium dioxide", "TiO2", density{4.23, ""}, []string{"Titania", "Titanium oxide"}},
	{"Ilmenite", "FeTiO3", density{4.72, ""}, []string{"Iron titanate"}},
	{"Tin oxide", "SnO2", density{6.99, ""}, []string{"Tin dioxide", "Stannic oxide", "Cassiterite"}},
	{"Zirconium silicate", "ZrSiO4", density{4.65, "zircon"}, []string{"Zircon", "Zircon flour"}},
	{"Zirconium oxide", "ZrO2", density{5.68, ""}, []string{"Zirconia", "Zirconium dioxide"}},
	{"Antimony oxide", "Sb2O3", density{5.2, ""}, []string{"Antimony trioxide"}},
	{"Cerium oxide", "CeO2", density{7.13, ""}, []string{"Ceria", "Cerium dioxide", "Ceric oxide"}},
}

// colourants colour a glaze by the oxide that they leave.
var colourants = []substance{
	{"Red iron oxide", "Fe2O3", density{5.18, "hematite"}, []string{"Iron oxide", "Ferric oxide", "Hematite", "RIO"}},
	{"Black iron oxide", "Fe3O4", density{5.17, ""}, []string{"Magnetite", "Magnetic iron oxide"}},
	{"Yellow iron oxide", "FeO(OH)", density{4.28, ""}, []string{"Goethite", "Hydrated iron oxide"}},
	{"Iron sulphate", "FeSO4.7H2O", density{1.90, ""}, []string{"Ferrous sulphate", "Copperas"}},
	{"Iron chromite", "FeCr2O4", density{4.6, ""}, []string{"Chromite"}},
	{"Manganese dioxide", "MnO2", density{5.03, ""}, []string{"Black manganese oxide", "Pyrolusite"}},
	{"Manganese carbonate", "MnCO3", density{3.70, ""}, []string{"Rhodochrosite"}},
	{"Cobalt oxide", "Co3O4", density{6.11, ""}, []string{"Black cobalt oxide", "Cobaltic oxide", "Cobalt(II,III) oxide"}},
	{"Grey cobalt oxide", "CoO", density{6.44, ""}, []string{"Gray cobalt oxide", "Cobalt(II) oxide", "Cobaltous oxide", "Cobalt monoxide"}},
	{"Cobalt carbonate", "CoCO3", density{4.13, ""}, nil},
	{"Cobalt sulphate", "CoSO4.7H2O", density{1.95, ""}, nil},
	{"Copper oxide", "CuO", density{6.31, ""}, []string{"Black copper oxide", "Cupric oxide", "Copper(II) oxide"}},
	{"Red copper oxide", "Cu2O", density{6.0, ""}, []string{"Cuprous oxide", "Copper(I) oxide"}},
	{"Copper carbonate", "Cu2CO3(OH)2", density{3.9, "malachite"}, []string{"Basic copper carbonate", "Malachite"}},
	{"Copper sulphate", "CuSO4.5H2O", density{2.29, ""}, []string{"Blue vitriol"}},
	{"Nickel oxide", "NiO", density{6.67, ""}, []string{"Green nickel oxide", "Nickel(II) oxide", "Nickel monoxide"}},
	{"Nickel carbonate", "NiCO3", density{4.39, ""}, nil},
	{"Chromium oxide", "Cr2O3", density{5.22, ""}, []string{"Chrome oxide", "Chromic oxide", "Chromium(III) oxide", "Green chromium oxide"}},
	{"Potassium dichromate", "K2Cr2O7", density{2.68, ""}, []string{"Potassium bichromate", "Bichromate of potash"}},
	{"Vanadium pentoxide", "V2O5", density{3.36, ""}, []string{"Vanadium oxide"}},
	{"Molybdenum trioxide", "MoO3", density{4.69, ""}, []string{"Molybdenum oxide", "Molybdic oxide"}},
	{"Tungsten trioxide", "WO3", density{7.16, ""}, []string{"Tungsten oxide", "Tungstic oxide"}},
	{"Bismuth oxide", "Bi2O3", density{8.9, ""}, []string{"Bismuth trioxide"}},
	{"Praseodymium oxide", "Pr6O11", density{6.5, ""}, nil},
	{"Neodymium oxide", "Nd2O3", density{7.24, ""}, nil},
	{"Erbium oxide", "Er2O3", density{8.64, ""}, []string{"Erbia"}},
	{"Lanthanum oxide", "La2O3", density{6.51, ""}, []string{"Lanthana"}},
	{"Yttrium oxide", "Y2O3", density{5.01, ""}, []string{"Yttria"}},
}
