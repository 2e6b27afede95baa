package rule

import "slices"

// catalogue finds items: by their ids, by the designs that they show, and those that a
// rule speaks of, without going through all of them.
type catalogue struct {
	items []Item
	byID  map[string]int
	names map[string]int // of the designs: their places; with shows, once they were asked for
	shows [][]int        // by design, in the order of the items
	every []int          // the places of all, once they were asked for
}

// at returns the place of an item.
func (c *catalogue) at(id string) (int, bool) {
	if c.byID == nil {
		c.byID = make(map[string]int, len(c.items))
		for i, it := range c.items {
			c.byID[it.ID] = i
		}
	}
	i, ok := c.byID[id]
	return i, ok
}

// designs returns the items of some designs, or of each that there is, design by
// design as they come.
func (c *catalogue) designs(named []string) [][]int {
	if c.names == nil {
		c.names = make(map[string]int)
		for i, it := range c.items {
			if it.Design == "" {
				continue
			}
			at, ok := c.names[it.Design]
			if !ok {
				at = len(c.shows)
				c.names[it.Design] = at
				c.shows = append(c.shows, nil)
			}
			c.shows[at] = append(c.shows[at], i)
		}
	}
	if len(named) == 0 {
		return c.shows
	}
	var out [][]int
	for _, name := range named {
		if at, ok := c.names[name]; ok {
			out = append(out, c.shows[at])
		}
	}
	return out
}

// spoken returns the places of the items that a rule speaks of, in order.
func (c *catalogue) spoken(r *Rule) []int {
	if r.speaksOfAll() {
		if c.every == nil {
			c.every = make([]int, len(c.items))
			for i := range c.every {
				c.every[i] = i
			}
		}
		return c.every
	}
	var out []int
	for _, p := range r.Products {
		if i, ok := c.at(p); ok {
			out = append(out, i)
		}
	}
	if len(r.Designs) > 0 {
		out = append(out, slices.Concat(c.designs(r.Designs)...)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// about is which rules speak of each item: those that speak of all, and its own, both in
// the order of the rules.
type about struct {
	all []int
	own [][]int // by item; nil where no rule names any
}

// newAbout leaves out the steps, which speak of pairs.
func newAbout(rules []Rule, in *catalogue) about {
	var a about
	for n := range rules {
		r := &rules[n]
		if r.about() == pairs {
			continue
		}
		if r.speaksOfAll() {
			a.all = append(a.all, n)
			continue
		}
		if a.own == nil {
			a.own = make([][]int, len(in.items))
		}
		for _, i := range in.spoken(r) {
			a.own[i] = append(a.own[i], n)
		}
	}
	return a
}

// of goes through the rules that speak of an item, in their order, and own besides.
func (a about) of(item int, besides []int) []int {
	if a.own == nil && len(besides) == 0 {
		return a.all
	}
	out := slices.Clone(a.all)
	if a.own != nil {
		out = append(out, a.own[item]...)
	}
	out = append(out, besides...)
	slices.Sort(out)
	return slices.Compact(out)
}
