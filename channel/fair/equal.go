package fair

import "slices"

// Equal reports whether both are the same volume of the same products.
func (v Volume) Equal(w Volume) bool {
	return v.Prints.Equal(w.Prints) && v.Whole.Equal(w.Whole) && v.Sales.Equal(w.Sales) && slices.EqualFunc(v.ByProduct, w.ByProduct, Count.Equal)
}

// Equal reports whether both are as many prints of the same product.
func (c Count) Equal(d Count) bool {
	return c.Product == d.Product && c.Prints.Equal(d.Prints) && c.Nearest.Equal(d.Nearest)
}
