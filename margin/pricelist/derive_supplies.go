package pricelist

import (
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/ink"
	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/form"
)

// SupplyCost is the result of an offer or a stock of a supply.
type SupplyCost struct {
	// Id of the supply.
	Supply string `json:"supply"`
	// The cheapest order of an offer.
	Order *buy.Order `json:"order,omitempty"`
	// Quantities that cost more than a larger one.
	Dominated []buy.DominatedQuantities `json:"dominated,omitempty"`
	// What is in stock.
	Standing *StockValue `json:"standing,omitempty"`
}

// StockValue is what is in stock, what it is worth and what one more unit costs, on the basis
// of the stock.
type StockValue struct {
	// What a unit costs.
	Basis buy.Basis `json:"basis"`
	// What is there.
	Quantity quoin.Quantity `json:"quantity"`
	// What it is worth on the basis.
	Value quoin.Amount `json:"value"`
	// What was paid for it: what the stock is worth in the books, whatever it costs now. It goes by
	// what came in and went out up to the date alone, so it does not change later.
	Paid quoin.Amount `json:"paid"`
	// What one more unit costs.
	Unit quoin.Amount `json:"unit"`
}

// supplyList works out supplies that are bought of an offer or out of a stock,
// and puts the machines behind them: one started print on a machine costs what
// it adds to it.
func (w *worker) supplyList() {
	w.Supplies = append(make([]cost.Supply, 0, len(w.given.Supplies)+len(w.Machines)), w.given.Supplies...)
	w.supplyAt = make([]quoin.Path, 0, cap(w.Supplies))
	var receipts map[string][]buy.Receipt
	if !w.again {
		w.memory.supplied = make(supplied)
		receipts = w.receipts()
	}
	for i := range w.Supplies {
		s, at := &w.Supplies[i], quoin.InList("supplies", i)
		w.supplyAt = append(w.supplyAt, at)
		switch {
		case s.Offer == nil && s.Stock == nil && s.Yearly == nil || w.UnderText(at.String()): // which has been said
		case s.Yearly != nil:
			w.yearly(s, at)
		case w.again:
			w.supplyAgain(s, at, w.memory.supplied[s.ID])
		case s.Offer != nil:
			w.offered(s, at)
			w.remember(*s, at)
		default:
			w.stocked(s, at, receipts[s.ID])
			w.remember(*s, at)
		}
	}
	w.machines = make([]machine.Cost, len(w.Machines))
	for i, m := range w.Machines {
		at := quoin.InList("machines", i)
		if !w.UnderText(at.String()) {
			var err error
			if w.machines[i], err = m.Cost(); err != nil {
				addOnce(w.Collector, at, err)
			}
		}
		w.Supplies = append(w.Supplies, cost.Supply{ID: m.ID, Name: m.Name, Quantity: m.Unit.Times(quoin.FactorOf(1)), Price: w.machines[i].PerPrint})
		w.supplyAt = append(w.supplyAt, at)
		w.origins[at] = func(t *quoin.Trail) quoin.Operand { return m.Explain(t, at) }
	}
}

// supplied is what offers and stocks came to, by the ids of their supplies: no range
// changes them, so it is worked out once for all that is worked out of a document.
type supplied map[string]bargain

type bargain struct {
	quantity        quoin.Quantity
	price           quoin.Amount
	bought          SupplyCost
	ofPrice, ofMuch quoin.Origin
}

// remember keeps what a supply came to, where it came to anything.
func (w *worker) remember(s cost.Supply, at quoin.Path) {
	if n := len(w.bought); n > 0 && w.bought[n-1].Supply == s.ID && len(w.Problems) == 0 {
		w.memory.supplied[s.ID] = bargain{s.Quantity, s.Price, w.bought[n-1], w.origins[at.Field("price")], w.origins[at.Field("quantity")]}
	}
}

func (w *worker) supplyAgain(s *cost.Supply, at quoin.Path, b bargain) {
	s.Quantity, s.Price = b.quantity, b.price
	w.bought = append(w.bought, b.bought)
	w.origins[at.Field("price")], w.origins[at.Field("quantity")] = b.ofPrice, b.ofMuch
}

// yearly takes what was spent in a year as the price of what was printed in it.
func (w *worker) yearly(s *cost.Supply, at quoin.Path) {
	y, inside := *s.Yearly, at.Inside("yearly")
	s.Quantity, s.Price = y.Printed, y.Spent
	w.origins[at.Field("price")] = func(*quoin.Trail) quoin.Operand {
		return quoin.Given("spent", inside.Field("spent"), y.Spent.Figure())
	}
	w.origins[at.Field("quantity")] = func(*quoin.Trail) quoin.Operand {
		return quoin.Given("printed", inside.Field("printed"), y.Printed.Figure())
	}
}

