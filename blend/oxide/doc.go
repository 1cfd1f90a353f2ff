// Package oxide says what a dry mix is made of: the oxides that remain of its
// materials after firing, their unity formula, the density of its particles,
// and which of its materials call for care.
//
// The way through it is
//
//	library := oxide.Builtin().With(own...)   // the maker's own materials first
//	v, missing := library.Vector(parts)       // a dry mix multiplied out
//	chemistry := v.Chemistry(false)
//
// Conventions (common practice, no source, unless one is named):
//
//   - Oxides are counted as they are after firing in air: iron as Fe2O3,
//     manganese as MnO, cobalt as CoO, copper as CuO, praseodymium as Pr2O3.
//     MnO2, Co3O4 and Pr6O11 lose oxygen, Cu2O and Fe3O4 take some up, and
//     the difference is part of the loss on ignition, which can be negative.
//   - Carbon, hydrogen, nitrogen, sulphur, fluorine and chlorine leave. In
//     the kiln some sulphate or fluoride may stay; that part is not known
//     beforehand and is not counted.
//   - The unity formula divides moles by the moles of R2O + RO fluxes: Li2O,
//     Na2O, K2O, Rb2O, MgO, CaO, SrO, BaO, ZnO, PbO. Colouring oxides are
//     listed beside the formula; those of RO type (MnO, CoO, NiO, CuO, CdO)
//     are counted in the sum only when a plan asks for it, Fe2O3 never.
//   - Atomic weights are those of IUPAC 2021 (weights.json).
//
// It does not say how a glaze melts, and it never calls one safe: Hazards and
// Cautions repeat what was read in a published source, and send the reader to
// the supplier's safety data sheet and to a laboratory for the rest.
package oxide
