package margin

import (
	"iter"

	"example.com/quoin"
)

// Statement is what one item at one price leaves, line by line. Nothing in it is rounded except
// what settling the orders rounded.
type Statement struct {
	// What comes in, without tax.
	Revenue quoin.Amount `json:"revenue"`
	// Sales or value-added tax, which is passed on and no part of the lines below.
	Tax quoin.Amount `json:"tax"`
	// What it costs to make and pack, with what is lost.
	Goods quoin.Amount `json:"goods"`
	// How much of goods is the maker's own working time; not there where it is none.
	OwnTime quoin.Amount `json:"own_time,omitzero"`
	// How much of goods is working time that is paid; not there where it is none.
	PaidTime quoin.Amount `json:"paid_time,omitzero"`
	// Revenue − goods.
	Gross quoin.Amount `json:"gross"`
	// What the channel takes.
	Fees quoin.Amount `json:"fees"`
	// What sending costs, with what is lost.
	Fulfilment quoin.Amount `json:"fulfilment"`
	// Its part of the channel's fixed cost.
	FixedCost quoin.Amount `json:"fixed_cost"`
	// Gross − fees − fulfilment − fixed cost.
	Contribution quoin.Amount `json:"contribution"`
	// Its part of the shop's overhead.
	Overhead quoin.Amount `json:"overhead"`
	// Contribution − overhead.
	Operating quoin.Amount `json:"operating"`
	// Taken of operating, never below 0.
	IncomeTax quoin.Amount `json:"income_tax"`
	// Operating − income tax.
	Net quoin.Amount `json:"net"`
}

// Lines returns the lines of the statement in order, each with the code of the step that it is the
// value of: revenue, tax_passed_on, goods and so on to net.
func (s Statement) Lines() iter.Seq2[quoin.StepCode, quoin.Amount] {
	return func(yield func(quoin.StepCode, quoin.Amount) bool) {
		codes := [...]quoin.StepCode{
			StepRevenue, StepTax, StepGoods, StepOwnTime, StepPaidTime, StepGross, StepFees,
			StepFulfilment, StepFixedCost, StepContribution, StepOverhead, StepOperating, StepIncomeTax, StepNet,
		}
		for i, a := range [len(codes)]quoin.Amount{
			s.Revenue, s.Tax, s.Goods, s.OwnTime, s.PaidTime, s.Gross, s.Fees,
			s.Fulfilment, s.FixedCost, s.Contribution, s.Overhead, s.Operating, s.IncomeTax, s.Net,
		} {
			if !yield(codes[i], a) {
				return
			}
		}
	}
}

// BeforeFixedCost returns the contribution before the channel's fixed cost: both added up.
// A fixed cost stays the same however many are sold, so this is what one sale more brings.
// Example: a contribution of 4.00 after 1.50 for a stand is 5.50 before it.
func (s Statement) BeforeFixedCost() quoin.Amount { return s.Contribution.Add(s.FixedCost) }

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
