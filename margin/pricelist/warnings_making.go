package pricelist

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/prose"
)

// Codes of what is easily forgotten in making, packing and having printed.
const (
	NoWorkingTime        quoin.Code = "no_working_time"
	InkWithoutUpkeep     quoin.Code = "ink_without_upkeep"
	StandingCostInBill   quoin.Code = "standing_cost_in_bill"
	ToleranceOverEdition quoin.Code = "tolerance_beyond_edition"
)

// made warns of what the bills of products leave out, or hold that is not theirs.
func (w *warner) made() {
	w.workless()
	w.unpacked()
	w.lines()
	w.tolerances()
}

// lines warns of single lines of bills and packing lists, of each kind once for each supply.
func (w *warner) lines() {
	all, by := w.largestOrders()
	said := make(map[lineWarning]bool)
	for i := range w.given.Products {
		p, at := &w.given.Products[i], quoin.InList("products", i)
		for k := range p.Bill {
			w.line(at.Sub("bill", k), &p.Bill[k], all, said)
		}
		curious := false
		for _, packing := range p.Packing {
			curious = curious || w.curious(packing)
		}
		if !curious {
			continue
		}
		for _, name := range slices.Sorted(maps.Keys(p.Packing)) {
			for k := range p.Packing[name] {
				w.line(at.Named("packing", name, k), &p.Packing[name][k], by[name], said)
			}
		}
	}
}

// lineWarning is what was said of a supply.
type lineWarning struct {
	supply string
	code   quoin.Code
}

// curious reports whether a packing list may have a line to warn of, which costs nothing to ask.
func (w *warner) curious(bill cost.Bill) bool {
	return slices.ContainsFunc(bill, func(l cost.BillLine) bool {
		u := w.uses()[l.Supply]
		return l.Ink != nil || l.Per == cost.EachPeriod || u.standing || u.wrapsOrder && l.Per != cost.EachOrder || u.wrapsPrint && l.Per == cost.EachOrder
	})
}

// line warns of one line, which is used in orders of up to n prints.
func (w *warner) line(at quoin.Path, l *cost.BillLine, n int64, said map[lineWarning]bool) {
	first := func(c quoin.Code) bool {
		key := lineWarning{l.Supply, c}
		again := said[key]
		said[key] = true
		return !again
	}
	if l.Ink != nil && len(l.Ink.Spent) == 0 && !keepsPrinter(l.Ink.Upkeep) && first(InkWithoutUpkeep) {
		w.dryInk(at, l)
	}
	if (l.Per == cost.EachPeriod || w.uses()[l.Supply].standing) && first(StandingCostInBill) {
		w.standing(at, l)
	}
	if n > 1 {
		w.countedBy(at, l, n, first)
	}
}

// workless warns of a shop in which nobody works on a print.
func (w *warner) workless() {
	house := func(c channel.Channel) bool { return c.OnDemand != nil }
	if !slices.ContainsFunc(w.doc.Channels, func(c channel.Channel) bool { return !house(c) }) {
		return
	}
	lines := 0
	for _, p := range w.doc.Products {
		lines += len(p.Bill)
		if w.works(p.Bill) {
			return
		}
		for _, packing := range p.Packing {
			if w.works(packing) {
				return
			}
		}
	}
	if lines == 0 {
		return
	}
	sold := w.soldIn(&w.doc.Products[0])
	n := slices.IndexFunc(sold, func(j int) bool { return !house(w.doc.Channels[j]) })
	found, kept := "no bill holds working time", ""
	if product, _, ok := w.example(); ok && n >= 0 {
		j := sold[n]
		kept = w.money(w.priced[0].Channels[n].Statement.Contribution)
		found += fmt.Sprintf(": the %s that a sale of %s contributes in %s also has to pay for making and packing it", kept, product, w.place(j))
	}
	w.warn(NoWorkingTime, quoin.InField("supplies"), found,
		"add an hour of your time as a supply with \"labour\": \"own\", and the minutes of each print to its bill", "products", strconv.Itoa(len(w.doc.Products)), "contribution", kept)
}

// works reports whether there is working time on a bill.
func (w *warner) works(bill cost.Bill) bool {
	return slices.ContainsFunc(bill, func(l cost.BillLine) bool { return w.uses()[l.Supply].works })
}

// dryInk warns of ink by the square metre that holds nothing of what cleaning takes.
func (w *warner) dryInk(at quoin.Path, l *cost.BillLine) {
	w.warn(InkWithoutUpkeep, at.Inside("ink").Field("upkeep"), fmt.Sprintf("%s of %s for a square metre of image, and none for cleaning and idle weeks: if a third of all ink bought reaches no print, the ink of a print costs half as much again", l.Ink.PerM2, w.supply(l.Supply)),
		"give upkeep a share, or what a month takes; or give ink as what was spent in a period", "supply", l.Supply, "per_m2", l.Ink.PerM2.String())
}

// keepsPrinter reports whether ink holds what keeps the printer going.
func keepsPrinter(u ink.Upkeep) bool {
	return !u.PerMonth.IsZero() || !u.PerSession.IsZero() || !u.Share.IsZero()
}

// standing warns of the cost of a fair, or of a year, on a bill.
func (w *warner) standing(at quoin.Path, l *cost.BillLine) {
	each := w.lineCost(l)
	w.warn(StandingCostInBill, at.Field("supply"), fmt.Sprintf("%s is paid whatever is sold, and stands on a bill: each print carries %s, which cost multiples multiply and break-evens do not see", w.supply(l.Supply), each),
		"put the cost of a fair into fairs, that of a channel into its fixed_cost, that of the shop into overhead", "supply", l.Supply, "each", each)
}

