package channel

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Codes of terms that cannot be meant as they are written.
const (
	SharesNotOne  quoin.Code = "shares_not_one"       // kinds of order that are more, or fewer, than all
	UnsortedTiers quoin.Code = "unsorted_tiers"       // tiers that do not rise
	RateAndTiers  quoin.Code = "rate_and_tiers"       // a fee with both
	FeesTakeAll   quoin.Code = "fees_take_everything" // fees that leave nothing of a higher price
	RepeatedPart  quoin.Code = "repeated_part"        // a part of the base, or a side, twice
	DoesNotStack  quoin.Code = "does_not_stack"       // a code that stands alone, with others
	PaysTooMuch   quoin.Code = "pays_more_than_left"  // a house that pays more than tax leaves it of any price
	StrayFreight  quoin.Code = "stray_freight"        // an order that charges freight which the trade terms charge
)

// Check returns everything that is wrong with the channel in a shop of this currency, at once.
// It finds what reading a document would find. The error is quoin.Problems, with paths in the
// channel, such as fees[0].rate. Products, packing lists and tariffs that it names are not
// looked at.
func (c Channel) Check(currency quoin.Currency) error {
	k := form.Check(c)
	c.CheckIn(k, nil, currency)
	return k.All().Err()
}

// CheckIn adds contradictions in the channel, which stands at a path, to the problems found so
// far. Only packages of this module need it.
func (c Channel) CheckIn(found *form.Collector, at *form.Path, currency quoin.Currency) {
	k := &checker{found, currency}
	if !k.Under(at) {
		k.named(at, c)
		k.offered(at, c)
		k.tagged(at, c)
		k.traded(at, c)
		k.consigned(at, c)
		k.printed(at, c)
		k.strays(at, c)
		k.taxed(at, c)
		if c.Returns != nil {
			k.AddAll(at.Field("returns"), c.Returns.Check())
		}
	}
	c.FixedCost.CheckIn(found, at.Field("fixed_cost"))
	k.shares(at.Field("orders"), c.Orders)
	for j, f := range c.Fees {
		k.fee(at.Field("fees").At(j), f)
	}
	if !k.Under(at) {
		k.whole(at, c)
	}
}

// CheckIn adds a problem if the cost, which stands at a path, has no items to be divided by.
// Only packages of this module need it.
func (p FixedCost) CheckIn(found *form.Collector, at *form.Path) {
	if found.Under(at) {
		return
	}
	_, err := p.PerItem()
	found.AddAll(at, err)
}

// checker adds what cannot be meant together to what was found so far.
type checker struct {
	*form.Collector
	currency quoin.Currency
}

func (k *checker) add(at *form.Path, code quoin.Code, found, wanted, remedy string) {
	k.Add(at, quoin.Problem{Code: code, Found: found, Wanted: wanted, Remedy: remedy})
}

// mostBreaks bounds in how many pieces a channel's terms may fall.
const mostBreaks = 10_000

// whole checks what the terms come to.
func (k *checker) whole(at *form.Path, c Channel) {
	if n := c.Breaks(); n > mostBreaks {
		k.add(at, quoin.TooMany, fmt.Sprintf("%d kinds of order times tiers and bounds of fees", n), fmt.Sprintf("at most %d", mostBreaks), "")
	}
	if c.TakesEverything() {
		k.add(at.Field("fees"), FeesTakeAll, "fees that grow at least as fast as what the shop keeps of the price",
			"fees that leave something of a higher price", "check the rates, their tax and their base")
	}
}

func (k *checker) fee(at *form.Path, f Fee) {
	for i, part := range f.Of {
		if slices.Contains(f.Of[:i], part) {
			k.add(at.Field("of").At(i), RepeatedPart, prose.Quoted(string(part))+" again", "each part once", "")
		}
	}
	if len(f.Tiers) > 0 && !f.Rate.IsZero() {
		k.add(at.Field("rate"), RateAndTiers, f.Rate.String()+" beside tiers", "a rate or tiers", "make the rate the first tier, from 0")
	}
	for i := range f.Tiers {
		k.tier(at.Field("tiers").At(i), f.Tiers[:i+1])
	}
}

