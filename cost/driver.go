package cost

import (
	"cmp"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Driver is what a line is counted by, and so what makes its cost grow: items, orders, runs,
// batches and others.
type Driver string

const (
	EachItem    Driver = "item"    // once for each print; with a stage, for each one started there
	EachOrder   Driver = "order"   // once for each order, however many items it holds
	EachRun     Driver = "run"     // once for each print run, shared by its good prints
	EachBatch   Driver = "batch"   // once for every so many prints of a run, and for what is left of them
	EachDesign  Driver = "design"  // once for a design, shared by the prints it is expected to sell
	EachListing Driver = "listing" // once for a listing, shared by the prints it is expected to sell
	EachPeriod  Driver = "period"  // once for a period, shared by the prints expected in it
)

// UnmarshalText reads the word of a driver. The error is a Problem.
func (d *Driver) UnmarshalText(text []byte) error {
	return form.SetWord(d, text, EachItem, EachOrder, EachRun, EachBatch, EachDesign, EachListing, EachPeriod)
}

func (d Driver) orItem() Driver { return cmp.Or(d, EachItem) }

// ofRun reports whether the driver is counted by the print run.
func (d Driver) ofRun() bool { return d == EachRun || d == EachBatch }

// shared reports whether the driver needs a number that shares it.
func (d Driver) shared() bool {
	return d == EachBatch || d == EachDesign || d == EachListing || d == EachPeriod
}

// staged reports whether the driver knows pieces that are started at a stage.
func (d Driver) staged() bool { return d == EachItem || d == EachOrder || d == EachBatch }

// Codes of lines whose driver lacks what it is counted by, or has too much.
const (
	MissingRun      quoin.Code = "missing_run"       // counted by a print run, and there is none
	MissingSharedBy quoin.Code = "missing_shared_by" // shared by prints, and it is not said by how many
	StraySharedBy   quoin.Code = "stray_shared_by"   // prints that share a line which nothing shares
	StrayStage      quoin.Code = "stray_stage"       // a stage of a line that single pieces do not use up
)

// Driven checks that a line has what its driver needs, and nothing that its driver does not
// use. A line per batch needs a run and how many prints share a batch. The error is
// quoin.Problems, all at once.
func (l *BillLine) Driven(run Run) error {
	per := l.Per.orItem()
	lacksRun, lacksOver := per.ofRun() && run.Good <= 0, per.shared() && l.SharedBy.Sign() <= 0
	strayOver, strayStage := !per.shared() && !l.SharedBy.IsZero(), !per.staged() && l.Stage != ""
	if !lacksRun && !lacksOver && !strayOver && !strayStage {
		return nil
	}
	var found quoin.Problems
	add := func(wrong bool, code quoin.Code, path, what, wanted string) {
		if wrong {
			found = append(found, quoin.Problem{Code: code, Severity: quoin.Fault, Path: path, Found: what, Wanted: wanted})
		}
	}
	line := "a line per " + string(per)
	add(lacksRun, MissingRun, "per", line, "a run of the product, with its good prints")
	add(lacksOver, MissingSharedBy, "shared_by", line, "the number of prints that share it")
	add(strayOver, StraySharedBy, "shared_by", l.SharedBy.String(), "no number that shares "+line)
	add(strayStage, StrayStage, "stage", l.Stage, "no stage for "+line)
	return found
}

// Spread returns how often a line is used, and by how many prints that is shared. Starts is how
// many pieces enter its stage for one good piece, and 1 without a stage. A line per batch of 10
// in a run of 25 is used 3 times and shared by 25.
func (l *BillLine) Spread(starts quoin.Factor, run Run) (times, over quoin.Factor) {
	one := quoin.FactorOf(1)
	switch per := l.Per.orItem(); {
	case per == EachRun:
		return one, quoin.FactorOf(run.Good)
	case per == EachBatch:
		good := quoin.FactorOf(run.Good)
		return good.Times(starts).Over(l.SharedBy).Round(0, quoin.Up), good
	case per.shared():
		return one, l.SharedBy
	}
	return starts, one
}
