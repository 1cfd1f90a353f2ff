// Package measure knows what a jug, a syringe and a scale can read.
//
// Every amount that pourboard prints to be measured is a whole number of an
// instrument's steps, and the rules for that are here and nowhere else:
// rounding one amount (Step.Count), sharing out a cup that is poured by volume
// (Step.Apportion), pouring onto a scale (Step.Running). How far off a reading
// can be follows the Guide to the expression of uncertainty in measurement,
// JCGM 100:2008 (clauses cited from memory of its text).
//
// The package knows no glaze and no design; package blend puts its rules
// together for a whole test.
package measure
