package frame

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Mat is a window mat around a print. Its opening is larger than the image by a reveal, or
// smaller by an overlap, and borders surround the opening.
type Mat struct {
	Image   quoin.Size
	Reveal  quoin.Quantity // shown around the image; zero, or overlap in its place
	Overlap quoin.Quantity // of the mat over each edge of the image
	Top     quoin.Quantity // borders, from opening to outside
	Sides   quoin.Quantity
	Bottom  quoin.Quantity // often a little more than the top: a weighted mat
}

// Opening returns the size of the window: the image, plus the reveal and minus the overlap on
// every side. The error is Problems, if a value is not a length or nothing is left.
func (m Mat) Opening() (quoin.Size, error) {
	var k form.Collector
	for _, q := range []struct {
		name string
		of   quoin.Quantity
	}{{"reveal", m.Reveal}, {"overlap", m.Overlap}, {"top", m.Top}, {"sides", m.Sides}, {"bottom", m.Bottom}} {
		if !q.of.IsZero() {
			_, err := q.of.In("mm")
			k.AddAll(form.In(q.name), err)
		}
	}
	if err := k.All().Err(); err != nil {
		return quoin.Size{}, err
	}
	size, err := m.Image.Grown(inMM(mm(m.Reveal).Sub(mm(m.Overlap))))
	k.AddAll(form.In("image"), err)
	return size, k.All().Err()
}

// Outside returns the outer size of the mat, which is also the size of the glass. It errs as
// Opening does.
func (m Mat) Outside() (quoin.Size, error) {
	o, err := m.Opening()
	if err != nil {
		return quoin.Size{}, err
	}
	width := mm(o.Width()).Add(mm(m.Sides).Times(quoin.FactorOf(2)))
	height := mm(o.Height()).Add(mm(m.Top)).Add(mm(m.Bottom))
	size, err := quoin.NewSize(inMM(width), inMM(height))
	if err != nil {
		var k form.Collector
		k.AddAll(nil, err)
		return quoin.Size{}, k.All()
	}
	return size, nil
}
