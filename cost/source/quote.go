package source

import "example.com/quoin"

// Home is what making a run at home costs: Fixed once, and Each for every good
// print.
type Home struct {
	Fixed quoin.Amount
	Each  quoin.Amount
}

// Cost returns fixed + each × good.
func (h Home) Cost(good int64) quoin.Amount { return h.Fixed.Add(h.Each.Times(quoin.FactorOf(good))) }

// Quote is what a print house asks.
type Quote struct {
	ID string `json:"id" need:"yes"`
	// Setup and Proof are charged once, Freight too unless the prints come to
	// FreeFrom.
	Setup    quoin.Amount                 `json:"setup,omitzero" range:"[0,"`
	Proof    quoin.Amount                 `json:"proof,omitzero" range:"[0,"`
	Freight  quoin.Amount                 `json:"freight,omitzero" range:"[0,"`
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero" range:"[0,"`
	// Prices are what a print costs from a quantity on, in rising order of
	// quantity, the first from 1.
	Prices []Price `json:"prices" need:"yes" most:"100"`
	// Mode is all_units, also when empty, or incremental.
	Mode Mode `json:"mode,omitempty"`
	// Minimum is the fewest that are made, Multiple what quantities are multiples
	// of; zero means 1.
	Minimum  int64 `json:"minimum,omitzero" range:"[1,1000000]"`
	Multiple int64 `json:"multiple,omitzero" range:"[1,1000000]"`
}

// Price is what a print costs from a quantity on.
type Price struct {
	From int64        `json:"from" need:"yes" range:"[1,1000000]"`
	Each quoin.Amount `json:"each" need:"yes" range:"[0,"`
}

// Mode says which prints a price of a quantity is for.
type Mode string

const (
	AllUnits    Mode = "all_units"   // all of them, at the price of the quantity
	Incremental Mode = "incremental" // only those from the quantity on
)

// ParseMode reads all_units or incremental. The error is a Problem.
func ParseMode(s string) (Mode, error) { return quoin.Word(s, AllUnits, Incremental) }

// UnmarshalText is ParseMode.
func (m *Mode) UnmarshalText(text []byte) error {
	v, err := ParseMode(string(text))
	if err == nil {
		*m = v
	}
	return err
}

// UnsortedPrices is the code of prices that do not begin at 1, or do not rise
// in quantity.
const UnsortedPrices quoin.Code = "unsorted_prices"

// Check reports prices that do not begin at 1 or do not rise in quantity. The
// error is a Problem.
func (q Quote) Check() error {
	for i, p := range q.Prices {
		if i == 0 && p.From == 1 || i > 0 && p.From > q.Prices[i-1].From {
			continue
		}
		return quoin.Problem{
			Code: UnsortedPrices, Severity: quoin.Fault, Path: "prices", Found: "a price from " + quoin.FactorOf(p.From).String(), Wanted: "prices from 1, then from rising quantities",
		}
	}
	if len(q.Prices) == 0 {
		return quoin.Problem{Code: UnsortedPrices, Severity: quoin.Fault, Path: "prices", Found: "no prices", Wanted: "a price from 1 on"}
	}
	return nil
}

// Ordered returns how many are made where so many are needed: at least the
// minimum, rounded up to a multiple.
func (q Quote) Ordered(needed int64) int64 {
	n, m := max(needed, q.Minimum, 1), max(q.Multiple, 1)
	return (n + m - 1) / m * m
}

// Cost returns what the prints cost where so many are needed: those ordered at
// their prices, set-up, proof and freight. The quote is one that Check accepts.
func (q Quote) Cost(needed int64) quoin.Amount {
	prints := q.prints(q.Ordered(needed))
	sum := prints.Add(q.Setup).Add(q.Proof)
	if free, given := q.FreeFrom.Get(); !given || prints.Cmp(free) < 0 {
		sum = sum.Add(q.Freight)
	}
	return sum
}

func (q Quote) prints(n int64) quoin.Amount {
	var sum quoin.Amount
	for i, p := range q.Prices {
		last := i == len(q.Prices)-1 || n < q.Prices[i+1].From
		switch {
		case q.Mode != Incremental && last:
			return p.Each.Times(quoin.FactorOf(n))
		case q.Mode == Incremental && last:
			return sum.Add(p.Each.Times(quoin.FactorOf(n - p.From + 1)))
		case q.Mode == Incremental:
			sum = sum.Add(p.Each.Times(quoin.FactorOf(q.Prices[i+1].From - p.From)))
		}
	}
	return sum
}

// PerPrint returns what each print that is needed costs: cost ÷ needed, with
// what is left over paid for by those.
func (q Quote) PerPrint(needed int64) quoin.Amount {
	return q.Cost(needed).Over(quoin.FactorOf(needed))
}
