package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/prose"
)

// taxClasses are the classes for which a channel or an order gives a rate, each once.
func (d Document) taxClasses() []string {
	var out []string
	for _, c := range d.Channels {
		for _, class := range c.TaxClasses() {
			if !slices.Contains(out, class) {
				out = append(out, class)
			}
		}
	}
	return out
}

// taxed checks that each class of tax of a product or of others has a rate somewhere, and that sets can be taxed
// by the classes of their products.
func (k *checker) taxed() {
	var known []string // once a class is named
	for i, p := range k.doc.Products {
		if p.TaxClass != "" {
			known = k.taxClass((*path)(nil).Field("products").At(i), p.TaxClass, known)
		}
	}
	for j, c := range k.doc.Channels {
		for i, o := range c.Orders {
			if o.Others != nil && o.Others.TaxClass != "" {
				known = k.taxClass((*path)(nil).Field("channels").At(j).Field("orders").At(i).Field("others"), o.Others.TaxClass, known)
			}
		}
	}
	for i, s := range k.doc.Sets {
		if j := k.doc.channelIndex(s.Channel); j >= 0 && k.doc.movesNet(s, k.doc.Channels[j]) {
			k.Stray((*path)(nil).Field("sets").At(i).Field("channel"), "products of several classes of tax where the price without tax stays the same",
				"products of one class, or no constant net in the channel")
		}
	}
}

// taxClass checks that the class of what stands at a path is one of those with a rate, which it
// returns.
func (k *checker) taxClass(at *path, class string, known []string) []string {
	if known == nil {
		known = k.doc.taxClasses()
	}
	at = at.Field("tax_class")
	if k.Under(at) || slices.Contains(known, class) {
		return known
	}
	k.Add(at, quoin.Problem{
		Code: quoin.UnknownID, Found: prose.Quoted(class), Wanted: "a class for which a channel or an order gives a rate",
		Near: k.Near(class, known), Remedy: "give it a rate in tax.classes of a channel, or leave tax_class out",
	})
	return known
}

// movesNet reports whether the price of a set would move with the taxes of several classes.
func (d Document) movesNet(s Set, c channel.Channel) bool {
	if c.Tax.Constant != channel.Net || !c.Tax.InPrice {
		return false
	}
	var rates []quoin.Rate
	for _, o := range c.Orders {
		for _, id := range s.Products {
			for _, p := range d.Products {
				if p.ID == id {
					rates = append(rates, c.TaxRate(o, p.TaxClass), c.TaxRate(channel.Order{}, p.TaxClass))
				}
			}
		}
	}
	own := func(o channel.Order) bool { return !o.TaxRate.IsZero() || len(o.TaxClasses) > 0 }
	several := slices.ContainsFunc(rates, func(r quoin.Rate) bool { return !r.Equal(rates[0]) })
	return several && slices.ContainsFunc(c.Orders, own) && len(d.taxClasses()) > 0 && d.severalClasses(s)
}

func (d Document) severalClasses(s Set) bool {
	classes := make(map[string]bool)
	for _, p := range d.Products {
		if slices.Contains(s.Products, p.ID) {
			classes[p.TaxClass] = true
		}
	}
	return len(classes) > 1
}

// taxClasses warns of classes for which there is a rate, and of which no product is, nor the others
// of an order.
func (w *warner) taxClasses() {
	var used []string
	for _, p := range w.doc.Products {
		used = append(used, p.TaxClass)
	}
	for _, c := range w.doc.Channels {
		for _, o := range c.Orders {
			if o.Others != nil {
				used = append(used, o.Others.TaxClass)
			}
		}
	}
	warn := func(at quoin.Path, list string, classes []channel.TaxClass) {
		for i, t := range classes {
			if slices.Contains(used, t.Class) {
				continue
			}
			remedy := "give products that are taxed so this tax_class, or leave it out"
			near := prose.Near(t.Class, used)
			if near != "" {
				remedy = "write " + prose.Quoted(near) + " if you mean the class of your products, or leave it out"
			}
			w.warn(UnusedTaxClass, at.Sub(list, i).Field("class"), "no product has the tax_class "+prose.Quoted(t.Class)+", so its "+t.Rate.String()+" is charged on nothing", remedy,
				"class", t.Class, "rate", t.Rate.String(), "near", near)
		}
	}
	for j, c := range w.doc.Channels {
		at := quoin.InList("channels", j)
		warn(at.Sub("tax", -1), "classes", c.Tax.Classes)
		for i, o := range c.Orders {
			warn(at.Sub("orders", i), "tax_classes", o.TaxClasses)
		}
	}
}
