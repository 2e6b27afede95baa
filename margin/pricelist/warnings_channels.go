package pricelist

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin"
	"example.com/quoin/margin/edition"
)

// Codes of what deserves a look in a way of selling.
const (
	FairInPrint   quoin.Code = "fair_cost_in_print"
	FairStay      quoin.Code = "fair_does_not_pay"
	BelowMinimum  quoin.Code = "order_below_minimum"
	BrokenCase    quoin.Code = "case_broken"
	BelowBase     quoin.Code = "price_below_base"
	StepRefused   quoin.Code = "edition_step_refused"
	BeyondLimit   quoin.Code = "edition_beyond_limit"
	SetSavesNone  quoin.Code = "set_saves_nothing"
	CodesBreak    quoin.Code = "codes_break_rule"
	CollectsLater quoin.Code = "early_discount_dear"
)

// ways warns of what the ways of selling do with the decided prices.
func (w *warner) ways() {
	for j, c := range w.doc.Channels {
		if c.Trade != nil {
			w.credit(j, *c.Trade)
			w.cases(j, c)
		}
		for i := range w.dec.Prices {
			w.orders(i, j, c)
		}
	}
	w.stands()
	w.fairs()
	w.sets()
	w.editions()
}

// orders warns of kinds of order that a shop may not place, or that sell below
// what a house asks.
func (w *warner) orders(i, j int, c channel.Channel) {
	n := slices.Index(w.soldIn(&w.doc.Products[i]), j)
	if n < 0 {
		return
	}
	at := quoin.InList("channels", j)
	product := w.items[i].ID
	for k, o := range w.priced[i].Channels[n].Orders {
		where := at
		place, listed := o.Order.Get()
		if listed {
			where = at.Sub("orders", int(place))
		}
		if c.Trade != nil {
			w.trade(where, product, *c.Trade, o, listed && c.Orders[place].Reorder)
		}
		if each, printed := c.For(product).Prints(); printed {
			w.printed(where, product, c, o, each)
		}
		if listed && len(c.Orders[place].Codes) > 0 {
			w.codes(i, n, j, k, where, o)
		}
	}
}

// printed warns of an order that brings less than the house asks for printing it.
func (w *warner) printed(at quoin.Path, product string, c channel.Channel, o OrderResult, each quoin.Amount) {
	base := each.Times(quoin.FactorOf(o.Items))
	if base.Cmp(o.Revenue) <= 0 {
		return
	}
	w.warn(BelowBase, at, fmt.Sprintf("an order of %s of %s in %s brings %s, and the house asks %s for printing it", prose.Count(o.Items, "print"), product, c.ID, w.money(o.Revenue), w.money(base)),
		"ask a higher price there, or have it printed elsewhere", "product", product, "channel", c.ID, "revenue", w.money(o.Revenue), "base", w.money(base))
}

// trade warns of an order below the minimum. What an order of one product comes
// to after all promotions is held against it.
func (w *warner) trade(at quoin.Path, product string, t channel.Trade, o OrderResult, again bool) {
	least := t.Opening
	if again {
		least = t.Reorder
	}
	worth := o.Unit.Times(quoin.FactorOf(o.Items)).Sub(o.Discount)
	if worth.Cmp(least) < 0 {
		w.warn(BelowMinimum, at, fmt.Sprintf("%s of %s come to %s, and %s is the least that is sold", prose.Count(o.Items, "print"), product, w.money(worth), w.money(least)),
			"count on larger orders, on orders of several products, or ask for less", "product", product, "worth", w.money(worth), "minimum", w.money(least))
	}
}

