package review

import (
	"slices"

	"example.com/quoin"
)

// Floor is how the floor of a product moved. The floor is the lowest price, to the minor unit,
// that its rules on cost multiples, margins and contributions allow. Other rules have no part in
// it, such as those on endings, the market, sizes or the price itself. Nor have the price step
// and the price points of channels: a document in steps of 1.00 has the same floors as one in
// steps of 0.01. Preferences count if they can be kept.
type Floor struct {
	Product string `json:"product"`
	// Before and After are the floors in the last and the new document. One is not given if the
	// product is not in that document, if no rule asks anything of it, or if no price is allowed.
	Before quoin.Optional[quoin.Amount] `json:"before,omitzero"`
	After  quoin.Optional[quoin.Amount] `json:"after,omitzero"`
	// Change is After − Before. Shares say how much of it each change did, and Together what
	// several changes did that belongs to none of them; they add up to Change. Shares of zero
	// are left out. If there are no shares, Without says why.
	Change   quoin.Optional[quoin.Amount] `json:"change,omitzero"`
	Shares   []Share                      `json:"shares,omitempty"`
	Together *Share                       `json:"together,omitempty"`
	Without  Reason                       `json:"without,omitzero"`
	// Channels are the floors that each channel that sells it, or sold it, would ask for alone.
	Channels []ChannelFloor `json:"channels,omitempty"`
}

// ChannelFloor is the floor of a product as if it were sold in one channel alone. A floor is not
// given if the channel is not in that document, or if no rule speaks of it. Set says that no
// other channel needed a higher price in the last document, and Sets that none does in the new one.
type ChannelFloor struct {
	Channel string                       `json:"channel"`
	Before  quoin.Optional[quoin.Amount] `json:"before,omitzero"`
	After   quoin.Optional[quoin.Amount] `json:"after,omitzero"`
	Change  quoin.Optional[quoin.Amount] `json:"change,omitzero"`
	Set     bool                         `json:"set"`
	Sets    bool                         `json:"sets"`
}

// Why a floor has no shares.
const (
	NewProduct  quoin.Code = "new_product"  // the last document does not have it
	GoneProduct quoin.Code = "gone_product" // the new document does not have it
	// NoFloor: the product has no floor in one of the documents, or in a mixture of them that
	// the shares are computed from.
	NoFloor quoin.Code = "no_floor"
)

// Reason is why something is as it is: a code, and the figures it was found from.
type Reason struct {
	Code quoin.Code  `json:"code"`
	Args []quoin.Arg `json:"args,omitempty"`
}

// IsZero reports whether there is no reason.
func (r Reason) IsZero() bool { return r.Code == "" }

func because(code quoin.Code, args ...string) Reason {
	r := Reason{Code: code}
	for i := 0; i+1 < len(args); i += 2 {
		r.Args = append(r.Args, quoin.Arg{Name: args[i], Value: args[i+1]})
	}
	return r
}

// movement is how the floors of all products moved: of the new document first, in
// its order, then those that are gone.
func movement(old, new object, m *mixture, by Method, places int) ([]Floor, error) {
	before, err := m.floors(only())
	if err != nil {
		return nil, err
	}
	after, err := m.floors(allBut())
	if err != nil {
		return nil, err
	}
	was, err := m.channelFloors(old)
	if err != nil {
		return nil, err
	}
	is, err := m.channelFloors(new)
	if err != nil {
		return nil, err
	}
	ids, had, has := union(new, old, "products"), known(old, "products"), known(new, "products")
	channels := union(new, old, "channels")
	var out []Floor
	for _, id := range ids {
		f := Floor{Product: id, Before: before.of(id), After: after.of(id)}
		f.Change = difference(f.Before, f.After)
		switch {
		case !had[id]:
			f.Without = because(NewProduct)
		case !has[id]:
			f.Without = because(GoneProduct)
		default:
			f.attribute(m, by, places)
		}
		f.Channels = perChannel(id, slices.DeleteFunc(slices.Clone(channels), func(c string) bool {
			return !sellsIn(old, c, id) && !sellsIn(new, c, id)
		}), was, is)
		out = append(out, f)
	}
	return out, nil
}

func (f *Floor) attribute(m *mixture, by Method, places int) {
	if len(m.groups) == 0 {
		return
	}
	parts, ok := m.split(by, f.Product)
	if !ok {
		f.Without = because(NoFloor)
		return
	}
	f.Shares, f.Together = m.shares(parts, places)
}

func (f floors) of(product string) quoin.Optional[quoin.Amount] {
	if a, ok := f[product]; ok {
		return quoin.Some(a)
	}
	return quoin.Optional[quoin.Amount]{}
}

func difference(before, after quoin.Optional[quoin.Amount]) (out quoin.Optional[quoin.Amount]) {
	a, ok := before.Get()
	b, also := after.Get()
	if ok && also {
		return quoin.Some(b.Sub(a))
	}
	return out
}

// channelFloors are the floors in each channel alone.
func (w *work) channelFloors(doc object) (map[string]floors, error) {
	out := make(map[string]floors)
	for _, c := range listOf(doc, "channels") {
		id := word(c, "id")
		f, err := w.floorsOf(inChannel(doc, id))
		if err != nil {
			return nil, err
		}
		out[id] = f
	}
	return out, nil
}

// sellsIn reports whether a channel of a document sells a product of it.
func sellsIn(doc object, channel, product string) bool {
	here := slices.ContainsFunc(listOf(doc, "channels"), func(c any) bool { return word(c, "id") == channel })
	return here && slices.ContainsFunc(listOf(doc, "products"), func(p any) bool {
		sold := listOf(p.(object), "channels")
		return word(p, "id") == product && (len(sold) == 0 || slices.Contains(sold, any(channel)))
	})
}

func perChannel(product string, channels []string, was, is map[string]floors) []ChannelFloor {
	out := make([]ChannelFloor, len(channels))
	var before, after quoin.Amount
	for i, c := range channels {
		out[i] = ChannelFloor{Channel: c, Before: was[c].of(product), After: is[c].of(product)}
		out[i].Change = difference(out[i].Before, out[i].After)
		before, after = greater(before, out[i].Before), greater(after, out[i].After)
	}
	for i, c := range out {
		a, ok := c.Before.Get()
		out[i].Set = ok && a.Equal(before)
		a, ok = c.After.Get()
		out[i].Sets = ok && a.Equal(after)
	}
	return out
}

func greater(a quoin.Amount, b quoin.Optional[quoin.Amount]) quoin.Amount {
	if b := b.Or(a); b.Cmp(a) > 0 {
		return b
	}
	return a
}

// union is the ids of a list in one document, then those only in another.
func union(first, then object, list string) []string {
	var out []string
	seen := make(map[string]bool)
	for _, doc := range []object{first, then} {
		for _, e := range listOf(doc, list) {
			if id := word(e, "id"); !seen[id] {
				seen[id], out = true, append(out, id)
			}
		}
	}
	return out
}

func known(doc object, list string) map[string]bool {
	out := make(map[string]bool)
	for _, e := range listOf(doc, list) {
		out[word(e, "id")] = true
	}
	return out
}
