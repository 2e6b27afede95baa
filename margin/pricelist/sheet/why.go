package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// Why writes the whole story of one product's price. First the answer: what refuses the next lower
// and the next higher one, and where the price goes. Then the arithmetic, step by step, so that it
// can be followed with a pocket calculator: goods and overhead, which channels share, once, and
// then one channel after the other. It returns false where the answer has no such product.
func Why(a pricelist.Answer, product string, width int) (string, bool) {
	return why(a, product, func(pricelist.ChannelResult) bool { return true }, width)
}

// WhyIn writes the same story with one channel alone. It returns false where the answer has no such
// product, or the product no such channel.
func WhyIn(a pricelist.Answer, product, channel string, width int) (string, bool) {
	return why(a, product, func(s pricelist.ChannelResult) bool { return s.ID == channel }, width)
}

func why(a pricelist.Answer, product string, of func(pricelist.ChannelResult) bool, width int) (string, bool) {
	for _, it := range a.Products {
		if it.ID != product {
			continue
		}
		it.Channels = slices.DeleteFunc(slices.Clone(it.Channels), func(s pricelist.ChannelResult) bool { return !of(s) })
		if len(it.Channels) == 0 {
			return "", false
		}
		p := newText(width, a)
		p.story(a, it)
		p.cautions(a)
		return p.String(), true
	}
	return "", false
}

// WhyNot writes the part of Why that says what refuses the next lower and the next higher price. It
// returns false where the answer has no such product.
func WhyNot(a pricelist.Answer, product string, width int) (string, bool) {
	for _, it := range a.Products {
		if it.ID == product {
			p := newText(width, a)
			p.sides(a, it)
			return p.String(), true
		}
	}
	return "", false
}

func (p *text) sides(a pricelist.Answer, it pricelist.ProductResult) {
	p.side("Why not lower?", "Down to", a, it, it.Lower, it.Least)
	p.side("Why not higher?", "Up to", a, it, it.Higher, it.Greatest)
}

// story is that of a product with some of its channels.
func (p *text) story(a pricelist.Answer, it pricelist.ProductResult) {
	p.wrap("", titled(p.wording, it))
	p.wrap("  ", "May be "+mayLie(it, len(it.MayLie))+".")
	p.Line("")
	p.sides(a, it)
	p.Line("")
	b := block{width: p.Width, full: true}
	b.statements(p.wording, it, true)
	for _, l := range b.most(true) {
		p.Line(l)
	}
	shared, own := told(it.Channels)
	known := places{subjects: make(map[int]string)}
	if len(shared) > 0 {
		p.Line("")
		p.wrap("", "Goods and overhead, step by step")
		p.Line("")
		p.steps(shared, known)
	}
	for i, c := range it.Channels {
		p.Line("")
		p.wrap("", fmt.Sprintf("%s: one item at %s, step by step", named(c.Name, c.ID), it.Price))
		for _, z := range c.DeadZones {
			p.wrap("  ", p.zone(z))
		}
		p.Line("")
		known.orders = ordersOf(c)
		p.steps(own[i], known)
	}
	p.Line("")
}

// places are the names of what steps are about.
type places struct {
	orders   map[int64]string // kinds of order of the channel, by their place
	subjects map[int]string   // what steps are about, by their numbers
}

func ordersOf(c pricelist.ChannelResult) map[int64]string {
	names := make(map[int64]string)
	for _, o := range c.Orders {
		if at, ok := o.Order.Get(); ok {
			names[at] = named(o.Name, o.ID)
		}
	}
	return names
}

// of says where a step is: the kind of order. What has a subject needs no place.
func (k places) of(s quoin.Step) string {
	_, at, found := strings.Cut(s.At.String(), "].orders[")
	if s.Subject != "" || !found {
		return ""
	}
	at, _, _ = strings.Cut(at, "]")
	n, err := strconv.ParseInt(at, 10, 64)
	if err != nil {
		return ""
	}
	return cmp.Or(k.orders[n], fmt.Sprintf("order %d", n+1))
}

// subject is what a step is about; a line is about what its unit cost is of, which has a name.
func (k places) subject(s quoin.Step) string {
	if s.Code == cost.StepLine {
		for _, o := range s.Operands {
			if of := k.subjects[o.Step]; of != "" {
				return of
			}
		}
	}
	return s.Subject
}

func (p *text) steps(of []numbered, known places) {
	for _, s := range of {
		subject := known.subject(s.Step)
		if s.Code == cost.StepUnitCost {
			known.subjects[s.number] = subject
		}
		p.wrap(fmt.Sprintf("%5d  ", s.number), p.explained(s.Step, subject, known.of(s.Step)))
	}
}

// numbered is a step with its number in a story.
type numbered struct {
	number int
	quoin.Step
}

// told puts the steps of statements in one story: those first that rest on no
// channel, each once, and then those of each channel.
func told(channels []pricelist.ChannelResult) (shared []numbered, own [][]numbered) {
	t := teller{said: make(map[int]int), shared: make(map[int]bool), same: make(map[int]quoin.Operand)}
	steps := make([][]quoin.Step, len(channels))
	for i, c := range channels {
		steps[i] = c.Steps.Steps()
		shared = append(shared, t.take(steps[i], t.isShared)...)
	}
	for _, of := range steps {
		own = append(own, t.take(of, func(quoin.Step, []int, int) bool { return true }))
	}
	return shared, own
}