// cases warns of kinds of order that break a case, whatever the product.
func (w *warner) cases(j int, c channel.Channel) {
	orders, at := c.Orders, func(k int) quoin.Path { return quoin.InList("channels", j).Sub("orders", k) }
	if len(orders) == 0 {
		orders, at = []channel.Order{{}}, func(int) quoin.Path { return quoin.InList("channels", j) }
	}
	for k, o := range orders {
		if n := o.ItemsOr1(); c.Trade.Case > 1 && n%c.Trade.Case != 0 {
			w.warn(BrokenCase, at(k), fmt.Sprintf("an order of %s breaks a case of %d", prose.Count(n, "print"), c.Trade.Case),
				"count orders in whole cases", "items", fmt.Sprint(n), "case", fmt.Sprint(c.Trade.Case))
		}
	}
}

// codes warns of an order whose codes leave less than the rules ask of an average
// order there.
func (w *warner) codes(i, n, j, k int, at quoin.Path, o OrderResult) {
	offer := w.items[i].Offers[n]
	worst := w.worst(j, offer.Sale)
	if k >= len(worst) {
		return
	}
	// Rules about the worst case have asked each kind of order by itself.
	asked := func() []margin.Sale { return nil }
	if broken, _ := w.dec.Bears(i, offer.Channel, worst[k], w.dec.Prices[i], asked); len(broken) == 0 {
		return
	}
	w.warn(CodesBreak, at, fmt.Sprintf("with its codes an order of %s keeps %s for each print, less than a rule asks of orders there", w.items[i].ID, w.money(o.PerItem)),
		"give less away, or bear it knowingly", "product", w.items[i].ID, "keeps", w.money(o.PerItem), "discount", w.money(o.Discount))
}

// credit warns of an early discount that costs more in a year than money does; where nothing is
// said of what money costs, it says what the discount costs.
func (w *warner) credit(j int, t channel.Trade) {
	yearly, ok := t.Credit.EarlyCost(365)
	taken, given := t.Credit.Taken.Get()
	interest := t.Credit.Interest
	if !ok || given && taken.IsZero() || yearly.Cmp(interest) <= 0 {
		return
	}
	hundred := quoin.AmountOf(10000, 2)
	early := w.money(hundred.Part(t.Credit.Early))
	beside, money := "hold that against what your bank asks", ""
	if !interest.IsZero() {
		beside, money = fmt.Sprintf("money costs you %s", interest), interest.String()
	}
	w.warn(CollectsLater, quoin.InList("channels", j).Sub("trade", -1).Inside("credit").Field("early"),
		fmt.Sprintf("%s in %s gives %s of each %s to be paid %s earlier: %s a year, and %s", t.Credit.Early, w.place(j), early, w.money(hundred), prose.Count(t.Credit.Days-t.Credit.EarlyDays, "day"), yearly.Round(1), beside),
		"give a smaller discount for paying early, or none, unless it saves bad debts",
		"channel", w.doc.Channels[j].ID, "early", early, "of", w.money(hundred), "days", fmt.Sprint(t.Credit.Days-t.Credit.EarlyDays), "yearly", yearly.Round(2).String(), "money", money)
}

// stands warns of what a fair costs inside its prints: in the channel of a fair of the document,
// or in one that is a fair by its name.
func (w *warner) stands() {
	for j, c := range w.doc.Channels {
		if c.FixedCost.Cost.IsZero() {
			continue
		}
		at := ""
		if k := slices.IndexFunc(w.doc.Fairs, func(f fair.Fair) bool { return f.Channel == c.ID }); k >= 0 {
			at = w.doc.Fairs[k].ID
		}
		if at == "" && !isFair(c.ID) && !isFair(c.Name) {
			continue
		}
		each, _ := c.FixedCost.PerItem()
		w.warn(FairInPrint, quoin.InList("channels", j).Sub("fixed_cost", -1).Field("cost"),
			fmt.Sprintf("each print in %s carries %s of its %s: what a fair costs decides whether to go, not what a print costs", w.place(j), w.cents(each), w.money(c.FixedCost.Cost)),
			"put it into a fair of the list fairs, and look at its break-even", "channel", c.ID, "fair", at, "cost", w.money(c.FixedCost.Cost), "each", w.cents(each))
	}
}

