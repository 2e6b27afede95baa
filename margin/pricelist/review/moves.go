package review

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// Advice is what to do about a price.
type Advice string

const (
	Stay  Advice = "stay"  // the last price is the one that the new document decides
	Raise Advice = "raise" // to the decided price, now
	Lower Advice = "lower" // to the decided price, now
	// Wait: the decided price is further away than a price may go at once. Take a first step
	// now, and the rest later.
	Wait Advice = "wait"
	New  Advice = "new" // there is no last price
)

// Why a move is advised.
const (
	// BreaksRules: the last price breaks rules that must hold.
	BreaksRules quoin.Code = "last_price_breaks_rules"
	// HoldsStill: the last price breaks none, and another is what the document chooses.
	HoldsStill quoin.Code = "last_price_still_holds"
	// WithinMove: the decided price is no further away than a price is to move at once.
	WithinMove quoin.Code = "within_move"
	// BeyondMove: it is further away.
	BeyondMove quoin.Code = "beyond_move"
	// StepKeepsRules: the first step keeps the rules that must hold.
	StepKeepsRules quoin.Code = "step_keeps_rules"
	// StepBreaksRules: it still breaks some.
	StepBreaksRules quoin.Code = "step_breaks_rules"
	// NoStep: the endings and bounds of the price allow no first step.
	NoStep quoin.Code = "no_step"
)

// Proposal is what a review proposes for a price.
type Proposal struct {
	Product string                       `json:"product"`
	Advice  Advice                       `json:"advice"`
	Last    quoin.Optional[quoin.Amount] `json:"last,omitzero"`
	// Now is the price to ask from now on. Decided is the price that the new document decides if
	// prices may go any way at once. Both are the same, unless the advice is to wait.
	Now     quoin.Amount `json:"now"`
	Decided quoin.Amount `json:"decided"`
	// By is (Decided − Last) ÷ Last: 0.10 from 20.00 to 22.00. Most is how far the price may go
	// at once: the smallest share that a rule of the document says, or else that of the review.
	By   quoin.Optional[quoin.Rate] `json:"by,omitzero"`
	Most quoin.Optional[quoin.Rate] `json:"most,omitzero"`
	// Reasons say why. Still are the rules that Now still breaks, if it is a first step.
	Reasons []Reason     `json:"reasons,omitempty"`
	Still   []BrokenRule `json:"still,omitempty"`
	// Volumes say, channel by channel, how many sales a rise may lose or a cut has to bring.
	Volumes []Volume `json:"volumes,omitempty"`
}

// mover works out moves.
type mover struct {
	doc    pricelist.Document // new, with the last prices as today's, and without rules on moves
	last   map[string]quoin.Amount
	design map[string]string     // what a product shows
	most   map[string]quoin.Rate // how far each price is to move at once; none where that is not bounded
	grid   quoin.Grid
	answer pricelist.Answer
	broken []BrokenRule
	breaks map[string][]BrokenRule // the same, by the product
}

// newMover decides the new document as if prices could move freely.
func newMover(doc pricelist.Document, last map[string]quoin.Amount, move quoin.Rate) (*mover, error) {
	m := &mover{last: last, design: make(map[string]string), most: make(map[string]quoin.Rate)}
	for _, p := range doc.Products {
		m.design[p.ID] = p.Design
		if most, ok := atOnce(doc.Rules, p, move); ok {
			m.most[p.ID] = most
		}
	}
	doc = priced(doc, last)
	doc.Rules = slices.DeleteFunc(slices.Clone(doc.Rules), isMove)
	m.doc = doc
	var err error
	if m.grid, err = doc.Grid(); err != nil {
		return nil, err
	}
	if m.answer, err = pricelist.Decide(doc); err != nil {
		return nil, err
	}
	m.broken = broken(m.answer)
	m.breaks = byProduct(m.broken)
	return m, nil
}

func isMove(r rule.Rule) bool {
	_, ok := r.Kind.(rule.MaxChange)
	return ok
}

// atOnce is how far a price is to move at once: as the document says, or else as the
// review does; false where neither says anything.
func atOnce(rules []rule.Rule, p pricelist.Product, move quoin.Rate) (quoin.Rate, bool) {
	found, has := move, false
	for _, r := range rules {
		if k, ok := r.Kind.(rule.MaxChange); ok && r.SpeaksOf(p.ID, p.Design) && (!has || k.AtMost.Cmp(found) < 0) {
			found, has = k.AtMost, true
		}
	}
	return found, has || !move.IsZero()
}

