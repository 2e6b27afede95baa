package pricelist

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// Codes of what deserves a look though the answer stands.
const (
	InDeadZone        quoin.Code = "in_dead_zone"
	LosesMoney        quoin.Code = "loses_money"
	LosesOnWorst      quoin.Code = "loses_on_worst_order"
	WholesaleBelow    quoin.Code = "wholesale_below_goods"
	LargerKeepsLess   quoin.Code = "larger_keeps_less"
	RateMistyped      quoin.Code = "rate_looks_mistyped"
	ContingencyAsLoss quoin.Code = "contingency_for_yield"
	FeeOmitsTax       quoin.Code = "fee_leaves_tax_out"
	OneVenue          quoin.Code = "comparables_from_one_venue"
	FewComparables    quoin.Code = "few_comparables"
	UnsoldLeftOut     quoin.Code = "unsold_left_out"
	UnusedSupply      quoin.Code = "unused_supply"
	UnusedTaxClass    quoin.Code = "unused_tax_class"
	SilentChannel     quoin.Code = "no_rule_for_channel"
	SellsNothing      quoin.Code = "channel_sells_nothing"
	TodayBreaksRule   quoin.Code = "today_breaks_rule"
	NoPriceToday      quoin.Code = "no_price_today"
	NoPriceAtEnd      quoin.Code = "no_price_at_end"
	InkAsIfExact      quoin.Code = "ink_as_if_exact"
	// MoreWarnings is that there are more than are listed, and how many of each code.
	MoreWarnings quoin.Code = "more_warnings"
)

// mostWarnings bounds what is listed.
const mostWarnings = 1000

// warner gathers warnings in order: of the document first, then of each
// product, channel by channel.
type warner struct {
	*sharedCosts
	doc        Document // worked out
	given      Document
	supplyAt   []quoin.Path
	items      []rule.Item
	dec        rule.Decision
	priced     []ProductResult
	answer     Answer
	warnings   quoin.Problems
	most       int // that are listed
	mostBroken int // rules that one of them names
	unlisted   map[quoin.Code]int
	spread     map[int]bool // by product: whether the spread of its comparables was looked at
}

func (d *decidedList) warner(a Answer) *warner {
	return &warner{
		sharedCosts: d.sharedCosts, doc: d.Document, given: d.given, supplyAt: d.supplyAt,
		items: d.items, dec: d.dec, priced: a.Products, answer: a, most: mostWarnings, mostBroken: mostNamed,
	}
}

// BreaksToday returns the warnings that today's prices break rules, one for each product. It
// returns all of them, even those after the thousand that are listed, and each with all of its
// rules. For an answer that was read from JSON it returns the listed ones.
func (a Answer) BreaksToday() quoin.Problems {
	all := a.Warnings
	if len(a.Products) > 0 && a.Products[0].ByChannel.of != nil {
		w := a.Products[0].ByChannel.of.warner(a)
		w.most, w.mostBroken = math.MaxInt, math.MaxInt
		w.today()
		all = w.warnings
	}
	var out quoin.Problems
	for _, p := range all {
		if p.Code == TodayBreaksRule {
			out = append(out, p)
		}
	}
	return out
}

func (d *decidedList) warnings(a Answer) quoin.Problems {
	w := d.warner(a)
	w.rates()
	w.waste()
	w.ink()
	w.unused()
	w.taxClasses()
	w.fees()
	w.postage()
	w.forgotten()
	w.made()
	w.silent()
	w.idle(0)
	w.comparables()
	w.today()
	w.prices()
	for i, price := range d.dec.Prices {
		w.sales(i, price)
	}
	w.ladders()
	w.ways()
	return w.all()
}

// shopWarnings are those of a shop whose products are still to come.
func (d *decidedList) shopWarnings() quoin.Problems {
	w := d.warner(Answer{})
	w.rates()
	w.waste()
	w.fees()
	w.postage()
	w.forgotten()
	w.silent()
	return w.all()
}

