package rule

import (
	"slices"

	"example.com/quoin"
)

// Codes of what can be wrong with rules and items, beside those of package quoin.
const (
	// BadOffer is an offer that no CompiledChannel made, or whose sale was changed since.
	BadOffer quoin.Code = "bad_offer"
	// TooManyRuns is allowed prices that break into more separate runs than can be told
	// apart in reasonable time, or more prices at which rounding decides than can be tried.
	TooManyRuns quoin.Code = "too_many_runs"
	// OtherGrid is sets, or items, on different grids of prices.
	OtherGrid quoin.Code = "other_grid"
	// BadOwnRule is a rule of the caller's own that lacks a name or a function, fails, or is
	// to be written into a document.
	BadOwnRule quoin.Code = "bad_custom_rule"
	// JudgedApart is a rule that allows other prices than it judges to hold.
	JudgedApart quoin.Code = "allowed_and_judged_apart"
)

// fault is a problem as the error that all functions of this package return.
func fault(p quoin.Problem) error {
	p.Severity = quoin.Fault
	return quoin.Problems{p}
}

func tooFine(what string) error {
	return fault(quoin.Problem{
		Code: TooManyRuns, Found: what, Wanted: "prices that fall into fewer runs", Remedy: "lower price_limit, or loosen the rule",
	})
}

func otherGrid(a, b quoin.Grid) error {
	return fault(quoin.Problem{Code: OtherGrid, Found: b.String(), Wanted: "prices of " + a.String() + ", as beside it"})
}

// of says where problems are that were found without knowing.
func of(path string, err error) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return err
	}
	ps = slices.Clone(ps)
	for i := range ps {
		if ps[i].Path == "" {
			ps[i].Path = path
		}
	}
	return ps
}
