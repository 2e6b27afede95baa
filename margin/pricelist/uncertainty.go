package pricelist

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// certain returns a copy of the document without ranges, each value that has
// one taken from the end that choose names; empty keeps the value.
func (d Document) certain(choose func(form.Unsure) string) Document {
	out := form.Copy(d)
	for _, u := range form.Unsures(nil, reflect.ValueOf(&out).Elem()) {
		if end := choose(u); end != "" {
			u.Value.Set(u.End(end))
		}
		u.Ends.SetZero()
	}
	return out
}

// cheapest and dearest are the document with every value that has a range at
// the end at which goods cost less, or more.
func (d Document) cheapest() Document { return d.certain(form.Unsure.Cheap) }

func (d Document) dearest() Document {
	return d.certain(func(u form.Unsure) string { return u.Dear })
}

// yields checks that what is lost at a stage has a range only where neither it
// nor a stage before it gives anything back: with a recovery, more spoiled
// pieces may cost less.
func (k *checker) yields() {
	gives := slices.IndexFunc(k.doc.Stages, func(s waste.Stage) bool { return !s.Recovers().IsZero() })
	if gives < 0 {
		return
	}
	for _, u := range form.Unsures((*path)(nil).Field("stages"), reflect.ValueOf(k.doc.Stages)) {
		if u.At.Up().Index() < gives {
			continue
		}
		k.Add(u.At.Range(), quoin.Problem{
			Code: RangeWithRecovery, Found: "a range at or after a stage that gives something back",
			Wanted: "one " + u.Field.Name, Remedy: "price two documents, one with each end",
		})
	}
}

// Uncertainty is what the ranges of a document change for one product: its price if all
// uncertain figures were at their cheap ends, and if all were at their dear ends.
type Uncertainty struct {
	// Everything unsure at the end at which goods cost less.
	Cheapest RangeResult `json:"cheapest"`
	// Everything unsure at the end at which goods cost more.
	Dearest RangeResult `json:"dearest"`
	// Whether knowing better could change the decided price. Where it could not, finding out has
	// no worth for this price.
	Matters bool `json:"matters"`
	// The values with a range that move the goods of the product, the one that moves them
	// furthest first. A document with more than a hundred ranges lists none, nor does one whose
	// ranges × products × channels exceed 20,000.
	Inputs []Influence `json:"inputs,omitempty"`
}

// RangeResult is a product at one end of all ranges: its lowest allowed and its decided price,
// or the rules that contradict each other there.
type RangeResult struct {
	// The least price that is allowed there.
	Least quoin.Optional[quoin.Amount] `json:"least,omitzero" range:"[0,"`
	// The price that is decided there.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero" range:"[0,"`
	// The rules that cannot hold together there.
	Conflict []string `json:"conflict,omitempty"`
}

// Influence is what one value with a range changes by itself, with all others at their likely
// values.
type Influence struct {
	// Where the value stands.
	Path string `json:"path"`
	// The same in words, such as "Pigment printer, prints per month".
	Name string `json:"name"`
	// The lower end of its range.
	Low quoin.Figure `json:"low"`
	// The higher end.
	High quoin.Figure `json:"high"`
	// What an item's goods cost at the cheaper and the dearer end, in the channel where the two
	// are furthest apart.
	Goods quoin.Range[quoin.Amount] `json:"goods"`
	// Id of that channel.
	Channel string `json:"channel"`
}

// StatementRange is a statement with everything at its cheapest and with everything at its
// dearest, at the same price. Every case inside the ranges lies between them.
type StatementRange struct {
	// What goods lie between.
	Goods quoin.Range[quoin.Amount] `json:"goods"`
	// What contribution lies between.
	Contribution quoin.Range[quoin.Amount] `json:"contribution"`
	// What net lies between.
	Net quoin.Range[quoin.Amount] `json:"net"`
}

// mostInfluences bounds the ranges whose influence is computed one by one, and
// mostStatements the products in channels that this is done for, all together.
const (
	mostInfluences = 100
	mostStatements = 20_000
)

// extreme decides a document that was worked out at an end of its ranges, beside what it shares
// with the likely one.
func (d derivedDocument) extreme(end rule.RangeEnd, likely *sharedCosts) (*decidedList, error) {
	m, err := d.openLike(likely)
	if err != nil {
		return nil, err
	}
	return m.decide(d, end)
}

