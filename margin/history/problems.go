package history

import (
	"fmt"
	"slices"

	"example.com/quoin"
)

// Overlap is the code of records that are fine by themselves, and not together: two prices,
// reductions or trials on the same day. A number sold twice is edition.NumberTwice.
const Overlap quoin.Code = "overlap"

// Codes of questions that cannot be answered, and of what is said beside an
// answer.
const (
	NotInHistory    quoin.Code = "not_in_history"            // a product or an edition that no record names
	NeverOnSale     quoin.Code = "never_on_sale"             // warning: no price on any day looked at
	NotAlwaysOnSale quoin.Code = "not_always_on_sale"        // warning: no price on some days looked at
	NothingReduced  quoin.Code = "reduction_without_price"   // warning: a reduction of no price
	NotBelow        quoin.Code = "reduction_not_below_price" // warning: a reduction that takes nothing off
	OtherPrice      quoin.Code = "trial_at_another_price"    // warning: prices on record differ from a trial's
)

const (
	mostRecords  = 100_000
	mostProblems = 1000
	mostFields   = 64      // of one line
	longestLine  = 1 << 20 // bytes
	longestText  = 1000    // bytes
	longestName  = 64      // bytes of a name that a path writes
	mostNumbers  = 100_000
	mostSold     = 1_000_000_000
	mostDays     = 36_525
)

// ordered returns problems in the order of their lines, up to a bound.
func ordered(found quoin.Problems, severity quoin.Severity) quoin.Problems {
	slices.SortStableFunc(found, func(a, b quoin.Problem) int { return a.Line - b.Line })
	for i := range found {
		found[i].Severity = severity
	}
	if len(found) > mostProblems {
		found = append(found[:mostProblems:mostProblems], moreProblems(severity))
	}
	return found
}

func moreProblems(severity quoin.Severity) quoin.Problem {
	return quoin.Problem{
		Code: quoin.MoreProblems, Severity: severity, Found: fmt.Sprintf("more than %d problems", mostProblems),
		Wanted: "records without any", Remedy: "mend these first",
	}
}

// checked looks at the fields of an entry that was not read.
func checked(fields []field) error {
	var found quoin.Problems
	add := func(name string, p quoin.Problem) {
		p.Path, p.Severity = name, quoin.Fault
		found = append(found, p)
	}
	faulty := make(map[string]bool)
	for _, f := range fields {
		if !f.given() {
			continue
		}
		if p := f.fault(); p.Code != "" {
			add(f.name, p)
			faulty[f.name] = true
		}
	}
	together(fields, func(f field) bool { return f.given() }, func(name string) bool { return faulty[name] }, add)
	return found.Err()
}

// together looks at what fields say together: which are missing, which stand in
// each other's place, and whether a period ends after it begins.
func together(fields []field, given func(field) bool, faulty func(string) bool, add func(string, quoin.Problem)) {
	has := func(name string) bool {
		return slices.ContainsFunc(fields, func(f field) bool { return f.name == name && given(f) })
	}
	for _, f := range fields {
		instead := f.instead != "" && has(f.instead)
		switch {
		case f.need && !given(f) && !instead:
			wanted := "the field " + f.name
			if f.instead != "" {
				wanted += " or " + f.instead
			}
			add(f.name, quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: wanted})
		case given(f) && instead:
			add(f.instead, quoin.Problem{Code: quoin.RivalFields, Found: f.instead + " beside " + f.name, Wanted: "one of them"})
		}
	}
	begin, end := dateIn(fields, "from"), dateIn(fields, "until")
	if begin.IsZero() || end.IsZero() || faulty("from") || faulty("until") || end.Cmp(begin) > 0 {
		return
	}
	add("until", quoin.Problem{
		Code: quoin.EmptyPeriod, Found: end.String(), Wanted: "a day after " + begin.String(), Remedy: "until is the first day on which it no longer holds",
	})
}

// dateIn returns the date in a field; none where there is no such field.
func dateIn(fields []field, name string) quoin.Date {
	for _, f := range fields {
		if f.name == name && f.date != nil {
			return *f.date
		}
	}
	return quoin.Date{}
}