// teller tells each step once. It knows them by their numbers in a journal.
type teller struct {
	quoin.Journal
	said   map[int]int // the number it was told under
	shared map[int]bool
	same   map[int]quoin.Operand // what a step that is not told is the same as
}

// take tells those of the steps that are wanted and not told yet.
func (t *teller) take(steps []quoin.Step, want func(s quoin.Step, at []int, n int) bool) (out []numbered) {
	at := t.Add(steps)
	for i, s := range steps {
		n := at[i]
		if t.said[n] > 0 || !want(s, at, n) {
			continue
		}
		s.Operands = slices.Clone(s.Operands)
		for k, o := range s.Operands {
			s.Operands[k] = t.told(o, at)
		}
		if wholeShare(s) {
			t.same[n] = s.Operands[0]
			continue
		}
		t.said[n] = len(t.said) + 1
		out = append(out, numbered{t.said[n], s})
	}
	return out
}

// told is an operand with the number that its step was told under.
func (t *teller) told(o quoin.Operand, at []int) quoin.Operand {
	if o.Step == 0 {
		return o
	}
	n := at[o.Step-1]
	if same, ok := t.same[n]; ok {
		o.Name, o.Step = same.Name, same.Step
		return o
	}
	o.Step = t.said[n]
	return o
}

// wholeShare reports whether a step weighs one kind of order by 100%, and so says nothing new.
func wholeShare(s quoin.Step) bool {
	if s.Op != quoin.OpWeighted || len(s.Operands) != 2 || s.Places >= 0 {
		return false
	}
	weight := s.Operands[1].Value
	return weight.Kind() == quoin.IsRate && weight.Factor().Equal(quoin.FactorOf(1))
}

// isShared reports whether a step is about no channel, and rests on such steps alone.
func (t *teller) isShared(s quoin.Step, at []int, n int) bool {
	t.shared[n] = !s.At.Within(quoin.InField("channels")) &&
		!slices.ContainsFunc(s.Operands, func(o quoin.Operand) bool { return o.Step > 0 && !t.shared[at[o.Step-1]] })
	return t.shared[n]
}

func (p wording) zone(z rule.DeadZone) string {
	again := ""
	if a, ok := z.Again.Get(); ok {
		again = fmt.Sprintf("; from %s on it pays again", p.money(a))
	}
	return fmt.Sprintf("Prices from %s to %s keep less than %s, which keeps %s%s.", p.money(z.First), p.money(z.Last), p.money(z.After), p.money(z.Contribution), again)
}

// explained writes a step as a sum to be followed: name, operands, value.
func (p wording) explained(s quoin.Step, subject, at string) string {
	name := prose.Words(s.Code) + prose.Behind(", ", subject) + prose.Behind(", ", at)
	line := fmt.Sprintf("%s = %s = %s", name, p.expression(s), s.Before.Long())
	off := s.RoundingDifference()
	if s.Places < 0 || off.Factor().IsZero() {
		return line
	}
	return fmt.Sprintf("%s; rounded %s to %s, a difference of %s", line, prose.Words(s.Rounding.String()), s.Value, off.Long())
}

func (p wording) expression(s quoin.Step) string {
	var parts []string
	for _, o := range s.Operands {
		if !o.Default || !o.Neutral(s.Op) {
			parts = append(parts, operand(o))
		}
	}
	switch {
	case len(parts) == 0 && s.Op == quoin.OpSum:
		return "nothing"
	case len(parts) == 0: // all of them are 1, and so is what they come to
		for _, o := range s.Operands {
			parts = append(parts, operand(o))
		}
		return strings.Join(parts, " x ")
	case s.Op == quoin.OpSum:
		return strings.ReplaceAll(strings.Join(parts, " + "), " + - ", " - ")
	case s.Op == quoin.OpProduct:
		return strings.Join(parts, " x ")
	case s.Op == quoin.OpQuotient:
		return quotient(s, parts)
	case s.Op == quoin.OpWeighted:
		return weighted(s)
	case s.Op == quoin.OpBelow:
		return fmt.Sprintf("%s where %s is below %s, else 0", operand(s.Operands[0]), operand(s.Operands[1]), operand(s.Operands[2]))
	}
	return string(s.Op) + " of " + strings.Join(parts, ", ")
}

// quotient writes the last operand under the others, unless it was left out.
func quotient(s quoin.Step, parts []string) string {
	last := s.Operands[len(s.Operands)-1]
	if last.Default && last.Neutral(s.Op) {
		return strings.Join(parts, " x ")
	}
	above := cmp.Or(strings.Join(parts[:len(parts)-1], " x "), "1")
	return above + " / " + parts[len(parts)-1]
}

func weighted(s quoin.Step) string {
	var parts []string
	for i := 0; i+1 < len(s.Operands); i += 2 {
		parts = append(parts, operand(s.Operands[i])+" x "+operand(s.Operands[i+1]))
	}
	return strings.Join(parts, " + ")
}

// operand writes a number with its name and, where it is the value of a step,
// the step's number.
func operand(o quoin.Operand) string {
	name := prose.Words(o.Name)
	if o.Step > 0 {
		name += fmt.Sprintf(" [%d]", o.Step)
	}
	if name == "one" {
		return "1"
	}
	text := name + " " + o.Value.Long()
	switch o.Form {
	case quoin.Minus:
		return "- " + text
	case quoin.OnePlus:
		return "(1 + " + text + ")"
	case quoin.OneMinus:
		return "(1 - " + text + ")"
	}
	return text
}
