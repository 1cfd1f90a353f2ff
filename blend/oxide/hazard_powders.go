package oxide

// harmful are powders of the bulk of a recipe that can do lasting harm.
func harmful() []family {
	_, _, _, _, atp20, _ := amendments()
	return []family{
		{contains: "boron", least: named, bound: true, rules: []rule{
			{names: []string{"Borax", "Anhydrous borax", "Borax pentahydrate"}, hazard: Hazard{Substance: "borax", Harm: Unborn, Law: atp20.law("Repr. 1B", "H360FD")}},
			{names: []string{"Boric acid"}, hazard: Hazard{Substance: "boric acid", Harm: Unborn, Law: atp20.law("Repr. 1B", "H360FD")}},
			{element: "B", words: []string{"boron", "borax", "boric", "borate"}, hazard: Hazard{Substance: "boron mineral", Harm: Dust}},
		}},
		{contains: "talc", rules: []rule{
			{names: []string{"Talc"}, words: []string{"talc", "steatite", "soapstone"}, hazard: Hazard{Substance: "talc", Harm: Cancer, IARC: "2A (2024)",
				Opinion: Opinion{"EU Committee for Risk Assessment, September 2024", []string{"H350"}}}},
		}},
		{contains: "caustic ash", except: []string{"soda", "bone", "pearl", "volcanic", "washed"}, rules: []rule{
			{words: []string{"ash", "ashes"}, hazard: Hazard{Substance: "wood ash", Harm: Burns}},
		}},
		{contains: "lime", rules: []rule{
			{names: []string{"Slaked lime", "Quicklime", "Burnt lime", "Calcium oxide", "CaO"}, words: []string{"quicklime", "slaked"},
				hazard: Hazard{Substance: "slaked lime, quicklime", Harm: Burns, Opinion: Opinion{"a producer's data sheet, 2013", []string{"H315", "H318", "H335"}}}},
		}},
	}
}

// powders are families of the bulk of a recipe, and of what is little more
// than dust.
func powders() []family {
	first, _, _, _, _, _ := amendments()
	return []family{
		{contains: "soda", rules: []rule{
			{names: []string{"Soda ash"}, hazard: Hazard{Substance: "soda ash", Harm: Irritates, Law: first.law("Eye Irrit. 2", "H319")}},
			{names: []string{"Pearl ash"}, hazard: Hazard{Substance: "pearl ash", Harm: Irritates}},
			{names: []string{"Sodium silicate", "Water glass"}, hazard: Hazard{Substance: "sodium silicate", Harm: Irritates}},
		}},
		{contains: "fluorine", least: named, rules: []rule{
			{names: []string{"Fluorspar"}, hazard: Hazard{Substance: "fluorspar", Harm: Fume}},
			{element: "F", words: []string{"fluorine", "fluoride", "fluorspar", "fluorite", "cryolite"}, hazard: Hazard{Substance: "fluorine compound", Harm: Fume}},
		}},
		{contains: "salt", rules: []rule{
			{names: []string{"Salt", "Rock salt", "Sea salt"}, hazard: Hazard{Substance: "salt", Harm: Fume}},
		}},
		{contains: "nitrate", except: []string{"silver"}, rules: []rule{
			{names: []string{"Potassium nitrate"}, hazard: Hazard{Substance: "potassium nitrate", Harm: Fire}},
			{words: []string{"nitrate", "nitre", "saltpetre"}, hazard: Hazard{Substance: "nitrate", Harm: Fire}},
		}},
		{contains: "zinc", least: named, rules: []rule{
			{names: []string{"Zinc oxide"}, hazard: Hazard{Substance: "zinc oxide", Harm: Water, Law: first.law("Aquatic Acute 1; Aquatic Chronic 1", "H400 H410")}},
			{element: "Zn", words: []string{"zinc"}, hazard: Hazard{Substance: "zinc compound", Harm: Dust}},
		}},
		// Whether the SiO2 of an analysis is quartz is not known from it. In a frit it
		// is glass.
		{contains: "silica", least: named, bound: true, not: []string{"Talc", "Lead bisilicate", "Zirconium silicate"}, rules: []rule{
			{names: []string{"Silica", "Cristobalite"}, words: []string{"silica", "quartz", "flint", "cristobalite"},
				hazard: Hazard{Substance: "silica", Harm: Lungs, IARC: "1"}},
			{element: "Si", words: []string{"feldspar", "spar", "clay", "kaolin", "ash", "bentonite"},
				hazard: Hazard{Substance: "powder that can hold quartz", Harm: Lungs}},
		}},
		{contains: "dust", rules: []rule{
			{names: []string{"Red iron oxide", "Black iron oxide", "Yellow iron oxide"}, hazard: Hazard{Substance: "iron oxide", Harm: Dust}},
			{names: []string{"Gypsum", "Plaster", "Plaster of Paris"}, hazard: Hazard{Substance: "gypsum, plaster", Harm: Dust}},
			{names: []string{"Titanium dioxide"}, hazard: Hazard{Substance: "titanium dioxide", Harm: Dust, IARC: "2B"}},
			{names: []string{"Rutile"}, hazard: Hazard{Substance: "rutile", Harm: Dust, IARC: "2B (titanium dioxide)"}},
			{names: []string{"Strontium carbonate", "Tin oxide", "Zirconium silicate", "Ilmenite", "Bismuth oxide", "Bismuth subnitrate",
				"Cerium oxide", "Praseodymium oxide", "Erbium oxide", "Neodymium oxide"}, hazard: Hazard{Substance: "powder without an EU class", Harm: Dust}},
		}},
	}
}