// spread adds to an answer what the ranges of the document as it was given come
// to.
func (d derivedDocument) spread(a *Answer, m *sharedCosts) error {
	if d.cheap == nil || len(a.Conflict) > 0 {
		return nil
	}
	likely := m
	for _, u := range d.inputs {
		if list, _ := u.At.Begins(); list == "channels" {
			likely = nil
		}
	}
	cheap, err := d.cheap.extreme(rule.Cheapest, likely)
	if err != nil {
		return err
	}
	dear, err := d.dear.extreme(rule.Dearest, likely)
	if err != nil {
		return err
	}
	for i := range a.Products {
		p := &a.Products[i]
		p.Uncertainty = &Uncertainty{Cheapest: cheap.atEnd(i), Dearest: dear.atEnd(i)}
		p.Uncertainty.Matters = !p.Uncertainty.Cheapest.Price.Equal(p.Uncertainty.Dearest.Price)
		for j := range p.Channels {
			p.Channels[j].Range = unsureAt(p.Price, cheap.items[i].Offers[j], dear.items[i].Offers[j])
		}
	}
	a.Warnings = append(a.Warnings, d.noPrice("cheapest", cheap.dec)...)
	a.Warnings = append(a.Warnings, d.noPrice("dearest", dear.dec)...)
	if n := len(d.inputs); n > mostInfluences || n*d.statements() > mostStatements {
		return nil
	}
	return d.influences(d.inputs, a.Products, m)
}

// statements is how many there are: of each product in each channel that sells it.
func (d Document) statements() (sum int) {
	for i := range d.Products {
		sum += d.channelsOf(&d.Products[i])
	}
	return sum
}

// noPrice warns of an end of all ranges at which the rules cannot hold together.
func (d derivedDocument) noPrice(end string, dec rule.Decision) quoin.Problems {
	if len(dec.Conflict) == 0 {
		return nil
	}
	first := slices.IndexFunc(d.Rules, func(r rule.Rule) bool { return r.ID == dec.Conflict[0] })
	return quoin.Problems{{
		Code: NoPriceAtEnd, Severity: quoin.Warning, Path: quoin.InList("rules", first).String(),
		Found:  fmt.Sprintf("with every unsure figure at its %s, %s cannot hold together", end, strings.Join(dec.Conflict, " and ")),
		Remedy: "find out better what the ranges hold, or leave the rules more room",
		Args:   []quoin.Arg{{Name: "end", Value: end}, {Name: "rules", Value: strings.Join(dec.Conflict, ", ")}},
	}}
}

// atEnd is what product i comes to at the end of all ranges that was decided.
func (d *decidedList) atEnd(i int) RangeResult {
	if len(d.dec.Conflict) > 0 {
		return RangeResult{Conflict: d.dec.Conflict}
	}
	least, _ := d.dec.Allowed[i].Least()
	return RangeResult{Least: quoin.Some(d.Currency.Round(least, quoin.HalfUp)), Price: quoin.Some(d.Currency.Round(d.dec.Prices[i], quoin.HalfUp))}
}

func unsureAt(price quoin.Amount, cheap, dear rule.Offer) *StatementRange {
	best, worst := cheap.Sale.At(price), dear.Sale.At(price)
	return &StatementRange{
		Goods:        quoin.Between(best.Goods, worst.Goods),
		Contribution: quoin.Between(worst.Contribution, best.Contribution),
		Net:          quoin.Between(worst.Net, best.Net),
	}
}

// influences works the document out twice for each input, with it alone at either end.
func (d derivedDocument) influences(inputs []form.Unsure, products []ProductResult, m *sharedCosts) error {
	likely := form.Copy(d.given)
	values := form.Unsures(nil, reflect.ValueOf(&likely).Elem()) // in the order of the inputs
	for _, u := range values {
		u.Ends.SetZero()
	}
	r, how := d.reach(), d.goodsPlan(m)
	for n, u := range inputs {
		moved, named := r.moved(u)
		cheap, err := likely.goodsAt(values[n].Value, u.End(u.Cheap()), moved, named, how)
		if err != nil {
			return err
		}
		dear, err := likely.goodsAt(values[n].Value, u.End(u.Dear), moved, named, how)
		if err != nil {
			return err
		}
		for k, i := range moved {
			if f, ok := d.influence(u, &d.Products[i], cheap[k], dear[k]); ok {
				products[i].Uncertainty.Inputs = append(products[i].Uncertainty.Inputs, f)
			}
		}
	}
	for _, p := range products {
		slices.SortStableFunc(p.Uncertainty.Inputs, func(a, b Influence) int { return cmp.Compare(0, a.swing().Cmp(b.swing())) })
	}
	return nil
}

