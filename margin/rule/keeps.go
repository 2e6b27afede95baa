package rule

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// Scope says which sales a margin or contribution rule speaks of.
type Scope string

const (
	Average Scope = "average" // over the kinds of order; also when empty
	// Worst asks every kind of order by itself, with every fee that is charged
	// only sometimes charged in full.
	Worst Scope = "worst"
)

// UnmarshalText reads average or worst.
func (s *Scope) UnmarshalText(text []byte) (err error) {
	*s, err = quoin.Word(string(text), Average, Worst)
	return err
}

// GrossMargin allows prices that leave revenue, and at least a share of it as
// gross.
type GrossMargin struct {
	AtLeast quoin.Rate `json:"at_least" need:"yes" range:"[0,1]"`
	In      Scope      `json:"in,omitempty"`
}

// NetMargin allows prices that leave revenue, and at least a share of it as
// net.
type NetMargin struct {
	AtLeast quoin.Rate `json:"at_least" need:"yes" range:"[0,1]"`
	In      Scope      `json:"in,omitempty"`
}

// Contribution allows prices that leave at least an amount as contribution,
// per item.
type Contribution struct {
	AtLeast quoin.Amount `json:"at_least" need:"yes" range:"[0,"`
	In      Scope        `json:"in,omitempty"`
}

// String returns gross_margin.
func (GrossMargin) String() string { return "gross_margin" }

// String returns net_margin.
func (NetMargin) String() string { return "net_margin" }

// String returns contribution.
func (Contribution) String() string { return "contribution" }

func (k GrossMargin) allowed(it Item, offers []Offer) (Set, error) { return solve(it, offers, k.In, k) }
func (k NetMargin) allowed(it Item, offers []Offer) (Set, error)   { return solve(it, offers, k.In, k) }
func (k Contribution) allowed(it Item, offers []Offer) (Set, error) {
	return solve(it, offers, k.In, k)
}

// demand is a kind that asks something of a statement.
type demand interface {
	// met reports whether the statement gives what is asked.
	met(margin.Statement) bool
	// figures returns what is asked and what the statement gives.
	figures(margin.Statement) (asked, got quoin.Figure)
	// lines returns straight lines that are all at least zero where the demand
	// is met, up to the room of each.
	lines(o Offer, p channel.Piece) []channel.Line
}

func (k GrossMargin) met(s margin.Statement) bool {
	return s.Revenue.Sign() > 0 && s.Gross.Sub(s.Revenue.Part(k.AtLeast)).Sign() >= 0
}

func (k NetMargin) met(s margin.Statement) bool {
	return s.Revenue.Sign() > 0 && s.Net.Sub(s.Revenue.Part(k.AtLeast)).Sign() >= 0
}

func (k Contribution) met(s margin.Statement) bool { return s.Contribution.Cmp(k.AtLeast) >= 0 }

func (k GrossMargin) figures(s margin.Statement) (asked, got quoin.Figure) {
	return k.AtLeast.Figure(), ratio(s.Gross, s.Revenue)
}

func (k NetMargin) figures(s margin.Statement) (asked, got quoin.Figure) {
	return k.AtLeast.Figure(), ratio(s.Net, s.Revenue)
}

func (k Contribution) figures(s margin.Statement) (asked, got quoin.Figure) {
	return k.AtLeast.Figure(), s.Contribution.Figure()
}

// ratio is a margin, or the revenue itself where there is none to divide by.
func ratio(part, revenue quoin.Amount) quoin.Figure {
	if revenue.Sign() <= 0 {
		return revenue.Figure()
	}
	return part.Share(revenue).Figure()
}

func (k GrossMargin) lines(o Offer, p channel.Piece) []channel.Line {
	return []channel.Line{o.Sale.Lines(p).Gross.Add(p.Revenue.Times(minus(k.AtLeast))), p.Revenue}
}

// lines of a net margin: net is the lesser of operating and what income tax
// leaves of it, so both have to do.
func (k NetMargin) lines(o Offer, p channel.Piece) []channel.Line {
	operating := o.Sale.Lines(p).Operating
	asked := p.Revenue.Times(minus(k.AtLeast))
	taxed := operating.Times(o.Sale.IncomeTax.Complement())
	return []channel.Line{operating.Add(asked), taxed.Add(asked), p.Revenue}
}

