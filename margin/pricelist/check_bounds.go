package pricelist

import (
	"encoding/json"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/rule"
)

const (
	// timesDocument is how many times as long as its document an answer may be,
	// without its steps; one of up to anyLength is never too long.
	timesDocument = 20
	anyLength     = 8 * megabyte // of JSON
	megabyte      = 1_000_000
)

// What parts of an answer take as JSON, in bytes, as they mostly are.
const (
	bytesOfProduct   = 100
	bytesOfStatement = 400
	bytesOfOrder     = 200
	bytesOfParcel    = 350
	bytesOfPacking   = 140 // that is not taken
	bytesOfFee       = 45
	bytesOfBreak     = 60
	bytesOfRange     = 350
	bytesOfLadder    = 600  // why a size is no dearer and no cheaper
	bytesOfMarket    = 420  // what its comparables say
	bytesOfRuns      = 1700 // of allowed prices, where endings leave a hundred
)

// answerable refuses a document whose answer would be out of all proportion.
func (k *checker) answerable() {
	var each lengths
	if k.shop != nil {
		each = k.shop.each
	} else {
		each = lengthsOf(k.doc.Document, len(k.doc.inputs))
	}
	var long int64
	for i := range k.doc.Products {
		p := &k.doc.Products[i]
		long += int64(len(p.ID)+len(p.Name)) + each.of(p)
	}
	long += bytesOfMarket * int64(min(len(k.doc.Comparables), len(k.doc.Products)))
	if long <= anyLength {
		return
	}
	if most := timesDocument * documentLength(k.doc.given); long > most {
		k.Add((*path)(nil).Field("products"), quoin.Problem{
			Code: AnswerTooLong, Found: fmt.Sprintf("%d products in %d channels, an answer of some %d MB", len(k.doc.Products), len(k.doc.Channels), long/megabyte),
			Wanted: fmt.Sprintf("an answer of at most %d MB, or %d times as long as the document", anyLength/megabyte, timesDocument),
			Remedy: "decide fewer products at once, or leave out channels, kinds of order or fees",
		})
	}
}

// lengths is how long what there is to say of a product is: wherever it is sold, in all channels,
// and in each.
type lengths struct {
	product, all int64
	channels     map[string]int64
}

// of is the length for one product, in the channels that sell it.
func (l lengths) of(p *Product) int64 {
	if len(p.Channels) == 0 {
		return l.product + l.all
	}
	sum := l.product
	for _, id := range p.Channels {
		sum += l.channels[id]
	}
	return sum
}

func lengthsOf(d Document, ranges int) lengths {
	sum := int64(bytesOfProduct)
	if slices.ContainsFunc(d.Rules, isKind[rule.SizeRatio]) {
		sum += bytesOfLadder
	}
	if limit, given := d.PriceLimit.Get(); slices.ContainsFunc(d.Rules, isKind[rule.Ending]) && (!given || limit.Cmp(quoin.AmountOf(mostListed, 0)) > 0) {
		sum += bytesOfRuns
	}
	out := lengths{product: sum, channels: make(map[string]int64, len(d.Channels))}
	for _, c := range d.Channels {
		in := statementLength(c, len(d.Packings))
		if ranges > 0 {
			in += bytesOfRange
		}
		out.all, out.channels[c.ID] = out.all+in, in
	}
	return out
}

func isKind[K rule.Kind](r rule.Rule) bool {
	_, ok := r.Kind.(K)
	return ok
}

// statementLength is that of one product in a channel, of a document with so many packings.
func statementLength(c channel.Channel, packings int) int64 {
	sum := int64(bytesOfStatement + 2*len(c.ID) + len(c.Name) + (c.Breaks()-max(1, len(c.Orders)))*bytesOfBreak)
	if !inKinds(c) {
		return sum
	}
	each := bytesOfOrder
	for _, f := range c.Fees {
		each += bytesOfFee + len(f.Name)
	}
	if c.Tariff != "" {
		each += bytesOfParcel + bytesOfPacking*(packings-1)
	}
	for _, o := range c.Orders {
		sum += int64(each + len(o.ID) + len(o.Name))
	}
	return sum
}

// documentLength is how long the document is as JSON.
func documentLength(d Document) int64 {
	text, err := json.Marshal(d)
	if err != nil { // for rules of the caller's own, which cannot be written
		d.Rules = nil
		text, _ = json.Marshal(d)
	}
	return int64(len(text))
}

// mostAsked bounds how often rules ask products in channels, all together: it is what
// deciding takes time for.
const mostAsked = 10_000_000

// mostSizesTried bounds how many sizes preferred steps are tried with, all together.
const mostSizesTried = 4_000_000

