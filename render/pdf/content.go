package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
)

// What is drawn on a page is written here as operators of ISO 32000-1:2008:
// graphics state 8.4.4, paths 8.5, colour 8.6.8, text 9.2 to 9.4. gopdf could do
// it, but keeps an object for every line and text and prints each with fmt: for
// 66 cups on three bodies, 107 pages, that was 50 ms of 80 and 20 MB of 32.

// contents are the objects with the pages' content, compressed. Pages are written
// side by side; since none knows of another, the bytes are the same however
// many hands there are.
func (d *doc) contents(regular, bold subset) ([][]byte, error) {
	const pagesEach = 8 // a hand's buffers and compressor, 1 MB, must be worth their while
	objects := make([][]byte, len(d.pages))
	hands := min(runtime.GOMAXPROCS(0), 1+len(d.pages)/pagesEach)
	failed := make([]error, hands)
	var next atomic.Int64
	var wait sync.WaitGroup
	for hand := range hands {
		wait.Go(func() {
			var packed bytes.Buffer
			// A packet is a seventh larger than with the usual level, and a fifth sooner done.
			packer, err := zlib.NewWriterLevel(&packed, zlib.BestSpeed)
			c := content{regular: regular, bold: bold}
			for err == nil {
				i := int(next.Add(1)) - 1
				if i >= len(d.pages) {
					break
				}
				packed.Reset()
				packer.Reset(&packed)
				if _, err = packer.Write(c.draw(d.pages[i])); err == nil {
					err = packer.Close()
				}
				o := make([]byte, 0, packed.Len()+80)
				o = fmt.Appendf(o, "<< /Filter /FlateDecode /Length %d >>\nstream\n", packed.Len())
				o = append(o, packed.Bytes()...)
				objects[i] = append(o, "\nendstream\n"...)
			}
			failed[hand] = err
		})
	}
	wait.Wait()
	return objects, errors.Join(failed...)
}

// A content writes the content streams of pages, one after the other. Places
// and lengths in it are whole hundredths of a point, 0.0035 mm, which is far
// below what any printer does.
type content struct {
	regular, bold subset

	out []byte
	// From millimetres on the page, downwards, to places in the file, upwards:
	// the page's own scale is about its middle.
	perMM, x0, y0 float64

	pen  pen     // what lines are drawn with; a width of 0 is not set yet
	fill float64 // grey of fills and texts; below 0 is not set yet
	font font    // of texts; a size of 0 is not set yet
}

// draw writes the content of a page. It is good until the next is drawn.
func (c *content) draw(p *page) []byte {
	c.out = c.out[:0]
	c.perMM = p.scale * 100 / mmPerPt
	c.x0 = (1 - p.scale) * p.wMM / 2 * 100 / mmPerPt
	c.y0 = (1 + p.scale) * p.hMM / 2 * 100 / mmPerPt
	c.pen, c.fill, c.font = pen{}, -1, font{}
	for i := range p.ops {
		o := &p.ops[i]
		switch o.kind {
		case opText:
			c.useFill(o.pen.grey)
			c.text(o)
		case opFill:
			c.useFill(o.pen.grey)
			c.path(o.at)
			c.operator("f")
		case opPolygon:
			c.usePen(o.pen)
			c.path(o.at)
			c.operator("s")
		case opLine:
			c.usePen(o.pen)
			c.path(o.at)
			c.operator("S")
		case opRect:
			c.usePen(o.pen)
			x, y := c.place(o.at[0])
			x2, y2 := c.place(o.at[1])
			c.numbers(x, y, x2-x, y2-y)
			c.operator("re S")
		case opCircle:
			c.usePen(o.pen)
			c.circle(o.at[0], o.radiusMM)
		}
	}
	return c.out
}

// usePen sets what differs from the pen in use.
func (c *content) usePen(p pen) {
	p.mm = max(p.mm, leastPenMM)
	fresh := c.pen.mm == 0
	if p.mm != c.pen.mm {
		c.numbers(c.length(p.mm))
		c.operator("w")
	}
	if fresh || p.grey != c.pen.grey {
		c.numbers(hundredths(p.grey))
		c.operator("G")
	}
	if !slices.Equal(p.dash, c.pen.dash) {
		c.out = append(c.out, '[')
		for _, mm := range p.dash { // finer than other lengths, since errors add up along a ruler
			c.out = strconv.AppendFloat(c.out, math.Round(mm*c.perMM*100)/1e4, 'f', -1, 64)
			c.out = append(c.out, ' ')
		}
		c.operator("] 0 d")
	}
	c.pen = p
}

