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
	// Changes are the differences between the documents, in the order of names and
	// lists of the new one.
	Changes []Change `json:"changes"`
	// Method says how what the changes do together is told apart; none where no floor
	// rests on any.
	Method Method  `json:"method,omitempty"`
	Floors []Floor `json:"floors"`
	// Broken are the rules of the new document that must hold and that last prices
	// break; rules on moves left out, since the last price is what they start from.
	Broken []Broken `json:"broken,omitempty"`
	// Moves are what to do, product by product; none on a Conflict, the ids of a
	// smallest group of rules of the new document that cannot hold together.
	Moves    []Move   `json:"moves"`
	Conflict []string `json:"conflict,omitempty"`
	// Cautions belong under every printed result.
	Cautions []string `json:"cautions"`
}

// CurrencyChanged is the code of two documents in different currencies, whose
// amounts cannot be compared.
const CurrencyChanged quoin.Code = "currency_changed"

// Compare reviews a price list: the document that it was decided from, the prices on
// it by product, and the document as it is now. Where prices are nil they are those
// that the last document decides. Prices are not to move further than by move at
// once, a share of the last price; rules of the new document on moves count in its
// place for the products that they speak of, as preferences, and a move of zero
// bounds nothing.
//
// With n changed inputs that floors rest on, the floors of 2ⁿ mixtures of both documents
// are decided where n is at most eight and the document not too long for it, and of 2n + 2
// else; where rules leave some product no price in one of them, product by product. Of
// each only the products are decided that its changes can move. Beside them each channel
// is decided alone, in both documents, and the new document whole up to three times, and
// up to 22 where ladders of sizes hold prices that cannot move far enough.
//
// The error is quoin.Problems: what is wrong with either document, documents in
// different currencies, a last price that is not above zero, or of a product in neither
// document, more than 400 changed inputs that floors rest on, and changes for which so many
// products with so many lines would have to be decided that it would take seconds.
func Compare(last pricelist.Document, prices map[string]quoin.Amount, now pricelist.Document, move quoin.Rate) (Review, error) {
	r := Review{Currency: now.Currency, Cautions: pricelist.Cautions()}
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
	r.Moves = append([]Move{}, moves...)
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

// NoLastPrices is the code of a last document that decides no prices, where none are
// given.
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
	r.Changes = make([]Change, len(changes))
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