// asked checks that there are not too many rules for so many products and channels.
func (k *checker) sizeRatiosTried(shown *designs) bool {
	sum, pairs, preferred := 0, 0, 0
	for i := range k.doc.Rules {
		r := &k.doc.Rules[i]
		products := len(k.doc.Products)
		if len(r.Products) > 0 || len(r.Designs) > 0 {
			products = len(r.Products)
			for _, d := range r.Designs {
				products += shown.count()[d]
			}
		}
		if sum <= 10*mostAsked { // and counting ends
			sum += max(k.timesAsked(r, shown), products)
		}
		if isKind[rule.SizeRatio](*r) {
			pairs += products
			if r.Strength == rule.Prefer {
				preferred++
			}
		}
	}
	at := (*path)(nil).Field("rules")
	return k.within(pairs*preferred, mostSizesTried, at, fmt.Sprintf("%d preferred steps, each to be tried with %d sizes on ladders", preferred, pairs), " together",
		"put steps that are alike into one rule that names the designs, or none, or decide the products in lots") &&
		k.within(sum, mostAsked, at, fmt.Sprintf("rules that ask %d times about a product in a channel", sum), "",
			"decide the products in lots, or let rules name the products and channels that they are about")
}

// within refuses what would take too long: more of something than a bound, which stands at a
// path and is found as said. It reports whether it is within the bound.
func (k *checker) within(n, most int, at *path, found, counted, remedy string) bool {
	if n > most {
		k.Add(at, quoin.Problem{Code: quoin.TooMany, Found: found, Wanted: fmt.Sprintf("at most %d", most) + counted, Remedy: remedy})
	}
	return n <= most
}

// mostWays bounds in how many ways the orders of a document may be sent: what
// finding the cheapest takes time for.
const mostWays = 10_000_000

// sendable checks that there are not too many: each order of each product in each of
// its packings by each step of a zone. A packing by itself counts as some steps, since
// the answer says why it was not taken; and so does what is measured of a packing
// once, whatever is sent.
func (k *checker) sendable(m *sharedCosts) bool {
	const (
		byPacking = 50
		byVolume  = 40 // a parcel that grows, where volume is charged for, is measured some times
	)
	sum, lists := 0, make([]int, len(k.doc.Products)) // of each product, those that are packings
	for i, p := range k.doc.Products {
		for _, pack := range k.doc.Packings {
			if _, has := p.Packing[pack.ID]; has {
				lists[i]++
			}
		}
	}
	for j, c := range k.doc.Channels {
		post := m.posts[c.Tariff]
		if c.Tariff == "" || post.CompiledTerms == nil {
			continue
		}
		t, all := k.doc.Tariffs[post.tariff], 0
		for i := range lists {
			if k.doc.Products[i].sellsIn(c.ID) {
				all += lists[i]
			}
		}
		steps := make(map[string]int, len(t.Zones))
		for _, z := range t.Zones {
			steps[z.ID] = len(z.Steps)
		}
		once := 1
		if t.Dimensional != nil {
			once = byVolume
		}
		zones := make(map[string]bool)
		for _, o := range c.Orders {
			sum += all * (steps[o.Zone] + byPacking)
			if !zones[o.Zone] {
				zones[o.Zone] = true
				sum += len(k.doc.Packings) * steps[o.Zone] * once
			}
		}
		found := fmt.Sprintf("%d ways to send products: in each of their packings, by each step of a zone, in each kind of order, up to this channel", sum)
		if !k.within(sum, mostWays, (*path)(nil).Field("channels").At(j).Field("tariff"), found, fmt.Sprintf(", where a packing counts as %d steps more", byPacking),
			"give products the packings alone that they go into, leave out steps that no parcel goes by, or decide products in several documents") {
			return false
		}
	}
	return true
}

// mostStepped bounds what editions take time and answers for: each step of each product
// is asked in each channel what it keeps.
const (
	mostStepped    = 2_000_000
	leastAsStepped = 20 // channels, as many as are counted where there are fewer
)

// stepped checks that pricing the steps of all editions does not take too long.
func (k *checker) stepped() {
	sum := 0
	for i, e := range k.doc.Editions {
		for _, id := range e.Products {
			channels := len(k.doc.Channels)
			if n, known := k.list("products").at[id]; known {
				channels = k.doc.channelsOf(&k.doc.Products[n])
			}
			sum += max(len(e.Steps), 1) * max(channels, leastAsStepped)
		}
		if !k.within(sum, mostStepped, (*path)(nil).Field("editions").At(i), fmt.Sprintf("%d products × steps × channels, of this edition and those before it", sum),
			fmt.Sprintf(", where at least %d channels are counted", leastAsStepped), "give editions fewer steps, or decide them in several documents") {
			return
		}
	}
}
