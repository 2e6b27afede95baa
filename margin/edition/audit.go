package edition

import (
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Audit goes through the ledger and returns how each numbering stands: one for each product, in
// their order, if Each is set, and otherwise one for all. Without a ledger the number sold is
// that of Sold. If a number has several entries the first counts. An entry with a fault is not
// counted.
//
// The problems are faults and warnings, in the order of the ledger, then of the numberings:
// unclear entries, numbers that are given twice or do not exist, products that do not belong to
// the edition, more sold than are numbered; numbers that are reserved for nobody, and steps
// that are no longer reached because too many numbers are destroyed or kept. After 1000 faults,
// or 1000 warnings, one problem says that there are more.
func (e Edition) Audit() ([]Numbering, quoin.Problems) {
	a := e.auditor()
	for i, entry := range e.Ledger {
		a.enter(i, entry)
	}
	for i := range a.numberings {
		a.close(i)
	}
	return a.numberings, a.problems
}

const mostProblems = 1000

// place is a number or a proof of a numbering.
type place struct {
	numbering int
	proof     bool
	number    int64
}

type auditor struct {
	e          Edition
	numberings []Numbering
	claims     []int64       // numbers said to be sold, of each numbering
	numbers    [][]int64     // taken, of each numbering
	proofs     [][]int64     // taken, of each numbering
	first      map[place]int // the entry that a number is in
	of         map[string]int
	problems   quoin.Problems
	added      map[quoin.Severity]int
}

func (e Edition) auditor() *auditor {
	n := e.numberings()
	a := &auditor{
		e: e, numberings: make([]Numbering, n), claims: make([]int64, n), numbers: make([][]int64, n), proofs: make([][]int64, n),
		first: make(map[place]int, len(e.Ledger)), of: make(map[string]int, len(e.Products)), added: make(map[quoin.Severity]int),
	}
	for i := range a.numberings {
		a.numberings[i] = Numbering{Numbers: Tally{Of: e.size()}, Proofs: Tally{Of: e.proofs()}}
		if e.Each {
			a.numberings[i].Product = e.Products[i]
		}
	}
	for i, p := range slices.Backward(e.Products) {
		a.of[p] = i // the first, of a product named twice
	}
	return a
}

// enter takes up an entry, or reports what is wrong with it.
func (a *auditor) enter(i int, entry Entry) {
	at := quoin.InList("ledger", i)
	numbering, problem := a.numbering(entry)
	if problem.Code != "" {
		a.fault(at, problem)
		return
	}
	p := place{numbering, entry.Proof != 0, entry.Number + entry.Proof}
	if entry.State == Sold && !p.proof {
		a.claims[numbering]++
	}
	if problem := a.placed(p, entry); problem.Code != "" {
		a.fault(at, problem)
		return
	}
	a.first[p] = i
	a.take(p, entry.State)
	if entry.State == Reserved && entry.To == "" {
		a.add(quoin.Problem{
			Code: ReservedForNobody, Severity: quoin.Warning, Path: at.String(),
			Found: p.name() + " is reserved, and the ledger does not say for whom", Remedy: "write it down under to, or free the number",
		})
	}
}

func (a *auditor) fault(at quoin.Path, p quoin.Problem) {
	p.Severity = quoin.Fault
	p.Path = strings.TrimSuffix(at.String()+"."+p.Path, ".")
	a.add(p)
}

// add keeps a problem, up to a bound for faults and one for warnings, and says
// so where there are more.
func (a *auditor) add(p quoin.Problem) {
	n := a.added[p.Severity]
	if n > mostProblems {
		return
	}
	a.added[p.Severity]++
	if n == mostProblems {
		p = quoin.Problem{
			Code: quoin.MoreProblems, Severity: p.Severity, Path: "ledger", Found: fmt.Sprintf("more than %d of these", mostProblems), Remedy: "mend the ones above first",
		}
	}
	a.problems = append(a.problems, p)
}

// numbering returns which numbering an entry is in, or what is wrong with the
// entry taken by itself.
func (a *auditor) numbering(entry Entry) (int, quoin.Problem) {
	_, err := form.Word(string(entry.State), states()...)
	problem, _ := err.(quoin.Problem)
	i, known := a.of[entry.Product]
	switch {
	case entry.Number == 0 && entry.Proof == 0:
		return 0, missing("number", " or proof")
	case entry.Number != 0 && entry.Proof != 0:
		return 0, quoin.Problem{Code: quoin.RivalFields, Path: "proof", Found: "proof beside number", Wanted: "one of them"}
	case entry.State == "":
		return 0, missing("state", "")
	case err != nil:
		problem.Path = "state"
		return 0, problem
	case entry.Product != "" && !known:
		return 0, a.foreign(entry.Product)
	case entry.Product == "" && len(a.numberings) != 1:
		return 0, quoin.Problem{Code: UnclearProduct, Path: "product", Found: "nothing", Wanted: "the product whose number it is"}
	case !a.e.Each || entry.Product == "":
		return 0, quoin.Problem{}
	}
	return i, quoin.Problem{}
}

func missing(field, or string) quoin.Problem {
	return quoin.Problem{Code: quoin.MissingField, Path: field, Found: "nothing", Wanted: "the field " + field + or}
}

func (a *auditor) foreign(product string) quoin.Problem {
	p := quoin.Problem{Code: ForeignProduct, Path: "product", Found: prose.Quoted(product), Wanted: "one of the products of the edition"}
	if a.added[quoin.Fault] < mostProblems {
		p.Near = prose.Near(product, a.e.Products)
	}
	return p
}

// placed returns what is wrong with a place: that there is no such, or that it
// is taken.
func (a *auditor) placed(p place, entry Entry) quoin.Problem {
	of, field, code := a.e.size(), "number", NoSuchNumber
	if p.proof {
		of, field, code = a.e.proofs(), "proof", NoSuchProof
	}
	if p.number < 1 || p.number > of {
		return quoin.Problem{Code: code, Path: field, Found: fmt.Sprint(p.number), Wanted: fmt.Sprintf("a %s from 1 to %d", field, of)}
	}
	before, taken := a.first[p]
	if !taken {
		return quoin.Problem{}
	}
	return quoin.Problem{
		Code: NumberTwice, Path: field,
		Found:  fmt.Sprintf("%s%s, %s here and %s in ledger[%d]", p.name(), ofProduct(a.numberings[p.numbering].Product), entry.State, a.e.Ledger[before].State, before),
		Wanted: "one entry for each", Remedy: "keep the one that holds, or correct the number",
	}
}

func (p place) name() string {
	if p.proof {
		return fmt.Sprintf("proof %d", p.number)
	}
	return fmt.Sprintf("number %d", p.number)
}

func (a *auditor) take(p place, s State) {
	n := &a.numberings[p.numbering]
	if p.proof {
		n.Proofs.count(s)
		a.proofs[p.numbering] = append(a.proofs[p.numbering], p.number)
		return
	}
	n.Numbers.count(s)
	a.numbers[p.numbering] = append(a.numbers[p.numbering], p.number)
}

// close works out what is free of a numbering, and looks at it as a whole.
func (a *auditor) close(i int) {
	n := &a.numberings[i]
	n.Numbers.close(a.numbers[i])
	n.Proofs.close(a.proofs[i])
	if sold := a.e.sold(); sold > 0 {
		n.Numbers.Sold, n.Numbers.Free, n.Numbers.FreeNumbers = sold, n.Numbers.Of-sold, nil
	}
	if a.claims[i] > n.Numbers.Of {
		a.fault(quoin.InField("ledger"), quoin.Problem{
			Code: Oversold, Found: fmt.Sprintf("%d entries of numbers sold%s", a.claims[i], ofProduct(n.Product)), Wanted: fmt.Sprintf("at most the size of %d", n.Numbers.Of),
		})
	}
	a.unreached(*n)
}

// unreached warns of steps that begin within the size, but when nothing is left.
func (a *auditor) unreached(n Numbering) {
	last := n.Numbers.Last()
	for i, s := range a.e.Steps {
		if s.Sold < 1 || s.Sold < last || s.Sold >= n.Numbers.Of {
			continue
		}
		a.add(quoin.Problem{
			Code: StepUnreached, Severity: quoin.Warning, Path: quoin.InList("steps", i).Field("sold").String(),
			Found:  fmt.Sprintf("a step from %d sold is not reached: at most %d%s can sell", s.Sold, last, ofProduct(n.Product)),
			Remedy: "begin the step earlier, or take it out",
		})
	}
}
