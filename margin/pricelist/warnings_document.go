package pricelist

import (
	"cmp"
	"fmt"
	"math/big"
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
	"example.com/quoin/cost"
	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

var (
	smallRate = big.NewRat(1, 1000)
	wholeRate = big.NewRat(1, 1)
	halfRate  = big.NewRat(1, 2)
)

// rates warns of rates so small or large that a sign or a digit may be wrong.
func (w *warner) rates() { w.rate(nil, reflect.ValueOf(w.doc), false) }

// rate warns of the rates in a value; small says that it is usually a few per cent.
func (w *warner) rate(at *path, v reflect.Value, small bool) {
	r, ok := v.Interface().(quoin.Rate)
	if o, optional := v.Interface().(quoin.Optional[quoin.Rate]); optional {
		r, ok = o.Or(quoin.Rate{}), true
	}
	switch {
	case ok:
		w.mistyped(at, r, small)
	case v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			w.rate(at, v.Elem(), false)
		}
	case v.Kind() == reflect.Struct:
		of := form.Of(v.Type())
		for _, f := range of.Fields {
			if f.Rated {
				w.rate(at.Field(f.Name), v.Field(f.Index), usuallySmall(v.Type(), f.Name))
			}
		}
		if of.Kind >= 0 {
			w.rate(at, v.Field(of.Kind).Elem(), false)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			w.rate(at.At(i), v.Index(i), false)
		}
	}
}

// mistyped warns of one rate. Where a few per cent are usual, 0.5 and 1 are as likely meant as half
// a per cent and one.
func (w *warner) mistyped(at *path, r quoin.Rate, small bool) {
	x := r.Rat()
	large := small && x.Cmp(halfRate) >= 0
	odd := x.Cmp(smallRate) < 0 || x.Cmp(wholeRate) > 0
	if x.Sign() == 0 || !odd && !large {
		return
	}
	p := quoin.Problem{
		Code: RateMistyped, Severity: quoin.Warning, Path: at.String(), Found: "a rate of " + r.String(),
		Remedy: "check the percent sign and the point", Args: []quoin.Arg{{Name: "rate", Value: r.String()}},
	}
	if !odd {
		hundred := quoin.AmountOf(10000, 2)
		meant := r.Of(perCent(1))
		p.Found = fmt.Sprintf("a rate of %s, %s of %s; as %s it would be %s", r, w.money(hundred.Part(r)), w.money(hundred), meant, w.money(hundred.Part(meant)))
		p.Remedy = fmt.Sprintf("write %q if that is meant: without the percent sign, %s is %s", meant, r.Factor(), r)
		p.Args = append(p.Args, quoin.Arg{Name: "meant", Value: meant.String()})
	}
	w.put(p)
}

// usuallySmall reports whether a field is a rate of which a half would be much.
func usuallySmall(t reflect.Type, field string) bool {
	switch t {
	case reflect.TypeFor[channel.Channel]():
		return field == "lost_parcels"
	case reflect.TypeFor[channel.Fee](), reflect.TypeFor[channel.Tax](), reflect.TypeFor[channel.Tier]():
		return field == "rate" || field == "tax"
	case reflect.TypeFor[channel.Order]():
		return field == "tax_rate"
	case reflect.TypeFor[channel.ForeignCurrency]():
		return field == "conversion"
	case reflect.TypeFor[channel.Credit]():
		return field == "interest" || field == "early" || field == "bad"
	case reflect.TypeFor[channel.Trade]():
		return field == "agent" || field == "agent_reorder" || field == "allowance" || field == "defects"
	case reflect.TypeFor[channel.Consignment]():
		return field == "interest" || field == "lost_pieces"
	case reflect.TypeFor[refund.Rates]():
		return field == "returned" || field == "disputed"
	case reflect.TypeFor[machine.Machine]():
		return field == "interest"
	case reflect.TypeFor[waste.Stage]():
		return field == "lost_of_started" || field == "lost_of_good"
	case reflect.TypeFor[Document]():
		return field == "contingency"
	}
	return false
}

