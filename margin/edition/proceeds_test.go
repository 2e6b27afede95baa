package edition_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
)

// Fifty at 80, 92 and 104, counted by hand; 12 sold and 2 destroyed leave 36, of
// which the last step gets 13.
func TestLadder(t *testing.T) {
	type row struct {
		from, to, count int64
		price           string
	}
	e := bittern()
	own := bittern()
	own.Steps[1] = edition.PriceStep{Sold: 20, Price: quoin.Some(amount("99.50"))}
	up := func(a quoin.Amount) quoin.Amount { return a.Round(0, quoin.Up) }
	for _, c := range []struct {
		what string
		e    edition.Edition
		of   edition.Tally
		list string
		ask  func(quoin.Amount) quoin.Amount
		want []row
	}{
		{"nothing sold", e, e.Unsold(), "80", nil, []row{{1, 20, 20, "80"}, {21, 35, 15, "92"}, {36, 50, 15, "104"}}},
		{"19 sold", e, edition.Tally{Of: 50, Sold: 19, Free: 31}, "80", nil, []row{{1, 20, 1, "80"}, {21, 35, 15, "92"}, {36, 50, 15, "104"}}},
		{"20 sold", e, edition.Tally{Of: 50, Sold: 20, Free: 30}, "80", nil, []row{{1, 20, 0, "80"}, {21, 35, 15, "92"}, {36, 50, 15, "104"}}},
		{"all sold", e, edition.Tally{Of: 50, Sold: 50}, "80", nil, []row{{1, 20, 0, "80"}, {21, 35, 0, "92"}, {36, 50, 0, "104"}}},
		{"12 sold, 2 destroyed, 3 reserved", e, edition.Tally{Of: 50, Sold: 12, Destroyed: 2, Reserved: 3, Free: 33}, "80", nil, []row{{1, 20, 8, "80"}, {21, 35, 15, "92"}, {36, 48, 13, "104"}}},
		{"20 kept: the last step is not reached", e, edition.Tally{Of: 50, Kept: 20, Free: 30}, "80", nil, []row{{1, 20, 20, "80"}, {21, 30, 10, "92"}, {36, 35, 0, "104"}}},
		{"brought up to whole money: 90.85 and 102.70", e, e.Unsold(), "79", up, []row{{1, 20, 20, "79"}, {21, 35, 15, "91"}, {36, 50, 15, "103"}}},
		{"a price of its own stays as it is", own, own.Unsold(), "80", up, []row{{1, 20, 20, "80"}, {21, 35, 15, "99.50"}, {36, 50, 15, "104"}}},
		{"no steps", edition.Edition{Size: 50}, edition.Edition{Size: 50}.Unsold(), "80", nil, []row{{1, 50, 50, "80"}}},
	} {
		got := c.e.Ladder(c.of, amount(c.list), c.ask)
		if len(got) != len(c.want) {
			t.Errorf("%s: %d steps, want %d", c.what, len(got), len(c.want))
			continue
		}
		for i, w := range c.want {
			if s := got[i]; s.Step != i || s.From != w.from || s.To != w.to || s.Count != w.count || !s.Price.Equal(amount(w.price)) {
				t.Errorf("%s, step %d: %+v, want %+v", c.what, i, s, w)
			}
		}
	}
}

// A pace holds for the step that says it; the others have the edition's, 4.
func TestPaceOfSteps(t *testing.T) {
	e := bittern()
	e.Steps[2].PerMonth = quoin.Factor{}
	for i, want := range []string{"4", "3", "4"} {
		if s := e.Ladder(e.Unsold(), amount("80"), nil)[i]; !s.PerMonth.Equal(factor(want)) {
			t.Errorf("step %d sells %s a month, want %s", i, s.PerMonth, want)
		}
	}
}

