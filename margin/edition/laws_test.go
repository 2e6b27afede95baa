package edition_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
)

// drawPace draws how many sell in a month, or that nobody knows.
func drawPace(t *rapid.T, what string, most int64) quoin.Factor {
	n := rapid.Int64Range(0, most).Draw(t, what)
	if n == 0 {
		return quoin.Factor{}
	}
	return quoin.FactorOf(n)
}

// drawEdition draws an edition that Check accepts, with a ledger without faults.
func drawEdition(t *rapid.T) edition.Edition {
	e := edition.Edition{
		ID: "drawn", Products: []string{"a", "b", "c"}[:rapid.IntRange(1, 3).Draw(t, "products")], Each: rapid.Bool().Draw(t, "each"),
		Size: rapid.Int64Range(1, 60).Draw(t, "size"), Proofs: rapid.Int64Range(0, 6).Draw(t, "proofs"),
		PerMonth: drawPace(t, "pace", 9),
	}
	for from := int64(0); from < e.Size && len(e.Steps) < 5; from += rapid.Int64Range(1, 20).Draw(t, "rise") {
		s := edition.PriceStep{Sold: from, PerMonth: drawPace(t, "step's pace", 7)}
		if rapid.Bool().Draw(t, "own") {
			s.Price = quoin.Some(quoin.AmountOf(rapid.Int64Range(0, 40_000).Draw(t, "price"), 2))
		} else {
			s.Times = quoin.AmountOf(rapid.Int64Range(1, 400).Draw(t, "times"), 2).Ratio(quoin.AmountOf(1, 0))
		}
		e.Steps = append(e.Steps, s)
	}
	if rapid.Bool().Draw(t, "no steps") {
		e.Steps = nil
	}
	numberings := e.Products
	if !e.Each {
		numberings = []string{""}
	}
	states := []edition.State{"", "", edition.Sold, edition.Reserved, edition.Destroyed, edition.Kept}
	for _, p := range numberings {
		for n := range e.Size {
			if s := rapid.SampledFrom(states).Draw(t, "state"); s != "" {
				e.Ledger = append(e.Ledger, edition.Entry{Number: n + 1, Product: p, State: s, To: "someone"})
			}
		}
		for n := range e.Proofs {
			if s := rapid.SampledFrom(states).Draw(t, "proof's state"); s != "" {
				e.Ledger = append(e.Ledger, edition.Entry{Proof: n + 1, Product: p, State: s, To: "someone"})
			}
		}
	}
	e.Ledger = rapid.Permutation(e.Ledger).Draw(t, "order")
	if len(e.Ledger) == 0 && (!e.Each || len(e.Products) == 1) {
		e.Sold = rapid.Int64Range(0, e.Size).Draw(t, "sold")
	}
	return e
}

func audited(t *rapid.T, e edition.Edition) []edition.Numbering {
	if err := e.Check(); err != nil {
		t.Fatal(err)
	}
	numberings, problems := e.Audit()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	return numberings
}

// Every number is in one state or free, each free one in one span, and none of
// them has an entry.
func TestNumbersAreParted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawEdition(t)
		entered := make(map[string]int)
		for _, entry := range e.Ledger {
			entered[fmt.Sprint(entry.Product, entry.Number)]++
		}
		for _, n := range audited(t, e) {
			for _, tally := range []edition.Tally{n.Numbers, n.Proofs} {
				if tally.Sold+tally.Reserved+tally.Destroyed+tally.Kept+tally.Free != tally.Of {
					t.Fatalf("%+v does not sum to %d", tally, tally.Of)
				}
			}
			if e.Sold > 0 {
				continue // which are free is not known
			}
			free, last := int64(0), int64(-1)
			for _, s := range n.Numbers.FreeNumbers {
				if s.From <= last+1 && last >= 0 || s.To < s.From || s.From < 1 || s.To > e.Size {
					t.Fatalf("%s after %d", s, last)
				}
				for i := s.From; i <= s.To; i++ {
					if entered[fmt.Sprint(n.Product, i)] > 0 {
						t.Fatalf("%d of %s is free and in the ledger", i, n.Product)
					}
				}
				free, last = free+s.To-s.From+1, s.To
			}
			if free != n.Numbers.Free {
				t.Fatalf("spans hold %d, free are %d", free, n.Numbers.Free)
			}
		}
	})
}

