package machine

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Machine is what a machine costs and how long it lasts.
type Machine struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Unit is the word that a bill counts by, such as print.
	Unit quoin.Unit `json:"unit" need:"yes"`
	// Price is what it cost, Resale what it is expected to bring at the end.
	Price       quoin.Amount              `json:"price" need:"yes" range:"[0,"`
	PriceRange  quoin.Range[quoin.Amount] `json:"price_range,omitzero" dear:"high"`
	Resale      quoin.Amount              `json:"resale,omitzero" range:"[0,"`
	ResaleRange quoin.Range[quoin.Amount] `json:"resale_range,omitzero" dear:"low"`
	// LifePrints and LifeMonths are how long it lasts; where both are given it
	// ends with the one that is reached first.
	LifePrints      quoin.Factor              `json:"life_prints,omitzero" range:"(0,"`
	LifePrintsRange quoin.Range[quoin.Factor] `json:"life_prints_range,omitzero" dear:"low"`
	LifeMonths      int64                     `json:"life_months,omitzero" range:"[1,600]"`
	LifeMonthsRange quoin.Range[int64]        `json:"life_months_range,omitzero" dear:"low"`
	// PrintsPerMonth is how many are expected to be started on it.
	PrintsPerMonth      quoin.Factor              `json:"prints_per_month,omitzero" range:"(0,"`
	PrintsPerMonthRange quoin.Range[quoin.Factor] `json:"prints_per_month_range,omitzero" dear:"low"`
	// Interest is what the money tied up would bring, or costs, in a year.
	Interest      quoin.Rate              `json:"interest,omitzero" range:"[0,1]"`
	InterestRange quoin.Range[quoin.Rate] `json:"interest_range,omitzero" dear:"high"`
	// Method is straight_line, also when empty, by_use, or capital_recovery.
	Method Method `json:"method,omitempty"`
	// Service is parts that are replaced every so many prints.
	Service []Part `json:"service,omitempty" most:"100"`
}

// Part is a part that wears out before its machine.
type Part struct {
	Name       string                    `json:"name" need:"yes"`
	Price      quoin.Amount              `json:"price" need:"yes" range:"[0,"`
	PriceRange quoin.Range[quoin.Amount] `json:"price_range,omitzero" dear:"high"`
	Every      quoin.Factor              `json:"every" need:"yes" range:"(0,"` // prints
	EveryRange quoin.Range[quoin.Factor] `json:"every_range,omitzero" dear:"low"`
}

// Method is how the loss in value is spread over prints.
type Method string

const (
	// StraightLine spreads price − resale evenly over the months, and each
	// month over its prints.
	StraightLine Method = "straight_line"
	// ByUse spreads it evenly over the prints of the machine's life, whenever
	// they are made (units of production).
	ByUse Method = "by_use"
	// CapitalRecovery adds what the money tied up would bring: the level payment
	// at the end of each month that pays the machine back with interest, its
	// resale value apart. It goes by months alone.
	CapitalRecovery Method = "capital_recovery"
)

// UnmarshalText reads straight_line, by_use or capital_recovery. The error is a Problem.
func (m *Method) UnmarshalText(text []byte) error {
	return form.SetWord(m, text, StraightLine, ByUse, CapitalRecovery)
}

// Codes of machines whose cost cannot be spread.
const (
	MissingLife  quoin.Code = "missing_life"       // how long it lasts, or how many prints are expected, is not said
	StrayLife    quoin.Code = "stray_life"         // a life in prints beside a method that goes by months
	ResaleTooBig quoin.Code = "resale_above_price" // it is to bring more than it cost
)

// Cost is what a machine adds to each started print.
type Cost struct {
	PerPrint quoin.Amount // of value and service
	Value    quoin.Amount // what it loses in value, with interest where asked
	Service  quoin.Amount
	// Volume is the number of prints that the loss in value is spread over.
	Volume quoin.Factor
}

// Cost spreads the cost of the machine over its prints, to 34 significant digits. Nothing is
// rounded. If both months and prints of life are given, the volume is the lesser of the prints
// of life and the prints of those months. The error is Problems: what the method needs is
// missing, or resale exceeds the price. Check looks at the ranges of fields.
func (m Machine) Cost() (Cost, error) {
	var k form.Collector
	m.lacks(&k)
	if err := k.All().Err(); err != nil {
		return Cost{}, err
	}
	e := explainer{quoin.NewTrail(8), m, quoin.Path{}}
	c := Cost{Volume: e.volume().Value.Factor()}
	c.Value, _ = e.value().Value.Amount()
	for _, p := range m.Service {
		c.Service = c.Service.Add(p.Price.Over(p.Every))
	}
	c.PerPrint = c.Value.Add(c.Service)
	return c, nil
}

// level reports whether interest is reckoned with.
func (m Machine) level() bool { return m.Method == CapitalRecovery && m.Interest.Sign() > 0 }

// Check returns everything that is wrong with the machine, at once: values that its fields do
// not take, what its method needs and is missing, a resale above the price. The error is
// quoin.Problems.
func (m Machine) Check() error {
	k := form.Computed(m)
	m.lacks(k)
	return k.All().Err()
}

// lacks adds what keeps the cost from being spread, unless something is said of it.
func (m Machine) lacks(k *form.Collector) {
	fault := func(wrong bool, code quoin.Code, name, found, wanted string) {
		if wrong {
			k.Fault(form.In(name), code, found, wanted, "")
		}
	}
	byMonths := m.Method != ByUse
	fault(m.Resale.Cmp(m.Price) > 0, ResaleTooBig, "resale", m.Resale.String(), "at most the price of "+m.Price.String())
	fault(!byMonths && m.LifePrints.Sign() <= 0, MissingLife, "life_prints", "nothing", "how many prints the machine lasts")
	fault(m.Method == CapitalRecovery && !m.LifePrints.IsZero(), StrayLife, "life_prints", m.LifePrints.String()+" beside capital recovery", "a life in months alone")
	fault(byMonths && m.LifeMonths <= 0, MissingLife, "life_months", "nothing", "how many months the machine lasts")
	fault(byMonths && m.PrintsPerMonth.Sign() <= 0, MissingLife, "prints_per_month", "nothing", "how many prints are expected in a month")
	for i, p := range m.Service {
		if p.Every.Sign() <= 0 {
			k.Missing(form.In("service").At(i).Field("every"), "every")
		}
	}
}