// tier checks the last of some tiers.
func (k *checker) tier(at *form.Path, tiers []Tier) {
	i := len(tiers) - 1
	tier := &tiers[i]
	if !tier.Rate.IsGiven() && !tier.Fixed.IsGiven() && !k.Under(at) {
		k.add(at.Field("rate"), quoin.MissingField, "nothing", "the field rate or fixed, or both", `write "fixed": 0 if nothing is charged there`)
	}
	if i > 0 && tier.From.Cmp(tiers[i-1].From) <= 0 {
		k.add(at.Field("from"), UnsortedTiers, tier.From.String()+" after "+tiers[i-1].From.String(), "tiers in rising order", "")
	}
}

func (k *checker) shares(at *form.Path, orders []Order) {
	if len(orders) == 0 || k.Under(at) {
		return
	}
	var sum quoin.Rate
	for _, o := range orders {
		sum = sum.Add(o.ShareOr1())
	}
	if !sum.Equal(quoin.MustRate("100%")) {
		k.add(at, SharesNotOne, "shares that sum to "+sum.String(), "shares that sum to 100%", "")
	}
}

// named checks that the kinds of order are told apart, and that fees name them.
func (k *checker) named(at *form.Path, c Channel) {
	ids := make(map[string]bool)
	var names []string
	for i, o := range c.Orders {
		if o.ID == "" {
			continue
		}
		if ids[o.ID] {
			k.add(at.Field("orders").At(i).Field("id"), quoin.DuplicateID, prose.Quoted(o.ID)+" again", "an id of its own in the channel", "")
		}
		ids[o.ID], names = true, append(names, o.ID)
	}
	for i, f := range c.Fees {
		for j, id := range f.Orders {
			if !ids[id] {
				k.Add(at.Field("fees").At(i).Field("orders").At(j), quoin.Problem{
					Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "the id of one of the channel's orders", Near: k.Near(id, names),
				})
			}
		}
	}
}

// offered checks promotions and the codes of orders.
func (k *checker) offered(at *form.Path, c Channel) {
	offers := make(map[string]promo.Offer)
	var names []string
	for i, o := range c.Promotions {
		at := at.Field("promotions").At(i)
		k.AddAll(at, o.Check())
		if _, twice := offers[o.ID]; twice {
			k.add(at.Field("id"), quoin.DuplicateID, prose.Quoted(o.ID)+" again", "an id of its own in the channel", "")
		}
		offers[o.ID], names = o, append(names, o.ID)
	}
	for i, o := range c.Orders {
		for j, id := range o.Codes {
			at := at.Field("orders").At(i).Field("codes").At(j)
			offer, ok := offers[id]
			switch {
			case !ok:
				k.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "the id of one of the channel's promotions", Near: k.Near(id, names)})
			case slices.Contains(o.Codes[:j], id):
				k.add(at, quoin.DuplicateID, prose.Quoted(id)+" again", "each code once", "")
			case offer.Alone && len(o.Codes) > 1:
				k.add(at, DoesNotStack, prose.Quoted(id)+" beside other codes", "it alone: it does not stack", "")
			}
		}
	}
}

// tagged checks which prices can be asked, and in what money.
func (k *checker) tagged(at *form.Path, c Channel) {
	if c.PricePoints == nil {
		return
	}
	at = at.Field("price_points")
	places := c.Money(k.currency).Digits()
	k.AddAll(at, c.PricePoints.Check())
	whole := func(at *form.Path, a quoin.Amount) {
		if !a.Round(places, quoin.Down).Equal(a) && !k.Under(at) {
			k.add(at, quoin.StepOffMinor, a.String(), fmt.Sprintf("a whole number of minor units, with %d digits", places), "")
		}
	}
	whole(at.Field("step"), c.PricePoints.Step)
	whole(at.Field("every"), c.PricePoints.Every)
	for i, e := range c.PricePoints.EndsIn {
		whole(at.Field("ends_in").At(i), e)
	}
}

