package frame

import (
	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/internal/form"
)

// Moulding is the moulding of a frame, cut from a length.
type Moulding struct {
	// Width is across its face.
	Width quoin.Quantity `json:"width" need:"yes" range:"(0," dim:"length"`
	// Rabbet is how far it reaches over the glass; zero means that the glass is
	// taken to meet the inner edge.
	Rabbet quoin.Quantity `json:"rabbet,omitzero" range:"[0," dim:"length"`
	// Allowance is added once to the length, for cuts and play. It counts where
	// moulding is bought by length; out of sticks the kerf of the stick does.
	Allowance quoin.Quantity `json:"allowance,omitzero" range:"[0," dim:"length"`
	// Least is the least length that is sold for a frame.
	Least quoin.Quantity `json:"least,omitzero" range:"[0," dim:"length"`
	// Together is how many frames are cut in one go out of sticks; zero means 1.
	Together int64 `json:"together,omitzero" range:"[1,10000]"`
	// Glass is the size of the glass; a bill may leave it to its product.
	Glass quoin.Size `json:"glass,omitzero"`
}

// Codes of frames that cannot be made.
const (
	MissingGlass quoin.Code = "missing_glass"      // no size of the glass
	RabbetTooBig quoin.Code = "rabbet_above_width" // a rabbet as wide as the moulding
)

// Check returns everything that is wrong with the moulding, at once: values that its fields do
// not take, and a rabbet that is not less than the width. The glass may be missing, because a
// product may give it. The error is quoin.Problems.
func (m Moulding) Check() error { return m.check().All().Err() }

func (m Moulding) check() *form.Collector {
	k := form.Computed(m)
	if !k.Under(form.In("width")) && mm(m.Rabbet).Cmp(mm(m.Width)) >= 0 {
		k.Fault(form.In("rabbet"), RabbetTooBig, m.Rabbet.String(), "less than the width of "+m.Width.String(), "")
	}
	return k
}

// glazed is Check, and asks for the glass. What is sound at sight is not checked: it is asked
// for each frame of a bill.
func (m Moulding) glazed() error {
	if !m.Glass.IsZero() && isLength(m.Width) && isLength(m.Rabbet) && isLength(m.Allowance) && isLength(m.Least) &&
		m.face().Sign() > 0 && m.Rabbet.Sign() >= 0 && m.Together >= 0 {
		return nil
	}
	k := m.check()
	if m.Glass.IsZero() {
		k.Fault(form.In("glass"), MissingGlass, "no size", "the size of the glass", "give the product a frame")
	}
	return k.All().Err()
}

// isLength reports whether a quantity is a length, or was not given.
func isLength(q quoin.Quantity) bool { return q.IsZero() || q.Unit().Dimension() == "length" }

func mm(q quoin.Quantity) quoin.Factor {
	if q.IsZero() {
		return quoin.Factor{}
	}
	in, err := q.In("mm")
	if err != nil {
		return quoin.Factor{}
	}
	return in.Number()
}

func inMM(f quoin.Factor) quoin.Quantity { return quoin.Unit("mm").Times(f) }

// face is how far each rail goes beyond the glass at both ends.
func (m Moulding) face() quoin.Factor { return mm(m.Width).Sub(mm(m.Rabbet)) }

// Length returns the length of moulding that a frame takes, in mm, exactly: 2(W + H) + 8 ×
// (width − rabbet) + allowance, and at least Least. It errs as Check does, and without a glass.
func (m Moulding) Length() (quoin.Quantity, error) {
	if err := m.glazed(); err != nil {
		return quoin.Quantity{}, err
	}
	around := mm(m.Glass.Width()).Add(mm(m.Glass.Height())).Times(quoin.FactorOf(2))
	length := around.Add(m.face().Times(quoin.FactorOf(8))).Add(mm(m.Allowance))
	if least := mm(m.Least); length.Cmp(least) < 0 {
		length = least
	}
	return inMM(length), nil
}

// Rails returns the four rails of one frame, or of all frames that are cut together. From tip
// to tip they are W + 2 × (width − rabbet) and H + 2 × (width − rabbet) long. It errs as Length
// does.
func (m Moulding) Rails() ([]cut.Rail, error) {
	if err := m.glazed(); err != nil {
		return nil, err
	}
	beyond := m.face().Times(quoin.FactorOf(2))
	n := 2 * max(m.Together, 1)
	return []cut.Rail{
		{Length: inMM(mm(m.Glass.Height()).Add(beyond)), Count: n},
		{Length: inMM(mm(m.Glass.Width()).Add(beyond)), Count: n},
	}, nil
}

// Outside returns the outer size of the frame. It errs as Length does.
func (m Moulding) Outside() (quoin.Size, error) {
	if err := m.glazed(); err != nil {
		return quoin.Size{}, err
	}
	return m.Glass.Grown(inMM(m.face()))
}

// PerFrame returns the share of a stick that one frame takes, sticks ÷ frames cut together, and
// how the sticks are cut. It errs as Length and cut.Stick.Out do.
func (m Moulding) PerFrame(s cut.Stick) (quoin.Factor, cut.Sticks, error) {
	rails, err := m.Rails()
	if err != nil {
		return quoin.Factor{}, cut.Sticks{}, err
	}
	sticks, err := s.Out(rails...)
	if err != nil {
		return quoin.Factor{}, cut.Sticks{}, err
	}
	return quoin.FactorOf(sticks.Sticks).Over(quoin.FactorOf(max(m.Together, 1))), sticks, nil
}
