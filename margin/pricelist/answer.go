package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/version"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// Answer is a decided price list, or the conflict that prevents one. Its JSON is the answer to
// the shop document.
type Answer struct {
	// The key of the lot that is answered; not given where it has none.
	Key string `json:"key,omitempty"`
	// The library and the version of it that worked the answer out, such as "quoin 0.1.0".
	Engine string `json:"engine,omitempty"`
	// ISO 4217 code of the currency that every amount is in.
	Currency quoin.Currency `json:"currency"`
	// What all prices considered are multiples of, and the least of them.
	PriceStep quoin.Amount `json:"price_step" range:"[0,"`
	// The greatest price considered.
	PriceLimit quoin.Amount `json:"price_limit" range:"[0,"`
	// Which of the allowed prices was taken, as the document says.
	Choose rule.Choice `json:"choose,omitempty"`
	// The price list, in the document's order; empty on a conflict.
	Products []ProductResult `json:"products"`
	// Ids of the preferred rules that were dropped, because each would have left no price.
	Dropped []string `json:"dropped"`
	// For each rule dropped, the product that it would have left without a price.
	Emptied []string `json:"emptied,omitempty"`
	// Ids of a smallest group of rules that cannot hold together: drop any one of them and the
	// rest can.
	Conflict []string `json:"conflict,omitempty"`
	// What each rule of the conflict allows each product that it speaks of, by itself; of no
	// further product after a thousand.
	Clashes []RuleBounds `json:"clashes,omitempty"`
	// How far apart the rules of the conflict are, where a floor stands above a ceiling.
	Gaps []rule.Gap `json:"gaps,omitempty"`
	// Single changes, each of which by itself would end the conflict.
	Remedies []Remedy `json:"remedies,omitempty"`
	// What shops that buy at trade price are handed, one for each channel that sells any product
	// to them; not there without any.
	LineSheets []LineSheet `json:"line_sheets,omitempty"`
	// Whether to go to each fair; not there without any.
	Fairs []FairResult `json:"fairs,omitempty"`
	// What may be asked for products together; not there without any.
	Sets []SetPrice `json:"sets,omitempty"`
	// How each edition stands; not there without any.
	Editions []EditionStatus `json:"editions,omitempty"`
	// What each discount for paying early costs in a year; not there without any.
	Credits []EarlyPayment `json:"credits,omitempty"`
	// What offers and stocks of supplies come to; not there without any.
	Bought []SupplyCost `json:"bought,omitempty"`
	// What each machine adds to a started print; not there without any.
	Machines []Machine `json:"machines,omitempty"`
	// What deserves a look though the answer stands.
	Warnings quoin.Problems `json:"warnings,omitempty"`
	// Where each warning is, in words and in their order: Own shop, order 2, shipping.
	Places []string `json:"places,omitempty"`
	// Sentences that belong under every printed result.
	Cautions []string `json:"cautions"`
}

