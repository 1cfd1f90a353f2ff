package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"sync"

	"github.com/signintech/gopdf"
)

// write draws the footers and writes the packet as a PDF file. Nothing is
// written if anything is wrong. A doc can be written once.
func (d *doc) write(w io.Writer) error {
	d.footers()
	if err := d.sound(); err != nil {
		return err
	}
	regular, bold := d.subsets()
	var raw []byte
	var pageObjects []int
	var failed error
	var wait sync.WaitGroup
	wait.Go(func() { raw, pageObjects, failed = d.emit(regular, bold) })
	contents, err := d.contents(regular, bold)
	wait.Wait()
	if err := errors.Join(failed, err); err != nil {
		return err
	}
	finished, err := d.finish(raw, pageObjects, contents)
	if err != nil {
		return err
	}
	_, err = w.Write(finished)
	return err
}

// sound refuses what gopdf would write as it is, and a viewer then choke on.
func (d *doc) sound() error {
	if len(d.pages) == 0 {
		return fmt.Errorf("the packet has no pages")
	}
	finite := func(values ...float64) bool {
		return !slices.ContainsFunc(values, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
	}
	for i, p := range d.pages {
		fine := finite(p.wMM, p.hMM, p.scale) && p.wMM > 0 && p.hMM > 0 && p.scale > 0
		for _, o := range p.ops {
			fine = fine && finite(o.pen.mm, o.pen.grey, o.radiusMM, o.font.pt, o.degrees, o.widthMM) && finite(o.pen.dash...)
			for _, at := range o.at {
				fine = fine && finite(at.x, at.y)
			}
		}
		if !fine {
			return fmt.Errorf("page %d (%s): a size or a place on it is not a finite number; nothing was written", i+1, p.section)
		}
	}
	return nil
}

// leastPenMM is the thinnest line: the file has two decimals of a point, and a
// width of 0 means the thinnest that a printer can do, which may be none.
const leastPenMM = 0.05

// emit returns the file as gopdf writes it, with pages that are empty, and the
// number of each page's object.
func (d *doc) emit(regular, bold subset) ([]byte, []int, error) {
	pdf := &gopdf.GoPdf{}
	first := d.pages[0]
	pdf.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: first.wMM / mmPerPt, H: first.hMM / mmPerPt}})
	pdf.SetNoCompression()
	for _, s := range []subset{regular, bold} {
		if s.ttf == nil {
			continue
		}
		if err := pdf.AddTTFFontData(s.family, s.ttf); err != nil {
			return nil, nil, err
		}
		if err := pdf.SetFont(s.family, "", 1); err != nil {
			return nil, nil, err
		}
		// So gopdf learns which characters the pages have.
		if _, err := pdf.MeasureTextWidth(string(s.runes)); err != nil {
			return nil, nil, err
		}
	}
	objects := make([]int, len(d.pages))
	for i, p := range d.pages {
		objects[i] = pdf.GetNextObjectID()
		pdf.AddPageWithOption(gopdf.PageOption{PageSize: &gopdf.Rect{W: p.wMM / mmPerPt, H: p.hMM / mmPerPt}})
		pdf.SetGrayFill(0) // a page with no content at all would have no stream
	}
	var raw bytes.Buffer
	if _, err := pdf.WriteTo(&raw); err != nil {
		return nil, nil, err
	}
	return raw.Bytes(), objects, nil
}

// The names under which gopdf keeps the faces. The six letters say that a
// font is a subset (ISO 32000-1, 9.6.4).
const (
	regularFamily = "PBREGU+DejaVuSans"
	boldFamily    = "PBBOLD+DejaVuSans-Bold"
)
