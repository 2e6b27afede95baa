package history

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// History is records that go together. It does not change; New makes it.
type History struct {
	prices     map[place][]period // by beginning, without overlaps, as all lists here
	reductions map[place][]period
	trials     map[place][]Placed[Trial]
	sales      map[string][]Placed[Sale] // of an edition, by date
	products   map[string]bool           // that have prices or reductions
}

// place is a product in a channel; no channel where none is said.
type place struct{ product, channel string }

func byName(a, b place) int {
	return cmp.Or(cmp.Compare(a.product, b.product), cmp.Compare(a.channel, b.channel))
}

// Placed is an entry and the line it stands on; 0 where it was not read from
// lines.
type Placed[E Entry] struct {
	Line  int `json:"line,omitzero"`
	Entry E   `json:"entry"`
}

// period is days at a price.
type period struct {
	span
	price  quoin.Amount
	source source
}

// source is the record that a period comes from.
type source struct {
	kind    Kind
	channel string
	line    int
	index   int // in the records, to tell those without lines apart
	stated  span
}

// name says which record it is: its line, or else which of the records, and its
// days.
func (s source) name() string {
	return fmt.Sprintf("%s, %s", nameOf(s.line, s.index), s.stated.days())
}

// nameOf is what problems call a record: by its line, or else by its index.
func nameOf(line, index int) string {
	if line == 0 {
		return fmt.Sprintf("records[%d]", index)
	}
	return fmt.Sprintf("line %d", line)
}

func pathOf(line, index int) quoin.Path {
	if line > 0 {
		return quoin.InList("lines", line-1)
	}
	return quoin.InList("records", index)
}

// New puts records together, whatever their order. It errs with quoin.Problems
// where an entry is faulty by itself, and where two cannot both be true; such
// a problem names both: two prices, two reductions or two trials of a product
// in one channel on the same day, a number of an edition sold twice, two trials
// of one id. Up to 1000 problems are reported, in the order of lines, and one
// that says that there are more. More than 100,000 records are refused.
//
// A record without a channel overlaps only with others without one.
func New(records []Record) (History, error) {
	if len(records) > mostRecords {
		return History{}, quoin.Problems{tooMany(max(records[mostRecords].Line, 1))}
	}
	b := builder{
		prices: make(map[place][]period), reductions: make(map[place][]period), trials: make(map[place][]trialAt),
		sales: make(map[string][]saleAt), ids: make(map[string]source),
	}
	for i, r := range records {
		b.take(i, r)
	}
	for _, periods := range []map[place][]period{b.prices, b.reductions} {
		for _, at := range slices.SortedFunc(maps.Keys(periods), byName) {
			periods[at] = b.notOverlapping(periods[at], at)
		}
	}
	b.checkTrials()
	b.checkSales()
	if len(b.found) > 0 {
		return History{}, ordered(b.found, quoin.Fault)
	}
	return b.history(), nil
}

type trialAt struct {
	Placed[Trial]
	source source
}

type saleAt struct {
	Placed[Sale]
	index int
}

type builder struct {
	prices, reductions map[place][]period
	trials             map[place][]trialAt
	sales              map[string][]saleAt
	ids                map[string]source
	found              quoin.Problems
}

func (b *builder) fault(line, index int, field string, p quoin.Problem) {
	at := pathOf(line, index)
	if field != "" {
		at = at.Field(field)
	}
	p.Path, p.Line = at.String(), line
	if line > 0 {
		p.Column = 1
	}
	b.found = append(b.found, p)
}

// take files a record, if it is fine by itself.
func (b *builder) take(i int, r Record) {
	if problems, _ := check(r.Entry).(quoin.Problems); len(problems) > 0 {
		for _, p := range problems {
			b.fault(r.Line, i, p.Path, p)
		}
		return
	}
	s := source{kind: r.Entry.Kind(), line: r.Line, index: i}
	switch e := r.Entry.(type) {
	case Price:
		s.channel, s.stated = e.Channel, e.span()
		at := place{e.Product, e.Channel}
		b.prices[at] = append(b.prices[at], period{e.span(), e.Price, s})
	case Reduction:
		s.channel, s.stated = e.Channel, e.span()
		at := place{e.Product, e.Channel}
		b.reductions[at] = append(b.reductions[at], period{e.span(), e.Price, s})
	case Trial:
		s.channel, s.stated = e.Channel, e.span()
		at := place{e.Product, e.Channel}
		b.trials[at] = append(b.trials[at], trialAt{Placed[Trial]{r.Line, e}, s})
	case Sale:
		b.sales[e.Edition] = append(b.sales[e.Edition], saleAt{Placed[Sale]{r.Line, e}, i})
	}
}