func (k Contribution) lines(o Offer, p channel.Piece) []channel.Line {
	return []channel.Line{o.Sale.Lines(p).Contribution.Add(channel.Flat(k.AtLeast.Neg()))}
}

func minus(r quoin.Rate) quoin.Factor { return quoin.FactorOf(-1).Times(r.Factor()) }

func scoped(offers []Offer, in Scope) []Offer {
	if in != Worst {
		return offers
	}
	var out []Offer
	for _, o := range offers {
		out = append(out, o.Worst...)
	}
	return out
}

// solve returns the prices that meet the demand in every offer.
func solve(it Item, offers []Offer, in Scope, d demand) (Set, error) {
	all := All(it.Grid)
	left := it.left
	if left == nil {
		n := mostTried
		left = &n
	}
	for _, o := range scoped(offers, in) {
		s, err := solveOne(it.Grid, o, d, left)
		if err != nil {
			return Set{}, err
		}
		if all, err = all.And(s); err != nil {
			return Set{}, err
		}
	}
	return all, nil
}

// mostTried bounds the prices that are tried one by one in one decision.
const mostTried = 1 << 19

// solveOne goes over the pieces of the curve: on each, the lines say where the
// demand is certainly met and where it may be, and only the few prices between
// are tried.
func solveOne(g quoin.Grid, o Offer, d demand, left *int) (Set, error) {
	out := Set{grid: g}
	for _, p := range o.Curve {
		sure, maybe := zones(g, p, d.lines(o, p))
		try := maybe.last - maybe.first + 1 - max(0, sure.last-sure.first+1)
		if try > int64(*left) {
			return Set{}, tooFlat(d, o, try)
		}
		*left -= int(try)
		for i := maybe.first; i <= maybe.last; i++ {
			if i == sure.first && sure.first <= sure.last {
				out.add(sure)
				i = sure.last
				continue
			}
			if d.met(o.Sale.At(g.Price(i))) {
				out.add(run{i, i})
			}
		}
	}
	return out, nil
}

// zones returns the prices of a piece on which every line is certainly above
// zero, and the run around them on which every line may be.
func zones(g quoin.Grid, p channel.Piece, lines []channel.Line) (sure, maybe run) {
	sure, maybe = run{p.First, p.Last}, run{p.First, p.Last}
	for _, l := range lines {
		s, m := zone(g, l, p)
		sure = run{max(sure.first, s.first), min(sure.last, s.last)}
		maybe = run{max(maybe.first, m.first), min(maybe.last, m.last)}
	}
	if maybe.first > maybe.last {
		return run{1, 0}, run{1, 0}
	}
	if sure.first > sure.last {
		sure = run{maybe.first, maybe.first - 1}
	}
	return sure, maybe
}

func zone(g quoin.Grid, l channel.Line, p channel.Piece) (sure, maybe run) {
	whole, none := run{p.First, p.Last}, run{p.Last + 1, p.Last}
	switch l.Slope.Sign() {
	case 0:
		switch {
		case l.Above():
			return whole, whole
		case l.Below():
			return none, none
		}
		return none, whole
	case 1:
		from, to := l.Crossing(g, p.First, p.Last)
		return run{to + 1, p.Last}, run{from, p.Last}
	default:
		from, to := l.Crossing(g, p.First, p.Last)
		return run{p.First, from - 1}, run{p.First, to}
	}
}

func tooFlat(d demand, o Offer, tried int64) error {
	return quoin.Problem{
		Code: TooFine, Severity: quoin.Fault,
		Found:  fmt.Sprintf("%d prices in %q on which rounding alone decides %v", tried, o.Channel, d),
		Wanted: fmt.Sprintf("at most %d of them", mostTried), Remedy: "lower price_limit, or move the rule's figure a little",
	}
}

// AsksWorst reports whether a kind asks about every kind of order by itself.
func AsksWorst(k Kind) bool {
	switch k := k.(type) {
	case GrossMargin:
		return k.In == Worst
	case NetMargin:
		return k.In == Worst
	case Contribution:
		return k.In == Worst
	}
	return false
}
