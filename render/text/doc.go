// Package text prints a test for the terminal and for other programs: aligned
// tables, JSON and CSV, one function for each output. It computes nothing:
// every number comes from a finished blend.Test or results.Results, and how it
// looks is decided in blend/quantity and render/wording.
package text