// lotWarnings are those of the products of a lot, whose rules follow after so many
// of its shop.
func (d *decidedList) lotWarnings(a Answer, rules int) quoin.Problems {
	w := d.warner(a)
	for i := range d.Products {
		w.rate((*path)(nil).Field("products").At(i), reflect.ValueOf(d.Products[i]), false)
	}
	for i := rules; i < len(d.Rules); i++ {
		w.rate((*path)(nil).Field("rules").At(i), reflect.ValueOf(d.Rules[i]), false)
	}
	w.ink()
	w.made()
	w.idle(rules)
	w.comparables()
	w.today()
	w.prices()
	for i, price := range d.dec.Prices {
		w.sales(i, price)
	}
	w.ladders()
	for j, c := range w.doc.Channels {
		for i := range d.dec.Prices {
			w.orders(i, j, c)
		}
	}
	return w.all()
}

// warn adds a warning: what is found, what would be right or what to do, and
// the figures as arguments, name and value in turn.
func (w *warner) warn(code quoin.Code, at quoin.Path, found, remedy string, args ...string) {
	p := quoin.Problem{Code: code, Severity: quoin.Warning, Path: at.String(), Found: found, Remedy: remedy}
	if len(args) > 0 {
		p.Args = make([]quoin.Arg, 0, len(args)/2)
	}
	for i := 0; i+1 < len(args); i += 2 {
		if args[i+1] != "" {
			p.Args = append(p.Args, quoin.Arg{Name: args[i], Value: args[i+1]})
		}
	}
	w.put(p)
}

// put lists a warning, or counts it where too many are listed.
func (w *warner) put(p quoin.Problem) {
	if len(w.warnings) < w.most {
		w.warnings = append(w.warnings, p)
		return
	}
	if w.unlisted == nil {
		w.unlisted = make(map[quoin.Code]int)
	}
	w.unlisted[p.Code]++
}

// all returns the warnings, and behind them how many of each code are not listed.
func (w *warner) all() quoin.Problems {
	if len(w.unlisted) == 0 {
		return w.warnings
	}
	more := quoin.Problem{Code: MoreWarnings, Severity: quoin.Warning, Remedy: "mend what the others say, and see what is left"}
	var counts []string
	for _, code := range slices.Sorted(maps.Keys(w.unlisted)) {
		n := strconv.Itoa(w.unlisted[code])
		counts = append(counts, n+" "+string(code))
		more.Args = append(more.Args, quoin.Arg{Name: string(code), Value: n})
	}
	more.Found = "more warnings than are listed: " + strings.Join(counts, ", ")
	return append(w.warnings, more)
}

func (w *warner) money(a quoin.Amount) string { return w.doc.Currency.Round(a, quoin.HalfUp).String() }

// distinct writes two figures so that they can be told apart: to the minor unit,
// or with all digits where they are the same there.
func (w *warner) distinct(a, b quoin.Figure) (string, string) {
	places := w.doc.Currency.Digits()
	if x, y := a.Round(places), b.Round(places); x != y {
		return x, y
	}
	return a.Long(), b.Long()
}

// sales warns of what a product's price does in each channel.
func (w *warner) sales(i int, price quoin.Amount) {
	it := w.items[i]
	for n, j := range w.soldIn(&w.doc.Products[i]) {
		o, s := it.Offers[n], w.priced[i].Channels[n].Statement
		at := quoin.InList("channels", j)
		about := []string{"product", it.ID, "channel", o.Channel, "price", w.money(price)}
		if s.Contribution.Sign() < 0 {
			kept, _ := w.distinct(s.Contribution.Figure(), quoin.Amount{}.Figure())
			w.warn(LosesMoney, at, fmt.Sprintf("each %s sold at %s in %s contributes %s", it.ID, w.money(price), o.Channel, kept),
				"raise the price there by an uplift, or sell it elsewhere", append(about, "contribution", kept)...)
			w.unasked(i, j, s.Contribution)
		} else {
			w.least(j, it, o, price, about)
		}
		if len(w.doc.Channels[j].TradeDiscount) > 0 && s.Revenue.Cmp(s.Goods) < 0 {
			brings, cost := w.distinct(s.Revenue.Figure(), s.Goods.Figure())
			w.warn(WholesaleBelow, at.Field("trade_discount"),
				fmt.Sprintf("%s brings %s in %s, and its goods cost %s", it.ID, brings, o.Channel, cost),
				"give a smaller trade discount", append(about, "revenue", brings, "goods", cost)...)
		}
		w.deadZone(at, it, w.priced[i].Channels[n], price, about)
	}
}

