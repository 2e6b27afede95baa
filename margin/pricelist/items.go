package pricelist

import (
	"reflect"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// Items checks and works out the document and returns its products as rules see them: each
// with an offer in each channel, which has the sale, its curve on the grid, and each kind of
// order by itself. From there one reaches the statement at any price (Sale.At), points to be
// drawn (Sale.Points), what each rule says of a price (Rule.Judge, for the document's
// Rules), and dead zones (rule.DeadZones).
//
// End says whether they are at the values that the document gives, or at one end of all
// its ranges; items say so themselves. The error is quoin.Problems, of what Check finds.
func (d Document) Items(end rule.End) ([]rule.Item, error) {
	if _, err := form.Word(string(end), rule.Likely, rule.Cheapest, rule.Dearest); err != nil {
		return nil, problems(err)
	}
	w, err := form.Copy(d).checked()
	if err != nil {
		return nil, err
	}
	switch {
	case end == rule.Cheapest && w.cheap != nil:
		w = *w.cheap
	case end == rule.Dearest && w.dear != nil:
		w = *w.dear
	}
	m, err := w.open()
	if err != nil {
		return nil, problems(err)
	}
	items, err := m.items(end)
	return items, problems(err)
}

// Sale returns a product in a channel, by their ids: everything a statement needs but the
// price. Items has them all. The error is quoin.Problems, of what Check finds, or that
// there is no such product or channel.
func (d Document) Sale(product, channel string) (margin.Sale, error) {
	items, err := d.Items(rule.Likely)
	if err != nil {
		return margin.Sale{}, err
	}
	names := make([]string, len(items))
	for i, it := range items {
		if names[i] = it.ID; it.ID != product {
			continue
		}
		if o, ok := it.Offer(channel); ok {
			return o.Sale, nil
		}
		channels := make([]string, len(it.Offers))
		for j, o := range it.Offers {
			channels[j] = o.Channel
		}
		return margin.Sale{}, notFound(channel, "the id of an entry in channels", channels)
	}
	return margin.Sale{}, notFound(product, "the id of an entry in products", names)
}

func notFound(id, wanted string, names []string) error {
	return quoin.Problems{{Code: quoin.UnknownID, Severity: quoin.Fault, Found: prose.Quoted(id), Wanted: wanted, Near: prose.Near(id, names)}}
}

// Items checks and works out a lot in the shop, as Items of a document does, at the values
// that are given. The error is quoin.Problems, of the lot alone.
func (s *Shop) Items(lot Lot) ([]rule.Item, error) {
	if err := s.unopened(); err != nil {
		return nil, err
	}
	lot = form.Copy(lot) // which items are made of
	var c form.Collector
	c.Walk(nil, reflect.ValueOf(&lot).Elem())
	_, m, err := s.check(lot, &c)
	if err != nil {
		return nil, lot.located(err)
	}
	items, err := m.items(rule.Likely)
	return items, problems(err)
}
