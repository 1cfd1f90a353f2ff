package oxide

import (
	"slices"
	"strings"
)

// law makes a Classification; codes have blanks between them.
func (a amendment) law(classes, codes string) Classification {
	return Classification{classes, strings.Fields(codes), a.name, a.from}
}

// amendment of Annex VI, with the day from which on it applies.
type amendment struct{ name, from string }

// amendments of Annex VI to CLP that the entries below come from.
func amendments() (first, atp1, atp17, atp18, atp20, atp22 amendment) {
	return amendment{"(EC) 1272/2008 original", "2010-12-01"},
		amendment{"1st ATP (EC) 790/2009", "2010-12-01"},
		amendment{"17th ATP (EU) 2021/849", "2022-12-17"},
		amendment{"18th ATP (EU) 2022/692", "2023-11-23"},
		amendment{"20th ATP (EU) 2023/1435", "2025-02-01"},
		amendment{"22nd ATP (EU) 2024/2564", "2026-05-01"}
}

// families lists all that calls for care, worst first. Classes and groups are
// those of testdata/reference/hazards.csv; that a compound without an entry of
// its own is treated like its metal is common practice, no source.
func families() []family { return slices.Concat(metals(), harmful(), colouring(), powders()) }

// metals are families by an element that harms more than most.
func metals() []family {
	first, atp1, _, atp18, _, _ := amendments()
	return []family{
		{contains: "uranium", least: anyAmount, rules: []rule{
			{element: "U", words: []string{"uranium"}, hazard: Hazard{Substance: "uranium compound", Harm: Fatal, NotForFood: true, LeachTest: true,
				Law: atp1.law("Acute Tox. 2 *; Acute Tox. 2 *; STOT RE 2; Aquatic Chronic 2", "H300 H330 H373 H411")}},
		}},
		{contains: "lead", least: anyAmount, rules: []rule{
			{element: "Pb", words: []string{"lead", "litharge", "minium"}, hazard: Hazard{Substance: "lead compound", Harm: Poison, NotForFood: true, LeachTest: true,
				Law: first.law("Repr. 1A; Acute Tox. 4 *; Acute Tox. 4 *; STOT RE 2 *; Aquatic Acute 1; Aquatic Chronic 1", "H302 H332 H360Df H373 H400 H410")}},
		}},
		{contains: "cadmium", least: anyAmount, rules: []rule{
			{names: []string{"Cadmium oxide", "CdO"}, hazard: Hazard{Substance: "cadmium oxide", Harm: Fatal, IARC: "1", NotForFood: true, LeachTest: true,
				Law: first.law("Carc. 1B; Muta. 2; Repr. 2; Acute Tox. 2 *; STOT RE 1; Aquatic Acute 1; Aquatic Chronic 1", "H330 H341 H350 H361fd H372 H400 H410")}},
			{names: []string{"Cadmium sulphide", "CdS", "Cadmium yellow"}, hazard: Hazard{Substance: "cadmium sulphide", Harm: Cancer, IARC: "1", NotForFood: true, LeachTest: true,
				Law: first.law("Carc. 1B; Muta. 2; Repr. 2; Acute Tox. 4 *; STOT RE 1; Aquatic Chronic 4", "H302 H341 H350 H361fd H372 H413")}},
			{element: "Cd", words: []string{"cadmium"}, and: []string{"stain", "stains", "encapsulated", "inclusion"},
				hazard: Hazard{Substance: "cadmium stain", Harm: Cancer, IARC: "1 (cadmium compounds)", NotForFood: true, LeachTest: true}},
			{element: "Cd", words: []string{"cadmium"}, hazard: Hazard{Substance: "cadmium compound", Harm: Cancer, IARC: "1", NotForFood: true, LeachTest: true,
				Law: first.law("Acute Tox. 4 *; Acute Tox. 4 *; Acute Tox. 4 *; Aquatic Acute 1; Aquatic Chronic 1", "H302 H312 H332 H400 H410")}},
		}},
		{contains: "chromium", least: named, rules: []rule{
			{names: []string{"Potassium dichromate"}, hazard: Hazard{Substance: "potassium dichromate", Harm: Fatal, IARC: "1", NotForFood: true, LeachTest: true,
				Law: first.law("Ox. Sol. 2; Carc. 1B; Muta. 1B; Repr. 1B; Acute Tox. 2 *; Acute Tox. 4 *; Acute Tox. 3 *; STOT RE 1; Skin Corr. 1B; Resp. Sens. 1; Skin Sens. 1; Aquatic Acute 1; Aquatic Chronic 1",
					"H272 H301 H312 H314 H317 H330 H334 H340 H350 H360FD H372 H400 H410")}},
			{words: []string{"dichromate", "bichromate"}, hazard: Hazard{Substance: "chromium(VI) compound", Harm: Fatal, NotForFood: true, LeachTest: true}},
			{names: []string{"Iron chromite", "Iron chromate"}, hazard: Hazard{Substance: "iron chromate", Harm: Cancer, IARC: "3 (chromium(III), chromite ore)", LeachTest: true}},
			{names: []string{"Chromium oxide"}, hazard: Hazard{Substance: "chromium(III) oxide", Harm: Harmful, IARC: "3", LeachTest: true}},
			{element: "Cr", words: []string{"chromium", "chrome", "chromite", "chromate"}, hazard: Hazard{Substance: "chromium compound", Harm: Harmful, LeachTest: true}},
		}},
		{contains: "vanadium", least: named, rules: []rule{
			{names: []string{"Vanadium pentoxide"}, hazard: Hazard{Substance: "vanadium pentoxide", Harm: Fatal, NotForFood: true, LeachTest: true,
				Law: atp18.law("Carc. 1B; Muta. 2; Repr. 2; Lact.; Acute Tox. 2; Acute Tox. 3; STOT SE 3; STOT RE 1; Aquatic Chronic 2", "H301 H330 H335 H341 H350 H361fd H362 H372 H411")}},
			{element: "V", words: []string{"vanadium"}, hazard: Hazard{Substance: "vanadium compound", Harm: Harmful, LeachTest: true}},
		}},
		{contains: "nickel", least: named, rules: []rule{
			{names: []string{"Nickel carbonate"}, hazard: Hazard{Substance: "nickel carbonate", Harm: Cancer, IARC: "1", LeachTest: true,
				Law: atp1.law("Carc. 1A; Muta. 2; Repr. 1B; Acute Tox. 4 *; Acute Tox. 4 *; STOT RE 1; Skin Irrit. 2; Resp. Sens. 1; Skin Sens. 1; Aquatic Acute 1; Aquatic Chronic 1",
					"H302 H315 H317 H332 H334 H341 H350i H360D H372 H400 H410")}},
			{names: []string{"Nickel oxide", "Black nickel oxide"}, hazard: Hazard{Substance: "nickel oxide", Harm: Cancer, IARC: "1", LeachTest: true,
				Law: atp1.law("Carc. 1A; STOT RE 1; Skin Sens. 1; Aquatic Chronic 4", "H317 H350i H372 H413")}},
			{element: "Ni", words: []string{"nickel"}, hazard: Hazard{Substance: "nickel compound", Harm: Cancer, LeachTest: true}},
		}},
		{contains: "cobalt", least: named, rules: []rule{
			{names: []string{"Cobalt carbonate"}, hazard: Hazard{Substance: "cobalt carbonate", Harm: Cancer, LeachTest: true,
				Law: atp1.law("Carc. 1B; Muta. 2; Repr. 1B; Resp. Sens. 1; Skin Sens. 1; Aquatic Acute 1; Aquatic Chronic 1", "H317 H334 H341 H350i H360F H400 H410")}},
			{names: []string{"Cobalt oxide"}, hazard: Hazard{Substance: "cobalt(II,III) oxide", Harm: Allergy, IARC: "3", LeachTest: true}},
			{names: []string{"Grey cobalt oxide"}, hazard: Hazard{Substance: "cobalt(II) oxide", Harm: Allergy, IARC: "2B", LeachTest: true,
				Law: atp1.law("Acute Tox. 4 *; Skin Sens. 1; Aquatic Acute 1; Aquatic Chronic 1", "H302 H317 H400 H410")}},
			{element: "Co", words: []string{"cobalt"}, hazard: Hazard{Substance: "cobalt compound", Harm: Allergy, LeachTest: true}},
		}},
		{contains: "antimony", least: named, rules: []rule{
			{names: []string{"Antimony oxide"}, hazard: Hazard{Substance: "antimony trioxide", Harm: Suspected, IARC: "2A (trivalent antimony, 2022)", NotForFood: true, LeachTest: true,
				Law: first.law("Carc. 2", "H351")}},
			{element: "Sb", words: []string{"antimony"}, hazard: Hazard{Substance: "antimony compound", Harm: Harmful, NotForFood: true, LeachTest: true}},
		}},
		{contains: "selenium", least: anyAmount, rules: []rule{
			{names: []string{"Selenium"}, hazard: Hazard{Substance: "selenium", Harm: Poison, NotForFood: true, LeachTest: true,
				Law: first.law("Acute Tox. 3 *; Acute Tox. 3 *; STOT RE 2 *; Aquatic Chronic 4", "H301 H331 H373 H413")}},
			{element: "Se", words: []string{"selenium"}, hazard: Hazard{Substance: "selenium compound", Harm: Poison, NotForFood: true, LeachTest: true}},
		}},
		{contains: "barium", least: named, rules: []rule{
			{names: []string{"Barium carbonate"}, hazard: Hazard{Substance: "barium carbonate", Harm: Poison, NotForFood: true, LeachTest: true,
				Law: first.law("Acute Tox. 4 *", "H302")}},
			{element: "Ba", words: []string{"barium"}, hazard: Hazard{Substance: "barium compound", Harm: Harmful, NotForFood: true, LeachTest: true}},
		}},
		{contains: "lithium", least: named, rules: []rule{
			{names: []string{"Lithium carbonate"}, hazard: Hazard{Substance: "lithium carbonate", Harm: Unborn, LeachTest: true,
				Opinion: Opinion{"EU Committee for Risk Assessment, 2021, again 2024", []string{"H360D", "H360F", "H362"}}}},
			{element: "Li", words: []string{"lithium"}, hazard: Hazard{Substance: "lithium mineral", Harm: Dust, LeachTest: true}},
		}},
	}
}

