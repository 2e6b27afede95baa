package history

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/edition"
)

// EditionSales is what was sold of an edition.
type EditionSales struct {
	Edition string `json:"edition"`
	// Numbers and Proofs are the sales by number, each number once.
	Numbers []Placed[Sale] `json:"numbers"`
	Proofs  []Placed[Sale] `json:"proofs"`
	// Months are all from that of the first sale to that of the last, also those
	// in which nothing was sold.
	Months []Month `json:"months"`
}

// Month is what was sold in a month of a calendar year.
type Month struct {
	Month   string `json:"month"` // 2026-03
	Numbers int64  `json:"numbers"`
	Proofs  int64  `json:"proofs"`
}

// Editions returns the editions of which something was sold, by name.
func (h History) Editions() []string { return slices.Sorted(maps.Keys(h.sales)) }

// Sold returns what was sold of an edition. It errs with Problems where no
// sale names it.
func (h History) Sold(edition string) (EditionSales, error) {
	all := h.sales[edition]
	if len(all) == 0 {
		return EditionSales{}, near(edition, h.Editions(), "an edition of which something was sold")
	}
	out := EditionSales{Edition: edition, Months: months(all)}
	for _, s := range all {
		if s.Entry.Proof != 0 {
			out.Proofs = append(out.Proofs, s)
			continue
		}
		out.Numbers = append(out.Numbers, s)
	}
	slices.SortFunc(out.Numbers, byNumber)
	slices.SortFunc(out.Proofs, byNumber)
	return out, nil
}

func byNumber(a, b Placed[Sale]) int { return cmp.Compare(numberOf(a.Entry), numberOf(b.Entry)) }

// numberOf is the number of a print, or of a proof.
func numberOf(s Sale) int64 { return s.Number + s.Proof }

// months counts sales that are sorted by date.
func months(all []Placed[Sale]) []Month {
	var out []Month
	first := all[0].Entry.Date.String()
	year, month := number(first[:4]), number(first[5:7])
	for _, s := range all {
		name := s.Entry.Date.String()[:len("2026-03")]
		for len(out) == 0 || out[len(out)-1].Month < name {
			out = append(out, Month{Month: fmt.Sprintf("%04d-%02d", year, month)})
			if month++; month > 12 {
				year, month = year+1, 1
			}
		}
		if s.Entry.Proof != 0 {
			out[len(out)-1].Proofs++
			continue
		}
		out[len(out)-1].Numbers++
	}
	return out
}

// Unsold is what is left of an edition.
type Unsold struct {
	Numbers     int64 `json:"numbers"`
	FreeNumbers []Run `json:"free_numbers"`
	Proofs      int64 `json:"proofs"`
	FreeProofs  []Run `json:"free_proofs"`
}

// Run is numbers without a gap, both ends included.
type Run struct {
	First int64 `json:"first"`
	Last  int64 `json:"last"`
}

// String writes the run as 4–9, or as 4.
func (r Run) String() string {
	if r.First == r.Last {
		return fmt.Sprint(r.First)
	}
	return fmt.Sprintf("%d–%d", r.First, r.Last)
}

// Left returns what is left of an edition of a size, and of its proofs. It errs
// with quoin.Problems that name the lines where a number, or a proof, was sold
// that there is not, and where size is not from 1 to 100,000 or proofs not from
// 0 to that. What is destroyed or kept back, no sale says.
func (s EditionSales) Left(size, proofs int64) (Unsold, error) {
	var found quoin.Problems
	add := func(p quoin.Problem, bad bool) {
		if bad {
			found = append(found, p)
		}
	}
	wanted := func(least int) string { return fmt.Sprintf("a number from %d to %d", least, mostNumbers) }
	add(quoin.Problem{Code: quoin.OutOfRange, Path: "size", Found: fmt.Sprint(size), Wanted: wanted(1)}, size < 1 || size > mostNumbers)
	add(quoin.Problem{Code: quoin.OutOfRange, Path: "proofs", Found: fmt.Sprint(proofs), Wanted: wanted(0)}, proofs < 0 || proofs > mostNumbers)
	if len(found) == 0 {
		found = append(beyond(s.Numbers, size, "number", edition.NoSuchNumber), beyond(s.Proofs, proofs, "proof", edition.NoSuchProof)...)
	}
	if len(found) > 0 {
		return Unsold{}, ordered(found, quoin.Fault)
	}
	return Unsold{
		Numbers: size - int64(len(s.Numbers)), FreeNumbers: free(s.Numbers, size),
		Proofs: proofs - int64(len(s.Proofs)), FreeProofs: free(s.Proofs, proofs),
	}, nil
}

// beyond reports sales of numbers above a size.
func beyond(sales []Placed[Sale], size int64, field string, code quoin.Code) quoin.Problems {
	var found quoin.Problems
	for _, s := range sales {
		if numberOf(s.Entry) <= size {
			continue
		}
		p := quoin.Problem{
			Code: code, Line: s.Line, Path: field,
			Found:  fmt.Sprintf("%s %d of %s, sold on %s", field, numberOf(s.Entry), prose.Quoted(s.Entry.Edition), s.Entry.Date),
			Wanted: fmt.Sprintf("a %s of at most %d", field, size),
		}
		if s.Line > 0 {
			p.Path, p.Column = quoin.InList("lines", s.Line-1).Field(field).String(), 1
		}
		found = append(found, p)
	}
	return found
}

// free is the numbers up to size that are not among the sales, which are
// sorted by number.
func free(sales []Placed[Sale], size int64) []Run {
	var out []Run
	next := int64(1)
	for _, s := range sales {
		if n := numberOf(s.Entry); n > next {
			out = append(out, Run{next, n - 1})
		}
		next = numberOf(s.Entry) + 1
	}
	if next <= size {
		out = append(out, Run{next, size})
	}
	return out
}

// checkSales sorts sales by date, and reports numbers that were sold twice.
func (b *builder) checkSales() {
	type numbered struct {
		proof  bool
		number int64
	}
	for _, edition := range slices.Sorted(maps.Keys(b.sales)) {
		all := b.sales[edition]
		slices.SortFunc(all, func(s, t saleAt) int { return cmp.Or(cmp.Compare(s.Line, t.Line), cmp.Compare(s.index, t.index)) })
		first := make(map[numbered]saleAt, len(all))
		for _, s := range all {
			n := numbered{s.Entry.Proof != 0, numberOf(s.Entry)}
			if before, again := first[n]; again {
				b.twice(s, before)
				continue
			}
			first[n] = s
		}
		slices.SortStableFunc(all, func(s, t saleAt) int { return s.Entry.Date.Cmp(t.Entry.Date) })
	}
}

func (b *builder) twice(s, before saleAt) {
	field := "number"
	if s.Entry.Proof != 0 {
		field = "proof"
	}
	b.fault(s.Line, s.index, field, quoin.Problem{
		Code: edition.NumberTwice,
		Found: fmt.Sprintf("%s %d of %s, sold on %s and, in %s, on %s", field, numberOf(s.Entry), prose.Quoted(s.Entry.Edition),
			s.Entry.Date, nameOf(before.Line, before.index), before.Entry.Date),
		Wanted: "each number once",
		Args: []quoin.Arg{
			{Name: "edition", Value: s.Entry.Edition},
			{Name: field, Value: fmt.Sprint(numberOf(s.Entry))},
			{Name: "line", Value: fmt.Sprint(s.Line)},
			{Name: "date", Value: s.Entry.Date.String()},
			{Name: "other_line", Value: fmt.Sprint(before.Line)},
			{Name: "other_date", Value: before.Entry.Date.String()},
		},
	})
}
