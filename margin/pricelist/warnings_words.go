package pricelist

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/margin/rule"
)

// Names say what kind of thing something is where the document has no field for it. The lists are
// short and of plain English: in other languages these warnings are silent, and no sum depends on
// them.

// soldOnline are words of channels in which buyers pay by card, or somebody takes a share.
func soldOnline(name string) bool {
	return saysOne(name, "marketplace", "online", "web", "webshop", "website", "internet", "card")
}

// isFair are words of channels that are a fair.
func isFair(name string) bool { return saysOne(name, "fair", "stall", "booth") }

// isPayment are words of fees for taking a payment.
func isPayment(name string) bool { return saysOne(name, "payment", "card", "processing") }

// use is what a supply is for: what its document says, and what its name does.
type use struct {
	works      bool // is working time
	wrapsOrder bool // is what an order is sent in, whatever number of prints it holds
	wrapsPrint bool // is what each print has its own of
	packs      bool // is some other packing
	standing   bool // is the cost of a fair, or of a year
}

// uses are those of all supplies, by id.
func (d Document) uses() map[string]use {
	out := make(map[string]use, len(d.Supplies))
	for i := range d.Supplies {
		out[d.Supplies[i].ID] = useOf(&d.Supplies[i])
	}
	return out
}

func useOf(s *cost.Supply) use {
	name := s.ID + " " + s.Name
	return use{
		works:      s.Labour != "",
		wrapsOrder: saysOne(name, "mailer", "envelope", "parcel", "carton", "box", "boxes", "tube"),
		wrapsPrint: saysOne(name, "sleeve", "backing", "certificate"),
		packs:      saysOne(name, "packet", "packing", "packaging", "wrap"),
		standing:   saysOne(name, "stall", "booth", "stand", "rent", "insurance", "subscription", "website", "yearly", "annual", "monthly"),
	}
}

// saysOne reports whether one of the words, or its plural, stands in a name.
func saysOne(name string, words ...string) bool {
	for in := range strings.FieldsFuncSeq(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(words, in) || slices.Contains(words, strings.TrimSuffix(in, "s")) {
			return true
		}
	}
	return false
}

// titled is what people call product i.
func (w *warner) titled(i int) string {
	p := w.doc.Products[i]
	return cmp.Or(p.Name, p.ID)
}

// place is what people call channel j.
func (w *warner) place(j int) string {
	c := w.doc.Channels[j]
	return cmp.Or(c.Name, c.ID)
}

// supply is what people call a supply or a machine.
func (w *warner) supply(id string) string {
	if s := w.supplies[id]; s != nil {
		return cmp.Or(s.Name, id)
	}
	return id
}

// example is the first product and its decided price, to show what is at stake; false on a
// conflict.
func (w *warner) example() (product string, price quoin.Amount, ok bool) {
	if len(w.dec.Prices) == 0 {
		return "", quoin.Amount{}, false
	}
	return w.titled(0), w.dec.Prices[0], true
}

// offered reports whether a product is sold in one of the channels.
func offered(it rule.Item, channels []string) bool {
	return slices.ContainsFunc(it.Offers, func(o rule.Offer) bool { return slices.Contains(channels, o.Channel) })
}