func (w *warner) fairs() {
	for i, f := range w.answer.Fairs {
		if len(f.Reasons) > 0 {
			w.warn(FairStay, quoin.InList("fairs", i), fmt.Sprintf("%s is expected to leave %s, and must leave %s", cmp.Or(w.doc.Fairs[i].Name, f.ID), w.money(f.Result), w.money(f.Asked)),
				"stay away, or find a reason to expect more sales", "fair", f.ID, "result", w.money(f.Result), "asked", w.money(f.Asked), "reason", string(f.Reasons[0]))
		}
	}
}

func (w *warner) sets() {
	for i, s := range w.answer.Sets {
		if saves, ok := s.Saves.Get(); ok && saves.Sign() > 0 {
			continue
		}
		least, name := "", cmp.Or(w.doc.Sets[i].Name, s.ID)
		found := fmt.Sprintf("no price of %s up to the limit keeps what is kept without it", name)
		if p, ok := s.Least.Get(); ok {
			least = w.money(p)
			found = fmt.Sprintf("%s has to cost %s to keep what is kept without it, and its products cost %s apart", name, least, w.money(s.SumOfPrices))
		}
		w.warn(SetSavesNone, quoin.InList("sets", i), found,
			"leave the set out, or bear it knowingly", "set", s.ID, "least", least, "apart", w.money(s.SumOfPrices))
	}
}

func (w *warner) editions() {
	for i, e := range w.answer.Editions {
		at := quoin.InList("editions", i)
		_, audit := w.doc.Editions[i].Audit()
		for _, p := range audit {
			if located, ok := at.Locate(p).(quoin.Problem); ok && p.Severity == quoin.Warning {
				located.Args = noted(w.doc.Editions[i], p.Path)
				w.put(located)
			}
		}
		for _, b := range e.Limits {
			if !b.Within {
				w.warn(BeyondLimit, at.Field("size"), fmt.Sprintf("%s comes to %s, and %q holds up to %d", cmp.Or(w.doc.Editions[i].Name, e.ID), prose.Count(b.Counts, "print"), b.Name, b.AtMost),
					"see what that means where you sell"+sourced(b.Source), "edition", e.ID, "limit", b.Name, "counts", fmt.Sprint(b.Counts), "at_most", fmt.Sprint(b.AtMost))
			}
		}
		w.steps(at, e)
	}
}

// noted is the arguments of what an audit says of an edition at a path in it.
func noted(e edition.Edition, path string) []quoin.Arg {
	args := []quoin.Arg{{Name: "edition", Value: e.ID}}
	add := func(name string, n int64) {
		if n > 0 {
			args = append(args, quoin.Arg{Name: name, Value: fmt.Sprint(n)})
		}
	}
	var i int
	if _, err := fmt.Sscanf(path, "ledger[%d]", &i); err == nil && i < len(e.Ledger) {
		add("number", e.Ledger[i].Number)
		add("proof", e.Ledger[i].Proof)
	}
	if _, err := fmt.Sscanf(path, "steps[%d]", &i); err == nil && i < len(e.Steps) {
		add("sold", e.Steps[i].Sold)
	}
	return args
}

func (w *warner) steps(at quoin.Path, e EditionStatus) {
	for _, p := range e.Products {
		for k, s := range p.Steps {
			if len(s.Refused) == 0 || s.Count == 0 {
				continue
			}
			w.warn(StepRefused, at.FieldAt("steps", k), fmt.Sprintf("from %d sold, %s asks %s, which %q does not allow", s.Sold, p.Product, w.money(s.Price), s.Refused[0]),
				"change the step or the rule", "edition", e.ID, "product", p.Product, "price", w.money(s.Price), "rule", s.Refused[0])
		}
	}
}

// sourced says where the shop has a limit from.
func sourced(source string) string {
	if source == "" {
		return ""
	}
	return " (by " + source + ")"
}
