package margin

import "example.com/quoin"

// Statement is what one item at one price leaves, line by line. Nothing in it is rounded except
// what settling the orders rounded.
type Statement struct {
	Revenue      quoin.Amount `json:"revenue"` // without tax
	Tax          quoin.Amount `json:"tax"`     // passed on; not part of the sums below
	Goods        quoin.Amount `json:"goods"`
	OwnTime      quoin.Amount `json:"own_time,omitzero"`  // in goods: the maker's working time
	PaidTime     quoin.Amount `json:"paid_time,omitzero"` // in goods: working time that is paid
	Gross        quoin.Amount `json:"gross"`              // revenue − goods
	Fees         quoin.Amount `json:"fees"`
	Fulfilment   quoin.Amount `json:"fulfilment"`
	Selling      quoin.Amount `json:"selling"`
	Contribution quoin.Amount `json:"contribution"` // gross − fees − fulfilment − selling
	Overhead     quoin.Amount `json:"overhead"`
	Operating    quoin.Amount `json:"operating"`  // contribution − overhead
	IncomeTax    quoin.Amount `json:"income_tax"` // of operating, never below 0
	Net          quoin.Amount `json:"net"`        // operating − income tax
}

// BeforeFixedCost returns the contribution before the channel's fixed cost: contribution + selling.
// A fixed cost stays the same however many are sold, so this is what one sale more brings.
// Example: a contribution of 4.00 after 1.50 for a stand is 5.50 before it.
func (s Statement) BeforeFixedCost() quoin.Amount { return s.Contribution.Add(s.Selling) }

// GrossMargin returns gross ÷ revenue; false where revenue is not above zero.
func (s Statement) GrossMargin() (quoin.Rate, bool) { return share(s.Gross, s.Revenue) }

// NetMargin returns net ÷ revenue, or false if revenue is not above zero.
func (s Statement) NetMargin() (quoin.Rate, bool) { return share(s.Net, s.Revenue) }

// Markup returns gross ÷ goods, or false if goods do not cost anything.
func (s Statement) Markup() (quoin.Rate, bool) { return share(s.Gross, s.Goods) }

func share(part, of quoin.Amount) (quoin.Rate, bool) {
	if of.Sign() <= 0 {
		return quoin.Rate{}, false
	}
	return part.Share(of), true
}