// colouring are families by an element that harms less.
func colouring() []family {
	first, atp1, atp17, _, _, atp22 := amendments()
	return []family{
		{contains: "manganese", least: named, rules: []rule{
			{names: []string{"Manganese dioxide"}, hazard: Hazard{Substance: "manganese dioxide", Harm: Nerves, LeachTest: true,
				Law: first.law("Acute Tox. 4 *; Acute Tox. 4 *", "H302 H332")}},
			{element: "Mn", words: []string{"manganese"}, hazard: Hazard{Substance: "manganese compound", Harm: Nerves, LeachTest: true}},
		}},
		{contains: "molybdenum", least: named, rules: []rule{
			{names: []string{"Molybdenum trioxide"}, hazard: Hazard{Substance: "molybdenum trioxide", Harm: Suspected, LeachTest: true,
				Law: atp1.law("Carc. 2; STOT SE 3; Eye Irrit. 2", "H319 H335 H351")}},
			{element: "Mo", words: []string{"molybdenum"}, hazard: Hazard{Substance: "molybdenum compound", Harm: Harmful, LeachTest: true}},
		}},
		{contains: "silver", least: named, rules: []rule{
			{names: []string{"Silver nitrate"}, hazard: Hazard{Substance: "silver nitrate", Harm: Burns,
				Law: atp1.law("Ox. Sol. 2; Skin Corr. 1B; Aquatic Acute 1; Aquatic Chronic 1", "H272 H314 H400 H410")}},
			{names: []string{"Silver", "Silver powder"}, hazard: Hazard{Substance: "silver powder", Harm: Unborn,
				Law: atp22.law("Repr. 2; STOT RE 2; Aquatic Acute 1; Aquatic Chronic 1", "H361f H373 H400 H410")}},
			{element: "Ag", words: []string{"silver"}, hazard: Hazard{Substance: "silver compound", Harm: Harmful}},
		}},
		{contains: "copper", least: named, rules: []rule{
			{names: []string{"Red copper oxide"}, hazard: Hazard{Substance: "red copper oxide", Harm: Burns, LeachTest: true,
				Law: atp17.law("Acute Tox. 4; Acute Tox. 4; Eye Dam. 1; Aquatic Acute 1; Aquatic Chronic 1", "H302 H318 H332 H400 H410")}},
			{names: []string{"Copper carbonate"}, hazard: Hazard{Substance: "copper carbonate", Harm: Harmful, LeachTest: true,
				Law: atp17.law("Acute Tox. 4; Acute Tox. 4; Eye Irrit. 2; Aquatic Acute 1; Aquatic Chronic 1", "H302 H319 H332 H400 H410")}},
			{names: []string{"Copper oxide"}, hazard: Hazard{Substance: "black copper oxide", Harm: Water, LeachTest: true,
				Law: atp17.law("Aquatic Acute 1; Aquatic Chronic 1", "H400 H410")}},
			{element: "Cu", words: []string{"copper", "malachite"}, hazard: Hazard{Substance: "copper compound", Harm: Harmful, LeachTest: true}},
		}},
	}
}