// strays checks that orders say nothing that only another way of selling is asked.
func (k *checker) strays(at *form.Path, c Channel) {
	for i, o := range c.Orders {
		at := at.Field("orders").At(i)
		if o.Zone != "" && c.Tariff == "" {
			k.Stray(at.Field("zone"), "a zone, and no tariff in the channel", "a tariff that has zones, or no zone")
		}
		if u := o.Surcharge; u != nil {
			k.surcharge(at.Field("surcharge"), u, c)
		}
		if o.Others != nil {
			k.besides(at.Field("others"), o.Others, c)
		}
		if o.Reorder && c.Trade == nil {
			k.Stray(at.Field("reorder"), "a reorder, and no trade terms in the channel", "trade terms, or no reorder")
		}
	}
}

// besides checks that others lie only in orders that the shop sells to buyers itself, and weigh
// something where that counts.
func (k *checker) besides(at *form.Path, of *Others, c Channel) {
	way := ""
	switch {
	case c.Trade != nil:
		way = "trade terms"
	case c.Consignment != nil:
		way = "a consignment"
	case c.OnDemand != nil:
		way = "printing on demand"
	case c.Tariff == "" && !of.Mass.IsZero():
		k.Stray(at.Field("mass"), "a mass of others, and no tariff in the channel", "a tariff that parcels go by, or no mass")
		return
	case c.Tariff != "" && of.Mass.IsZero():
		k.Missing(at.Field("mass"), "mass, by which its tariff charges")
		return
	default:
		return
	}
	k.Stray(at, "other items in the order, in a channel with "+way, "other items only where you sell to buyers yourself")
}

// taxed checks that each class has one rate, and that the tax is rounded as its prices allow.
func (k *checker) taxed(at *form.Path, c Channel) {
	k.classes(at.Field("tax").Field("classes"), c.Tax.Classes)
	for i, o := range c.Orders {
		k.classes(at.Field("orders").At(i).Field("tax_classes"), o.TaxClasses)
	}
	t, at := &c.Tax, at.Field("tax")
	if t.Rounded == RoundedNet && !t.InPrice {
		k.Stray(at.Field("rounded"), "the net rounded, and tax added on top of it", "in_price, or no rounded: tax on top is taken of the net, which is the price")
	}
	if t.Of == OfFullPrice && (c.Consignment != nil || c.OnDemand != nil) {
		k.Stray(at.Field("of"), "a tax of the full price where a shop or a house sells", "a tax of what is paid")
	}
	if t.ShippingRate != "" && !t.OnShipping {
		k.Stray(at.Field("shipping_rate"), "a rate for shipping that is not taxed", "on_shipping, or no shipping_rate")
	}
}

func (k *checker) classes(at *form.Path, classes []TaxClass) {
	for i, t := range classes {
		if classIn(classes[:i], t.Class) >= 0 {
			k.add(at.At(i).Field("class"), quoin.DuplicateID, prose.Quoted(t.Class)+" again", "one rate for each class", "")
		}
	}
}

// surcharge checks that a surcharge is something, and that the shop takes the payment itself.
func (k *checker) surcharge(at *form.Path, u *Surcharge, c Channel) {
	if c.Consignment != nil || c.OnDemand != nil {
		k.Stray(at, "a surcharge, where a shop or a house is paid", "a surcharge only where buyers pay you")
		return
	}
	if u.Rate.IsZero() && u.Fixed.IsZero() && !k.Under(at) {
		k.add(at, quoin.MissingField, "a surcharge of nothing", "a rate or a fixed amount above 0, or both", "leave the surcharge out if there is none")
	}
}

func (k *checker) traded(at *form.Path, c Channel) {
	if c.Trade == nil {
		return
	}
	t, terms := c.Trade, at.Field("trade")
	if t.Freight != "" {
		for i, o := range c.Orders {
			at := at.Field("orders").At(i)
			if !o.Shipping.IsZero() {
				k.add(at.Field("shipping"), StrayFreight, "shipping beside freight in the trade terms", "postage alone: what the shop is charged follows", "")
			}
			if !o.FreeFrom.IsZero() {
				k.add(at.Field("free_from"), StrayFreight, "free_from beside freight in the trade terms", "free_from in the trade terms", "")
			}
		}
	}
	if !t.FreeFrom.IsZero() && t.Freight != Added {
		k.Stray(terms.Field("free_from"), "freight that is not added", "freight added, which is free from there")
	}
	if !t.Allowance.IsZero() != (t.Freight == Allowance) {
		k.Stray(terms.Field("allowance"), "an allowance or freight by allowance, one without the other", "both or none")
	}
	if h := t.LineSheet; !h.ValidFrom.IsZero() && !h.ValidUntil.IsZero() && h.ValidUntil.Cmp(h.ValidFrom) < 0 {
		k.add(terms.Field("line_sheet").Field("valid_until"), quoin.OutOfRange, h.ValidUntil.String(), "a day on or after valid_from, which is "+h.ValidFrom.String(), "")
	}
	k.terms(terms.Field("credit"), t.Credit)
}

