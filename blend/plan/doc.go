// Package plan reads the file in which a maker describes a test, and writes
// one.
//
// One table, schema.toml, knows every key: name, unit, range, default, example,
// help, and its place in a draft (draft.go), whose type is the form of the value: it
// is read, checked and written by that. Read, Write, the hints ("did you mean"), the
// commented plans of Template and New follow from the table.
//
// Read takes the text of a plan, in TOML, and gives the checked description
// that package blend works from. It is strict: an unknown key, a value of the
// wrong type, a quantity without its unit, an amount that cannot be mixed are
// each a Problem with its line and what would be right, and all problems of a
// plan are reported together. A line that is not TOML, such as one with curly
// quotes, is a Problem that spells out what was meant (repair.go). What is legal
// but deserves a question comes back as notes beside the plan.
//
// Write is the way back: Read of what Write gives is an equal plan.
//
// The package opens no file, lays out no design and computes no amount: give
// the plan to blend.New for that.
package plan
