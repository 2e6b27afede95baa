package review

import (
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// Review is what has changed since the last price list, and what to do about it.
type Review struct {
	Currency quoin.Currency `json:"currency"`
	// Changes are the differences between the documents: fields by name, entries of lists in
	// the order of the new document.
	Changes []InputChange `json:"changes"`
	// Method is how the movement of a floor was divided among the changes. It is empty where
	// no change touches a floor.
	Method Method  `json:"method,omitempty"`
	Floors []Floor `json:"floors"`
	// Broken are the last prices that break a rule of the new document which must hold. Rules
	// of the kind max_change are left out: they measure from the last price itself.
	Broken []BrokenRule `json:"broken,omitempty"`
	// Moves are what to do, product by product. There are none if rules of the new document
	// contradict each other: then Conflict names a smallest group of rules that do.
	Moves    []Proposal `json:"moves"`
	Conflict []string   `json:"conflict,omitempty"`
	// Cautions belong under every printed result.
	Cautions []string `json:"cautions"`
}

// CurrencyChanged is the code of a problem: the documents are in different currencies, and their
// amounts cannot be compared.
const CurrencyChanged quoin.Code = "currency_changed"

// Compare reviews a price list. It takes the document that the list was decided from, the last
// prices by product, and the document as it is now. Without prices (nil) it takes those that the
// last document decides.
//
// move is how far a price may go at once, as a share of the last price: with 10%, a price of
// 20.00 goes to at most 22.00 now. Zero sets no bound. Where the new document has a rule on this
// for a product, that rule counts in the place of move, as a preference.
//
// The error is quoin.Problems: what is wrong with either document; documents in different
// currencies; a last price that is not above zero, or is of a product in neither document; more
// than 400 changed inputs that touch floors; changes that would take seconds to tell apart.
//
// Cost: with n changed inputs that touch floors, the floors of 2ⁿ mixtures of both documents are
// decided if n is at most eight and the document is short enough, else those of 2n + 2. In each
// mixture only the products are decided that its changes can move. Where rules leave a product no
// price in a mixture, its products are decided one by one. Then each channel is decided alone in
// both documents, and the whole new document up to 3 times, or up to 22 times if ladders of sizes
// hold prices back.
func Compare(last pricelist.Document, prices map[string]quoin.Amount, now pricelist.Document, move quoin.Rate) (Review, error) {
	r := Review{Currency: now.Currency, Cautions: now.Cautions()}
	old, err := treeOf(last)
	if err != nil {
		return r, err
	}
	new, err := treeOf(now)
	if err != nil {
		return r, err
	}
	if prices, err = lastPrices(last, prices, now, move); err != nil {
		return r, err
	}
	if err := r.compare(old, new); err != nil {
		return r, err
	}
	m, err := newMover(now, prices, move)
	if err != nil {
		return r, err
	}
	r.Broken, r.Conflict = m.broken, m.answer.Conflict
	moves, err := m.moves()
	r.Moves = append([]Proposal{}, moves...)
	return r, err
}

// lastPrices checks what cannot be compared, and decides the last prices where none
// are given.
func lastPrices(last pricelist.Document, prices map[string]quoin.Amount, now pricelist.Document, move quoin.Rate) (map[string]quoin.Amount, error) {
	if !last.Currency.Equal(now.Currency) {
		return nil, fault(CurrencyChanged, "currency", now.Currency.String(), "the currency of the last document, "+last.Currency.String())
	}
	if move.Sign() < 0 {
		return nil, fault(quoin.OutOfRange, "", "a move of "+move.String(), "a share of 0% or more")
	}
	if prices != nil {
		return prices, checkPrices(last, prices, now)
	}
	a, err := pricelist.Decide(last)
	if err != nil {
		return nil, err
	}
	if len(a.Conflict) > 0 {
		return nil, fault(NoLastPrices, "", "rules of the last document that cannot hold together", "the prices of the last list")
	}
	return Prices(a), nil
}

// NoLastPrices is the code of a problem: no last prices are given, and the rules of the last
// document contradict each other, so that it decides none either.
const NoLastPrices quoin.Code = "no_last_prices"

// Prices are the decided prices of a list by product.
func Prices(a pricelist.Answer) map[string]quoin.Amount {
	out := make(map[string]quoin.Amount, len(a.Products))
	for _, p := range a.Products {
		out[p.ID] = p.Price
	}
	return out
}

const mostNames = 1000 // looked through for a near one

func checkPrices(last pricelist.Document, prices map[string]quoin.Amount, now pricelist.Document) error {
	ids := make(map[string]bool)
	for _, doc := range []pricelist.Document{last, now} {
		for _, p := range doc.Products {
			ids[p.ID] = true
		}
	}
	names := slices.Sorted(maps.Keys(ids))
	var c form.Collector
	for _, id := range slices.Sorted(maps.Keys(prices)) {
		at := "prices[" + prose.Quoted(id) + "]"
		if !ids[id] {
			near := prose.Near(id, names[:min(len(names), mostNames)])
			c.AddAt(at, quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "a product of one of the documents", Near: near})
		}
		if p := prices[id]; p.Sign() <= 0 || !p.Equal(now.Currency.Round(p, quoin.HalfUp)) {
			c.AddAt(at, quoin.Problem{Code: quoin.OutOfRange, Found: p.String(), Wanted: "a price above zero in whole minor units"})
		}
	}
	return c.All().Err()
}

// compare finds what changed, and how it moved the floors.
func (r *Review) compare(old, new object) error {
	of, err := meanings()
	if err != nil {
		return err
	}
	_, changes := compared(of, old, new)
	a, b := floored(old), floored(new)
	m, err := mix(of, a, b)
	if err != nil {
		return err
	}
	rests := make(map[string]bool, len(m.changes))
	for _, c := range m.changes {
		rests[c.Input] = true
	}
	r.Changes = make([]InputChange, len(changes))
	for i, c := range changes {
		c.Floor = rests[c.Input]
		r.Changes[i] = c
	}
	if len(m.groups) > 0 {
		r.Method = m.method()
	}
	r.Floors, err = movement(a, b, m, r.Method, r.Currency.Digits())
	return err
}
