package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

// FairPlan is what a fair comes to at the decided prices.
type FairPlan struct {
	ID      string `json:"id"`
	Name    string `json:"name,omitempty"`
	Channel string `json:"channel"`
	fair.Outcome
	// Explanation is where the result comes from, step by step, from what a print
	// of each product keeps there.
	Explanation Reasons `json:"steps,omitzero"`
}

// fairs plans every fair. What a print keeps there is its contribution, with what
// the channel's period adds left out: going to the fair is what is decided.
func (d worked) fairs(products []Priced) ([]FairPlan, error) {
	var out []FairPlan
	for i, f := range d.Fairs {
		j := d.channelIndex(f.Channel)
		var prints []fair.Print
		for _, share := range f.Mix { // each product once, which was checked
			p := products[d.index[share.Product]]
			s := p.Channels[j].Statement
			prints = append(prints, fair.Print{
				Product: p.ID, Price: s.Revenue.Add(s.Tax), Revenue: s.Revenue, Kept: s.Contribution.Add(s.Selling),
			})
		}
		outcome, err := f.Plan(prints)
		if err != nil {
			return nil, under(quoin.InList("fairs", i), err)
		}
		out = append(out, FairPlan{f.ID, f.Name, f.Channel, outcome, because(func(t *quoin.Trail) {
			given := make([]fair.Given, len(prints))
			for k, p := range prints {
				given[k] = p.Given(quoin.Path{})
			}
			f.Explain(t, quoin.InList("fairs", i), given)
		})})
	}
	return out, nil
}

// under puts the path of what problems are about before theirs.
func under(at quoin.Path, err error) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return at.Locate(err)
	}
	out := make(quoin.Problems, len(ps))
	for i, p := range ps {
		out[i], _ = at.Locate(p).(quoin.Problem)
	}
	return out
}