// moves proposes a move for each product of the new document.
func (m *mover) moves() ([]Proposal, error) {
	if len(m.answer.Conflict) > 0 {
		return nil, nil
	}
	within, err := m.within()
	if err != nil {
		return nil, err
	}
	out := make([]Proposal, len(m.answer.Products))
	asked := make(map[string]quoin.Amount, len(out))
	for i, p := range m.answer.Products {
		out[i] = m.move(p, within)
		asked[p.ID] = out[i].Now
	}
	if err := m.steps(out, asked); err != nil {
		return nil, err
	}
	return out, m.volumes(out)
}

// mostTries bounds how often the document is decided with fewer and fewer prices held
// to their moves.
const mostTries = 20

// within is what the document decides where all prices that can stay within their
// moves do so: none for the others.
func (m *mover) within() (map[string]quoin.Amount, error) {
	var can []string
	for _, p := range m.answer.Products {
		if room, bounded := m.room(p.ID); bounded && meets(p.Allowed.Set, room) {
			can = append(can, p.ID)
		}
	}
	for tries := 0; len(can) > 0 && tries < mostTries; tries++ {
		bound := m.bounded(can)
		a, err := pricelist.Decide(bound)
		if err != nil {
			return nil, err
		}
		far := emptied(a, bound.Rules[len(m.doc.Rules):])
		if len(far) == 0 {
			return pricesOf(a, can), nil
		}
		rest := slices.DeleteFunc(slices.Clone(can), func(id string) bool { return far[id] })
		if len(rest) == len(can) {
			rest = rest[1:] // a ladder stands in the way, and fewer products leave more room
		}
		can = rest
	}
	return nil, nil
}

// emptied is the products that dropped ones of some preferences leave without a price.
func emptied(a pricelist.Answer, rules []rule.Rule) map[string]bool {
	out := make(map[string]bool)
	for k, id := range a.Dropped {
		if k < len(a.Emptied) && slices.ContainsFunc(rules, func(r rule.Rule) bool { return r.ID == id }) {
			out[a.Emptied[k]] = true
		}
	}
	return out
}

// bounded is the document with a preference, after all others, that some products
// move no further than they are to at once.
func (m *mover) bounded(products []string) pricelist.Document {
	var rules []rule.Rule
	for _, id := range products {
		most := m.most[id]
		i := slices.IndexFunc(rules, func(r rule.Rule) bool { return r.Kind.(rule.MaxChange).AtMost.Equal(most) })
		if i < 0 {
			i = len(rules)
			rules = append(rules, rule.Rule{ID: m.free(i), Strength: rule.Prefer, Kind: rule.MaxChange{AtMost: most}})
		}
		rules[i].Products = append(rules[i].Products, id)
	}
	doc := m.doc
	doc.Rules = slices.Concat(m.doc.Rules, rules)
	return doc
}

// free is an id that no rule has.
func (m *mover) free(i int) string {
	id := "move " + quoin.FactorOf(int64(i+1)).String()
	for slices.ContainsFunc(m.doc.Rules, func(r rule.Rule) bool { return r.ID == id }) {
		id += "'"
	}
	return id
}

// room is the prices that a product may move to at once; false where it may move to
// any.
func (m *mover) room(product string) (rule.Set, bool) {
	last, has := m.last[product]
	most, bounded := m.most[product]
	if !has || !bounded {
		return rule.All(m.grid), false
	}
	by := last.Part(most)
	return rule.Between(m.grid, last.Sub(by), last.Add(by)), true
}

func meets(a, b rule.Set) bool {
	both, err := a.And(b)
	return err == nil && !both.IsEmpty()
}

func pricesOf(a pricelist.Answer, products []string) map[string]quoin.Amount {
	all, out := Prices(a), make(map[string]quoin.Amount, len(products))
	for _, id := range products {
		if price, ok := all[id]; ok {
			out[id] = price
		}
	}
	return out
}

