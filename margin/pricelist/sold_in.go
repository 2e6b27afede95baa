package pricelist

import (
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/rule"
)

// sellsIn reports whether a channel sells the product.
func (p *Product) sellsIn(channel string) bool {
	return len(p.Channels) == 0 || slices.Contains(p.Channels, channel)
}

// soldIn returns the places of the channels that sell a product, in the document's order.
func (m *sharedCosts) soldIn(p *Product) []int {
	if len(p.Channels) == 0 {
		return m.all
	}
	return m.doc.soldIn(p)
}

func (d Document) soldIn(p *Product) []int {
	out := make([]int, 0, len(d.Channels))
	for j := range d.Channels {
		if p.sellsIn(d.Channels[j].ID) {
			out = append(out, j)
		}
	}
	return out
}

// channelsOf is how many channels sell a product.
func (d Document) channelsOf(p *Product) int {
	if len(p.Channels) == 0 {
		return len(d.Channels)
	}
	return min(len(p.Channels), len(d.Channels))
}

// channelsNamed checks the channels that products name.
func (k *checker) channelsNamed() {
	for i, p := range k.doc.Products {
		if len(p.Channels) == 0 {
			continue
		}
		at := (*path)(nil).Field("products").At(i).Field("channels")
		for j, id := range p.Channels {
			k.known(at.At(j), "channels", id)
			if slices.Contains(p.Channels[:j], id) {
				k.Add(at.At(j), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(id) + " again", Wanted: "each channel once"})
			}
		}
	}
}

// sells checks that a channel sells a product that something names beside it. What is unknown
// has been said.
func (k *checker) sells(at *path, channel, product string) {
	i, known := k.list("products").at[product]
	if !known || k.shop != nil || i >= len(k.doc.Products) || k.doc.Products[i].sellsIn(channel) {
		return
	}
	if _, known := k.list("channels").at[channel]; known && !k.Under(at) {
		k.Add(at, notSold(k.doc.Products[i], channel))
	}
}

func notSold(p Product, channel string) quoin.Problem {
	return quoin.Problem{
		Code: NotSoldThere, Severity: quoin.Fault, Found: prose.Quoted(p.ID) + " in " + prose.Quoted(channel) + ", which does not sell it",
		Wanted: "one of the channels of the product: " + strings.Join(p.Channels[:min(len(p.Channels), mostNamed)], ", "),
		Remedy: "add " + prose.Quoted(channel) + " to the channels of the product, or leave it out here",
	}
}

// timesAsked is how often a rule asks about a product in a channel.
func (k *checker) timesAsked(r *rule.Rule, shown *designs) (sum int) {
	switch {
	case len(r.Products) > 0:
		for _, id := range r.Products {
			if i, known := k.list("products").at[id]; known && i < len(k.doc.Products) {
				sum += k.asked(r, &k.doc.Products[i])
			}
		}
	case len(r.Designs) > 0:
		for _, d := range r.Designs {
			sum += shown.soldIn(d, k.doc.Document).of(r)
		}
	default:
		sum = shown.all(k.doc.Document).of(r)
	}
	return sum
}

// asked is in how many channels a rule asks about one product.
func (k *checker) asked(r *rule.Rule, p *Product) (n int) {
	switch {
	case len(r.Channels) == 0:
		return k.doc.channelsOf(p)
	case len(p.Channels) == 0:
		return len(r.Channels)
	}
	for _, id := range p.Channels {
		if slices.Contains(r.Channels, id) {
			n++
		}
	}
	return n
}

// soldBy is how many of some products each channel sells.
type soldBy map[string]int

// of is how many of them a rule asks about, channel by channel.
func (s soldBy) of(r *rule.Rule) (sum int) {
	if len(r.Channels) == 0 {
		for _, n := range s {
			sum += n
		}
	}
	for _, id := range r.Channels {
		sum += s[id]
	}
	return sum
}

func (s soldBy) add(p *Product, d Document) {
	if len(p.Channels) > 0 {
		for _, id := range p.Channels {
			s[id]++
		}
		return
	}
	for i := range d.Channels {
		s[d.Channels[i].ID]++
	}
}

// all is how many products each channel sells, and soldIn how many that show a design. They are
// counted where they are first asked for.
func (s *designs) all(d Document) soldBy {
	s.soldIn("", d)
	return s.every
}

func (s *designs) soldIn(design string, d Document) soldBy {
	if s.every == nil {
		s.every, s.sold = make(soldBy), make(map[string]soldBy)
		for i := range s.products {
			p := &s.products[i]
			s.every.add(p, d)
			if p.Design == "" {
				continue
			}
			if s.sold[p.Design] == nil {
				s.sold[p.Design] = make(soldBy)
			}
			s.sold[p.Design].add(p, d)
		}
	}
	return s.sold[design]
}
