package comparables

import (
	"fmt"

	"example.com/quoin"
)

// Basis is what the prices of comparables are converted to before they are compared: without
// postage and frame, with one rate of tax and, if there is an exponent, for a print of the
// product's size.
type Basis struct {
	// The rate of tax that prices are to hold; none where it is not given.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// How prices grow with the area of the print: 1 in proportion to it, 0.5 with its sides, 0
	// not at all; where it is not given, each price stays that of its own size.
	Exponent quoin.Optional[quoin.Factor] `json:"exponent,omitzero" range:"[-10,10]"`
}

// Bring returns the price of a comparable on the basis, for a product of a size:
//
//	(price + postage on top − postage − frame) × (1 + tax of the basis) ÷ (1 + its tax)
//
// With an exponent, this is multiplied by (area of the product ÷ its area)^exponent. Sums and
// whole powers are exact; quotients and other powers have 34 digits. Nothing is rounded to
// money. It returns false if the comparable cannot be converted: it is framed and the worth of
// the frame is unknown, there is an exponent and one of the two has no size, or nothing above
// zero is left.
func (b Basis) Bring(r Record, size quoin.Size) (quoin.Amount, bool) { return b.bringer(size)(&r) }

// bringer is Bring for many comparables, whose sizes are few; of no basis it
// leaves each price as it is.
func (b *Basis) bringer(size quoin.Size) func(*Record) (quoin.Amount, bool) {
	if b == nil {
		return func(r *Record) (quoin.Amount, bool) { return r.Price, true }
	}
	exponent, sized := b.Exponent.Get()
	known := make(map[areaKey]quoin.Factor)
	return func(r *Record) (quoin.Amount, bool) {
		price, ok := r.At(b.Tax)
		if !ok || !sized {
			return price, ok
		}
		if r.Size.IsZero() || size.IsZero() {
			return quoin.Amount{}, false
		}
		key := keyOf(r.Size.Area().Number())
		times, found := known[key]
		if !found {
			times = areas(size, r.Size).Power(exponent)
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

// String says what prices are brought to.
func (b Basis) String() string {
	text := fmt.Sprintf("prices with %v tax, without postage and frame", b.Tax)
	if e, given := b.Exponent.Get(); given {
		text += fmt.Sprintf(", × area to the power of %v", e)
	}
	return text
}
