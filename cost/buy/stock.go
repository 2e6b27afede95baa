package buy

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Stock is what came in and what went out of one supply. A unit costs what the basis says at the
// end of the document's date; later entries do not count.
type Stock struct {
	// What a unit costs: as the one received last, as buying it again, the weighted average of
	// what is there, or the oldest that is there.
	Basis Basis `json:"basis" need:"yes"`
	// How what was paid for the stock is told: first in, first out, also where it is not given, or
	// on average. Prices go by the basis, the worth of the stock by this.
	Worth Basis `json:"worth,omitempty"`
	// What a unit would cost to buy again, for that basis.
	Replacement quoin.Amount `json:"replacement,omitzero" range:"[0,"`
	// What came in, beside what purchases brought.
	Received []Receipt `json:"received,omitempty" most:"1000"`
	// What went out.
	Used []Use `json:"used,omitempty" most:"1000"`
	// What is counted; it is the unit of all quantities.
	Unit quoin.Unit `json:"unit" need:"yes"`
}

// Receipt is a quantity that came in, and what it cost with everything.
type Receipt struct {
	// The day of it.
	Date quoin.Date `json:"date" need:"yes"`
	// How much of it.
	Quantity quoin.Quantity `json:"quantity" need:"yes" range:"(0,"`
	// What it cost once it was here.
	Cost quoin.Amount `json:"cost" need:"yes" range:"[0,"`
}

// Use is a quantity that went out.
type Use struct {
	// The day of it.
	Date quoin.Date `json:"date" need:"yes"`
	// How much of it.
	Quantity quoin.Quantity `json:"quantity" need:"yes" range:"(0,"`
}

// Basis says how a unit in stock is valued: at the last receipt, at replacement cost, at the
// average, or first in, first out.
type Basis string

const (
	Last        Basis = "last"        // the one received last
	Replacement Basis = "replacement" // what buying it again would cost
	Average     Basis = "average"     // the moving weighted average of what is there
	FirstIn     Basis = "first_in"    // the oldest that is still there (FIFO)
)

// UnmarshalText reads last, replacement, average or first_in. The error is a Problem.
func (b *Basis) UnmarshalText(text []byte) error {
	return form.SetWord(b, text, Last, Replacement, Average, FirstIn)
}

// Codes of stocks whose cost cannot be told.
const (
	NothingThere quoin.Code = "nothing_in_stock"         // nothing says what a unit costs
	UsedTooMuch  quoin.Code = "used_more_than_there_was" // more was used than was there at the time
)

// StockLevel is what is in stock at the end of a day.
type StockLevel struct {
	Quantity quoin.Factor // in the stock's unit
	Value    quoin.Amount // of it, on the basis
	Paid     quoin.Amount // what was paid for it, as Worth tells it
	Unit     quoin.Amount // what the next unit costs, on the basis
	// Issued is what all that was used cost, by first in or by average; of the
	// other bases, at what they said on its day.
	Issued quoin.Amount
}

// entry is a receipt or a use: number in the unit, negative when used.
type entry struct {
	date   quoin.Date
	number quoin.Factor
	cost   quoin.Amount
	path   string
	out    bool
}

// layer is what is left of one receipt.
type layer struct {
	number quoin.Factor
	unit   quoin.Amount
}

// shelf is what is there, the oldest first, and what it cost.
type shelf struct {
	layers []layer
	there  quoin.Factor
	value  quoin.Amount
	last   quoin.Amount // what a unit of the last receipt cost
	some   bool         // whether anything came in yet
}

func (h *shelf) put(number quoin.Factor, cost quoin.Amount) {
	h.last, h.some = cost.Over(number), true
	h.layers = append(h.layers, layer{number, h.last})
	h.there, h.value = h.there.Add(number), h.value.Add(cost)
}

// take takes so many off, the oldest first, and returns what those cost.
func (h *shelf) take(number quoin.Factor) quoin.Amount {
	var cost quoin.Amount
	h.there = h.there.Sub(number)
	for number.Sign() > 0 {
		oldest := &h.layers[0]
		n := number
		if oldest.number.Cmp(n) <= 0 {
			n = oldest.number
			h.layers = h.layers[1:]
		}
		oldest.number, number = oldest.number.Sub(n), number.Sub(n)
		cost = cost.Add(oldest.unit.Times(n))
	}
	h.value = h.value.Sub(cost)
	return cost
}

