package frame

import "example.com/quoin"

// Mat is a window mat around a print: its opening shows the image with a
// reveal around it, or covers its edge by an overlap, and borders surround the
// opening.
type Mat struct {
	Image   quoin.Size
	Reveal  quoin.Quantity // shown around the image; zero, or overlap in its place
	Overlap quoin.Quantity // of the mat over each edge of the image
	Top     quoin.Quantity // borders, from opening to outside
	Sides   quoin.Quantity
	Bottom  quoin.Quantity // often a little more than the top: a weighted mat
}

// Opening returns the size of the window: the image, reveal added and overlap
// taken off on every side. It errs, with a Problem, where nothing is left.
func (m Mat) Opening() (quoin.Size, error) {
	if err := lengths(m.Reveal, m.Overlap, m.Top, m.Sides, m.Bottom); err != nil {
		return quoin.Size{}, err
	}
	return m.Image.Grown(inMM(mm(m.Reveal).Sub(mm(m.Overlap))))
}

// Outside returns the outer size of the mat, which is also that of the glass.
// It errs as Opening does.
func (m Mat) Outside() (quoin.Size, error) {
	o, err := m.Opening()
	if err != nil {
		return quoin.Size{}, err
	}
	width := mm(o.Width()).Add(mm(m.Sides).Times(quoin.FactorOf(2)))
	height := mm(o.Height()).Add(mm(m.Top)).Add(mm(m.Bottom))
	return quoin.NewSize(inMM(width), inMM(height))
}
