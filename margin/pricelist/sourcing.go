package pricelist

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/source"
	"example.com/quoin/internal/prose"
	"example.com/quoin/waste"
)

// RunStarts is how many prints to start so that the run gives enough good ones with the
// certainty that it asks for.
type RunStarts struct {
	// Good prints that are wanted.
	Good int64 `json:"good"`
	// How many to start.
	Start int64 `json:"start"`
	// How surely that does.
	Chance quoin.Rate `json:"chance"`
	// How many do on average: good ÷ yield, rounded up.
	Average int64 `json:"average"`
	// How often those do.
	AverageChance quoin.Rate `json:"average_chance"`
}

// chances is how many prints a run starts, by its good prints, the yield and how sure
// it asks to be, as texts.
type chances map[string]waste.Starts

// runStarts works out a run that asks to be sure; none where it does not.
func (w *worker) runStarts(i int, p Product) *RunStarts {
	if p.Run.Certainty.IsZero() {
		return nil
	}
	yield, sure := w.yield(), p.Run.Certainty
	var room [64]byte
	run := strconv.AppendInt(room[:0], p.Run.Good, 10)
	run, _ = yield.AppendText(append(run, ' ')) // neither is refused
	run, _ = sure.AppendText(append(run, ' '))
	s, known := w.memory.chances[string(run)]
	if !known {
		var err error
		if s, err = waste.StartsFor(p.Run.Good, yield, sure); err != nil {
			addOnce(w.Collector, w.runAt[i].Field("certainty"), err)
			return nil
		}
		w.memory.chances[string(run)] = s
	}
	return &RunStarts{p.Run.Good, s.Start, s.Chance, s.Average, s.AverageChance}
}

// yield is that of all stages, worked out once.
func (w *worker) yield() quoin.Rate {
	if w.allStages.IsZero() {
		w.allStages = waste.Route(w.Stages).Yield()
	}
	return w.allStages
}

// Sourcing compares making a product's prints with having them made.
type Sourcing struct {
	// What a run costs once and for each good print: the bill, without packing.
	Home HomeCost `json:"home"`
	// Volumes at which each source costs least.
	Stretches []source.Stretch `json:"stretches"`
	// Each quote for as many prints as a run is of.
	Quotes []QuoteResult `json:"quotes"`
}

// HomeCost is what a run at home costs: once, and for each good print.
type HomeCost struct {
	// Once for a run.
	Fixed quoin.Amount `json:"fixed"`
	// For each good print.
	Each quoin.Amount `json:"each"`
}

// QuoteResult is one quote for the number of prints of a run.
type QuoteResult struct {
	// Id of the quote.
	ID string `json:"id"`
	// Those prints.
	Prints int64 `json:"prints"`
	// What they cost.
	Cost quoin.Amount `json:"cost"`
	// What each costs.
	PerPrint quoin.Amount `json:"per_print"`
	// How many are ordered for them, more than the prints where a larger order costs less, or no
	// smaller one is sold.
	Ordered int64 `json:"ordered"`
	// How many arrive at least.
	Fewest int64 `json:"fewest"`
	// How many arrive at most.
	Most int64 `json:"most"`
	// What the most would be billed at.
	Cash quoin.Amount `json:"cash"`
	// How many to have made for the demand, the newsvendor's quantity; not given without a
	// demand.
	Order quoin.Optional[int64] `json:"order,omitzero"`
	// How many of them stay on average.
	LeftOver quoin.Optional[quoin.Factor] `json:"left_over,omitzero"`
}

// sourcing compares the quotes of a product; none where it has none.
func (d derivedDocument) sourcing(i int, sales []ChannelResult, m *sharedCosts) (*Sourcing, error) {
	p := d.Products[i]
	if len(p.Quotes) == 0 {
		return nil, nil
	}
	home, err := m.home(p)
	if err != nil {
		return nil, err
	}
	runs := max(p.Run.Good, 1)
	out := &Sourcing{Home: HomeCost{home.Fixed, home.Each}}
	if out.Stretches, err = source.Compare(home, p.Quotes, p.upTo()); err != nil {
		return nil, quotesProblem(i, err)
	}
	for _, q := range p.Quotes {
		quoted := quotedFor(q, runs)
		if !p.Demand.IsZero() {
			quoted.forDemand(q, p.Demand, m.short(p, sales, home.Cost(runs).Over(quoin.FactorOf(runs))))
		}
		out.Quotes = append(out.Quotes, quoted)
	}
	return out, nil
}

func quotesProblem(i int, err error) error {
	found, _ := err.(quoin.Problems)
	for j := range found {
		found[j].Path = quoin.InList("products", i).Field("quotes").String()
	}
	return err
}