// terms checks that the terms of credit hang together.
func (k *checker) terms(at *form.Path, c Credit) {
	if (c.EarlyDays != 0 || !c.Taken.IsZero() || c.EarlyRounded != "") && c.Early.IsZero() {
		k.Stray(at.Field("early"), "no discount for paying early", "the discount that early_days, taken and early_rounded are about")
	}
	if !c.Early.IsZero() && c.EarlyDays == 0 {
		k.Stray(at.Field("early_days"), "nothing", "within how many days the early discount is given")
	}
	if c.EarlyDays > 0 && c.Days > 0 && c.EarlyDays > c.Days {
		k.add(at.Field("early_days"), quoin.OutOfRange, fmt.Sprint(c.EarlyDays), fmt.Sprintf("at most the %d days of the net amount", c.Days), "")
	}
	if (!c.Interest.IsZero() || !c.Early.IsZero()) && c.Days == 0 {
		k.Stray(at.Field("days"), "nothing", "after how many days the money comes in")
	}
}

func (k *checker) consigned(at *form.Path, c Channel) {
	if c.Consignment == nil {
		return
	}
	w := c.Consignment
	at = at.Field("consignment")
	if w.Discount.Rate.IsZero() && (!w.Discount.Share.IsZero() || w.Discount.Borne != "" && w.Discount.Borne != Forbidden) {
		k.Stray(at.Field("discount").Field("rate"), "no discount", "the discount that is borne")
	}
	if !w.Discount.Rate.IsZero() && w.Discount.Borne == Forbidden {
		k.Stray(at.Field("discount").Field("rate"), w.Discount.Rate.String()+", and discounts are forbidden", "no discount")
	}
	for i, p := range w.Registered {
		if slices.Contains(w.Registered[:i], p) {
			k.add(at.Field("registered").At(i), RepeatedPart, prose.Quoted(string(p))+" again", "each side once", "")
		}
	}
	if !w.Interest.IsZero() && w.Days == 0 {
		k.Stray(at.Field("days"), "nothing", "after how many days the money comes in")
	}
}

// printed checks that a house that prints on demand says what it asks, or pays,
// for every product.
func (k *checker) printed(at *form.Path, c Channel) {
	w := c.OnDemand
	if w == nil {
		return
	}
	at = at.Field("on_demand")
	if rated := w.Pays == Royalty || w.Pays == ShareOfRest; rated == w.Rate.IsZero() {
		found := "no rate"
		if !rated {
			found = fmt.Sprintf("%s beside %s", w.Rate, w.Pays)
		}
		k.Stray(at.Field("rate"), found, "a rate for a royalty and for a share of the rest, and for nothing else")
	}
	if left, more := c.PaysMoreThanLeft(); more {
		found := fmt.Sprintf("a rate of %s of the price, of which the tax in it leaves the house %s", w.Rate, left.Round(2))
		k.add(at.Field("rate"), PaysTooMuch, found, "a rate below that", "lower the rate, or set without_tax where it is of the price without the tax")
	}
	if c.Returns != nil && !c.Returns.Resold.IsZero() {
		k.Stray(at.Field("pays"), "prints on demand, and returns that are sold again", "no resold: what comes back is the house's")
	}
	known := make(map[string]bool)
	for i, s := range w.Sizes {
		at := at.Field("sizes").At(i)
		if known[s.Product] {
			k.add(at.Field("product"), quoin.DuplicateID, prose.Quoted(s.Product)+" again", "each product once", "")
		}
		known[s.Product] = true
	}
}
