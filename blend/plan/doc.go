// Package plan reads the file in which a maker describes a test, and writes
// one.
//
// Read takes the text of a plan, in TOML, and gives the checked description
// that package blend works from. It is strict: a key that it does not know, a
// value of the wrong sort, a quantity without its unit, an amount that cannot
// be mixed are each a Problem with its line and with what would be right, and
// all problems of a plan are reported together. A line that is no TOML, such as
// one with curly quotes or without brackets, is a Problem that spells out what
// will have been meant. What is legal but deserves a
// question comes back as warnings beside the plan.
//
// Write is the way back: Read of what Write gives is an equal plan. Outline is
// the part of a plan that decides which mark stands for which mixture on which
// body, line by line, and Fingerprint its short form, by which a filled-in log
// is matched with its plan. Template gives the commented plans that a new test
// starts from.
//
// The package opens no file, lays out no design and computes no amount: give
// the plan to blend.New for that.
package plan
