package review

import (
	"strconv"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// BrokenRule is a rule of the new document that must hold, and that a price breaks.
type BrokenRule struct {
	Product string `json:"product"`
	Price   string `json:"price"`
	Rule    string `json:"rule"`
	// Channel is the first channel in which the rule is broken, if it asks something of channels.
	// The rule asks for at_least or at_most (Bound) so much (Asked), and the price gives Got.
	Channel string `json:"channel,omitempty"`
	Asked   string `json:"asked,omitempty"`
	Got     string `json:"got,omitempty"`
	Bound   string `json:"bound,omitempty"`
	// Neighbour is the smaller size that a ladder is broken beside, with its price.
	Neighbour      string `json:"neighbour,omitempty"`
	NeighbourPrice string `json:"neighbour_price,omitempty"`
}

// broken reads what an answer says of today's prices.
func broken(a pricelist.Answer) []BrokenRule {
	var out []BrokenRule
	for _, w := range a.BreaksToday() {
		of := make(map[string]string, len(w.Args))
		for _, arg := range w.Args {
			of[arg.Name] = arg.Value
		}
		for n, nth := 1, ""; of["rule"+nth] != ""; nth = "_" + strconv.Itoa(n) { // rule, rule_2, ...
			n++
			out = append(out, BrokenRule{
				Product: of["product"], Price: of["price"], Rule: of["rule"+nth], Channel: of["channel"+nth],
				Asked: of["asked"+nth], Got: of["got"+nth], Bound: of["bound"+nth],
				Neighbour: of["neighbour"+nth], NeighbourPrice: of["neighbour_price"+nth],
			})
		}
	}
	return out
}

// byProduct is the rules that prices break, by the product.
func byProduct(all []BrokenRule) map[string][]BrokenRule {
	out := make(map[string][]BrokenRule)
	for _, b := range all {
		out[b.Product] = append(out[b.Product], b)
	}
	return out
}

// priced is the document with other prices of today: none for products without one.
func priced(doc pricelist.Document, prices map[string]quoin.Amount) pricelist.Document {
	products := make([]pricelist.Product, len(doc.Products))
	copy(products, doc.Products)
	for i := range products {
		products[i].Price = quoin.Optional[quoin.Amount]{}
		if p, ok := prices[products[i].ID]; ok {
			products[i].Price = quoin.Some(p)
		}
	}
	doc.Products = products
	return doc
}
