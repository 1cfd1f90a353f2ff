package oxide

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// fourEnds are four ends of thirty materials with thirty-five oxides each.
func fourEnds() []Vector {
	rnd := rand.New(rand.NewPCG(1, 2))
	var own []Material
	for i := range 30 {
		m := Material{Name: fmt.Sprintf("Material %c", 'a'+i), Density: 2.6, Analysis: Analysis{LOI: 5}}
		sum := 0.0
		for _, o := range Oxides()[:35] {
			a := Amount{o, rnd.Float64()}
			sum += a.Value
			m.Analysis.Oxides = append(m.Analysis.Oxides, a)
		}
		for k := range m.Analysis.Oxides {
			m.Analysis.Oxides[k].Value *= 95 / sum
		}
		own = append(own, m)
	}
	l := Library{}.With(own...)
	ends := make([]Vector, 4)
	for i := range ends {
		var parts []Part
		for _, m := range own {
			parts = append(parts, Part{m.Name, rnd.Float64()})
		}
		v, missing := l.Vector(parts)
		if len(missing) > 0 {
			panic(fmt.Sprint("missing ", missing))
		}
		ends[i] = v
	}
	return ends
}

const million = 1_000_000

// cellDoses gives the masses of a cell of a made-up quadraxial.
func cellDoses(i int, g []float64) {
	g[0], g[1], g[2], g[3] = float64(i%97+1), float64(i%89), float64(i%83), float64(i%79)
}

// One operation is a million cells of four ends, thirty materials, thirty-five
// oxides; the ends are multiplied out once, and each cell's oxides are handed
// on and forgotten.
func BenchmarkMillionCells(b *testing.B) {
	sum := 0.0
	b.Run("oxides", func(b *testing.B) {
		b.ReportAllocs()
		var v Vector
		for b.Loop() {
			ends, g := fourEnds(), make([]float64, 4)
			for i := range million {
				cellDoses(i, g)
				v.Combine(ends, g)
				sum += v.G[12]
			}
		}
	})
	b.Run("unity", func(b *testing.B) {
		b.ReportAllocs()
		var v Vector
		var r Row
		for b.Loop() {
			ends, g := fourEnds(), make([]float64, 4)
			for i := range million {
				cellDoses(i, g)
				v.Combine(ends, g)
				r.Fill(&v, Options{})
				sum += r.Unity[12]
			}
		}
	})
	if sum == 0 {
		b.Fatal("nothing was worked out")
	}
}