// ProductResult is one product of the list.
type ProductResult struct {
	// Id of the product.
	ID string `json:"id"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// Name of the design that it is a size of, where the document says so; not there in a brief
	// answer.
	Design string `json:"design,omitempty"`
	// Size of the print, without mat and frame, where the document says it; not there in a brief
	// answer.
	Size quoin.Size `json:"size,omitzero"`
	// The price that was chosen.
	Price quoin.Amount `json:"price" range:"[0,"`
	// Today's price; not given where the document gives none.
	Today quoin.Optional[quoin.Amount] `json:"today,omitzero" range:"[0,"`
	// By how much the price rises from today's, below zero where it falls: price ÷ today − 1,
	// rounded to a thousandth of a per cent. Not given without a price today.
	Change quoin.Optional[quoin.Rate] `json:"change,omitzero"`
	// The least price that all kept rules allow.
	Least quoin.Amount `json:"least" range:"[0,"`
	// The greatest price that all kept rules allow.
	Greatest quoin.Amount `json:"greatest" range:"[0,"`
	// All prices that the kept rules allow, as runs of neighbours, each its first and its last;
	// not there in a brief answer.
	Allowed AllowedPrices `json:"allowed,omitzero" range:"[0,"`
	// The allowed prices said short, where they may be more runs than are listed, as endings
	// without a low limit leave.
	AllowedPattern *rule.Pattern `json:"allowed_pattern,omitempty"`
	// The same without the holes that endings and price points make: the ranges in which the
	// price may lie, at most 20; not there in a brief answer.
	MayLie []rule.AllowedRange `json:"may_lie,omitempty"`
	// Given, and true, where there are more ranges than are listed.
	MoreRanges bool `json:"more_ranges,omitzero"`
	// Why the price is no lower; not given where no lower price is refused.
	Lower WhyNot `json:"lower,omitzero"`
	// Why the price is no higher; not given where no higher price is refused.
	Higher WhyNot `json:"higher,omitzero"`
	// What it leaves in each channel that sells it, in the document's order.
	Channels []ChannelResult `json:"channels"`
	// How the price stands with each channel that sells it, in the document's order.
	ByChannel ByChannel `json:"by_channel,omitzero"`
	// How its orders are sent, in channels that go by a tariff; not there without any.
	Parcels []Shipping `json:"parcels,omitempty"`
	// What was worked out for lines that do not give their quantity; not there without any.
	WorkedOut []DerivedLine `json:"worked_out,omitempty"`
	// How many prints its run starts, where the run asks to be sure.
	RunStart *RunStarts `json:"run_start,omitempty"`
	// Making its prints against having them made, where it has quotes.
	Sourcing *Sourcing `json:"sourcing,omitempty"`
	// What the ranges of the document come to; not there where it has none.
	Uncertainty *Uncertainty `json:"uncertainty,omitempty"`
	// What prints like it sold for elsewhere, and where its prices stand among them; not there
	// without comparables.
	Market *MarketPosition `json:"market,omitempty"`
}

// RuleBounds are the prices that one rule of a conflict allows one product: from the least to
// the greatest. Both are missing if it allows none.
type RuleBounds struct {
	// Id of the product.
	Product string `json:"product"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// Id of the rule.
	Rule string `json:"rule"`
	// The least price that it allows.
	Least quoin.Optional[quoin.Amount] `json:"least,omitzero"`
	// The greatest price that it allows.
	Greatest quoin.Optional[quoin.Amount] `json:"greatest,omitzero"`
}

