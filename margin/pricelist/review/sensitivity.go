package review

import (
	"cmp"
	"errors"
	"maps"
	"slices"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
)

// InputEffect is what changing one number of a document does to floors, with all others unchanged.
type InputEffect struct {
	// Input is where the number stands, with the id or name of each entry of a list. Path says
	// the same by indexes. Value is what is written there.
	Input string `json:"input"`
	Path  string `json:"path"`
	Value string `json:"value"`
	// Down and Up are the lower and the higher value that were tried. One is empty if the
	// document cannot hold it, such as a yield above 100%.
	Down string `json:"down,omitempty"`
	Up   string `json:"up,omitempty"`
	// Swing is the largest swing of a product. NoPrice says that with one of the values some
	// product has no possible price, which counts for more than any swing.
	Swing   quoin.Amount `json:"swing"`
	NoPrice bool         `json:"no_price,omitzero"`
	// Products are those whose floor it moves, or takes away, in their order.
	Products []Swing `json:"products"`
}

// Swing is what moving an input does to the floor of one product.
type Swing struct {
	Product string       `json:"product"`
	Floor   quoin.Amount `json:"floor"`
	// Down and Up are the floors with the lower and the higher value. One is not given if there
	// is no such value, or if no price is allowed with it.
	Down quoin.Optional[quoin.Amount] `json:"down,omitzero"`
	Up   quoin.Optional[quoin.Amount] `json:"up,omitzero"`
	// Swing is the highest minus the lowest of Down, Floor and Up, of those that are given.
	// NoPrice says that with one of the values no price is allowed.
	Swing   quoin.Amount `json:"swing"`
	NoPrice bool         `json:"no_price,omitzero"`
}

// mostMoved bounds the inputs of Sensitivity.
const mostMoved = 400

// Foremost is how many inputs Matter names.
const Foremost = 3

// Sensitivity says which figures of a document move its floors most (see Floor). It changes each
// figure alone, down and up by a share of it, and decides the floors anew. Zero stands for 10%: a
// sheet at 4.90 is tried at 4.41 and at 5.39.
//
// It goes through amounts, rates, factors and quantities above zero of supplies, machines, stages,
// bills, channels, overhead and taxes. It does not change counts, sizes and what rules ask, nor
// what cannot change alone, such as the share of one kind of order.
//
// Figures that leave some product no price come first, then those with the largest swing, of
// equal ones by name. Figures that move no floor are left out.
//
// The error is quoin.Problems: what is wrong with the document, more than 400 figures, a share of
// 100% or more, or a document too long to be decided twice for each figure.
func Sensitivity(doc pricelist.Document, by quoin.Rate) ([]InputEffect, error) {
	if by.IsZero() {
		by = quoin.AmountOf(1, 1).Share(quoin.AmountOf(1, 0))
	}
	if by.Sign() < 0 || by.Complement().Sign() <= 0 {
		return nil, fault(quoin.OutOfRange, "", "a move by "+by.String(), "a share above 0% and below 100%")
	}
	tree, err := treeOf(doc)
	if err != nil {
		return nil, err
	}
	tree = floored(tree)
	numbers, err := numbersOf(tree)
	if err != nil {
		return nil, err
	}
	if len(numbers) > mostMoved {
		return nil, fault(quoin.TooMany, "", strconv.Itoa(len(numbers))+" inputs", "at most "+strconv.Itoa(mostMoved))
	}
	var w work
	likely, err := w.floorsOf(tree)
	if err != nil {
		return nil, err
	}
	out := []InputEffect{}
	for _, n := range numbers {
		one, err := n.influence(&w, tree, likely, by)
		if err != nil {
			return nil, err
		}
		if len(one.Products) > 0 {
			out = append(out, one)
		}
	}
	slices.SortFunc(out, func(a, b InputEffect) int {
		return cmp.Or(further(a.NoPrice, b.NoPrice), b.Swing.Cmp(a.Swing), cmp.Compare(a.Input, b.Input))
	})
	return out, nil
}

