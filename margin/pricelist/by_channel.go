package pricelist

import (
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// ByChannel says how one public price does in every channel. It is computed when it is asked
// for.
type ByChannel struct {
	of *decidedList
	at int
	// places is where the channels that sell the product stand in the document, and channels are
	// as they are for it; zones are the dead ones in each.
	places   []int
	channels []channel.Channel
	zones    [][]rule.DeadZone
	told     []InChannel // where it was read
}

// InChannel says how a public price does in one channel.
type InChannel struct {
	// Id of the channel.
	Channel string `json:"channel"`
	// The least price that the rules would ask if it were sold here alone; not given where they
	// would allow none, or where none asks anything of the channel.
	Floor quoin.Optional[quoin.Amount] `json:"floor,omitzero" range:"[0,"`
	// Whether no other channel asks for more.
	SetsPrice bool `json:"sets_price"`
	// Given, and true, where no rule asks anything of the channel.
	NoRule bool `json:"no_rule,omitzero"`
	// What a sale contributes.
	Contribution quoin.Amount `json:"contribution"`
	// What it brings for each of the maker's own hours, contribution and own time ÷ hours; not
	// given without any.
	PerHour quoin.Optional[quoin.Amount] `json:"per_hour,omitzero"`
	// The nearest dead zone that ends below the price.
	Below *rule.DeadZone `json:"below,omitempty"`
	// The dead zone that the price lies in.
	Inside *rule.DeadZone `json:"inside,omitempty"`
	// The nearest dead zone that begins above the price.
	Above *rule.DeadZone `json:"above,omitempty"`
	// How many sales here pay each fixed cost.
	BreakEven []BreakEven `json:"break_even,omitempty"`
	// The deepest discount at which every kept rule on channels holds and a sale contributes no
	// less than nothing; not given where 1% is too much.
	Discount *DeepestDiscount `json:"discount,omitempty"`
	// A tenth off the items of every order.
	TenthOff *PriceChange `json:"tenth_off,omitempty"`
	// A price that is a tenth higher.
	Rise *PriceChange `json:"rise,omitempty"`
}

// DeepestDiscount is the largest discount that can be given, and what one per cent more would
// do: break rules, or lose money. It would do neither if even 99% off can be given.
type DeepestDiscount struct {
	PriceChange
	// Ids of the rules that one per cent more would break: the first 12.
	Rules []string `json:"rules,omitempty"`
	// Given, and true, where it would break more than are listed.
	More bool `json:"more,omitzero"`
	// Whether one per cent more would let a sale contribute less than nothing.
	Loss bool `json:"loss,omitzero"`
}

// BreakEven is a fixed cost and how many items must be sold to pay it; they are missing if an
// item contributes nothing.
type BreakEven struct {
	// What the cost is: fixed_cost, overhead, or the name of a fee.
	What string `json:"what"`
	// Where it stands.
	Path string `json:"path"`
	// How much it is.
	Cost quoin.Amount `json:"cost"`
	// How many items have to be sold for it, not rounded; not given where an item contributes
	// nothing.
	Items quoin.Optional[quoin.Factor] `json:"items,omitzero"`
}

// PriceChange is what a sale contributes if the price changes by a share.
type PriceChange struct {
	// The share that the price moves by.
	By quoin.Rate `json:"by"`
	// What a sale then contributes.
	Contribution quoin.Amount `json:"contribution"`
	// How many have to be sold for each one before; of a rise, how much of the volume is enough:
	// contribution before ÷ after, both without the channel's fixed cost. Not given where one
	// contributes nothing.
	Volume quoin.Optional[quoin.Factor] `json:"volume,omitzero"`
}

// IsZero reports whether there is nothing to ask for.
func (p ByChannel) IsZero() bool { return p.of == nil && p.told == nil }

func (p ByChannel) item() *rule.Item { return &p.of.items[p.at] }

// price is not rounded to the digits of money, which it has anyway.
func (p ByChannel) price() quoin.Amount { return p.of.dec.Prices[p.at] }

// MarshalJSON writes the channels.
func (p ByChannel) MarshalJSON() ([]byte, error) { return p.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (p ByChannel) AppendJSON(b []byte) ([]byte, error) {
	channels := p.Channels()
	return form.Append(b, &channels, nil)
}

// Equal reports whether both say the same about the same channels.
func (p ByChannel) Equal(q ByChannel) bool { return sameJSON(p, q) }

// Channels returns how the price does in each channel that sells the product, in their order.
func (p ByChannel) Channels() []InChannel {
	if p.of == nil {
		return slices.Clone(p.told)
	}
	out := make([]InChannel, len(p.item().Offers))
	var highest quoin.Amount
	for j, o := range p.item().Offers {
		out[j] = p.inChannel(j, o)
		if f, ok := out[j].Floor.Get(); ok && f.Cmp(highest) > 0 {
			highest = f
		}
	}
	for j := range out {
		f, ok := out[j].Floor.Get()
		out[j].SetsPrice = ok && f.Equal(highest)
	}
	return out
}

func (p ByChannel) inChannel(j int, o rule.Offer) InChannel {
	st := o.Sale.At(p.price())
	s := InChannel{Channel: o.Channel, Contribution: st.Contribution}
	s.NoRule = !p.of.dec.Asks(p.at, o.Channel)
	if least, _, ok := p.of.dec.Floor(p.at, j); ok && !s.NoRule {
		s.Floor = quoin.Some(p.of.Currency.Round(least, quoin.HalfUp))
	}
	if h := o.Sale.OwnHours(); h.Sign() > 0 {
		s.PerHour = quoin.Some(st.Contribution.Add(st.OwnTime).Over(h))
	}
	s.near(p.zones[j], p.price())
	place := p.places[j]
	s.BreakEven = p.breakEven(place, o.Sale, st)
	c, tenth := p.channels[j], perCent(10)
	s.Discount = p.deepestDiscount(place, c, o, st)
	s.TenthOff = priceChange(tenth, st, p.discounted(place, c, o.Sale, 10).At(p.price()))
	s.Rise = priceChange(tenth, st, o.Sale.At(p.price().Times(tenth.OnePlus())))
	return s
}

// near finds the dead zones in reach of a price.
func (s *InChannel) near(zones []rule.DeadZone, price quoin.Amount) {
	for _, z := range zones {
		again, ends := z.Again.Get()
		switch {
		case z.Holds(price):
			s.Inside = &z
		case ends && again.Cmp(price) <= 0:
			s.Below = &z
		case s.Above == nil && z.First.Cmp(price) > 0:
			s.Above = &z
		}
	}
}

// breakEven is how many sales pay each fixed cost: of the channel's period, of
// fees that are charged over many orders, of the shop.
func (p ByChannel) breakEven(j int, sale margin.Sale, st margin.Statement) []BreakEven {
	c, at := p.of.Channels[j], quoin.InList("channels", j)
	var out []BreakEven
	add := func(what string, at quoin.Path, cost, before quoin.Amount) {
		if cost.IsZero() {
			return
		}
		one := BreakEven{What: what, Path: at.String(), Cost: cost.WithPlaces(p.of.Currency.Digits())}
		if n, ok := margin.BreakEven(cost, quoin.Amount{}, before); ok {
			one.Items = quoin.Some(n)
		}
		out = append(out, one)
	}
	var settled []channel.Settlement
	add("fixed_cost", at.Sub("fixed_cost", -1), c.FixedCost.Cost, st.BeforeFixedCost())
	for i, f := range c.Fees {
		if f.OrdersTogether.Cmp(quoin.FactorOf(1)) < 0 || f.Per == quoin.PerItem { // a click brings less than an order
			continue
		}
		settled = settledOnce(settled, sale.Terms, p.price())
		var cost quoin.Amount // the most of any kind of order, where they reach other tiers
		fixed, known := quoin.Amount{}, false
		bears := sale.Terms.Average(func(k int) quoin.Amount {
			charge := &settled[k].Charges[i]
			if charge.Total.IsZero() {
				return quoin.Amount{}
			}
			if !known { // without tiers it is the same on every order
				fixed, known = sale.Terms.Home(fixedOf(f, charge.Base, sale.Terms.Places())), len(f.Tiers) == 0
			}
			if fixed.Cmp(cost) > 0 {
				cost = fixed
			}
			o, _ := sale.Terms.Order(k)
			return o.OfOrder(fixed.Over(f.OrdersTogether).Part(f.Share.Or(perCent(100))))
		})
		add(f.Name, at.Sub("fees", i), cost, st.Contribution.Add(bears))
	}
	add("overhead", quoin.InField("overhead"), p.of.Overhead.Cost, st.Contribution)
	return out
}

// fixedOf is what a fee over many orders costs whatever any one of them brings: its fixed
// amount and those of the tiers that are charged, with tax. The base is that of an order.
func fixedOf(f channel.Fee, base quoin.Amount, places int) quoin.Amount {
	alone := channel.Fee{Fixed: f.Fixed, Tiers: slices.Clone(f.Tiers), TierMode: f.TierMode, OrdersTogether: f.OrdersTogether, Tax: f.Tax, Rounding: f.Rounding, Expected: f.Expected}
	for i := range alone.Tiers {
		alone.Tiers[i].Rate = quoin.Rate{}
	}
	charge := alone.Charge(channel.Payment{Items: base}, places)
	return charge.Rounded.Add(charge.Tax)
}

// settledOnce is every kind of order at a price, settled where it has not been.
func settledOnce(settled []channel.Settlement, terms channel.Terms, price quoin.Amount) []channel.Settlement {
	if settled != nil {
		return settled
	}
	for k := range terms.Orders() {
		settled = append(settled, terms.Settle(k, price))
	}
	return settled
}

// mostOff is the deepest discount considered, in per cent.
const mostOff = 99

// deepestDiscount is the deepest discount, in whole per cent, that neither the rules on this
// channel nor a loss forbid at the price; nil where 1% is too much.
func (p ByChannel) deepestDiscount(j int, c channel.Channel, o rule.Offer, before margin.Statement) *DeepestDiscount {
	at := func(n int64) (margin.Sale, margin.Statement) {
		less := p.discounted(j, c, o.Sale, n)
		return less, less.At(p.price())
	}
	breaks := func(less margin.Sale, n int64) []string {
		broken, _ := p.of.dec.Bears(p.at, o.Channel, less, p.price(), func() []margin.Sale { return p.worstOf(j, c, less, n) })
		return broken
	}
	var kept margin.Statement // at the deepest that holds so far
	low := halved(0, mostOff+1, func(n int64) bool {
		less, st := at(n)
		holds := st.Contribution.Sign() >= 0 && len(breaks(less, n)) == 0
		if holds {
			kept = st
		}
		return holds
	})
	if low == 0 {
		return nil
	}
	d := &DeepestDiscount{PriceChange: *priceChange(perCent(low), before, kept)}
	if low < mostOff {
		less, deeper := at(low + 1)
		d.Rules, d.More = firstNamed(breaks(less, low+1))
		d.Loss = deeper.Contribution.Sign() < 0
	}
	return d
}

// priceChange puts a statement beside the one before. What the channel's period costs is the
// same however much is sold, and is left out of the volume.
func priceChange(by quoin.Rate, was, is margin.Statement) *PriceChange {
	m := PriceChange{By: by, Contribution: is.Contribution}
	before := was.BeforeFixedCost()
	if volume, ok := promo.VolumeNeeded(before, is.BeforeFixedCost()); ok && before.Sign() > 0 {
		m.Volume = quoin.Some(volume)
	}
	return &m
}

func perCent(n int64) quoin.Rate { return quoin.AmountOf(n, 2).Share(quoin.AmountOf(1, 0)) }

// discounts are the terms of channels with so many per cent taken off the items of every
// order. All products of a document, or of a shop, are asked about the same few of them, from
// anywhere.
type discounts struct {
	mu     sync.Mutex
	known  map[discountAt]discountTerms
	weight int
}

type discountAt struct {
	channel int
	perCent int64
}

// discountTerms are terms and, once a rule asked for them, those of each kind of order by
// itself.
type discountTerms struct {
	terms channel.Terms
	kinds []channel.Terms
}

// mostDiscounts bounds the terms that are remembered, counted in fees of kinds of order.
const mostDiscounts = 100_000

// discounted is the sale with so many per cent taken off the items of every order: its
// goods stay, and its terms change. The channel is as it is for the product.
func (p ByChannel) discounted(j int, c channel.Channel, sale margin.Sale, perCent int64) margin.Sale {
	sale.Terms = p.of.discountTerms(j, c, perCent)
	return sale
}

// worstOf is a discounted sale by each kind of order.
func (p ByChannel) worstOf(j int, c channel.Channel, sale margin.Sale, perCent int64) []margin.Sale {
	if c.ByProduct() {
		return sale.Worst()
	}
	d, at := p.of.discounts, discountAt{j, perCent}
	d.mu.Lock()
	defer d.mu.Unlock()
	known := d.known[at]
	if known.kinds == nil {
		known.terms, known.kinds = sale.Terms, sale.Terms.Worst()
		d.known[at] = known
	}
	return sale.WorstBy(known.kinds)
}

func (d *decidedList) discountTerms(j int, c channel.Channel, by int64) channel.Terms {
	if c.ByProduct() {
		return d.lowered(c, by)
	}
	at := discountAt{j, by}
	d.discounts.mu.Lock()
	defer d.discounts.mu.Unlock()
	if known, ok := d.discounts.known[at]; ok {
		return known.terms
	}
	terms := d.lowered(c, by)
	weight := max(len(c.Orders), 1) * (1 + len(c.Fees))
	if d.discounts.weight += weight; d.discounts.known == nil || d.discounts.weight > mostDiscounts {
		d.discounts.known, d.discounts.weight = make(map[discountAt]discountTerms), weight
	}
	d.discounts.known[at] = discountTerms{terms: terms}
	return terms
}

// lowered is the terms of a channel with a promotion of so many per cent more.
func (d *decidedList) lowered(c channel.Channel, by int64) channel.Terms {
	rest := c.Promotion.Complement().Times(perCent(by).Complement())
	c.Promotion = quoin.FactorOf(1).Sub(rest).Rate()
	return c.Terms(d.Currency)
}
