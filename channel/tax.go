package channel

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Tax is a sales or value-added tax.
type Tax struct {
	// Rate of the tax, of all that has no class with a rate of its own.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	// Rates of products by their tax_class. A print may be taxed at 5.5% and a frame at 20%.
	Classes []TaxClass `json:"classes,omitempty" most:"100"`
	// Whether prices hold the tax; otherwise it is added on top.
	InPrice bool `json:"in_price,omitzero"`
	// Whether the shipping charged is taxed too.
	OnShipping bool `json:"on_shipping,omitzero"`
	// What stays where prices hold the tax and an order has a rate of its own: what buyers pay
	// (also where it is not given), or what is left without the tax.
	Constant Constant `json:"constant,omitempty"`
	// What is rounded as one: the tax of the whole order (also where it is not given); the tax of
	// each line, with shipping as a line of its own; or the tax of each item.
	Per TaxPer `json:"per,omitempty"`
	// How the tax is rounded to money; half_up where it is not given.
	Rounding quoin.Rounding `json:"rounding,omitzero"`
	// Which figure is rounded where prices hold the tax: the tax (also where it is not given), or
	// the net. The other is what is left of the price. 2.99 with 4% in it is 2.87 and 0.12 of tax,
	// or 2.88 net and 0.11.
	Rounded TaxFigure `json:"rounded,omitempty"`
	// What the tax of items is taken of: what is paid for them (also where it is not given), so
	// that promotions lower the tax; or their full price, so that they do not.
	Of TaxBase `json:"of,omitempty"`
	// At which rate shipping is taxed if an order holds goods of several rates: in proportion to
	// the goods (also where it is not given), at the highest of their rates, or at the rate of
	// the goods that come to most.
	ShippingRate ShippingRate `json:"shipping_rate,omitempty"`
}

// TaxClass is the rate of tax on one kind of goods.
type TaxClass struct {
	// The tax_class of the products that it speaks of.
	Class string `json:"class" need:"yes"`
	// Their rate of tax.
	Rate quoin.Rate `json:"rate" need:"yes" range:"[0,1]"`
}

// Constant says what stays the same in a price that holds tax if an order has another tax rate:
// the price with tax, or the price without it.
type Constant string

const (
	// Gross keeps what buyers pay: what is left without the tax moves.
	Gross Constant = "gross"
	// Net keeps what is left without the tax: buyers pay × (1 + their rate) ÷
	// (1 + the channel's).
	Net Constant = "net"
)

// UnmarshalText reads gross or net.
func (c *Constant) UnmarshalText(text []byte) error { return form.SetWord(c, text, Gross, Net) }

// TaxPer says of what the tax is rounded to money.
type TaxPer string

const (
	PerTaxedOrder TaxPer = "order" // of the whole order; also when empty
	PerTaxedLine  TaxPer = "line"  // of each line, and of shipping by itself
	PerTaxedUnit  TaxPer = "unit"  // of each item, and of shipping by itself
)

// UnmarshalText reads order, line or unit.
func (p *TaxPer) UnmarshalText(text []byte) error {
	return form.SetWord(p, text, PerTaxedOrder, PerTaxedLine, PerTaxedUnit)
}

// TaxFigure says which figure of a price that holds tax is rounded; the other is what is left.
type TaxFigure string

const (
	RoundedTax TaxFigure = "tax" // the tax; also when empty
	RoundedNet TaxFigure = "net" // the price without it
)

// UnmarshalText reads tax or net.
func (f *TaxFigure) UnmarshalText(text []byte) error {
	return form.SetWord(f, text, RoundedTax, RoundedNet)
}

// TaxBase says what the tax of items is taken of.
type TaxBase string

const (
	OfPaid      TaxBase = "paid"       // what is paid for them, after promotions; also when empty
	OfFullPrice TaxBase = "full_price" // what they cost before promotions
)

// UnmarshalText reads paid or full_price.
func (b *TaxBase) UnmarshalText(text []byte) error { return form.SetWord(b, text, OfPaid, OfFullPrice) }

// ShippingRate says at which rate shipping is taxed beside goods of several rates.
type ShippingRate string

const (
	InProportion  ShippingRate = "proportion" // shared by what the goods come to; also when empty
	AtHighestRate ShippingRate = "highest"    // at the highest of their rates
	AtMainRate    ShippingRate = "main"       // at the rate of those that come to most
)

// UnmarshalText reads proportion, highest or main.
func (s *ShippingRate) UnmarshalText(text []byte) error {
	return form.SetWord(s, text, InProportion, AtHighestRate, AtMainRate)
}

// TaxedPart is a part of what is sold as one item, such as a frame in a set: its class of tax, and
// what it costs by itself. An item's price is shared among its parts in proportion to that.
type TaxedPart struct {
	Name, Class string
	Price       quoin.Amount
}

// TaxedAs returns the channel for products of a class of tax.
func (c Channel) TaxedAs(class string) Channel {
	c.TaxClass = class
	return c
}

// OfParts returns the channel for an item that is made of parts. Each part is taxed by its class.
func (c Channel) OfParts(parts ...TaxedPart) Channel {
	c.TaxedParts = slices.Clone(parts)
	return c
}

// TaxRate returns the rate of tax of a class of products in a kind of order: what the order gives
// for the class; else what the order gives for all; else what the channel gives for the class;
// else what it gives for all.
func (c Channel) TaxRate(o Order, class string) quoin.Rate {
	if i := classIn(o.TaxClasses, class); i >= 0 {
		return o.TaxClasses[i].Rate
	}
	return o.TaxRate.Or(c.Tax.rateOf(class))
}