// least warns of the kind of order that loses most, where the average earns.
func (w *warner) least(j int, it rule.Item, o rule.Offer, price quoin.Amount, about []string) {
	if !o.Sale.Terms.Varies() {
		return
	}
	kind, least := -1, quoin.Amount{}
	for k, sale := range w.worst(j, o.Sale) {
		if kept := sale.At(price).Contribution; kept.Cmp(least) < 0 {
			kind, least = k, kept
		}
	}
	if kind < 0 {
		return
	}
	at := quoin.InList("channels", j)
	_, order := o.Sale.Terms.Order(kind)
	if order >= 0 {
		at = at.Sub("orders", order)
	}
	kept, _ := w.distinct(least.Figure(), quoin.Amount{}.Figure())
	w.warn(LosesOnWorst, at,
		fmt.Sprintf("an order of this kind, with every fee in full, contributes %s for each %s", kept, it.ID),
		"ask for more with \"asked_of\": \"worst\" on a contribution rule", append(about, "order", strconv.Itoa(max(order, 0)), "contribution", kept)...)
}

func (w *warner) deadZone(at quoin.Path, it rule.Item, sold ChannelResult, price quoin.Amount, about []string) {
	for _, z := range sold.DeadZones {
		if !z.Holds(price) {
			continue
		}
		again, remedy := "", "take the lower price: no higher one up to the limit keeps as much"
		if p, ok := z.Again.Get(); ok {
			again = w.money(p)
			remedy = fmt.Sprintf("take the lower price, or one from %s on, which keep as much again", again)
		}
		w.warn(InDeadZone, at,
			fmt.Sprintf("%s at %s keeps less in %s than at %s, which keeps %s", it.ID, w.money(price), sold.ID, w.money(z.After), w.money(z.Contribution)),
			remedy, append(about, "better", w.money(z.After), "keeps", w.money(z.Contribution), "again", again)...)
	}
}

// ladders warns of larger sizes that keep less for each sale than the smaller.
func (w *warner) ladders() {
	if len(w.dec.Prices) == 0 {
		return
	}
	for r, ru := range w.doc.Rules {
		at, k := quoin.InList("rules", r), 0
		for small, large := range w.dec.LadderPairs(r) {
			if k++; len(ru.Products) > 0 {
				w.rung(at.FieldAt("products", k), small, large)
			} else {
				w.rung(at, small, large)
			}
		}
	}
}

func (w *warner) rung(at quoin.Path, small, large int) {
	w.cheaper(at, small, large)
	for n, o := range w.items[large].Offers {
		if _, both := w.items[small].Offer(o.Channel); !both {
			continue
		}
		a := w.priced[small].in(o.Channel).Statement.Contribution
		b := w.priced[large].Channels[n].Statement.Contribution
		if b.Cmp(a) >= 0 {
			continue
		}
		w.warn(LargerKeepsLess, at,
			fmt.Sprintf("in %s, %s keeps %s and the smaller %s keeps %s", o.Channel, w.items[large].ID, w.money(b), w.items[small].ID, w.money(a)),
			"step up further, or make the larger size cheaper to sell",
			"channel", o.Channel, "larger", w.items[large].ID, "keeps", w.money(b), "smaller", w.items[small].ID, "smaller_keeps", w.money(a))
	}
}
