// Package blend is the engine: a Plan goes in, and out comes a Test, the
// finished table of what is mixed, poured and weighed, how far off that can be
// and what each cup is made of.
//
// It is pure: no files, no pages, no text but warnings and names. Package plan
// makes a Plan from a file; the packages slip, measure, oxide and mixmodel
// hold the sciences that it puts together; package layout puts the cups and
// tiles on boards, and the packages under render print. Start reading at New.
package blend
