// Package pdf draws what is printed: the packet for the bench, the boards at
// life size, and the fired results. It is the only package that knows the PDF
// library.
//
// It computes no amounts: those come finished from package blend, and places
// on boards from package layout. It draws in black and greys alone, and it does
// not write files: every function takes an io.Writer, builds the whole in
// memory, and writes nothing if anything is wrong.
//
// Read canvas.go next for what can be drawn, flow.go and table.go for sheets
// of text, emit.go and finish.go for how the file comes about.
package pdf