// lineCost is what a line costs each print, or each order, without what is lost.
func (w *warner) lineCost(l *cost.BillLine) string {
	in, err := l.Quantity.In(w.costs[l.Supply].Unit)
	if err != nil {
		return ""
	}
	each := w.costs[l.Supply].Amount.Times(in.Number())
	if l.SharedBy.Sign() > 0 {
		each = each.Over(l.SharedBy)
	}
	return w.cents(each)
}

// unpacked warns of channels that post and have no packing list, where bills hold no packing
// either.
func (w *warner) unpacked() {
	for j, c := range w.doc.Channels {
		if c.Packing != "" || c.Tariff != "" || c.OnDemand != nil {
			continue
		}
		k := slices.IndexFunc(c.Orders, func(o channel.Order) bool { return o.Postage.Sign() > 0 })
		i := slices.IndexFunc(w.doc.Products, func(p Product) bool { return len(p.Bill) > 0 && !w.packs(p.Bill) })
		if k < 0 || i < 0 {
			continue
		}
		postage := w.money(c.Orders[k].Postage)
		w.warn(NoPacking, quoin.InList("channels", j).Field("packing"), fmt.Sprintf("%s goes by post in %s for %s, and nothing that it is packed in is counted", w.titled(i), w.place(j), postage),
			"put sleeve, board and mailer on a packing list of the product, and name that list as the packing of the channel", "channel", c.ID, "product", w.doc.Products[i].ID, "postage", postage)
	}
}

// packs reports whether a bill holds packing: a line for each order, or one of that name.
func (w *warner) packs(bill cost.Bill) bool {
	return slices.ContainsFunc(bill, func(l cost.BillLine) bool {
		u := w.uses()[l.Supply]
		return l.Per == cost.EachOrder || u.wrapsOrder || u.wrapsPrint || u.packs
	})
}

// largestOrders is how many prints an order holds at most, and by the packing list of its channel.
func (w *warner) largestOrders() (all int64, by map[string]int64) {
	by = make(map[string]int64, 1)
	for _, c := range w.doc.Channels {
		if c.OnDemand == nil {
			all, by[c.Packing] = max(all, mostItems(c)), max(by[c.Packing], mostItems(c))
		}
	}
	return all, by
}

// countedBy warns of packing that is counted by the wrong thing, in orders of up to n prints.
func (w *warner) countedBy(at quoin.Path, l *cost.BillLine, n int64, first func(quoin.Code) bool) {
	u := w.uses()[l.Supply]
	perPrint := u.wrapsOrder && (l.Per == "" || l.Per == cost.EachItem)
	perOrder := u.wrapsPrint && !u.wrapsOrder && l.Per == cost.EachOrder
	if !perPrint && !perOrder {
		return
	}
	one, err := l.Quantity.In(w.costs[l.Supply].Unit)
	if err != nil || one.Number().Cmp(quoin.FactorOf(1)) < 0 {
		return
	}
	each, items := w.lineCost(l), strconv.FormatInt(n, 10)
	times := func(n int64) string {
		return w.cents(w.costs[l.Supply].Amount.Times(one.Number()).Times(quoin.FactorOf(n)))
	}
	switch {
	case perPrint && first(OrderCostPerItem):
		w.warn(OrderCostPerItem, at.Field("per"), fmt.Sprintf("%s is counted for each print, and there are orders of %s: one bears %s for it, where one of %s may do", w.supply(l.Supply), prose.Count(n, "print"), times(n), each),
			"write \"per\": \"order\", unless each print has its own", "supply", l.Supply, "items", items, "each", each, "all", times(n))
	case perOrder && first(ItemCostPerOrder):
		w.warn(ItemCostPerOrder, at.Field("per"), fmt.Sprintf("%s is counted once for each order, and there are orders of %s: one lacks %s if each print has its own", w.supply(l.Supply), prose.Count(n, "print"), times(n-1)),
			"leave out \"per\", so that each print has its own", "supply", l.Supply, "items", items, "each", each, "short", times(n-1))
	}
}

// tolerances warns of print houses that may deliver more or fewer than an edition has numbers.
func (w *warner) tolerances() {
	if len(w.doc.Editions) == 0 {
		return
	}
	places := make(map[string]int, len(w.doc.Products))
	for i, p := range w.doc.Products {
		places[p.ID] = i
	}
	for _, e := range w.doc.Editions {
		if len(e.Products) > 1 && !e.Each || e.Size == 0 {
			continue
		}
		for _, id := range e.Products {
			i, known := places[id]
			if !known {
				continue
			}
			for k, q := range w.doc.Products[i].Quotes {
				if q.OverDelivery.IsZero() && q.UnderDelivery.IsZero() {
					continue
				}
				size := quoin.FactorOf(e.Size)
				least, most := whole(size.Times(q.UnderDelivery.Complement()), quoin.Up), whole(size.Times(q.OverDelivery.OnePlus()), quoin.Down)
				numbers := strconv.FormatInt(e.Size, 10)
				if least == numbers && most == numbers {
					continue
				}
				w.warn(ToleranceOverEdition, quoin.InList("products", i).Sub("quotes", k), fmt.Sprintf("%s may deliver %s to %s prints of %s where %s are ordered, and the edition has %s numbers", q.ID, least, most, w.titled(i), numbers, numbers),
					"agree on an exact number, or order so that enough come and destroy, and note, what is too much", "product", id, "quote", q.ID, "edition", e.ID, "size", numbers, "least", least, "most", most)
			}
		}
	}
}

// whole is a number of prints.
func whole(n quoin.Factor, how quoin.Rounding) string { return n.Round(0, how).String() }
