// Package slip turns the specific gravity of a glaze slip into its dry content
// and its water, and back.
//
// The relations are those of a suspension whose volumes add: solids of density
// S in water of 1 g/mL. For the dry matter of a slip the form
// W = (P − V)·S/(S − 1), with P grams of V mL, is commonly credited to
// A. Brongniart. The package does not correct water for its temperature (at
// 30 °C it weighs 0.4 % less) nor for air that is stirred in: a jug and a
// kitchen scale do not see either. What a cup is made of by these relations is
// worked out in package blend.
package slip

import (
	"fmt"
	"math"
)

// Slip is a suspension of a powder in water.
type Slip struct {
	SG     float64 // specific gravity, that is g per mL
	Solids float64 // density of the dry solids, g/mL
}

// Check says what is wrong with a slip, or nil: 1 < SG < Solids, both finite.
func (s Slip) Check() error {
	switch {
	case math.IsNaN(s.Solids) || math.IsInf(s.Solids, 0) || s.Solids <= 1:
		return fmt.Errorf("solids density %g g/mL is too low (more than 1)", s.Solids)
	case math.IsNaN(s.SG) || s.SG <= 1:
		return fmt.Errorf("SG %g is too low (water is 1.00)", s.SG)
	case s.SG >= s.Solids:
		return fmt.Errorf("SG %g is too high (keep below the solids density, %.4g)", s.SG, s.Solids)
	}
	return nil
}

// DryPerML is the dry content in g per mL of slip: c = (ρ−1)·S/(S−1).
func (s Slip) DryPerML() float64 { return (s.SG - 1) * s.Solids / (s.Solids - 1) }

// WaterPerG is the water in g per g of dry solids: w = (S−ρ)/(S·(ρ−1)).
func (s Slip) WaterPerG() float64 { return (s.Solids - s.SG) / (s.Solids * (s.SG - 1)) }

// Mixed is the slip that w g of water for each g of solids of density S give:
// ρ = (1+w)/(1/S+w).
func Mixed(w, solids float64) Slip {
	return Slip{SG: (1 + w) / (1/solids + w), Solids: solids}
}

// WaterTo is the water, in mL, that brings g grams of slip with a volume of ml
// to the specific gravity sg: x = (W − ρV)/(ρ − 1). It is negative when the
// slip is thinner than that already.
func WaterTo(sg, g, ml float64) float64 { return (g - sg*ml) / (sg - 1) }
