package edition

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Edition is a limited edition of one or several products, such as the sizes of an image. One
// numbering counts all of them, or each has its own.
type Edition struct {
	// What the answer names it by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// Ids of the products that it is of.
	Products []string `json:"products" need:"yes" most:"100"`
	// How many are numbered, 1 to 100000.
	Size int64 `json:"size" need:"yes" range:"[1,100000]"`
	// Whether every product has a numbering of its own, of that size, with steps of its own;
	// otherwise one numbering runs over all products.
	Each bool `json:"each,omitzero"`
	// How many artist's proofs there are beside each numbering, 0 to 100000.
	Proofs int64 `json:"proofs,omitzero" range:"[0,100000]"`
	// The most that proofs may be as a share of size; they are not checked where it is not
	// given. At most 10% is common practice.
	ProofsAtMost quoin.Optional[quoin.Rate] `json:"proofs_at_most,omitzero" range:"[0,1]"`
	// How the price rises as it sells, the first from 0 sold, then from rising numbers below
	// size; the list price throughout where there are none.
	Steps []PriceStep `json:"steps,omitempty" most:"50"`
	// How many are sold, 0 to 100000, where no ledger is kept.
	Sold int64 `json:"sold,omitzero" range:"[0,100000]" or:"ledger"`
	// How many of a numbering are expected to sell in a month, at steps that do not say
	// otherwise.
	PerMonth quoin.Factor `json:"per_month,omitzero" range:"(0,"`
	// In place of sold: what became of numbers and proofs. Those without an entry are free.
	Ledger []Entry `json:"ledger,omitempty" most:"100000"`
}

// PriceStep is the price from so many sold on.
type PriceStep struct {
	// How many are sold before it: a step with 20 begins with the twenty-first to sell. It is 0
	// for the first step, also where it is not given, and for no other.
	Sold int64 `json:"sold" range:"[0,100000]"`
	// What the list price is multiplied by.
	Times quoin.Factor `json:"times,omitzero" need:"yes" range:"(0," or:"price"`
	// In its place: the price itself.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero" range:"[0,"`
	// How many sell in a month at this step; as many as the edition says where it is not given.
	PerMonth quoin.Factor `json:"per_month,omitzero" range:"(0,"`
}

// Codes of editions that cannot be meant as they are written.
const (
	TooManyProofs quoin.Code = "too_many_proofs"   // above the bound that was given
	UnclearSold   quoin.Code = "unclear_sold"      // a number sold, of several numberings
	Oversold      quoin.Code = "sold_above_size"   // more sold than are numbered
	BadSteps      quoin.Code = "bad_edition_steps" // steps that do not rise from 0, or begin with the last print sold
)

// Check returns, all at once: values that the fields do not take; a product named twice; proofs
// above their limit; a number sold beside a ledger, for several numberings or above the size;
// and steps that do not begin at 0, do not rise or begin where nothing is left to sell. The
// error is Problems. Audit checks the ledger. Whether the products exist is not checked.
func (e Edition) Check() error {
	ledger := e.Ledger
	e.Ledger = nil
	c := form.Check(e)
	for i, p := range e.Products {
		if first := slices.Index(e.Products, p); first < i {
			c.Fault(form.In("products").At(i), quoin.DuplicateID, prose.Quoted(p)+" again", fmt.Sprintf("each product once, and it is products[%d]", first), "")
		}
	}
	e.checkProofs(c)
	if e.Sold != 0 && len(ledger) > 0 {
		c.Fault(form.In("ledger"), quoin.RivalFields, "ledger beside sold", "one of them", "")
	} else {
		e.checkSold(c)
	}
	e.checkSteps(c)
	return c.All().Err()
}

func (e Edition) checkProofs(c *form.Collector) {
	bound, given := e.ProofsAtMost.Get()
	if !given || e.Size < 1 {
		return
	}
	most := bound.Factor().Times(quoin.FactorOf(e.Size))
	if quoin.FactorOf(e.Proofs).Cmp(most) > 0 {
		c.Fault(form.In("proofs"), TooManyProofs, fmt.Sprint(e.Proofs), fmt.Sprintf("at most %s, %s of %d", most.Round(0, quoin.Down), bound, e.Size), "")
	}
}

func (e Edition) checkSold(c *form.Collector) {
	at := form.In("sold")
	found := fmt.Sprint(e.Sold)
	switch {
	case e.Sold == 0:
	case e.numberings() > 1:
		c.Fault(at, UnclearSold, fmt.Sprintf("%s of %d numberings", found, e.numberings()), "a ledger, which says of which product each is", "")
	case e.Size > 0 && e.Sold > e.Size:
		c.Fault(at, Oversold, found, fmt.Sprintf("at most the size of %d", e.Size), "")
	}
}

func (e Edition) checkSteps(c *form.Collector) {
	for i, s := range e.Steps {
		sold := form.In("steps").At(i).Field("sold")
		switch {
		case i == 0 && s.Sold != 0:
			c.Fault(sold, BadSteps, fmt.Sprint(s.Sold), "the first step from 0 sold on", "")
		case i > 0 && s.Sold <= e.Steps[i-1].Sold:
			c.Fault(sold, BadSteps, fmt.Sprint(s.Sold), fmt.Sprintf("more than the %d of the step before", e.Steps[i-1].Sold), "")
		case i > 0 && e.Size > 0 && s.Sold >= e.Size:
			c.Fault(sold, BadSteps, fmt.Sprint(s.Sold), fmt.Sprintf("less than the size of %d, so that something is left to sell", e.Size), "")
		}
	}
}

// numberings is how many numberings the edition has.
func (e Edition) numberings() int {
	if e.Each {
		return len(e.Products)
	}
	return 1
}

// sold is how many are said to be sold, kept within what there is.
func (e Edition) sold() int64 {
	if len(e.Ledger) > 0 || e.numberings() != 1 {
		return 0
	}
	return min(max(e.Sold, 0), e.size())
}

func (e Edition) size() int64   { return max(e.Size, 0) }
func (e Edition) proofs() int64 { return max(e.Proofs, 0) }