// apart sorts periods, reports where they overlap, and ends those without an
// end where the next begins.
func (b *builder) notOverlapping(all []period, at place) []period {
	slices.SortFunc(all, func(p, q period) int {
		return cmp.Or(cmp.Compare(p.from, q.from), written(p.source, q.source))
	})
	sources := make([]source, len(all))
	for i, p := range all {
		sources[i] = p.source
	}
	b.overlaps(sources, at)
	for i := range all[:max(len(all)-1, 0)] {
		if all[i].until == forever {
			all[i].until = all[i+1].from
		}
	}
	return all
}

// overlaps reports each record, in the order of their beginnings, that begins
// before one before it has ended; one without an end has ended when another
// begins later.
func (b *builder) overlaps(sorted []source, at place) {
	reach := -1 // of those before, the one that goes on longest
	for i, s := range sorted {
		if reach >= 0 && (sorted[reach].stated.from == s.stated.from || until(sorted[reach]) > s.stated.from) {
			b.overlap(sorted[reach], s, at)
		}
		if reach < 0 || until(s) >= until(sorted[reach]) {
			reach = i
		}
	}
}

// until is where a record says that it ends; its beginning where it does not.
func until(s source) day {
	if s.stated.until == forever {
		return s.stated.from
	}
	return s.stated.until
}

// overlap reports the one of two records that was written later.
func (b *builder) overlap(first, second source, at place) {
	if written(first, second) > 0 {
		first, second = second, first
	}
	args := []quoin.Arg{{Name: "product", Value: at.product}}
	if at.channel != "" {
		args = append(args, quoin.Arg{Name: "channel", Value: at.channel})
	}
	args = append(args, periodArgs("", second)...)
	args = append(args, periodArgs("other_", first)...)
	b.fault(second.line, second.index, "from", quoin.Problem{
		Code: Overlap, Found: fmt.Sprintf("a %s of %s %s that overlaps with that of %s", second.kind, prose.Quoted(at.product), second.stated.days(), first.name()),
		Wanted: fmt.Sprintf("one %s on a day in a channel", second.kind), Remedy: "end one before the other begins", Args: args,
	})
}

func periodArgs(prefix string, s source) []quoin.Arg {
	out := []quoin.Arg{{Name: prefix + "line", Value: fmt.Sprint(s.line)}, {Name: prefix + "from", Value: s.stated.from.date().String()}}
	if end := s.stated.until.date(); !end.IsZero() {
		out = append(out, quoin.Arg{Name: prefix + "until", Value: end.String()})
	}
	return out
}

func (b *builder) history() History {
	h := History{
		prices: b.prices, reductions: b.reductions, trials: make(map[place][]Placed[Trial], len(b.trials)),
		sales: make(map[string][]Placed[Sale], len(b.sales)), products: make(map[string]bool),
	}
	for at, all := range b.trials {
		for _, t := range all {
			h.trials[at] = append(h.trials[at], t.Placed)
		}
	}
	for edition, all := range b.sales {
		for _, s := range all {
			h.sales[edition] = append(h.sales[edition], s.Placed)
		}
	}
	for _, periods := range []map[place][]period{b.prices, b.reductions} {
		for at := range periods {
			h.products[at.product] = true
		}
	}
	return h
}

// Products returns the products that have prices or reductions, by name.
func (h History) Products() []string { return slices.Sorted(maps.Keys(h.products)) }

// near refuses a name that is none of those given, and offers the near one.
func near(name string, names []string, what string) quoin.Problems {
	return quoin.Problems{{Code: NotInHistory, Severity: quoin.Fault, Found: prose.Quoted(name), Wanted: what, Near: prose.Near(name, names)}}
}