// move is the move of one product, without what its first step comes to.
func (m *mover) move(p pricelist.ProductResult, within map[string]quoin.Amount) Proposal {
	out := Proposal{Product: p.ID, Advice: New, Now: p.Price, Decided: p.Price}
	last, has := m.last[p.ID]
	if !has {
		return out
	}
	out.Last = quoin.Some(last)
	if last.Sign() > 0 {
		out.By = quoin.Some(p.Price.Sub(last).Share(last))
	}
	out.Reasons = append(out.Reasons, m.standing(p.ID))
	switch way := p.Price.Cmp(last); {
	case way == 0:
		out.Advice = Stay
		return out
	case way > 0:
		out.Advice = Raise
	default:
		out.Advice = Lower
	}
	room, bounded := m.room(p.ID)
	if !bounded {
		return out
	}
	most := m.most[p.ID]
	out.Most = quoin.Some(most)
	code := WithinMove
	if !room.Contains(p.Price) {
		code, out.Advice = BeyondMove, Wait
		out.Now = m.first(p, last, room, within)
	}
	out.Reasons = append(out.Reasons, because(code, "by", out.By.Or(quoin.Rate{}).Round(2).String(), "at_most", most.String()))
	return out
}

// standing is whether the last price breaks rules of the new document.
func (m *mover) standing(product string) Reason {
	rules := m.breaks[product]
	if len(rules) == 0 {
		return because(HoldsStill)
	}
	var args []string
	for _, b := range rules {
		args = append(args, "rule", b.Rule)
	}
	return because(BreaksRules, args...)
}

// first is the first step of a move that is too far for one: what the document
// decides within the move, or where its rules allow nothing there, the furthest price
// that endings and bounds allow; the last price where there is none that is nearer.
func (m *mover) first(p pricelist.ProductResult, last quoin.Amount, room rule.Set, within map[string]quoin.Amount) quoin.Amount {
	if price, ok := within[p.ID]; ok && nearer(price, last, p.Price) {
		return price
	}
	left := m.plain(p.ID, room)
	step, ok := left.Greatest()
	if p.Price.Cmp(last) < 0 {
		step, ok = left.Least()
	}
	if !ok || !nearer(step, last, p.Price) {
		return last
	}
	return m.doc.Currency.Round(step, quoin.HalfUp)
}

// nearer reports whether a price lies between the last one, itself left out, and the
// one that is decided.
func nearer(price, last, decided quoin.Amount) bool {
	if decided.Cmp(last) > 0 {
		return price.Cmp(last) > 0 && price.Cmp(decided) <= 0
	}
	return price.Cmp(last) < 0 && price.Cmp(decided) >= 0
}

// plain is what rules on endings, and bounds of the price, leave of some prices;
// preferred ones as long as they leave any.
func (m *mover) plain(product string, left rule.Set) rule.Set {
	it := rule.Item{ID: product, Design: m.design[product], Grid: m.grid}
	for _, strength := range []rule.Strength{rule.Must, rule.Prefer} {
		for _, r := range m.doc.Rules {
			switch r.Kind.(type) {
			case rule.Ending, rule.Price:
			default:
				continue
			}
			if (r.Strength == rule.Prefer) != (strength == rule.Prefer) || !r.SpeaksOf(product, it.Design) {
				continue
			}
			allowed, err := r.Allowed(it)
			if err != nil {
				continue
			}
			both, err := left.And(allowed)
			if err != nil || both.IsEmpty() && strength == rule.Prefer {
				continue
			}
			left = both
		}
	}
	return left
}

// steps says what first steps come to, with the prices that are asked beside them.
func (m *mover) steps(moves []Proposal, asked map[string]quoin.Amount) error {
	if !slices.ContainsFunc(moves, func(v Proposal) bool { return v.Advice == Wait }) {
		return nil
	}
	a, err := pricelist.Decide(priced(m.doc, asked))
	if err != nil {
		return err
	}
	still := byProduct(broken(a))
	for i := range moves {
		v := &moves[i]
		if v.Advice != Wait {
			continue
		}
		v.Still = still[v.Product]
		code := StepKeepsRules
		switch {
		case v.Now.Equal(v.Last.Or(v.Now)):
			code = NoStep
		case len(v.Still) > 0:
			code = StepBreaksRules
		}
		v.Reasons = append(v.Reasons, because(code, "price", m.doc.Currency.Round(v.Now, quoin.HalfUp).String()))
	}
	return nil
}
