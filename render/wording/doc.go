// Package wording has the sentences that several renderers share: notes,
// advice, what a cup holds, and how its amounts are measured. Numbers get their
// looks from blend/quantity. It decides nothing: what it says is in the
// finished table of a test.
package wording