// ChannelResult is a product in a channel, at its price.
type ChannelResult struct {
	// Id of the channel.
	ID string `json:"id"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// What the buyer pays for one item. Item + postage + tax on top − tax of the statement is
	// its revenue. Not there in a brief answer.
	Buyer channel.BuyerPays `json:"buyer,omitzero"`
	// What one item leaves, line by line.
	Statement margin.Statement `json:"statement"`
	// Its kinds of order one by one, where the channel's way of selling is more than a price and
	// fees.
	Orders []OrderResult `json:"orders,omitempty"`
	// What the ranges of the document come to at this price; not there where it has none.
	Range *StatementRange `json:"range,omitempty"`
	// Prices at which a lower one keeps more here, in rising order.
	DeadZones []rule.DeadZone `json:"dead_zones,omitempty"`
	// What a sale contributes at the prices around, as points to draw lines through; only after
	// Answer.WithCurves.
	Curve []margin.CurvePoint `json:"curve,omitempty"`
	// How the statement comes about, from what the document gives to net; each line of the
	// statement is the value of the step with its code. Not there in an answer without steps.
	Steps Reasons `json:"steps,omitzero"`
}

// decidedList is a document with what its rules come to: all that an answer is made of.
// Nothing in it changes, so what is computed when it is asked for may be so from
// anywhere.
type decidedList struct {
	derivedDocument
	*sharedCosts
	items []rule.Item
	dec   rule.Decision
}

func (d *decidedList) answer() (Answer, error) {
	a, err := d.reasoned()
	if err != nil {
		return a, err
	}
	if err := d.addStatements(&a); err != nil {
		return a, err
	}
	a.Bought = d.bought
	for i, c := range d.machines {
		a.Machines = append(a.Machines, Machine{d.Machines[i].ID, c.PerPrint, c.Volume})
	}
	a.Warnings = d.warnings(a)
	return a, nil
}

// reasoned is an answer as far as it is about single products, with their reasons.
func (d *decidedList) reasoned() (Answer, error) {
	a := d.outcome()
	if len(a.Conflict) > 0 {
		a.Remedies = d.remedies(d.dec, d.items)
		for i := range a.Remedies {
			a.Remedies[i].Place = d.asGiven().Place(a.Remedies[i].Path)
		}
	}
	return a, d.products(&a, d.priced)
}

// outcome is an answer without its products.
func (d *decidedList) outcome() Answer {
	g := d.items[0].Grid // that of all products, of which there is one at least
	a := Answer{
		Engine:   version.Engine,
		Currency: d.Currency, PriceStep: d.Currency.Round(g.Step(), quoin.HalfUp), PriceLimit: d.Currency.Round(g.Price(g.Len()), quoin.HalfUp), Products: []ProductResult{}, Dropped: append([]string{}, d.dec.Dropped...),
		Choose: d.Choose, Emptied: d.dec.Emptied, Conflict: d.dec.Conflict, Gaps: d.dec.Gaps, Cautions: d.Cautions(),
	}
	if len(a.Conflict) > 0 {
		clashing := make(map[string]bool, len(a.Conflict))
		for _, id := range a.Conflict {
			clashing[id] = true
		}
		for i := 0; i < len(d.items) && len(a.Clashes) < mostClashes; i++ {
			a.Clashes = append(a.Clashes, d.clashes(i, d.dec, clashing)...)
		}
	}
	return a
}

// products adds the products, each as priced says.
func (d *decidedList) products(a *Answer, priced func(i int, p *ProductResult) error) error {
	a.Products = make([]ProductResult, len(d.dec.Prices))
	for i := range a.Products {
		if err := priced(i, &a.Products[i]); err != nil {
			return err
		}
	}
	return nil
}

// addStatements adds what is said of channels, sets and editions rather than of products.
func (d *decidedList) addStatements(a *Answer) (err error) {
	if len(d.dec.Prices) == 0 {
		return nil
	}
	a.LineSheets, a.Credits = d.lineSheets(d.items, d.dec.Prices), d.credits()
	a.Editions = d.editions(d.items, d.dec)
	if a.Fairs, err = d.fairs(a.Products); err != nil {
		return err
	}
	a.Sets, err = d.sets(d.dec.Prices, d.sharedCosts)
	return err
}

// figures is a product's price, the least and the greatest allowed, and its statements.
func (d *decidedList) figures(i int, p *ProductResult) error {
	places := d.Currency.Digits()
	price, allowed := d.dec.Prices[i], d.dec.Allowed[i]
	least, _ := allowed.Least()
	greatest, _ := allowed.Greatest()
	p.ID, p.Name = d.items[i].ID, d.Products[i].Name
	p.decided(places, d.items[i].Today, price, least, greatest)
	p.Channels = make([]ChannelResult, len(d.items[i].Offers))
	for n, j := range d.soldIn(&d.Products[i]) {
		o := &d.items[i].Offers[n]
		p.Channels[n] = ChannelResult{ID: o.Channel, Name: d.Channels[j].Name, Statement: o.Sale.At(price)}
	}
	return nil
}

// decided fills in what was decided of a product, in money of so many places.
func (p *ProductResult) decided(places int, today quoin.Optional[quoin.Amount], price, least, greatest quoin.Amount) {
	p.Price, p.Least, p.Greatest = price.Round(places, quoin.HalfUp), least.Round(places, quoin.HalfUp), greatest.Round(places, quoin.HalfUp)
	if was, ok := today.Get(); ok {
		p.Today = quoin.Some(was.WithPlaces(places))
		if was.Sign() > 0 {
			p.Change = quoin.Some(price.Share(was).Sub(perCent(100)).Round(5))
		}
	}
}

// priced is a product with its reasons.
func (d *decidedList) priced(i int, p *ProductResult) (err error) {
	if err := d.figures(i, p); err != nil {
		return err
	}
	price, allowed := d.dec.Prices[i], d.dec.Allowed[i]
	p.Design, p.Size = d.items[i].Design, d.items[i].Size
	p.Allowed = AllowedPrices{Set: allowed, places: d.Currency.Digits()}
	if allowed.RunsAtMost() > mostListed {
		pattern := allowed.Pattern()
		p.AllowedPattern = &pattern
	}
	p.MayLie, p.MoreRanges = d.dec.Ranges(i, mostRanges)
	for k := range p.MayLie {
		r := &p.MayLie[k]
		r.First, r.Last = r.First.Round(d.Currency.Digits(), quoin.HalfUp), r.Last.Round(d.Currency.Digits(), quoin.HalfUp)
	}
	p.WorkedOut, p.RunStart, p.Market = d.byLine[i], d.runs[i], d.market(i)
	p.Lower, p.Higher = WhyNot{of: d, at: i, side: -1}, WhyNot{of: d, at: i, side: +1}
	places := d.soldIn(&d.Products[i])
	p.ByChannel = ByChannel{of: d, at: i, places: places, channels: make([]channel.Channel, len(places)), zones: make([][]rule.DeadZone, len(places))}
	for n, j := range places {
		sold := &p.Channels[n]
		sold.Buyer = d.items[i].Offers[n].Sale.Terms.BuyerPays(price)
		c, err := d.inChannel(i, n, j, p)
		if err != nil {
			return err
		}
		p.ByChannel.zones[n], p.ByChannel.channels[n] = sold.DeadZones, c.Channel
		sold.Steps = because(func(t *quoin.Trail) { d.statementInputs(d.places, i, j, d.sharedCosts, c).ExplainOn(t, price) })
	}
	if p.Parcels, err = d.parcels(i, d.sharedCosts); err != nil {
		return err
	}
	p.Sourcing, err = d.sourcing(i, p.Channels, d.sharedCosts)
	return err
}

// inChannel adds to a product in channel j, the nth that sells it, its dead zones and its kinds
// of order.
func (d *decidedList) inChannel(i, n, j int, p *ProductResult) (c sold, err error) {
	o, in := &d.items[i].Offers[n], &p.Channels[n]
	if in.DeadZones, err = rule.DeadZones(d.items[i].Grid, *o); err != nil {
		in.DeadZones = nil // too fine to tell apart; the price stands without them
	}
	if c, err = d.sold(&d.Products[i], j); err == nil && inKinds(c.Channel) {
		in.Orders = ordered(c.Channel, d.Currency, p.ID, o.Sale, d.dec.Prices[i])
	}
	return c, err
}

// mostRanges is how many ranges of allowed prices are listed.
const mostRanges = 20

// mostClashes is after how many no further product is said to clash.
const mostClashes = 1000

// mostNamed is how many rules an answer names for one thing.
const mostNamed = 12

// firstNamed is what is named of a list, and whether there is more.
func firstNamed[T any](all []T) (named []T, more bool) {
	n := min(len(all), mostNamed)
	return all[:n:n], len(all) > n
}

// clashes is what each rule of the conflict allows product i. A rule that does
// not speak of it, and a step, which by itself allows anything, say nothing.
func (d Document) clashes(i int, dec rule.Decision, clashing map[string]bool) []RuleBounds {
	var out []RuleBounds
	for _, r := range dec.Speaking(i) {
		_, step := d.Rules[r].Kind.(rule.SizeRatio)
		if step || !clashing[d.Rules[r].ID] {
			continue
		}
		c := RuleBounds{Product: d.Products[i].ID, Name: d.Products[i].Name, Rule: d.Rules[r].ID}
		allows := dec.Allows(r, i)
		if least, ok := allows.Least(); ok {
			greatest, _ := allows.Greatest()
			c.Least, c.Greatest = quoin.Some(least), quoin.Some(greatest)
		}
		out = append(out, c)
	}
	return out
}