func drawList(t *rapid.T) quoin.Amount {
	return quoin.AmountOf(rapid.Int64Range(1, 50_000).Draw(t, "list"), 2)
}

// What the steps count is what is left to sell, one print after the other; a
// print's step is the last that it is not before.
func TestLadderLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, list := drawEdition(t), drawList(t)
		for _, n := range audited(t, e) {
			steps := e.Ladder(n.Numbers, list, nil)
			var counted, all int64
			for _, s := range steps {
				counted += s.Count
				all += s.To - s.From + 1
			}
			if counted != n.Numbers.ToSell() || all != n.Numbers.Last() {
				t.Fatalf("%d of %d, want %d of %d", counted, all, n.Numbers.ToSell(), n.Numbers.Last())
			}
			// One print at a time: the price of the k-th sold.
			gross := new(big.Rat)
			for k := n.Numbers.Sold; k < n.Numbers.Last(); k++ {
				gross.Add(gross, priceOf(e, list, k))
			}
			if got := edition.Expected(steps, nil).Gross; got.Rat().Cmp(gross) != 0 {
				t.Fatalf("%s, one by one %s", got, gross.FloatString(4))
			}
		}
	})
}

// priceOf is the price of the print that sells after so many.
func priceOf(e edition.Edition, list quoin.Amount, sold int64) *big.Rat {
	price := list.Rat()
	for _, s := range e.Steps {
		if s.Sold > sold {
			break
		}
		if own, given := s.Price.Get(); given {
			price = own.Rat()
		} else {
			price = new(big.Rat).Mul(list.Rat(), s.Times.Rat())
		}
	}
	return price
}

// ExpectedProceeds are linear in prices; months and takings of two parts of the ladder
// sum to those of the whole; a step split in two changes nothing.
func TestTakingsLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, list := drawEdition(t), drawList(t)
		e.PerMonth = quoin.FactorOf(3)
		steps := e.Ladder(e.Unsold(), list, nil)
		whole := edition.Expected(steps, kept)

		times := quoin.FactorOf(rapid.Int64Range(0, 9).Draw(t, "scale"))
		scaled := edition.Expected(steps, func(p quoin.Amount) quoin.Amount { return kept(p).Times(times) })
		if !scaled.Kept.Equal(whole.Kept.Times(times)) || !scaled.Gross.Equal(whole.Gross) {
			t.Fatalf("%s is not %s times %s", scaled.Kept, times, whole.Kept)
		}
		cut := rapid.IntRange(0, len(steps)).Draw(t, "cut")
		before, after := edition.Expected(steps[:cut], kept), edition.Expected(steps[cut:], kept)
		m, _ := whole.Months.Get()
		x, _ := before.Months.Get()
		y, _ := after.Months.Get()
		if !before.Gross.Add(after.Gross).Equal(whole.Gross) || !before.Kept.Add(after.Kept).Equal(whole.Kept) || !x.Add(y).Equal(m) || before.Count+after.Count != whole.Count {
			t.Fatalf("%+v and %+v are not %+v", before, after, whole)
		}
		if split := splitStep(t, e); len(split.Steps) > 0 {
			parts := split.Ladder(split.Unsold(), list, nil)
			again := edition.Expected(parts, kept)
			if !again.Gross.Equal(whole.Gross) || !again.Kept.Equal(whole.Kept) || !again.Months.Equal(whole.Months) {
				t.Fatalf("split: %+v, not %+v", again, whole)
			}
		}
	})
}

// splitStep splits a step of the edition in two of the same price and pace.
func splitStep(t *rapid.T, e edition.Edition) edition.Edition {
	if len(e.Steps) == 0 || e.Size < 2 {
		return edition.Edition{}
	}
	at := rapid.Int64Range(1, e.Size-1).Draw(t, "split at")
	var steps []edition.PriceStep
	placed := false
	for i, s := range e.Steps {
		if s.Sold == at {
			return edition.Edition{} // there is one already
		}
		steps = append(steps, s)
		if !placed && (i+1 == len(e.Steps) || e.Steps[i+1].Sold > at) && s.Sold < at {
			s.Sold, placed = at, true
			steps = append(steps, s)
		}
	}
	e.Steps = steps
	return e
}

