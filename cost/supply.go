package cost

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/cut"
	"example.com/quoin/internal/form"
)

// Supply is something that is bought: a quantity, its price, and what it costs to get it here.
// A unit costs (price − discount + freight + duty) × exchange ÷ quantity.
type Supply struct {
	// What bills refer to the supply by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// What the price buys, above zero: "50 sheet", "80 ml".
	Quantity      quoin.Quantity              `json:"quantity,omitzero" need:"yes" range:"(0," or:"offer stock yearly"`
	QuantityRange quoin.Range[quoin.Quantity] `json:"quantity_range,omitzero" dear:"low"`
	// What the quantity costs, in the seller's currency.
	Price      quoin.Amount              `json:"price" need:"yes" range:"[0," or:"offer stock yearly"`
	PriceRange quoin.Range[quoin.Amount] `json:"price_range,omitzero" dear:"high"`
	// Taken off the price, in the seller's currency; at most price, freight and duty together.
	Discount      quoin.Amount              `json:"discount,omitzero" range:"[0,"`
	DiscountRange quoin.Range[quoin.Amount] `json:"discount_range,omitzero" dear:"low"`
	// What it costs to have it sent, in the seller's currency.
	Freight      quoin.Amount              `json:"freight,omitzero" range:"[0,"`
	FreightRange quoin.Range[quoin.Amount] `json:"freight_range,omitzero" dear:"high"`
	// What customs take of it, in the seller's currency.
	Duty      quoin.Amount              `json:"duty,omitzero" range:"[0,"`
	DutyRange quoin.Range[quoin.Amount] `json:"duty_range,omitzero" dear:"high"`
	// What one unit of the seller's currency costs in the shop's; 1 where it is not given.
	Exchange      quoin.Factor              `json:"exchange,omitzero" range:"(0,"`
	ExchangeRange quoin.Range[quoin.Factor] `json:"exchange_range,omitzero" dear:"high"`
	// What sheet one of it is, for lines that are cut out of it.
	Sheet *cut.Sheet `json:"sheet,omitempty"`
	// What roll one of it is.
	Roll *cut.Roll `json:"roll,omitempty"`
	// What stick one of it is.
	Stick *cut.Stick `json:"stick,omitempty"`
	// What its paper weighs, in gsm, so that prints can be weighed.
	Grammage quoin.Quantity `json:"grammage,omitzero" range:"(0," dim:"gsm"`
	// What one of it weighs, where it is no paper, so that parcels can be weighed.
	Mass quoin.Quantity `json:"mass,omitzero" range:"[0," dim:"mass"`
	// In place of quantity and price: the cheapest order of a seller's scale.
	Offer *buy.Offer `json:"offer,omitempty"`
	// In place of quantity and price: what a unit of what is there costs.
	Stock *buy.Stock `json:"stock,omitempty"`
	// In place of quantity and price: what was spent in a year, and what was printed with it.
	Yearly *Yearly `json:"yearly,omitempty"`
	// Says that the supply is working time, and whose: the maker's own, at the rate they put on
	// it, or paid for.
	Labour Labour `json:"labour,omitempty"`
}

// Labour says whose working time a supply is: the maker's own, or paid.
type Labour string

const (
	OwnTime  Labour = "own"  // the maker's, at the rate they put on it
	PaidTime Labour = "paid" // paid for
)

// UnmarshalText reads own or paid. The error is a Problem.
func (l *Labour) UnmarshalText(text []byte) error { return form.SetWord(l, text, OwnTime, PaidTime) }

// MarshalJSON omits the price if an offer, a stock or a year stands in its place. The price of a gift
// is 0, and is written.
func (s Supply) MarshalJSON() ([]byte, error) {
	type plain Supply
	out := struct {
		plain
		Price quoin.Optional[quoin.Amount] `json:"price,omitzero"`
	}{plain: plain(s)}
	if s.Offer == nil && s.Stock == nil && s.Yearly == nil {
		out.Price = quoin.Some(s.Price)
	}
	return json.Marshal(out)
}

// Landed returns what the whole quantity costs once it is here: (price − discount + freight +
// duty) × exchange, exactly. 62.00 with 6.90 freight is 68.90.
func (s Supply) Landed() quoin.Amount {
	return s.Price.Sub(s.Discount).Add(s.Freight).Add(s.Duty).Times(s.exchange())
}

func (s Supply) exchange() quoin.Factor {
	if s.Exchange.IsZero() {
		return quoin.FactorOf(1)
	}
	return s.Exchange
}

// UnitCost returns the landed cost of one unit, never rounded: 68.90 for 50 sheets is 1.378 a
// sheet. The error is Problems, if the quantity is not above zero or the landed cost is
// negative.
func (s Supply) UnitCost() (UnitCost, error) {
	var found quoin.Problems
	if s.Quantity.Sign() <= 0 {
		found = append(found, quoin.Problem{
			Code: quoin.OutOfRange, Severity: quoin.Fault, Path: "quantity",
			Found: s.Quantity.String(), Wanted: "a quantity above zero, with its unit",
		})
	}
	landed := s.Landed()
	if landed.Sign() < 0 {
		found = append(found, quoin.Problem{
			Code: NegativeCost, Severity: quoin.Fault, Path: "discount",
			Found: s.Discount.String(), Wanted: "a discount of at most price, freight and duty together",
		})
	}
	if len(found) > 0 {
		return UnitCost{}, found
	}
	return UnitCost{landed.Over(s.Quantity.Number()), s.Quantity.Unit(), s.Labour}, nil
}

// NegativeCost is the code of a supply whose discount exceeds all it costs.
const NegativeCost quoin.Code = "negative_cost"

// UnitCost is the landed cost of one unit of a supply.
type UnitCost struct {
	Amount quoin.Amount
	Unit   quoin.Unit
	Labour Labour
}

// Of returns what q costs, after converting its unit: 0.5 sheet at 1.378 is 0.689. The error is
// a Problem, if q is of another dimension.
func (u UnitCost) Of(q quoin.Quantity) (quoin.Amount, error) {
	in, err := q.In(u.Unit)
	if err != nil {
		return quoin.Amount{}, err
	}
	return u.Amount.Times(in.Number()), nil
}
