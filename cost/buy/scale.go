package buy

import (
	"slices"
	"sort"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Scale is a seller's prices for one thing, by quantity.
type Scale struct {
	// Steps are what one costs from a quantity on, in rising order of quantity,
	// the first from 1.
	Steps []PriceBreak `json:"steps" need:"yes" most:"100"`
	// Mode is all_units, also when empty, or incremental.
	Mode Mode `json:"mode,omitempty"`
	// Minimum is the least that is sold, Multiple what quantities are multiples
	// of; zero means 1.
	Minimum  int64 `json:"minimum,omitzero" range:"[1,1000000]"`
	Multiple int64 `json:"multiple,omitzero" range:"[1,1000000]"`
	// Freight is added unless the goods come to FreeFrom.
	Freight  quoin.Amount                 `json:"freight,omitzero" range:"[0,"`
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero" range:"[0,"`
}

// PriceBreak is the price of one, from a quantity on.
type PriceBreak struct {
	From int64        `json:"from" need:"yes" range:"[1,1000000]"`
	Each quoin.Amount `json:"each" need:"yes" range:"[0,"`
}

// Mode says whether the price at a quantity is for all of it, or only for what is above the
// step.
type Mode string

const (
	AllUnits    Mode = "all_units"   // all of them, at the price of the quantity
	Incremental Mode = "incremental" // only those from the quantity on
)

// UnmarshalText reads all_units or incremental. The error is a Problem.
func (m *Mode) UnmarshalText(text []byte) error { return form.SetWord(m, text, AllUnits, Incremental) }

// BadScale is the code of steps that do not begin at 1 or do not rise in
// quantity.
const BadScale quoin.Code = "bad_scale"

// Check returns everything that is wrong with the scale, at once: values that its fields do not
// take, and steps that do not begin at 1 or do not rise. The error is quoin.Problems.
func (s Scale) Check() error {
	k := form.Computed(s)
	at := form.In("steps")
	for i, p := range s.Steps {
		if i == 0 && p.From != 1 || i > 0 && p.From <= s.Steps[i-1].From {
			k.Fault(at, BadScale, "a price from "+quoin.FactorOf(p.From).String(), "prices from 1, then from rising quantities", "")
		}
	}
	if s.Steps != nil && len(s.Steps) == 0 {
		k.Add(at, fault(quoin.EmptyList, "", "no prices", "a price from 1 on"))
	}
	return k.All().Err()
}

func (s Scale) multiple() int64 { return max(s.Multiple, 1) }

// Sold returns the quantity on sale for so many wanted: at least the minimum, rounded up to a
// multiple. With a minimum of 10 and a multiple of 5, 12 wanted are 15 sold.
func (s Scale) Sold(wanted int64) int64 {
	n, m := max(wanted, s.Minimum, 1), s.multiple()
	return (n + m - 1) / m * m
}

// Goods returns what a quantity costs without freight. Check must accept the scale.
func (s Scale) Goods(quantity int64) quoin.Amount { return s.table().goods(quantity) }

// Cost returns what a quantity costs with freight. Check must accept the scale.
func (s Scale) Cost(quantity int64) quoin.Amount { return s.table().cost(quantity) }

// Turns returns the quantities on sale at which a step begins or freight becomes free, in
// rising order. Between them costs only rise.
func (s Scale) Turns() []int64 { return s.table().turns() }

// table is a scale with what all before each step cost together, where steps are
// added up.
type table struct {
	Scale
	before []quoin.Amount
}

func (s Scale) table() table {
	t := table{Scale: s}
	if s.Mode != Incremental {
		return t
	}
	t.before = make([]quoin.Amount, len(s.Steps))
	for i := 1; i < len(s.Steps); i++ {
		last := s.Steps[i-1]
		t.before[i] = t.before[i-1].Add(last.Each.Times(quoin.FactorOf(s.Steps[i].From - last.From)))
	}
	return t
}

func (t table) goods(quantity int64) quoin.Amount {
	i := sort.Search(len(t.Steps), func(i int) bool { return quantity < t.Steps[i].From }) - 1
	if i = max(i, 0); i >= len(t.Steps) {
		return quoin.Amount{}
	}
	p := t.Steps[i]
	if t.Mode != Incremental {
		return p.Each.Times(quoin.FactorOf(quantity))
	}
	return t.before[i].Add(p.Each.Times(quoin.FactorOf(quantity - p.From + 1)))
}

func (t table) cost(quantity int64) quoin.Amount {
	goods := t.goods(quantity)
	if free, given := t.FreeFrom.Get(); given && goods.Cmp(free) >= 0 {
		return goods
	}
	return goods.Add(t.Freight)
}

func (t table) turns() []int64 {
	var out []int64
	for i, p := range t.Steps {
		first := t.Sold(p.From)
		out = append(out, first)
		if n, ok := t.free(i, first); ok {
			out = append(out, n)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

const mostSold = 1_000_000

// free returns the first quantity from one on that ships free at step i.
func (t table) free(i int, first int64) (int64, bool) {
	free, given := t.FreeFrom.Get()
	m := t.multiple()
	last := max(first, mostSold/m*m)
	if i+1 < len(t.Steps) {
		last = (t.Steps[i+1].From - 1) / m * m
	}
	if !given || last < first || t.goods(last).Cmp(free) < 0 {
		return 0, false
	}
	n := least((last-first)/m, func(k int64) bool { return t.goods(first+k*m).Cmp(free) >= 0 })
	return first + n*m, true
}

// least returns the least k up to most for which something holds that goes on
// holding, by halving; most where it holds for none below.
func least(most int64, holds func(int64) bool) int64 {
	low, high := int64(0), most
	for low < high {
		if middle := (low + high) / 2; holds(middle) {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return low
}
