package history

import "example.com/quoin"

// Tag is what the table of fields says of one.
type Tag struct {
	Name, Instead, Bounds string
	Need                  bool
}

// Tags lists what the decoder goes by, of each kind of record.
func Tags() map[Kind][]Tag {
	out := make(map[Kind][]Tag)
	for kind, fields := range map[Kind][]field{
		PriceRecord: new(Price).fields(), ReductionRecord: new(Reduction).fields(), SaleRecord: new(Sale).fields(), TrialRecord: new(Trial).fields(),
	} {
		for _, f := range fields {
			out[kind] = append(out[kind], Tag{f.name, f.instead, f.bounds.String(), f.need})
		}
	}
	return out
}

// DayOf is the number of a date's day, and DateOf the date of one.
func DayOf(d quoin.Date) int64 { return int64(dayOf(d)) }

// DateOf is the other way round.
func DateOf(n int64) quoin.Date { return day(n).date() }
