package buy

import (
	"cmp"
	"slices"

	"example.com/quoin"
)

// Stock is what came in and went out of one supply.
type Stock struct {
	// Basis says what a unit costs.
	Basis Basis `json:"basis" need:"yes"`
	// Replacement is what a unit would cost to buy today, for that basis.
	Replacement quoin.Amount `json:"replacement,omitzero" range:"[0,"`
	Received    []Receipt    `json:"received,omitempty" most:"1000"`
	Used        []Use        `json:"used,omitempty" most:"1000"`
	// Unit is what is counted; it is that of all quantities.
	Unit quoin.Unit `json:"unit" need:"yes"`
}

// Receipt is a quantity that came in, and what it cost once it was here.
type Receipt struct {
	Date     Date           `json:"date" need:"yes"`
	Quantity quoin.Quantity `json:"quantity" need:"yes" range:"(0,"`
	Cost     quoin.Amount   `json:"cost" need:"yes" range:"[0,"`
}

// Use is a quantity that went out.
type Use struct {
	Date     Date           `json:"date" need:"yes"`
	Quantity quoin.Quantity `json:"quantity" need:"yes" range:"(0,"`
}

// Basis says which purchases a unit in stock costs.
type Basis string

const (
	Last        Basis = "last"        // the one received last
	Replacement Basis = "replacement" // what buying it again would cost
	Average     Basis = "average"     // the moving weighted average of what is there
	FirstIn     Basis = "first_in"    // the oldest that is still there (FIFO)
)

// ParseBasis reads last, replacement, average or first_in. The error is a
// Problem.
func ParseBasis(s string) (Basis, error) {
	return quoin.Word(s, Last, Replacement, Average, FirstIn)
}

// UnmarshalText is ParseBasis.
func (b *Basis) UnmarshalText(text []byte) error {
	v, err := ParseBasis(string(text))
	if err == nil {
		*b = v
	}
	return err
}

// Codes of stocks whose cost cannot be told.
const (
	NothingThere quoin.Code = "nothing_in_stock"
	UsedTooMuch  quoin.Code = "used_more_than_there_was"
)

// Standing is what is in stock at the end of a day.
type Standing struct {
	Quantity quoin.Factor // in the stock's unit
	Value    quoin.Amount // of it, on the basis
	Unit     quoin.Amount // what the next unit costs, on the basis
	// Issued is what all that was used cost, by first in or by average; of the
	// other bases, at what they said on its day.
	Issued quoin.Amount
}

// entry is a receipt or a use: number in the unit, negative when used.
type entry struct {
	date   Date
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

// At returns the stock at the end of a day. Entries of later days do not count,
// so no figure of the past ever changes; of one day receipts come before uses.
// It errs, with a Problem, where more was used than there was, where a quantity
// is of another unit, or where nothing is there to say what a unit costs.
func (s Stock) At(day Date) (Standing, error) {
	entries, err := s.entries(day)
	if err != nil {
		return Standing{}, err
	}
	var out Standing
	var layers []layer
	last := s.Replacement
	for _, e := range entries {
		if !e.out {
			last = e.cost.Over(e.number)
			layers = append(layers, layer{e.number, last})
			continue
		}
		var taken quoin.Amount
		if layers, taken, err = s.take(layers, e, last); err != nil {
			return Standing{}, err
		}
		out.Issued = out.Issued.Add(taken)
	}
	for _, l := range layers {
		out.Quantity = out.Quantity.Add(l.number)
		out.Value = out.Value.Add(l.unit.Times(l.number))
	}
	return s.valued(out, layers, last)
}

// valued says what the next unit costs, and with the bases that do not go by
// what was paid for what is there, what that is worth.
func (s Stock) valued(out Standing, layers []layer, last quoin.Amount) (Standing, error) {
	switch {
	case s.Basis == Replacement && s.Replacement.Sign() > 0:
		out.Unit = s.Replacement
	case len(layers) == 0:
		return Standing{}, fault(NothingThere, "received", "nothing in stock", "a receipt that is not used up, or a replacement cost")
	case s.Basis == FirstIn:
		out.Unit = layers[0].unit
		return out, nil
	case s.Basis == Average:
		out.Unit = out.Value.Over(out.Quantity)
		return out, nil
	default:
		out.Unit = last
	}
	out.Value = out.Unit.Times(out.Quantity)
	return out, nil
}

// take takes a use out of the layers: of an average, the same part of each.
func (s Stock) take(layers []layer, e entry, last quoin.Amount) ([]layer, quoin.Amount, error) {
	var there quoin.Factor
	var value quoin.Amount
	for _, l := range layers {
		there, value = there.Add(l.number), value.Add(l.unit.Times(l.number))
	}
	switch there.Cmp(e.number) {
	case -1:
		return nil, quoin.Amount{}, fault(UsedTooMuch, e.path, e.number.String()+" used of "+there.String()+" in stock", "no more than there is")
	case 0:
		if s.Basis != Last && s.Basis != Replacement {
			return nil, value, nil
		}
	}
	taken := s.unitOf(last).Times(e.number)
	if s.Basis == Average {
		average := value.Over(there)
		return []layer{{there.Sub(e.number), average}}, average.Times(e.number), nil
	}
	left, cost := e.number, quoin.Amount{}
	var out []layer
	for _, l := range layers {
		n := l.number
		if n.Cmp(left) > 0 {
			n = left
		}
		left, cost = left.Sub(n), cost.Add(l.unit.Times(n))
		if rest := l.number.Sub(n); rest.Sign() > 0 {
			out = append(out, layer{rest, l.unit})
		}
	}
	if s.Basis == FirstIn {
		taken = cost
	}
	return out, taken, nil
}

func (s Stock) unitOf(last quoin.Amount) quoin.Amount {
	if s.Basis == Replacement {
		return s.Replacement
	}
	return last
}

// entries are those up to a day, by date, receipts first.
func (s Stock) entries(day Date) ([]entry, error) {
	var out []entry
	add := func(list string, i int, date Date, q quoin.Quantity, cost quoin.Amount, used bool) error {
		in, err := q.In(s.Unit)
		if err != nil {
			return at(list, i, err)
		}
		if in.Sign() <= 0 {
			return at(list, i, fault(quoin.NotANumber, "quantity", q.String(), "a quantity above zero"))
		}
		if date.Cmp(day) <= 0 {
			out = append(out, entry{date, in.Number(), cost, quoin.InList(list, i).String() + ".quantity", used})
		}
		return nil
	}
	for i, r := range s.Received {
		if err := add("received", i, r.Date, r.Quantity, r.Cost, false); err != nil {
			return nil, err
		}
	}
	for i, u := range s.Used {
		if err := add("used", i, u.Date, u.Quantity, quoin.Amount{}, true); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(out, func(a, b entry) int {
		return cmp.Or(a.date.Cmp(b.date), cmp.Compare(boolean(a.out), boolean(b.out)))
	})
	return out, nil
}

func boolean(b bool) int {
	if b {
		return 1
	}
	return 0
}