func quotedFor(q source.Quote, prints int64) QuoteResult {
	ordered := q.Ordered(prints)
	goods := q.Scale.Goods(ordered)
	delivery := waste.Delivery{
		Ordered: ordered, Over: q.OverDelivery, Under: q.UnderDelivery, Setup: q.Cost(prints).Sub(goods), Each: goods.Over(quoin.FactorOf(ordered)),
	}
	return QuoteResult{
		ID: q.ID, Prints: prints, Ordered: ordered, Cost: q.Cost(prints), PerPrint: q.PerPrint(prints),
		Fewest: delivery.Fewest(), Most: delivery.Most(), Cash: delivery.Cash(),
	}
}

// forDemand says how many to have made where one print too few loses so much; nothing
// where no channel sells from stock.
func (q *QuoteResult) forDemand(of source.Quote, demand source.Demand, short func(asked quoin.Amount) quoin.Amount) {
	if short == nil {
		return
	}
	if n, ok := of.ToHaveMade(demand, short); ok {
		q.Order, q.LeftOver = quoin.Some(n), quoin.Some(demand.LeftOver(n))
	}
}

// short is what one print too few loses: the least contribution of any channel that
// sells what is in stock, had making the print cost what a house asks in place of
// what it costs at home with all that a run does once. It is nil where every channel
// prints on demand.
func (m *sharedCosts) short(p Product, sales []ChannelResult, made quoin.Amount) func(asked quoin.Amount) quoin.Amount {
	var stocked []ChannelResult
	var channels []int // where they stand
	for n, j := range m.soldIn(&p) {
		if m.doc.Channels[j].OnDemand == nil {
			stocked, channels = append(stocked, sales[n]), append(channels, j)
		}
	}
	if len(channels) == 0 {
		return nil
	}
	return func(asked quoin.Amount) (least quoin.Amount) {
		for n, j := range channels {
			c := m.doc.Channels[j]
			// What is saved counts as goods do: not where a print comes back and is sold again.
			saved := waste.Allowance{Contingency: m.doc.Contingency, Loss: c.Lost()}.Apply(made.Sub(asked).Times(c.Back().Complement()))
			if kept := stocked[n].Statement.Contribution.Add(saved); n == 0 || kept.Cmp(least) < 0 {
				least = kept
			}
		}
		return least
	}
}

// home is what making a run of a product costs once, and for each good print.
func (m *sharedCosts) home(p Product) (source.RunAtHome, error) {
	charges, err := p.Bill.Charges(m.costs, m.course.Starts, p.Run)
	if err != nil {
		return source.RunAtHome{}, err
	}
	good := quoin.FactorOf(max(p.Run.Good, 1))
	once := p.Run.PerItem(charges, m.course.First())
	for _, c := range charges {
		if c.Line.Per == cost.EachRun {
			once = once.Add(c.Amount)
		}
	}
	each := cost.PerItem(charges).Sub(m.course.Recovered()).Add(p.Run.PerItem(charges, m.course.First())).Sub(once)
	return source.RunAtHome{Fixed: once.Times(good), Each: each}, nil
}

// mostQuoted bounds what comparing quotes takes time for: at each step of a product's
// quotes, and behind each multiple that one sells, each of them, and making it at home,
// is asked what it costs.
const mostQuoted = 200_000

// quotedProducts checks that comparing all quotes does not take too long.
func (k *checker) quotedProducts() {
	sum := 0
	for i, p := range k.doc.Products {
		if sum += p.compared(); sum > mostQuoted {
			k.Add((*path)(nil).Field("products").At(i).Field("quotes"), quoin.Problem{
				Code: TooManyQuoted, Found: fmt.Sprintf("steps and multiples × sources to be compared, of this product and those before it: %d", sum), Wanted: fmt.Sprintf("at most %d", mostQuoted),
				Remedy: "compare fewer products in one document, or up to a smaller volume, or leave out quotes and steps that will not be taken",
			})
			return
		}
	}
}

// compared is how often a source is asked what a product costs.
func (p *Product) compared() int {
	if len(p.Quotes) == 0 {
		return 0
	}
	steps, volume := 0, p.upTo()
	for _, q := range p.Quotes {
		steps += len(q.Scale.Steps)
		if q.Scale.Multiple > 1 {
			steps += int(volume / q.Scale.Multiple)
		}
	}
	return steps * (len(p.Quotes) + 1)
}

// upTo is how many prints the comparison with quotes goes up to.
func (p *Product) upTo() int64 {
	if p.Volume == 0 {
		return min(10*max(p.Run.Good, 1), 1_000_000)
	}
	return min(p.Volume, 1_000_000)
}

// quotes checks the quotes and the demand of a product.
func (k *checker) quotes(at *path, p *Product) {
	ids := make(map[string]bool)
	for i, q := range p.Quotes {
		at := at.Field("quotes").At(i)
		if ids[q.ID] && q.ID != "" {
			k.Add(at.Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(q.ID) + " again", Wanted: "an id of its own"})
		}
		ids[q.ID] = true
		if err := q.Scale.Check(); err != nil && !k.Under(at) {
			k.AddAll(at.Field("scale"), err)
		}
	}
	if !p.Demand.IsZero() && !k.Under(at.Field("demand")) {
		k.AddAll(at.Field("demand"), p.Demand.Check())
	}
}