// further puts an input that takes a price away before one that does not.
func further(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// Matter returns the inputs that move the floor of a product furthest, at most three. Those that
// may leave it no price come first, then those with the largest swing; equal ones stay in order.
func Matter(all []InputEffect, product string) []InputEffect {
	out := slices.DeleteFunc(slices.Clone(all), func(f InputEffect) bool { return !f.swing(product).moves() })
	slices.SortStableFunc(out, func(a, b InputEffect) int {
		x, y := a.swing(product), b.swing(product)
		return cmp.Or(further(x.NoPrice, y.NoPrice), y.Swing.Cmp(x.Swing))
	})
	return out[:min(len(out), Foremost)]
}

func (f InputEffect) swing(product string) Swing {
	for _, s := range f.Products {
		if s.Product == product {
			return s
		}
	}
	return Swing{}
}

func (s Swing) moves() bool { return s.NoPrice || !s.Swing.IsZero() }

// number is a number of a document that can be set.
type number struct {
	at    place
	value any
	kind  kind
	set   func(any)
}

// influence decides the floors with the number lower and higher.
func (n number) influence(w *work, tree object, likely floors, by quoin.Rate) (out InputEffect, err error) {
	out = InputEffect{Input: n.at.input, Path: n.at.path, Value: textOf(n.value)}
	var low, high floors
	if out.Down, low, err = n.tried(w, tree, by.Complement()); err != nil {
		return out, err
	}
	if out.Up, high, err = n.tried(w, tree, by.OnePlus()); err != nil {
		return out, err
	}
	for _, p := range listOf(tree, "products") {
		id := word(p, "id")
		s := Swing{Product: id, Floor: likely[id], Down: low.of(id), Up: high.of(id)}
		if _, has := likely[id]; !has {
			continue
		}
		least, most := s.Floor, s.Floor
		for _, end := range []quoin.Optional[quoin.Amount]{s.Down, s.Up} {
			if end := end.Or(s.Floor); end.Cmp(least) < 0 {
				least = end
			} else if end.Cmp(most) > 0 {
				most = end
			}
		}
		s.Swing = most.Sub(least)
		s.NoPrice = out.Down != "" && s.Down.IsZero() || out.Up != "" && s.Up.IsZero()
		if !s.moves() {
			continue
		}
		out.Products = append(out.Products, s)
		out.NoPrice = out.NoPrice || s.NoPrice
		if s.Swing.Cmp(out.Swing) > 0 {
			out.Swing = s.Swing
		}
	}
	return out, nil
}

// tried is another value and the floors with it; none where the document cannot hold
// it. With fees that grow as fast as the price it can, and no price is allowed.
func (n number) tried(w *work, tree object, times quoin.Factor) (string, floors, error) {
	value, ok := n.kind.times(textOf(n.value), times)
	if !ok {
		return "", nil, nil
	}
	n.set(value)
	defer n.set(n.value)
	f, err := w.floorsOf(tree)
	switch {
	case w.full():
		return "", nil, err
	case err != nil && !feesTakeAll(err):
		return "", nil, nil
	}
	return value, f, nil
}

func feesTakeAll(err error) bool {
	var found quoin.Problems
	return errors.As(err, &found) && !slices.ContainsFunc(found, func(p quoin.Problem) bool { return p.Code != channel.FeesTakeAll })
}

// Digits after the point that a document takes.
const (
	finestAmount   = 8
	finestFactor   = 16
	finestQuantity = 12
)

// times is a number, as it is written, times a factor.
func (k kind) times(text string, by quoin.Factor) (string, bool) {
	n, unit, ok := k.parsed(text)
	n = n.Times(by)
	switch k {
	case isRate:
		return n.Round(finestFactor, quoin.HalfUp).Rate().String(), ok
	case isQuantity:
		return n.Round(finestQuantity, quoin.HalfUp).String() + " " + string(unit), ok
	case isAmount:
		a, err := quoin.ParseAmount(text)
		return a.Times(by).Round(finestAmount, quoin.HalfUp).WithPlaces(a.Places()).String(), err == nil
	}
	return n.Round(finestFactor, quoin.HalfUp).String(), ok
}

// numbersOf are the numbers of a document that costs rest on.
func numbersOf(tree object) ([]number, error) {
	m, err := meanings()
	if err != nil {
		return nil, err
	}
	var out []number
	for _, name := range slices.Sorted(maps.Keys(tree)) {
		if name == "rules" || name == "price_limit" {
			continue
		}
		out = gather(out, place{meaning: m}.field(name), tree[name], func(v any) { tree[name] = v })
	}
	return out, nil
}

// gather adds the numbers of a part of a document, which set puts another part in
// the place of.
func gather(out []number, at place, v any, set func(any)) []number {
	switch x := v.(type) {
	case object:
		for _, name := range slices.Sorted(maps.Keys(x)) {
			out = gather(out, at.field(name), x[name], func(v any) { x[name] = v })
		}
	case []any:
		ids, _, known := keys(x, x)
		for i := range x {
			key := "[" + strconv.Itoa(i) + "]"
			if known {
				key = ids[i]
			}
			out = gather(out, at.entry(key, i, i), x[i], func(v any) { x[i] = v })
		}
	default:
		k := at.kind()
		if n, _, ok := k.parsed(textOf(v)); ok && n.Sign() > 0 && !at.meaning.isSize() {
			out = append(out, number{at, v, k, set})
		}
	}
	return out
}