// 20 × 80 + 15 × 92 + 15 × 104 = 1600 + 1380 + 1560; kept 42, 49.20 and 56.40
// each; months 20/4 + 15/3 + 15/2.
func TestExpected(t *testing.T) {
	e := bittern()
	for _, c := range []struct {
		what                               string
		sold                               int64
		gross, kept, average, left, months string
		count                              int64
	}{
		{"from the start", 0, "4540", "2424", "90.80", "48.48", "17.5", 50},
		{"after 20", 20, "2940", "1584", "98", "52.80", "12.5", 30},
		{"after 26", 26, "2388", "1288.80", "99.50", "53.70", "10.5", 24}, // 9 × 92 + 1560; 9 × 49.20 + 846; 3 + 7.5
		{"the last one", 49, "104", "56.40", "104", "56.40", "0.5", 1},
	} {
		got := edition.Expected(e.Ladder(edition.Tally{Of: 50, Sold: c.sold, Free: 50 - c.sold}, amount("80"), nil), kept)
		if got.Count != c.count || !got.Gross.Equal(amount(c.gross)) || !got.Kept.Equal(amount(c.kept)) || !got.Average.Equal(quoin.Some(amount(c.average))) ||
			!got.AverageKept.Equal(quoin.Some(amount(c.left))) || !got.Months.Equal(quoin.Some(factor(c.months))) {
			t.Errorf("%s: %+v, want %+v", c.what, got, c)
		}
	}
}

func TestExpectedWithoutPaceOrPrints(t *testing.T) {
	e := bittern()
	e.PerMonth = quoin.Factor{}
	steps := e.Ladder(e.Unsold(), amount("80"), nil)
	got := edition.Expected(steps, nil)
	if !got.Months.IsZero() || !got.Kept.Equal(amount("4540")) {
		t.Errorf("%+v, want no months and all of the prices kept", got)
	}
	// The step without a pace is sold through.
	got = edition.Expected(e.Ladder(edition.Tally{Of: 50, Sold: 20, Free: 30}, amount("80"), nil), nil)
	if !got.Months.Equal(quoin.Some(factor("12.5"))) {
		t.Errorf("%s months, want 12.5", got.Months)
	}
	got = edition.Expected(e.Ladder(edition.Tally{Of: 50, Sold: 50}, amount("80"), nil), nil)
	if months, given := got.Months.Get(); !got.Average.IsZero() || !got.AverageKept.IsZero() || !given || !months.IsZero() || !got.Gross.IsZero() {
		t.Errorf("nothing left: %+v", got)
	}
	if _, left := edition.Current(e.Ladder(edition.Tally{Of: 50, Sold: 50}, amount("80"), nil)); left {
		t.Error("nothing left, and a current step")
	}
}

func TestLimits(t *testing.T) {
	e := edition.Edition{Products: []string{"a", "b", "c"}, Size: 10, Proofs: 2}
	for _, c := range []struct {
		what        string
		each        bool
		proofs, all bool
		want        int64
	}{
		{"one numbering", false, false, false, 10},
		{"with proofs", false, true, false, 12},
		{"together, and there is only one", false, true, true, 12},
		{"a numbering of three", true, false, false, 10},
		{"all three", true, false, true, 30},
		{"all three with proofs", true, true, true, 36},
	} {
		e.Each = c.each
		l := edition.Limit{Name: c.what, AtMost: c.want, Proofs: c.proofs, Together: c.all}
		if got := l.Count(e); got != c.want || !l.Within(e) {
			t.Errorf("%s: %d, want %d, within %v", c.what, got, c.want, l.Within(e))
		}
		if l.AtMost--; l.Within(e) {
			t.Errorf("%s: %d is within %d", c.what, c.want, l.AtMost)
		}
	}
}

// A pace that a step does not say itself is the edition's, and stands where that says so.
func TestPaceIsExplained(t *testing.T) {
	e := bittern()
	e.Steps[1].PerMonth = quoin.Factor{}
	trail := quoin.NewTrail(16)
	e.ExplainMonths(trail, quoin.InList("editions", 0), e.Unsold(), e.Ladder(e.Unsold(), amount("80"), nil))
	want := []string{"editions[0].per_month", "editions[0].per_month", "editions[0].steps[2].per_month"}
	found := quoin.Find(trail.Steps(), func(s quoin.Step) bool { return s.Code == edition.StepPace })
	if len(found) != len(want) {
		t.Fatalf("%d paces, want %d", len(found), len(want))
	}
	for i, n := range found {
		pace := trail.Steps()[n-1].Operands[1]
		if pace.Path.String() != want[i] || pace.Default {
			t.Errorf("the pace of step %d stands at %s, default %t, want %s", i, pace.Path, pace.Default, want[i])
		}
	}
}
