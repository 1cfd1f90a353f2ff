package wording

import "pourboard/blend/oxide"

// harmTexts says what a harm does, for a list of materials behind it.
func harmTexts() map[oxide.Harm]string {
	return map[oxide.Harm]string{
		oxide.Fatal:     "Fatal if inhaled or swallowed",
		oxide.Cancer:    "Dust may cause cancer",
		oxide.Suspected: "Suspected of causing cancer",
		oxide.Unborn:    "May harm fertility or the unborn child",
		oxide.Poison:    "Poison",
		oxide.Nerves:    "Dust and kiln fume can harm nerves",
		oxide.Lungs:     "Dust scars the lungs",
		oxide.Burns:     "Burns skin and eyes, so wear goggles",
		oxide.Allergy:   "Can cause allergy, so wear gloves",
		oxide.Harmful:   "Harmful dust",
		oxide.Irritates: "Irritates eyes, so wear goggles",
		oxide.Fume:      "Harmful fume in firing",
		oxide.Fire:      "Feeds fire",
		oxide.Water:     "Kills water life, so keep out of drains",
		oxide.Dust:      "Dust",
	}
}

// careTexts is, for each substance of oxide.Hazards, what it does and what to do.
// Common practice, from the classes where there are any.
func careTexts() map[string]string {
	const plain = "No EU class known. Wear a respirator when weighing."
	return map[string]string{
		"uranium compound":       "Fatal poison, and radioactive. Do not use it in a studio.",
		"lead compound":          "Poison that builds up; may harm the unborn child. Do not use it.",
		"cadmium oxide":          "Fatal if inhaled; may cause cancer. Do not use it.",
		"cadmium sulphide":       "May cause cancer; damages organs. Do not use it.",
		"cadmium stain":          "Cadmium may cause cancer. Do not grind or overfire it; wear a respirator.",
		"cadmium compound":       "May cause cancer; harmful by every route. Do not use it.",
		"potassium dichromate":   "Fatal if inhaled; may cause cancer; burns. Not for studios.",
		"chromium(VI) compound":  "Fatal if inhaled; may cause cancer; burns. Not for studios.",
		"iron chromate":          "May hold chromium(VI), which causes cancer. Wear a respirator and gloves; ask the supplier.",
		"chromium(III) oxide":    "Raise no dust. Firing with alkali or lime can make chromium(VI).",
		"chromium compound":      "Raise no dust. Firing with alkali or lime can make chromium(VI).",
		"vanadium pentoxide":     "Fatal if inhaled; may cause cancer. Buy it as a stain.",
		"vanadium compound":      "Raise no dust. See the supplier's safety data sheet.",
		"nickel carbonate":       "May cause cancer and harm the unborn child. Wear a respirator and gloves.",
		"nickel oxide":           "Inhaled dust may cause cancer; can cause skin allergy. Wear a respirator and gloves.",
		"nickel compound":        "Treat it like nickel oxide: inhaled dust may cause cancer. Wear a respirator and gloves.",
		"cobalt carbonate":       "Inhaled dust may cause cancer and allergy. Wear a respirator and gloves.",
		"cobalt(II,III) oxide":   "Treat it like other cobalt: wear a respirator and gloves, raise no dust.",
		"cobalt(II) oxide":       "Can cause skin allergy; harmful if swallowed. Wear gloves, raise no dust.",
		"cobalt compound":        "Treat it like other cobalt: wear a respirator and gloves, raise no dust.",
		"antimony trioxide":      "Suspected of causing cancer. Wear a respirator, raise no dust.",
		"antimony compound":      "Wear a respirator, raise no dust. See the supplier's safety data sheet.",
		"selenium":               "Toxic if swallowed or inhaled. Wear a respirator and gloves; vent the kiln.",
		"selenium compound":      "Treat it like selenium, a poison. Wear a respirator and gloves; vent the kiln.",
		"barium carbonate":       "Poisonous if swallowed, though insoluble in water. Wear gloves; keep food away.",
		"barium compound":        "Treat it like barium carbonate unless its safety data sheet says otherwise.",
		"lithium carbonate":      "Harmful if swallowed; irritates eyes. Avoid it if pregnant or breast-feeding.",
		"lithium mineral":        "Wear a respirator when weighing.",
		"manganese dioxide":      "Dust and kiln fume can harm nerves. Wear a respirator; vent the kiln.",
		"manganese compound":     "Manganese dust and fume can harm nerves. Wear a respirator; vent the kiln.",
		"molybdenum trioxide":    "Suspected of causing cancer; irritates eyes and airways. Wear a respirator.",
		"molybdenum compound":    "Raise no dust. See the supplier's safety data sheet.",
		"silver nitrate":         "Burns skin and eyes; feeds fire. Wear goggles and gloves.",
		"silver powder":          "May harm fertility and nerves. Keep it out of drains.",
		"silver compound":        "Raise no dust. Keep it out of drains.",
		"red copper oxide":       "Harmful; can damage eyes. Wear goggles. Keep it out of drains.",
		"copper carbonate":       "Harmful if swallowed or inhaled. Keep it out of drains.",
		"black copper oxide":     "Very toxic to water life. Keep it out of drains.",
		"copper compound":        "Harmful. Raise no dust; keep it out of drains.",
		"borax":                  "May harm fertility and the unborn child. Wear gloves, raise no dust.",
		"boric acid":             "May harm fertility and the unborn child. Wear gloves, raise no dust.",
		"boron mineral":          "Raise no dust; wear gloves. See the supplier's safety data sheet.",
		"talc":                   "Dust may cause cancer. Wear a respirator; ask for an asbestos-free certificate.",
		"wood ash":               "Caustic when wet. Wear goggles and gloves; rinse skin at once.",
		"slaked lime, quicklime": "Burns eyes and skin. Wear goggles and gloves.",
		"soda ash":               "Irritates eyes and is soluble. Wear goggles and gloves.",
		"pearl ash":              "Irritates eyes and skin, and is soluble. Wear goggles and gloves.",
		"sodium silicate":        "Alkaline; irritates eyes and skin. Wear goggles and gloves.",
		"fluorspar":              "Gives off fluorine fume in firing. Vent the kiln.",
		"fluorine compound":      "Gives off fluorine fume in firing. Vent the kiln.",
		"salt":                   "Firing gives off hydrogen chloride. Fire outdoors only, stand upwind.",
		"potassium nitrate":      "Feeds fire. Keep it from anything that burns.",
		"nitrate":                "Feeds fire. Keep it from anything that burns.",
		"zinc oxide":             "Very toxic to water life. Keep it out of drains.",
		"zinc compound":          "Raise no dust. Keep it out of drains.",

		"silica":                      "Dust scars the lungs and causes cancer. Wear a respirator, work wet, never sweep.",
		"powder that can hold quartz": "Dust can hold quartz, which scars the lungs. Wear a respirator, work wet, never sweep.",

		"iron oxide":                 "No EU class known. Stains skin and cloth. Wear a respirator when weighing.",
		"gypsum, plaster":            "Setting plaster gets hot: never cast a hand or limb.",
		"titanium dioxide":           "No EU class any more. Wear a respirator when weighing.",
		"rutile":                     plain,
		"powder without an EU class": plain,
	}
}
