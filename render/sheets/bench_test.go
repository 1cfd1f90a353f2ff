package sheets

import (
	"io"
	"testing"

	"pourboard/blend"
)

func BenchmarkWrite(b *testing.B) {
	s := sheetsOf(b, "cells-66", func(p *blend.Plan) { p.Tiles.Bodies = p.Tiles.Bodies[:2] })
	for b.Loop() {
		if _, err := s.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