// waste warns of a large contingency where no stage has a yield.
func (w *warner) waste() {
	for _, s := range w.doc.Stages {
		if (waste.Route{s}).Yield().Cmp(quoin.MustRate("100%")) < 0 {
			return
		}
	}
	c := w.doc.Contingency
	if c.Cmp(quoin.MustRate("10%")) < 0 {
		return
	}
	covers := c.Factor().Over(c.OnePlus()).Rate().Round(2)
	w.warn(ContingencyAsLoss, quoin.InField("contingency"),
		fmt.Sprintf("%s added on covers only %s lost, and no stage has a yield", c, covers),
		fmt.Sprintf("where %s of what is started is lost, give a stage the yield that is left", c),
		"contingency", c.String(), "covers", covers.String())
}

// ink warns of more or less ink than prints commonly take, and of ink that is
// given as if it were known exactly.
func (w *warner) ink() {
	w.given.eachLine(func(at quoin.Path, l *cost.BillLine) {
		if l.Ink == nil {
			return
		}
		at = at.Inside("ink").Field("per_m2")
		if p, unlikely := l.Ink.Plausible(); unlikely {
			p.Path = at.String()
			w.put(p)
		}
		if r := l.Ink.PerM2Range; r.IsZero() || r.Low.Equal(r.High) {
			w.warn(InkAsIfExact, at, fmt.Sprintf("%s of ink for a square metre, as if it were known exactly", l.Ink.PerM2),
				"give a range beside it, or log a few more jobs", "per_m2", l.Ink.PerM2.String())
		}
	})
}

func (w *warner) unused() {
	used := make(map[string]bool)
	note := func(bill cost.Bill) {
		for _, l := range bill {
			used[l.Supply] = true
		}
	}
	for _, p := range w.doc.Products {
		note(p.Bill)
		for _, packing := range p.Packing {
			note(packing)
		}
	}
	for i, s := range w.doc.Supplies {
		if !used[s.ID] {
			w.warn(UnusedSupply, w.supplyAt[i], fmt.Sprintf("%s is on no bill and no packing list", cmp.Or(s.Name, s.ID)),
				"put it where it is used, or leave it out", "supply", s.ID)
		}
	}
}

// fees warns of a fee of the payment kind, a rate and a fixed amount, that is
// not taken of tax added on top, which is paid through it too.
func (w *warner) fees() {
	for j, c := range w.doc.Channels {
		if c.Tax.InPrice || !c.Taxes() {
			continue
		}
		for i, f := range c.Fees {
			if f.Rate.IsZero() || f.Fixed.IsZero() || slices.Contains(f.Of, channel.SalesTax) {
				continue
			}
			w.warn(FeeOmitsTax, quoin.InList("channels", j).Sub("fees", i).Field("of"),
				fmt.Sprintf("%q has a rate and a fixed amount, as fees on payments have, and leaves out the tax added on top", f.Name),
				"add \"tax\" to what it is taken of, if it is taken of all that is paid", "fee", f.Name, "channel", c.ID)
		}
	}
}

// silent warns of channels that sell nothing, and of those whose costs no rule looks at.
func (w *warner) silent() {
	for j, c := range w.doc.Channels {
		if len(w.doc.Products) > 0 && !slices.ContainsFunc(w.doc.Products, func(p Product) bool { return p.sellsIn(c.ID) }) {
			w.warn(SellsNothing, quoin.InList("channels", j), fmt.Sprintf("no product is sold at %s", cmp.Or(c.Name, c.ID)),
				fmt.Sprintf("add %s to the channels of a product, or leave the channel out", prose.Quoted(c.ID)), "channel", c.ID)
			continue
		}
		spoken := slices.ContainsFunc(w.doc.Rules, func(r rule.Rule) bool {
			return r.AsksChannels() && (len(r.Channels) == 0 || slices.Contains(r.Channels, c.ID))
		})
		if !spoken {
			w.warn(SilentChannel, quoin.InList("channels", j), fmt.Sprintf("no rule checks whether you earn anything at %s", cmp.Or(c.Name, c.ID)),
				fmt.Sprintf("add a rule \"contribution\" or \"net_margin\" for channel %q", c.ID), "channel", c.ID)
		}
	}
}