// useFill sets the grey of fills and texts if it differs from that in use.
func (c *content) useFill(grey float64) {
	if grey != c.fill {
		c.fill = grey
		c.numbers(hundredths(grey))
		c.operator("g")
	}
}

// path goes straight from each point to the next.
func (c *content) path(at []point) {
	for i := range at {
		c.numbers(c.place(at[i]))
		if i == 0 {
			c.out = append(c.out, "m "...)
		} else {
			c.out = append(c.out, "l "...)
		}
	}
}

// circle draws a circle as four curves. Their handles are at 0.5523 of the
// radius, with which they stray from a circle by 0.03 % of it (common practice).
func (c *content) circle(middle point, radiusMM float64) {
	x, y := c.place(middle)
	r := c.length(radiusMM)
	h := int(math.Round(0.5523 * float64(r)))
	c.numbers(x+r, y)
	c.out = append(c.out, "m "...)
	c.numbers(x+r, y+h, x+h, y+r, x, y+r)
	c.out = append(c.out, "c "...)
	c.numbers(x-h, y+r, x-r, y+h, x-r, y)
	c.out = append(c.out, "c "...)
	c.numbers(x-r, y-h, x-h, y-r, x, y-r)
	c.out = append(c.out, "c "...)
	c.numbers(x+h, y-r, x+r, y-h, x+r, y)
	c.operator("c s")
}

// text writes a line of text, two bytes for each glyph (ISO 32000-1, 7.3.4.2 and
// 9.7.6.2): half of what hexadecimal digits take, and sooner compressed.
func (c *content) text(o *op) {
	s := &c.regular
	if o.font.bold {
		s = &c.bold
	}
	if o.font != c.font {
		c.font = o.font
		size := o.font.pt * c.perMM * mmPerPt / 100
		c.out = append(c.out, s.name...)
		c.out = append(c.out, ' ')
		c.out = strconv.AppendFloat(c.out, math.Round(size*1000)/1000, 'f', -1, 64)
		c.operator(" Tf")
	}
	c.out = append(c.out, "BT "...)
	x, y := c.place(o.at[0])
	if o.degrees == 0 {
		c.numbers(x, y)
		c.out = append(c.out, "Td ("...)
	} else {
		sin, cos := math.Sincos(o.degrees * math.Pi / 180)
		for _, v := range [...]float64{cos, sin, -sin, cos} {
			c.out = strconv.AppendFloat(c.out, math.Round(v*1e5)/1e5, 'f', -1, 64)
			c.out = append(c.out, ' ')
		}
		c.numbers(x, y)
		c.out = append(c.out, "Tm ("...)
	}
	for _, r := range o.text {
		for _, b := range [...]byte{byte(s.glyphs[r] >> 8), byte(s.glyphs[r])} {
			switch b {
			case '(', ')', '\\':
				c.out = append(c.out, '\\')
			case '\r': // as it is, it would be read as an end of line
				c.out = append(c.out, '\\')
				b = 'r'
			}
			c.out = append(c.out, b)
		}
	}
	c.operator(") Tj ET")
}

// place is a point of the page in the file.
func (c *content) place(at point) (x, y int) {
	return int(math.Round(c.x0 + at.x*c.perMM)), int(math.Round(c.y0 - at.y*c.perMM))
}

func (c *content) length(mm float64) int { return int(math.Round(mm * c.perMM)) }

func hundredths(v float64) int { return int(math.Round(v * 100)) }

// numbers writes numbers, which are given in hundredths.
func (c *content) numbers(values ...int) {
	b := c.out
	for _, v := range values {
		if v < 0 {
			b = append(b, '-')
			v = -v
		}
		b = strconv.AppendInt(b, int64(v/100), 10)
		if cents := v % 100; cents != 0 {
			b = append(b, '.', '0'+byte(cents/10))
			if cents%10 != 0 {
				b = append(b, '0'+byte(cents%10))
			}
		}
		b = append(b, ' ')
	}
	c.out = b
}

func (c *content) operator(name string) {
	c.out = append(c.out, name...)
	c.out = append(c.out, '\n')
}
