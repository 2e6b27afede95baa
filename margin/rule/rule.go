package rule

import (
	"encoding/json"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
)

// Rule is one rule about prices. Its kind says which fields it has beside those of every rule.
//
// It is data: it can be printed, compared and stored.
type Rule struct {
	// What the answer names the rule by.
	ID string `json:"id" need:"yes"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// Whether the rule must hold (also where it is not given) or is only preferred, and dropped
	// where it would leave no price.
	Strength Strength `json:"strength,omitempty"`
	// Ids of the products that the rule speaks of; all of them where there are none. A
	// size_ratio rule takes its order of sizes from here; without them it goes through each
	// design.
	Products []string `json:"products,omitempty"`
	// In place of products: the designs that the products show of which the rule speaks.
	Designs []string `json:"designs,omitempty"`
	// Ids of the channels that the rule speaks of; all of them where there are none. It must
	// hold in each.
	Channels []string `json:"channels,omitempty"`
	// Kind of the rule.
	Kind Kind `json:"-" kind:"rule"`
}

// Strength says whether a rule must hold or is a preference.
type Strength string

const (
	Must   Strength = "must"   // also when empty
	Prefer Strength = "prefer" // dropped where it would leave no price
)

// UnmarshalText reads must or prefer.
func (s *Strength) UnmarshalText(text []byte) error { return form.SetWord(s, text, Must, Prefer) }

// Item is a product as rules see it.
type Item struct {
	ID          string
	Design      string // what it shows; empty where that is not said
	Grid        quoin.Grid
	Today       quoin.Optional[quoin.Amount] // today's price
	Size        quoin.Size                   // of the print without mat and frame; none where it is not known
	Comparables []comparables.Record         // of this product
	Offers      []Offer                      // one for each channel
	End         RangeEnd                     // of the ranges of a document, for Custom rules
}

// NewItem returns a product with its sales, each in its own channel. Many products in the same
// channels should share a CompiledChannel instead.
func NewItem(id string, g quoin.Grid, sales ...margin.Sale) Item {
	return Item{ID: id, Grid: g, Offers: each(sales, func(s margin.Sale) Offer { return CompileChannel(s.Terms, g).Offer(s) })}
}

// Offer returns the offer in a channel, or false if the item is not sold there.
func (it Item) Offer(channel string) (Offer, bool) {
	i := slices.IndexFunc(it.Offers, func(o Offer) bool { return o.Channel == channel })
	if i < 0 {
		return Offer{}, false
	}
	return it.Offers[i], true
}

func (it *Item) channels() []string {
	return each(it.Offers, func(o Offer) string { return o.Channel })
}

// Allowed returns the prices that the rule allows an item. It returns all prices if the rule
// does not apply to the item, has too little to go by, or is a SizeRatio, which compares
// products. The error is quoin.Problems: a rule without a kind, a Custom rule that fails, or
// prices that break into more runs than can be told apart.
func (r Rule) Allowed(it Item) (Set, error) {
	if p, bad := kindProblem(r.Kind); bad {
		return Set{}, of("rule", fault(p))
	}
	if !r.SpeaksOf(it.ID, it.Design) {
		return All(it.Grid), nil
	}
	return r.allowed(it)
}

// allowed is Allowed of an item that the rule is known to speak of.
func (r *Rule) allowed(it Item) (Set, error) {
	offers := r.offers(it)
	return r.Kind.asks(it, offers).allowed(it, offers)
}

// AsksChannels reports whether the rule tests what a sale in a channel leaves, and not only the
// price.
func (r Rule) AsksChannels() bool { return r.about() == channels }

func asksNoChannels(r *Rule) bool { return !r.AsksChannels() }

func isEnding(r *Rule) bool {
	_, ending := r.Kind.(Ending)
	return ending
}

// about is what the rule asks about; nothing where it has no kind.
func (r *Rule) about() subject {
	if r.Kind == nil {
		return nothing
	}
	return r.Kind.about()
}

// SpeaksOf reports whether the rule applies to a product with this design.
func (r Rule) SpeaksOf(product, design string) bool {
	return r.speaksOfAll() || slices.Contains(r.Products, product) || design != "" && slices.Contains(r.Designs, design)
}

func (r *Rule) speaksOfAll() bool { return len(r.Products) == 0 && len(r.Designs) == 0 }

// offers returns the item's offers in the rule's channels. Where they follow each
// other they stay where they are: an Offer is large.
func (r Rule) offers(it Item) []Offer {
	if len(r.Channels) == 0 {
		return it.Offers
	}
	var out []Offer
	for from := 0; from < len(it.Offers); from++ {
		end := from
		for end < len(it.Offers) && slices.Contains(r.Channels, it.Offers[end].Channel) {
			end++
		}
		switch {
		case end == from:
		case out == nil:
			out = it.Offers[from:end:end]
		default:
			out = append(out, it.Offers[from:end]...)
		}
		from = end
	}
	return out
}

// common is what every rule has, without Rule's methods.
type common Rule

// MarshalJSON writes the rule as one object, with its kind under "rule". It errs for a Custom
// rule, which cannot be in a document.
func (r Rule) MarshalJSON() ([]byte, error) {
	if p, bad := kindProblem(r.Kind); bad {
		return nil, of("rule", fault(p))
	}
	if own, ok := r.Kind.(Custom); ok {
		return nil, own.failed(prose.Quoted(own.Name)+" in a document", "a rule of a kind that documents have")
	}
	head, err := json.Marshal(common(r))
	if err != nil {
		return nil, err
	}
	kind, err := json.Marshal(r.Kind)
	if err != nil {
		return nil, err
	}
	text := fmt.Appendf(head[:len(head)-1], `,"rule":%q`, r.Kind)
	if string(kind) != "{}" {
		text = append(text, ',')
	}
	return append(text, kind[1:]...), nil
}

// UnmarshalJSON reads a rule as it stands in a document. Fields, words and ranges are checked;
// the names that it uses are not. The error is quoin.Problems.
func (r *Rule) UnmarshalJSON(data []byte) error {
	var c form.Collector
	var out Rule
	c.Read(data, &out)
	err := c.All().Err()
	if err == nil {
		*r = out
	}
	return err
}
