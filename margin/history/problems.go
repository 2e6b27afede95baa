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
	longestLine  = 1 << 20 // bytes
	mostNumbers  = 100_000
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