// offered buys the cheapest order of an offer that covers its need.
func (w *worker) offered(s *cost.Supply, at quoin.Path) {
	offer, inside := *s.Offer, at.Inside("offer")
	order, err := offer.Cheapest()
	if err != nil {
		addOnce(w.Collector, inside, err)
		return
	}
	s.Quantity, s.Price = offer.Pack.Times(quoin.FactorOf(order.Quantity)), order.Cost
	w.bought = append(w.bought, SupplyCost{Supply: s.ID, Order: &order, Dominated: offer.Scale.Dominated()})
	w.origins[at.Field("price")] = func(t *quoin.Trail) quoin.Operand {
		price, _ := offer.Explain(t, inside, order)
		return price
	}
	w.origins[at.Field("quantity")] = func(t *quoin.Trail) quoin.Operand {
		_, quantity := offer.Explain(t, inside, order)
		return quantity
	}
}

// stocked costs one unit of a supply in stock, after the receipts that it gives
// itself and those of purchases.
func (w *worker) stocked(s *cost.Supply, at quoin.Path, more []buy.Receipt) {
	stock, inside := *s.Stock, at.Inside("stock")
	if w.Date.IsZero() {
		w.Add((*path)(nil).Field("date"), quoin.Problem{Code: MissingDate, Found: "nothing", Wanted: "the date on which stocks are looked at"})
		return
	}
	stock.Received = append(slices.Clone(stock.Received), more...)
	now, err := stock.At(w.Date)
	if err != nil {
		addOnce(w.Collector, inside, err)
		return
	}
	s.Quantity, s.Price = stock.Unit.Times(quoin.FactorOf(1)), now.Unit
	w.bought = append(w.bought, SupplyCost{Supply: s.ID, Standing: &StockValue{stock.Basis, stock.Unit.Times(now.Quantity), now.Value, now.Paid, now.Unit}})
	w.origins[at.Field("price")] = func(t *quoin.Trail) quoin.Operand { return stock.Explain(t, inside, now) }
	w.origins[at.Field("quantity")] = func(*quoin.Trail) quoin.Operand {
		return quoin.Given("one unit", quoin.Path{}, stock.Unit.Times(quoin.FactorOf(1)).Figure())
	}
}

// receipts are what purchases brought in, by supply.
func (w *worker) receipts() map[string][]buy.Receipt {
	out := make(map[string][]buy.Receipt)
	for i, p := range w.Purchases {
		if w.UnderText(quoin.InList("purchases", i).String()) || w.Currency.IsZero() {
			continue
		}
		landed, err := p.Landed(w.Currency.Digits())
		if err != nil {
			addOnce(w.Collector, quoin.InList("purchases", i), err)
			continue
		}
		for _, l := range landed {
			out[l.Supply] = append(out[l.Supply], buy.Receipt{Date: p.Date, Quantity: l.Quantity, Cost: l.Amount})
		}
	}
	return out
}

// logged returns the document with each log of ink turned into what a square
// metre takes and its range, and how that came about.
func (d Document) logged(c *form.Collector) (Document, map[quoin.Path]quoin.Origin) {
	origins := make(map[quoin.Path]quoin.Origin)
	copied := false
	d.eachLine(func(at quoin.Path, l *cost.BillLine) {
		copied = copied || hasLog(l.Ink)
	})
	if !copied {
		return d, origins
	}
	d = form.Copy(d)
	d.eachLine(func(at quoin.Path, l *cost.BillLine) {
		if !hasLog(l.Ink) {
			return
		}
		at = at.Inside("ink")
		likely, err := l.Ink.Likely()
		if err != nil {
			addOnce(c, at, err)
			return
		}
		given := *l.Ink
		origins[at.Field("per_m2")] = func(t *quoin.Trail) quoin.Operand { return given.ExplainLikely(t, at) }
		*l.Ink = likely
	})
	return d, origins
}

func hasLog(u *ink.Use) bool { return u != nil && (len(u.Log)+len(u.Spent) > 0 || u.RatedPages != 0) }

// eachLine goes through the lines of all bills and packing lists.
func (d *Document) eachLine(do func(at quoin.Path, l *cost.BillLine)) {
	for i := range d.Products {
		p, at := &d.Products[i], quoin.InList("products", i)
		for j := range p.Bill {
			do(at.Sub("bill", j), &p.Bill[j])
		}
		for _, name := range slices.Sorted(maps.Keys(p.Packing)) {
			for j := range p.Packing[name] {
				do(at.Named("packing", name, j), &p.Packing[name][j])
			}
		}
	}
}