func (f Influence) swing() quoin.Amount { return f.Goods.High.Sub(f.Goods.Low) }

// influence is the channel in which one input moves a product's goods furthest;
// false where it moves them in none.
func (d derivedDocument) influence(u form.Unsure, p *Product, cheap, dear []quoin.Amount) (Influence, bool) {
	f := Influence{Path: u.At.String(), Name: d.given.Place(u.At.String()), Low: figureOf(u.End("low")), High: figureOf(u.End("high"))}
	for n, j := range d.soldIn(p) {
		if dear[n].Sub(cheap[n]).Cmp(f.swing()) > 0 {
			f.Goods, f.Channel = quoin.Between(cheap[n], dear[n]), d.Channels[j].ID
		}
	}
	return f, f.Channel != ""
}

func figureOf(v reflect.Value) quoin.Figure {
	switch x := v.Interface().(type) {
	case interface{ Figure() quoin.Figure }:
		return x.Figure()
	case int64:
		return quoin.FactorOf(x).Figure()
	}
	return quoin.Figure{}
}

// goodsAt returns the goods of some products, which name some supplies and machines, with a value
// of the document at an end of its range. Then it is again what it was.
func (d Document) goodsAt(value, end reflect.Value, products, named []int, how goodsOf) ([][]quoin.Amount, error) {
	was := reflect.New(value.Type()).Elem()
	was.Set(value)
	value.Set(end)
	defer value.Set(was)
	if goods, err := how(d.alone(products, named)); err == nil {
		return goods, nil
	}
	all, err := how(d) // how much bases lend goes by how many products there are
	if err != nil {
		return nil, err
	}
	goods := make([][]quoin.Amount, len(products))
	for k, i := range products {
		goods[k] = all[i]
	}
	return goods, nil
}

// goodsOf returns what an item of each product costs in each channel that sells it, of a
// document that was checked and now has other values inside its ranges.
type goodsOf func(Document) ([][]quoin.Amount, error)

// goodsPlan is goodsOf for documents that are like this one, which was opened, but for such values.
func (d derivedDocument) goodsPlan(like *sharedCosts) goodsOf {
	plan, memory := like.goodsPlan(d.Document), new(plannedProduct)
	for _, u := range d.inputs {
		if list, _ := u.At.Begins(); list == "channels" || list == "contingency" {
			plan = nil // which has some of that
		}
	}
	return func(with Document) ([][]quoin.Amount, error) {
		var c form.Collector
		w := with.worked(&worker{Collector: &c, quiet: true}, d.memory, nil)
		if err := c.All().Err(); err != nil {
			return nil, err
		}
		m, err := w.maker()
		if err != nil {
			return nil, err
		}
		m.terms = like.terms
		out := make([][]quoin.Amount, len(w.Products))
		for i := range w.Products {
			if out[i], err = m.goodsIn(&w.Products[i], plan, memory); err != nil {
				return nil, err
			}
		}
		return out, nil
	}
}

// goodsIn returns what an item of a product costs in each channel that sells it, by a plan if
// there is one.
func (m *sharedCosts) goodsIn(p *Product, plan *goodsPlan, memory *plannedProduct) (out []quoin.Amount, err error) {
	if plan != nil {
		if memory.begin(plan); memory.made(m, plan, p) {
			plan.goods(memory)
			for j := range memory.Goods {
				if memory.Goods[j].Sold {
					out = append(out, memory.Goods[j].PerItem)
				}
			}
			return out, nil
		}
	}
	for _, j := range m.soldIn(p) {
		sale, err := m.sale(p, j)
		if err != nil {
			return nil, err
		}
		out = append(out, sale.GoodsPerItem())
	}
	return out, nil
}
