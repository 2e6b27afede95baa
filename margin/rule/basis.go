package rule

import "example.com/quoin"

// Basis is what the prices of comparables are brought to before they are
// compared: without postage and frame, with one rate of tax and, where there is an
// exponent, for a print of the product's size.
type Basis struct {
	// Tax is the rate of tax that prices are to hold, 0 for prices without tax.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Exponent is how prices grow with area: 1 in proportion to it, 0.5 with the
	// sides of the print, 0 not at all. None leaves each price at its own size.
	Exponent quoin.Optional[quoin.Factor] `json:"exponent,omitzero" range:"[-10,10]"`
}

// Bring returns the price of a comparable on the basis, for a product of a size:
//
//	(price + postage on top − postage − frame) × (1 + tax of the basis) ÷ (1 + its tax)
//
// and with an exponent × (area of the product ÷ its area)^exponent. Sums and whole
// powers are exact, quotients and other powers carry 34 digits; nothing is rounded
// to money. It is false where the comparable cannot be brought there: it is framed
// and nobody says what the frame is worth, there is an exponent and one of the two
// has no size, or nothing above zero is left.
func (b Basis) Bring(c Comparable, size quoin.Size) (quoin.Amount, bool) { return b.bringer(size)(c) }

// bringer is Bring for many comparables, whose sizes are few; of no basis it
// leaves each price as it is.
func (b *Basis) bringer(size quoin.Size) func(Comparable) (quoin.Amount, bool) {
	if b == nil {
		return func(c Comparable) (quoin.Amount, bool) { return c.Price, true }
	}
	exponent, sized := b.Exponent.Get()
	known := make(map[areaKey]quoin.Factor)
	return func(c Comparable) (quoin.Amount, bool) {
		price, ok := b.atOwnSize(c)
		if !ok || !sized {
			return price, ok
		}
		if c.Size.IsZero() || size.IsZero() {
			return quoin.Amount{}, false
		}
		key := keyOf(c.Size.Area().Number())
		times, found := known[key]
		if !found {
			times = areas(size, c.Size).Power(exponent)
			known[key] = times
		}
		price = price.Times(times)
		return price, price.Sign() > 0
	}
}

// areaKey tells areas apart in a map: equal areas have the same one, however the
// sizes are written.
type areaKey struct {
	millionths int64 // of 1 cm²
	text       string
}

// keyOf is the key of an area; its text is taken only where millionths do not do.
func keyOf(area quoin.Factor) areaKey {
	if n, ok := area.Units(6); ok {
		return areaKey{millionths: n}
	}
	r := area.Rat()
	return areaKey{text: r.String()}
}

// areas is the area of one size ÷ that of another.
func areas(of, over quoin.Size) quoin.Factor {
	return of.Area().Number().Over(over.Area().Number())
}

// atOwnSize brings a price to the basis but for its size.
func (b Basis) atOwnSize(c Comparable) (quoin.Amount, bool) {
	bare, ok := c.bare()
	if !ok {
		return quoin.Amount{}, false
	}
	return bare.Times(b.Tax.OnePlus()).Over(c.Tax.OnePlus()), true
}

// bare is what a comparable asks for the print alone, with its tax; false where that is
// not known, or nothing.
func (c *Comparable) bare() (quoin.Amount, bool) {
	worth, known := c.FrameWorth.Get()
	if c.Framed && !known {
		return quoin.Amount{}, false
	}
	bare := c.Price.Add(c.PostageOnTop).Sub(c.Postage).Sub(worth)
	return bare, bare.Sign() > 0
}
