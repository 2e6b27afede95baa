package cost

import "example.com/quoin"

// Driver is what a line is counted by: what makes its cost grow.
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

// ParseDriver reads the word of a driver. The error is a Problem.
func ParseDriver(s string) (Driver, error) {
	return quoin.Word(s, EachItem, EachOrder, EachRun, EachBatch, EachDesign, EachListing, EachPeriod)
}

// UnmarshalText is ParseDriver.
func (d *Driver) UnmarshalText(text []byte) error {
	v, err := ParseDriver(string(text))
	if err == nil {
		*d = v
	}
	return err
}

func (d Driver) orItem() Driver {
	if d == "" {
		return EachItem
	}
	return d
}

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
	MissingRun  quoin.Code = "missing_run"
	MissingOver quoin.Code = "missing_over"
	StrayOver   quoin.Code = "stray_over"
	StrayStage  quoin.Code = "stray_stage"
)

// Driven checks that a line has what its driver is counted by. The error is a
// Problem.
func (l Line) Driven(run Run) error {
	p := quoin.Problem{Severity: quoin.Fault}
	per := l.Per.orItem()
	switch {
	case per.ofRun() && run.Good <= 0:
		p.Code, p.Path, p.Found, p.Wanted = MissingRun, "per", "a line per "+string(per), "a run of the product, with its good prints"
	case per.shared() && l.Over.Sign() <= 0:
		p.Code, p.Path, p.Found, p.Wanted = MissingOver, "over", "a line per "+string(per), "the number of prints that share it"
	case !per.shared() && !l.Over.IsZero():
		p.Code, p.Path, p.Found, p.Wanted = StrayOver, "over", l.Over.String(), "no number that shares a line per "+string(per)
	case !per.staged() && l.Stage != "":
		p.Code, p.Path, p.Found, p.Wanted = StrayStage, "stage", l.Stage, "no stage for a line per "+string(per)
	default:
		return nil
	}
	return p
}

// spread says how often a line is used, and by how many prints that is shared.
func (l Line) spread(starts quoin.Factor, run Run) (times, over quoin.Factor) {
	one, good := quoin.FactorOf(1), quoin.FactorOf(run.Good)
	switch per := l.Per.orItem(); {
	case per == EachRun:
		return one, good
	case per == EachBatch:
		return good.Times(starts).Over(l.Over).Round(0, quoin.Up), good
	case per.shared():
		return one, l.Over
	}
	return starts, one
}
