package annual

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// names are what the documents call their things, by the inputs that they are. Of what both
// documents have, the new name counts.
func (y Year) names() map[string]string {
	out := make(map[string]string)
	for _, d := range []pricelist.Document{y.Last, y.Now} {
		note := func(list, id, name string) {
			if name != "" {
				out[input(list, id)] = name
			}
		}
		for _, s := range d.Supplies {
			note("supplies", s.ID, s.Name)
		}
		for _, m := range d.Machines {
			note("machines", m.ID, m.Name)
		}
		for _, p := range d.Products {
			note("products", p.ID, p.Name)
		}
		for _, c := range d.Channels {
			note("channels", c.ID, c.Name)
		}
		for _, e := range d.Editions {
			note("editions", e.ID, e.Name)
		}
	}
	return out
}

func input(list, id string) string { return list + "[" + strconv.Quote(id) + "]" }

func (w writer) product(id string) string { return cmp.Or(w.names[input("products", id)], id) }

func (w writer) channel(id string) string { return cmp.Or(w.names[input("channels", id)], id) }

// edition is what an edition is called. A history may name one by the product that it is of.
func (w writer) edition(id string) string {
	return cmp.Or(w.names[input("editions", id)], w.product(id))
}

// place says where an input stands. A rule is called by its id, in quotes, and a line of a bill
// by its supply.
func (w writer) place(at string) string { return prose.Place(at, w.called) }

func (w writer) called(at string) string {
	if name := w.names[at]; name != "" {
		return name
	}
	if id, ok := strings.CutPrefix(at, "rules["); ok {
		return "rule " + strings.TrimSuffix(id, "]")
	}
	if _, supply, ok := strings.Cut(at, "].bill["); ok {
		if name := w.names["supplies["+supply]; name != "" {
			return "bill, " + name
		}
	}
	return ""
}

func quotedList(ids []string) string {
	return list(ids, func(id string) string { return fmt.Sprintf("%q", id) })
}
