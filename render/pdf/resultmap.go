package pdf

import (
	"fmt"

	"pourboard/blend/results"
	"pourboard/render/wording"
)

// A class of a map is told three ways, since paper, printers and eyes differ:
// by its grey, by how many squares stand in the place, and by the value itself.
const (
	darkest   = 0.62 // grey of the highest class: figures on it are still black on light
	noneRead  = "–"
	pipRatio  = 0.62 // side of a square, as a part of the height of small figures
	mostPipMM = 1.5
)

// classGrey is the grey of the class with an index, of so many.
func classGrey(k, of int) float64 {
	if of == 1 {
		return 1
	}
	return 1 - (1-darkest)*float64(k)/float64(of-1)
}

// pips draws as many squares as the class has steps, ending at x, with their
// middles at y.
func (p *page) pips(x, y, side float64, class int) {
	for i := range class + 1 {
		p.fillRect(x-side-1.5*side*float64(i), y-side/2, side, side, 0)
	}
}

// resultMaps are the maps of a measure, one for each body, with their legend.
func (p *report) resultMaps(f *flow, m *results.Measure) {
	f.subheading("Maps")
	f.para("The cups in the shape of the design: "+wording.ShapeText(p.r)+". "+wording.EndsText(p.r)+".", regular(benchPt))
	f.para("In each place the small figure is the cup, the large one "+meanText(m)+". More squares, and darker, is more; "+noneRead+" is where nothing was read.", regular(benchPt))
	p.legend(f, m)
	for body, means := range m.Means {
		read := 0
		for _, mean := range means {
			read += mean.N
		}
		if read == 0 {
			continue // it is among what is missing
		}
		p.resultMap(f, m, body)
	}
}

// meanText says what the figure in a place is.
func meanText(m *results.Measure) string {
	if m.Scatter.TileDF > 0 {
		return "the mean of its tiles"
	}
	return "what was read"
}

// legend says what values each class has.
func (p *report) legend(f *flow, m *results.Measure) {
	const wMM, hMM, gapMM = 14.0, 6.0, 6.0
	ft := regular(benchPt)
	x := f.left()
	for k := range m.Classes {
		text := wording.ClassText(m, k)
		w := wMM + 2 + f.doc.width(text, ft)
		if x > f.left() && x+w > f.right() {
			x = f.left()
			f.y += hMM + 2
		}
		if x == f.left() {
			f.need(hMM + 2)
		}
		f.page.fillRect(x, f.y, wMM, hMM, classGrey(k, len(m.Classes)))
		f.page.rect(x, f.y, wMM, hMM, thin)
		f.page.pips(x+wMM-1, f.y+hMM/2, mostPipMM, k)
		f.page.text(x+wMM+2, f.y+hMM/2+0.36*ft.pt*mmPerPt, text, ft, left)
		x += w + gapMM
	}
	f.y += hMM + 3
}

// resultMap is the map of one body.
func (p *report) resultMap(f *flow, m *results.Measure, body int) {
	const headMM = 14.0
	shape := p.newMap(f.width(), f.whole()-headMM-10)
	f.need(min(headMM+shape.layerMM[0], f.whole()))
	title := m.Head + " on " + wording.BodyText(p.r, body)
	f.subheading(title)
	f.doc.bookmark(1, title)
	look := p.placeLook(m, body, shape)
	if look.valuePt < leastMapPt {
		f.para("The places are too small for figures: they follow below.", regular(benchPt))
	}
	f.cells(shape, func(x, y float64, cup int) {
		p.resultPlace(f.page, x, y, shape, look, m, body, cup)
	})
	if look.valuePt < leastMapPt {
		p.valueList(f, m, body, title)
	}
}

// A placeLook is the sizes of what stands in every place of one map.
type placeLook struct {
	small   font // of the cup's number
	valuePt float64
	pipMM   float64
	headMM  float64 // height of the number and the squares
}

const (
	placePadMM = 0.4
	valuePart  = 0.9 // of a place's width, so that figures do not run together
)

// placeLook finds the largest sizes with which every place holds its figures.
func (p *report) placeLook(m *results.Measure, body int, shape cellMap) placeLook {
	const mostSmall, mostValue = 8.0, 14.0
	number, value := 0.0, 0.0
	for i, mean := range m.Means[body] {
		number = max(number, p.doc.width(fmt.Sprint(i+1), regular(1)))
		value = max(value, p.doc.width(meanValue(m, mean), bold(1)))
	}
	em := (ascentEm + descentEm) * mmPerPt
	inner := shape.wMM - 2*placePadMM
	pips := 1.5*float64(len(m.Classes)) + 0.5 // in sides of a square, with the gap before them
	pip := pipRatio * 0.73 * mmPerPt          // the same as a part of the size: 0.73 is the height of figures
	k := placeLook{small: regular(min(mostSmall, 0.4*(shape.hMM-2*placePadMM)/em, inner/(number+pips*pip)))}
	k.pipMM = min(mostPipMM, pip*k.small.pt)
	k.headMM = em * k.small.pt
	k.valuePt = min(mostValue, valuePart*inner/value, (shape.hMM-2*placePadMM-k.headMM)/em)
	return k
}

// meanValue is the value of a place, or the sign for none.
func meanValue(m *results.Measure, mean results.Mean) string {
	if mean.N == 0 {
		return noneRead
	}
	return wording.ValueText(m, mean.Value, mean.N)
}

// resultPlace draws one place with its top left corner at x, y.
func (p *report) resultPlace(at *page, x, y float64, shape cellMap, look placeLook, m *results.Measure, body, cup int) {
	mean := m.Means[body][cup-1]
	if mean.N > 0 {
		at.fillRect(x, y, shape.wMM, shape.hMM, classGrey(mean.Class, len(m.Classes)))
	}
	at.rect(x, y, shape.wMM, shape.hMM, thin)
	base := y + placePadMM + look.small.ascentMM()
	at.text(x+placePadMM, base, fmt.Sprint(cup), look.small, left)
	if mean.N > 0 {
		at.pips(x+shape.wMM-placePadMM-0.2, base-0.36*look.small.pt*mmPerPt, look.pipMM, mean.Class)
	}
	if look.valuePt < leastMapPt {
		return
	}
	value := bold(look.valuePt)
	top, room := y+placePadMM+look.headMM, shape.hMM-2*placePadMM-look.headMM
	at.text(x+shape.wMM/2, top+(room-value.ascentMM()-value.descentMM())/2+value.ascentMM(), meanValue(m, mean), value, centre)
}

// valueList is the values of a map whose places are too small for them.
func (p *report) valueList(f *flow, m *results.Measure, body int, title string) {
	var rows []stripRow
	for i, mean := range m.Means[body] {
		rows = append(rows, stripRow{texts: []string{fmt.Sprint(i + 1), meanValue(m, mean)}, rule: i > 0 && p.newRow(i-1, i)})
	}
	f.strips(strips{rows: rows, columns: []stripColumn{
		{title: "cup", align: right, font: bold(benchPt), shade: true},
		{title: "value", align: right, font: regular(benchPt)},
	}}).set(title)
}
