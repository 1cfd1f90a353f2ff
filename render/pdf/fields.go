package pdf

// A blank is something to write by hand: its name, and the line behind it.
const (
	blankMM     = 9.5  // height of a line of blanks, for a pencil held in a glove
	leastLineMM = 24.0 // of the line to write on
)

// blanks sets places to write on, two abreast where both have room.
func (f *flow) blanks(names ...string) {
	ft := regular(benchPt)
	const gap = 6.0
	half := (f.width() - gap) / 2
	x := f.left()
	for i, name := range names {
		fits := f.doc.width(name, ft)+2+leastLineMM <= half
		if !fits || x == f.left() {
			x = f.left()
			f.need(blankMM)
		}
		w := half
		if !fits {
			w = f.width()
		}
		name = f.doc.shorten(name, ft, w-2-leastLineMM/2)
		base := f.y + blankMM - ft.descentMM() - 1
		f.page.text(x, base, name, ft, left)
		f.page.line(x+f.doc.width(name, ft)+2, base+ft.descentMM(), x+w, base+ft.descentMM(), thin)
		alone := !fits || x > f.left() || i == len(names)-1 ||
			f.doc.width(names[i+1], ft)+2+leastLineMM > half
		if alone {
			x = f.left()
			f.y += blankMM
		} else {
			x += half + gap
		}
	}
	f.space(2)
}

// A fact is a name and what is said under it.
type fact struct{ name, text string }

// facts sets facts one below the other, names at the left.
func (f *flow) facts(list []fact) {
	name, ft := bold(benchPt), regular(benchPt)
	indent := 0.0
	for _, x := range list {
		indent = max(indent, f.doc.width(x.name, name)+4)
	}
	indent = min(indent, f.width()*0.4)
	for _, x := range list {
		names := f.doc.wrap(x.name, name, indent-2)
		texts := f.doc.wrap(x.text, ft, f.width()-indent)
		count := max(len(names), len(texts))
		for i := range count {
			if keep := ft.lineMM(); i == 0 && count <= 4 { // a short one stays on one page
				f.need(float64(count) * keep)
			} else {
				f.need(keep)
			}
			base := f.y + ft.ascentMM()
			if i < len(names) {
				f.page.text(f.left(), base, names[i], name, left)
			}
			if i < len(texts) {
				f.page.text(f.left()+indent, base, texts[i], ft, left)
			}
			f.y += ft.lineMM()
		}
		f.space(1)
	}
	f.space(1)
}
