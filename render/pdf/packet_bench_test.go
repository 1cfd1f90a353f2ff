package pdf

import (
	"io"
	"testing"

	"pourboard/blend"
)

func benchmarkPacket(b *testing.B, p Packet) {
	b.Helper()
	s, _, err := p.draw()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := p.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(s.doc.pages)), "pages")
}

// The whole packet of 66 cups on three bodies. Target: 60 ms.
func BenchmarkPacket_66(b *testing.B) { benchmarkPacket(b, packetOf(b, "cells-66")) }

// The sheets to read and write on, without boards, of 66 cups.
func BenchmarkPacket_66bench(b *testing.B) {
	p := packetOf(b, "cells-66")
	p.Only = []string{"summary", "tickets", "pour", "chemistry", "log"}
	benchmarkPacket(b, p)
}

// The boards of 500 tiles at life size are 200 pages and more.
func BenchmarkPacket_200pages(b *testing.B) {
	p := packetOf(b, "cells-500", func(p *blend.Plan) { p.Tiles.WidthMM, p.Tiles.HeightMM = 50, 100 })
	benchmarkPacket(b, p)
}