// level makes everything there cost the average.
func (h *shelf) level() {
	if h.there.Sign() > 0 {
		h.layers = []layer{{h.there, h.value.Over(h.there)}}
	}
}

// At returns the stock at the end of a day. Entries of later days do not count, so a past
// figure never changes. On one day, receipts count before uses. A replacement cost applies to
// all days. The error is Problems: more was used than was there, a quantity is of another unit,
// or a unit has no cost.
//
// What was paid for what is there depends on what came in and went out up to that day alone.
func (s Stock) At(day quoin.Date) (StockLevel, error) {
	out, err := s.at(day)
	if err != nil {
		return StockLevel{}, err
	}
	if s.Basis = s.paid(); s.Basis != FirstIn && s.Basis != Average {
		return StockLevel{}, quoin.Problems{fault(quoin.UnknownWord, "worth", string(s.Basis), "one of first_in, average")}
	}
	if out.Quantity.IsZero() {
		return out, nil
	}
	paid, err := s.at(day)
	out.Paid = paid.Value
	return out, err
}

// paid is the basis that what was paid is told on.
func (s Stock) paid() Basis {
	switch {
	case s.Worth != "":
		return s.Worth
	case s.Basis == Average:
		return Average
	}
	return FirstIn
}

func (s Stock) at(day quoin.Date) (StockLevel, error) {
	entries, found := s.entries(day)
	if s.Basis == Replacement && s.Replacement.Sign() <= 0 {
		found = append(found, fault(NothingThere, "replacement", "nothing", "what a unit would cost to buy again"))
	}
	if err := found.Err(); err != nil {
		return StockLevel{}, err
	}
	var h shelf
	var issued quoin.Amount
	for _, e := range entries {
		switch {
		case !e.out:
			h.put(e.number, e.cost)
			continue
		case h.there.Cmp(e.number) < 0:
			return StockLevel{}, quoin.Problems{fault(UsedTooMuch, e.path, e.number.String()+" used of "+h.there.String()+" in stock", "no more than there is")}
		case s.Basis == Average:
			h.level()
		}
		cost := h.take(e.number)
		if unit, flat := s.flat(h); flat {
			cost = unit.Times(e.number)
		}
		issued = issued.Add(cost)
	}
	return s.level(h, issued)
}

// flat returns what every unit costs, by the bases that do not go by what was
// paid for what is there.
func (s Stock) flat(h shelf) (quoin.Amount, bool) {
	switch s.Basis {
	case Replacement:
		return s.Replacement, true
	case Last:
		return h.last, true
	}
	return quoin.Amount{}, false
}

func (s Stock) level(h shelf, issued quoin.Amount) (StockLevel, error) {
	out := StockLevel{Quantity: h.there, Value: h.value, Issued: issued}
	unit, flat := s.flat(h)
	switch {
	case flat && (s.Basis == Replacement || h.some):
		out.Unit, out.Value = unit, unit.Times(h.there)
	case h.there.Sign() <= 0:
		return StockLevel{}, quoin.Problems{fault(NothingThere, "received", "nothing in stock", "a receipt that is not used up")}
	case s.Basis == FirstIn:
		out.Unit = h.layers[0].unit
	default:
		out.Unit = h.value.Over(h.there)
	}
	return out, nil
}

// entries are those up to a day, by date, receipts first, and what is wrong with any.
func (s Stock) entries(day quoin.Date) ([]entry, quoin.Problems) {
	var out []entry
	var k form.Collector
	add := func(list string, i int, date quoin.Date, q quoin.Quantity, cost quoin.Amount, used bool) {
		at := form.In(list).At(i)
		in, err := q.In(s.Unit)
		switch {
		case err != nil:
			k.AddAll(at, err)
		case in.Sign() <= 0:
			k.Add(at.Field("quantity"), fault(quoin.OutOfRange, "", q.String(), "a value above 0"))
		case date.Cmp(day) <= 0:
			out = append(out, entry{date, in.Number(), cost, at.Field("quantity").String(), used})
		}
	}
	for i, r := range s.Received {
		add("received", i, r.Date, r.Quantity, r.Cost, false)
	}
	for i, u := range s.Used {
		add("used", i, u.Date, u.Quantity, quoin.Amount{}, true)
	}
	slices.SortStableFunc(out, func(a, b entry) int { return a.date.Cmp(b.date) }) // receipts of a day stay before its uses
	return out, k.All()
}