// rateOf is the channel's rate of a class.
func (t *Tax) rateOf(class string) quoin.Rate {
	if i := classIn(t.Classes, class); i >= 0 {
		return t.Classes[i].Rate
	}
	return t.Rate
}

func classIn(classes []TaxClass, class string) int {
	if class == "" {
		return -1
	}
	return slices.IndexFunc(classes, func(c TaxClass) bool { return c.Class == class })
}

// byClass reports whether the channel taxes products by their class.
func (c *Channel) byClass() bool {
	return len(c.Tax.Classes) > 0 || slices.ContainsFunc(c.Orders, func(o Order) bool { return len(o.TaxClasses) > 0 })
}

// TaxClasses returns the classes of tax for which the channel or one of its orders gives a rate,
// each once.
func (c Channel) TaxClasses() []string {
	var out []string
	add := func(classes []TaxClass) {
		for _, t := range classes {
			if !slices.Contains(out, t.Class) {
				out = append(out, t.Class)
			}
		}
	}
	add(c.Tax.Classes)
	for _, o := range c.Orders {
		add(o.TaxClasses)
	}
	return out
}

// Taxes reports whether any rate of tax that the channel or its orders give is above 0.
func (c Channel) Taxes() bool {
	some := func(t TaxClass) bool { return !t.Rate.IsZero() }
	return !c.Tax.Rate.IsZero() || slices.ContainsFunc(c.Tax.Classes, some) || slices.ContainsFunc(c.Orders, func(o Order) bool {
		return !o.TaxRate.Or(quoin.Rate{}).IsZero() || slices.ContainsFunc(o.TaxClasses, some)
	})
}

// taxedPart is a part of an item on a kind of order.
type taxedPart struct {
	TaxedPart
	rate  quoin.Rate
	share quoin.Factor // of the item's price
}

// taxed fills in how a kind of order is taxed.
func (c *Channel) taxed(k *kind) {
	k.onShipping, k.inPrice = c.Tax.OnShipping, c.Tax.InPrice
	k.class, k.tax = c.TaxClass, c.rateOn(k, c.TaxClass)
	if k.parts = c.partsOn(k); len(k.parts) > 0 {
		k.class, k.tax = k.parts[0].Class, k.parts[0].rate
	}
	k.onGoods = k.ofAmount(k.tax)
	k.onPostage, k.within = k.onGoods, within(k.tax)
	if k.oneRate() {
		k.parts = nil
		return
	}
	k.onGoods = quoin.Factor{}
	for _, p := range k.parts {
		k.onGoods = k.onGoods.Add(k.ofAmount(p.rate).Times(p.share))
		if p.rate.Cmp(k.tax) > 0 {
			k.tax, k.within = p.rate, within(p.rate)
		}
	}
	if k.onPostage = k.onGoods; c.Tax.ShippingRate == AtHighestRate || c.Tax.ShippingRate == AtMainRate {
		k.onPostage = k.ofAmount(k.parts[k.postagePart(c.Tax.ShippingRate)].rate)
	}
}

// rateOn is the rate of a class on a kind of order: none where a way of selling has no tax.
func (c *Channel) rateOn(k *kind, class string) quoin.Rate {
	if k.why.tax != nil {
		return k.TaxRate.Or(quoin.Rate{})
	}
	return c.TaxRate(k.Order, class)
}

// partsOn is the parts of an item with their rates; none where it is one.
func (c *Channel) partsOn(k *kind) []taxedPart {
	var sum quoin.Amount
	for _, p := range c.TaxedParts {
		sum = sum.Add(p.Price)
	}
	if sum.Sign() <= 0 {
		return nil
	}
	out := make([]taxedPart, len(c.TaxedParts))
	for i, p := range c.TaxedParts {
		out[i] = taxedPart{p, c.rateOn(k, p.Class), p.Price.Ratio(sum)}
	}
	return out
}

// oneRate reports whether all parts are taxed alike.
func (k *kind) oneRate() bool {
	return !slices.ContainsFunc(k.parts, func(p taxedPart) bool { return !p.rate.Equal(k.parts[0].rate) })
}

// rates are the rates of the parts, each once, with what the parts of each come to.
func (k *kind) rates() (rates []quoin.Rate, worth []quoin.Amount) {
	for _, p := range k.parts {
		i := slices.IndexFunc(rates, p.rate.Equal)
		if i < 0 {
			i, rates, worth = len(rates), append(rates, p.rate), append(worth, quoin.Amount{})
		}
		worth[i] = worth[i].Add(p.Price)
	}
	return rates, worth
}

// postagePart is the part at whose rate shipping is taxed.
func (k *kind) postagePart(how ShippingRate) int {
	rates, worth := k.rates()
	best := 0
	for i := range rates {
		if more := worth[i].Cmp(worth[best]); how == AtHighestRate && rates[i].Cmp(rates[best]) > 0 || how == AtMainRate && more > 0 {
			best = i
		}
	}
	return slices.IndexFunc(k.parts, func(p taxedPart) bool { return p.rate.Equal(rates[best]) })
}

// ofAmount is the share of an amount that is the tax in it, or on top of it.
func (k *kind) ofAmount(rate quoin.Rate) quoin.Factor {
	if k.inPrice {
		return within(rate)
	}
	return rate.Factor()
}

// within is t ÷ (1 + t): the share of a price that is tax in it.
func within(rate quoin.Rate) quoin.Factor {
	return rate.Factor().Over(nonZero(rate.OnePlus(), "a tax of -100%"))
}

// untaxed reports whether a kind of order has no tax at all.
func (k *kind) untaxed() bool {
	return k.tax.IsZero() && len(k.parts) == 0 && k.othersRate.IsZero()
}