// What is explained is what is computed.
func TestExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, list := drawEdition(t), drawList(t)
		at := quoin.InList("editions", 0)
		for _, n := range audited(t, e) {
			steps := e.Ladder(n.Numbers, list, nil)
			want := edition.Expected(steps, kept)
			trail := quoin.NewTrail(64)
			money := func(what string, o quoin.Operand, want quoin.Amount) {
				if got, ok := o.Value.Amount(); !ok || !got.Equal(want) {
					t.Fatalf("%s is explained as %s, computed as %s", what, o.Value, want)
				}
			}
			money("gross", e.Explain(trail, at, n.Numbers, steps, nil), want.Gross)
			money("kept", e.Explain(trail, at, n.Numbers, steps, kept), want.Kept)
			months, known := e.ExplainMonths(trail, at, n.Numbers, steps)
			if known == want.Months.IsZero() || known && !want.Months.Equal(quoin.Some(months.Value.Factor())) {
				t.Fatalf("months are explained as %s, %v, computed as %s", months.Value, known, want.Months)
			}
			for i, s := range e.Steps {
				money("price", s.Explain(trail, at.Sub("steps", i), quoin.Given("price", quoin.InField("price"), list.Figure())), steps[i].Price)
			}
			if err := quoin.Replay(trail.Steps()); err != nil {
				t.Fatal(err)
			}
			explainedCounts(t, trail.Steps(), steps)
		}
	})
}

// explainedCounts compares the first counts of a trail with those of the steps.
func explainedCounts(t *rapid.T, trail []quoin.Step, steps []edition.PricedStep) {
	found := quoin.Find(trail, func(s quoin.Step) bool { return s.Code == edition.StepCount })
	for i, s := range steps {
		if got := trail[found[i]-1].Value.Factor(); !got.Equal(quoin.FactorOf(s.Count)) {
			t.Fatalf("the count of step %d is explained as %s, computed as %d", i, got, s.Count)
		}
	}
}

// Whatever is written into an edition, nothing panics and the counts hold.
func TestNothingPanics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		any64 := rapid.OneOf(rapid.Int64Range(-3, 6), rapid.Int64())
		e := edition.Edition{
			Products: rapid.SliceOfN(rapid.SampledFrom([]string{"", "a", "b"}), 0, 3).Draw(t, "products"), Each: rapid.Bool().Draw(t, "each"),
			Size: any64.Draw(t, "size"), Proofs: any64.Draw(t, "proofs"), Sold: any64.Draw(t, "sold"), ProofsAtMost: quoin.Some(quoin.MustRate("10%")),
		}
		for range rapid.IntRange(0, 4).Draw(t, "steps") {
			e.Steps = append(e.Steps, edition.PriceStep{Sold: any64.Draw(t, "from"), Times: quoin.FactorOf(any64.Draw(t, "times"))})
		}
		for range rapid.IntRange(0, 8).Draw(t, "entries") {
			e.Ledger = append(e.Ledger, edition.Entry{
				Number: rapid.Int64Range(-2, 6).Draw(t, "number"), Proof: rapid.Int64Range(-2, 6).Draw(t, "proof"),
				Product: rapid.SampledFrom([]string{"", "a", "c"}).Draw(t, "product"), State: rapid.SampledFrom([]edition.State{"", edition.Sold, edition.Kept}).Draw(t, "state"),
			})
		}
		_ = e.Check()
		numberings, _ := e.Audit()
		for _, n := range numberings {
			steps := e.Ladder(n.Numbers, amount("80"), nil)
			trail := quoin.NewTrail(8)
			e.Explain(trail, quoin.InList("editions", 0), n.Numbers, steps, kept)
			e.ExplainMonths(trail, quoin.InList("editions", 0), n.Numbers, steps)
			edition.Expected(steps, kept)
			for i, s := range steps {
				if s.Count < 0 {
					t.Fatalf("step %d counts %d", i, s.Count)
				}
			}
			if n.Numbers.Sold+n.Numbers.Reserved+n.Numbers.Destroyed+n.Numbers.Kept+n.Numbers.Free != n.Numbers.Of {
				t.Fatalf("%+v does not sum", n.Numbers)
			}
		}
	})
}
