package edition_test

import (
	"encoding/json"
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }

// listed writes problems as "severity code path", which is what does not change
// with their sentences.
func listed(problems quoin.Problems) []string {
	var out []string
	for _, p := range problems {
		out = append(out, string(p.Severity)+" "+string(p.Code)+" "+p.Path)
	}
	return out
}

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		what   string
		change func(*edition.Edition)
		want   []string
	}{
		{"as it is: 5 proofs are just 10% of 50", func(*edition.Edition) {}, nil},
		{"one proof more", func(e *edition.Edition) { e.Proofs = 6 }, []string{"fault too_many_proofs proofs"}},
		{"5 proofs of 49", func(e *edition.Edition) { e.Size = 49 }, []string{"fault too_many_proofs proofs"}},
		{"no bound on proofs", func(e *edition.Edition) { e.Proofs, e.ProofsAtMost = 40, quoin.Optional[quoin.Rate]{} }, nil},
		{"a bound of nothing", func(e *edition.Edition) { e.ProofsAtMost = quoin.Some(quoin.Rate{}) }, []string{"fault too_many_proofs proofs"}},
		{"no steps", func(e *edition.Edition) { e.Steps = nil }, nil},
		{"no size", func(e *edition.Edition) { e.Size, e.Proofs, e.Steps = 0, 0, nil }, []string{"fault missing_field size"}},
		{"a product twice", func(e *edition.Edition) { e.Products = []string{"a", "b", "a"} }, []string{"fault duplicate_id products[2]"}},
		{"all sold", func(e *edition.Edition) { e.Sold = 50 }, nil},
		{"more sold", func(e *edition.Edition) { e.Sold = 51 }, []string{"fault sold_above_size sold"}},
		{"sold beside a ledger", func(e *edition.Edition) { e.Sold, e.Ledger = 1, []edition.Entry{{Number: 1, State: edition.Sold}} }, []string{"fault rival_fields ledger"}},
		{"sold of two numberings", func(e *edition.Edition) { e.Sold, e.Each, e.Products = 1, true, []string{"a", "b"} }, []string{"fault unclear_sold sold"}},
		{"sold of one for two products", func(e *edition.Edition) { e.Sold, e.Products = 1, []string{"a", "b"} }, nil},
		{"a first step from 1", func(e *edition.Edition) { e.Steps[0].Sold = 1 }, []string{"fault bad_edition_steps steps[0].sold"}},
		{"a step twice", func(e *edition.Edition) { e.Steps[2].Sold = 20 }, []string{"fault bad_edition_steps steps[2].sold"}},
		{"the last print at a step of its own", func(e *edition.Edition) { e.Steps[2].Sold = 49 }, nil},
		{"a step for nobody", func(e *edition.Edition) { e.Steps[2].Sold = 50 }, []string{"fault bad_edition_steps steps[2].sold"}},
		{"a step without a price", func(e *edition.Edition) { e.Steps[1].Times = quoin.Factor{} }, []string{"fault missing_field steps[1].times"}},
		{"a step with two", func(e *edition.Edition) { e.Steps[1].Price = quoin.Some(amount("90")) }, []string{"fault rival_fields steps[1].price"}},
		{
			"all at once", func(e *edition.Edition) {
				e.Proofs, e.Sold, e.Steps[0].Sold, e.Steps[1].Times = 9, 99, 3, quoin.Factor{}
			},
			[]string{"fault missing_field steps[1].times", "fault too_many_proofs proofs", "fault sold_above_size sold", "fault bad_edition_steps steps[0].sold"},
		},
	} {
		e := bittern()
		c.change(&e)
		problems, _ := e.Check().(quoin.Problems)
		if got := listed(problems); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// An edition of ten with two proofs, of an A3 and an A5.
func heron(each bool, ledger ...edition.Entry) edition.Edition {
	return edition.Edition{
		ID: "heron", Products: []string{"heron-a3", "heron-a5"}, Size: 10, Each: each, Proofs: 2, Ledger: ledger,
		Steps: []edition.PriceStep{{Times: factor("1")}, {Sold: 8, Price: quoin.Some(amount("90"))}},
	}
}

// The ledgers are counted by hand.
func TestAudit(t *testing.T) {
	const a3, a5 = "heron-a3", "heron-a5"
	for _, c := range []struct {
		what     string
		e        edition.Edition
		want     []edition.Numbering
		problems []string
	}{
		{"nothing yet", heron(false), []edition.Numbering{{
			Numbers: edition.Tally{Of: 10, Free: 10, FreeNumbers: []edition.Span{{From: 1, To: 10}}},
			Proofs:  edition.Tally{Of: 2, Free: 2, FreeNumbers: []edition.Span{{From: 1, To: 2}}},
		}}, nil},
		{"one of each state, out of order", heron(false,
			edition.Entry{Number: 9, State: edition.Kept}, edition.Entry{Number: 2, State: edition.Sold, Product: a5},
			edition.Entry{Number: 1, State: edition.Sold, Product: a3}, edition.Entry{Number: 7, State: edition.Destroyed},
			edition.Entry{Number: 4, State: edition.Reserved, To: "a reader"}, edition.Entry{Proof: 1, State: edition.Sold},
		), []edition.Numbering{{
			Numbers: edition.Tally{Of: 10, Sold: 2, Reserved: 1, Destroyed: 1, Kept: 1, Free: 5, FreeNumbers: []edition.Span{{From: 3, To: 3}, {From: 5, To: 6}, {From: 8, To: 8}, {From: 10, To: 10}}},
			Proofs:  edition.Tally{Of: 2, Sold: 1, Free: 1, FreeNumbers: []edition.Span{{From: 2, To: 2}}},
		}}, []string{"warning step_unreached steps[1].sold"}}, // 8 can sell, so none is the ninth
		{"the same number of two sizes", heron(true,
			edition.Entry{Number: 1, State: edition.Sold, Product: a3}, edition.Entry{Number: 1, State: edition.Sold, Product: a5}, edition.Entry{Number: 10, State: edition.Sold, Product: a5},
		), []edition.Numbering{
			{Product: a3, Numbers: edition.Tally{Of: 10, Sold: 1, Free: 9, FreeNumbers: []edition.Span{{From: 2, To: 10}}}, Proofs: edition.Tally{Of: 2, Free: 2, FreeNumbers: []edition.Span{{From: 1, To: 2}}}},
			{Product: a5, Numbers: edition.Tally{Of: 10, Sold: 2, Free: 8, FreeNumbers: []edition.Span{{From: 2, To: 9}}}, Proofs: edition.Tally{Of: 2, Free: 2, FreeNumbers: []edition.Span{{From: 1, To: 2}}}},
		}, nil},
		{"the same number of two sizes in one numbering", heron(false,
			edition.Entry{Number: 1, State: edition.Sold, Product: a3}, edition.Entry{Number: 1, State: edition.Reserved, To: "a reader", Product: a5},
		), []edition.Numbering{{
			Numbers: edition.Tally{Of: 10, Sold: 1, Free: 9, FreeNumbers: []edition.Span{{From: 2, To: 10}}},
			Proofs:  edition.Tally{Of: 2, Free: 2, FreeNumbers: []edition.Span{{From: 1, To: 2}}},
		}}, []string{"fault number_twice ledger[1].number"}},
		{"all that can be wrong", heron(true,
			edition.Entry{Number: 11, State: edition.Sold, Product: a3}, edition.Entry{Number: -1, State: edition.Sold, Product: a3},
			edition.Entry{Proof: 3, State: edition.Kept, Product: a3}, edition.Entry{Number: 1, State: edition.Sold},
			edition.Entry{Number: 1, State: edition.Sold, Product: "heron-a4"}, edition.Entry{State: edition.Sold, Product: a3},
			edition.Entry{Number: 1, Proof: 1, State: edition.Sold, Product: a3}, edition.Entry{Number: 1, State: "gone", Product: a3},
			edition.Entry{Number: 1, State: edition.Reserved, Product: a3}, edition.Entry{Proof: 2, State: edition.Kept, Product: a3},
			edition.Entry{Proof: 2, State: edition.Sold, Product: a3},
		), []edition.Numbering{
			{Product: a3, Numbers: edition.Tally{Of: 10, Reserved: 1, Free: 9, FreeNumbers: []edition.Span{{From: 2, To: 10}}}, Proofs: edition.Tally{Of: 2, Kept: 1, Free: 1, FreeNumbers: []edition.Span{{From: 1, To: 1}}}},
			{Product: a5, Numbers: edition.Tally{Of: 10, Free: 10, FreeNumbers: []edition.Span{{From: 1, To: 10}}}, Proofs: edition.Tally{Of: 2, Free: 2, FreeNumbers: []edition.Span{{From: 1, To: 2}}}},
		}, []string{
			"fault no_such_number ledger[0].number", "fault no_such_number ledger[1].number", "fault no_such_proof ledger[2].proof",
			"fault unclear_product ledger[3].product", "fault product_not_of_edition ledger[4].product", "fault missing_field ledger[5].number",
			"fault rival_fields ledger[6].proof", "fault unknown_word ledger[7].state", "warning reserved_for_nobody ledger[8]",
			"fault number_twice ledger[10].proof",
		}},
	} {
		got, problems := c.e.Audit()
		if !slices.EqualFunc(got, c.want, same) {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
		if codes := listed(problems); !slices.Equal(codes, c.problems) {
			t.Errorf("%s: %q, want %q", c.what, codes, c.problems)
		}
	}
}

func same(a, b edition.Numbering) bool {
	return a.Product == b.Product && alike(a.Numbers, b.Numbers) && alike(a.Proofs, b.Proofs)
}

func alike(a, b edition.Tally) bool {
	return a.Of == b.Of && a.Sold == b.Sold && a.Reserved == b.Reserved && a.Destroyed == b.Destroyed && a.Kept == b.Kept && a.Free == b.Free &&
		slices.Equal(a.FreeNumbers, b.FreeNumbers)
}

func TestOversold(t *testing.T) {
	e := edition.Edition{ID: "rail", Products: []string{"rail-a5"}, Size: 2, Ledger: []edition.Entry{
		{Number: 1, State: edition.Sold}, {Number: 2, State: edition.Sold}, {Number: 2, State: edition.Sold, Note: "sold again at a fair"},
	}}
	n, problems := e.Audit()
	want := []string{"fault number_twice ledger[2].number", "fault sold_above_size ledger"}
	if got := listed(problems); !slices.Equal(got, want) || n[0].Numbers.Sold != 2 || n[0].Numbers.Free != 0 || n[0].Numbers.FreeNumbers != nil {
		t.Errorf("%q, %+v, want %q", got, n[0].Numbers, want)
	}
	if problems.Err() == nil {
		t.Error("an oversold edition has no fault")
	}
}

// A name that is nearly one of the products is put right.
func TestNearProduct(t *testing.T) {
	_, problems := heron(true, edition.Entry{Number: 1, State: edition.Sold, Product: "heron-a33"}).Audit()
	if len(problems) != 1 || problems[0].Near != "heron-a3" {
		t.Errorf("%v, want heron-a3 as near", problems)
	}
}

// Past a thousand, one problem stands for the rest, a fault only where faults
// were left out.
func TestProblemsAreBounded(t *testing.T) {
	e := edition.Edition{ID: "rail", Products: []string{"rail-a5"}, Size: 3000}
	for i := range int64(1500) {
		e.Ledger = append(e.Ledger, edition.Entry{Number: i + 1, State: edition.Reserved})
	}
	n, problems := e.Audit()
	if len(problems) != 1001 || problems[1000].Code != quoin.MoreProblems || problems.Err() != nil || n[0].Numbers.Reserved != 1500 {
		t.Errorf("%d problems, the last %v; %d reserved", len(problems), problems[len(problems)-1], n[0].Numbers.Reserved)
	}
	e.Ledger = append(e.Ledger, edition.Entry{Number: 3001, State: edition.Sold})
	if _, problems = e.Audit(); len(problems) != 1002 || problems[1001].Code != edition.NoSuchNumber {
		t.Errorf("a fault after too many warnings is lost: %d problems", len(problems))
	}
}

func TestEditionReadsJSON(t *testing.T) {
	const text = `{"id":"bittern","products":["bittern-a3"],"size":50,"proofs":5,"proofs_at_most":"10%","per_month":"4",
		"steps":[{"sold":0,"times":"1"},{"sold":20,"price":"95.00","per_month":"3"}],
		"ledger":[{"number":7,"state":"sold","to":"a reader"},{"proof":1,"state":"kept"}]}`
	var e edition.Edition
	if err := json.Unmarshal([]byte(text), &e); err != nil {
		t.Fatal(err)
	}
	price, given := e.Steps[1].Price.Get()
	share, bounded := e.ProofsAtMost.Get()
	if !given || !price.Equal(amount("95")) || !bounded || !share.Equal(quoin.MustRate("10%")) || e.Ledger[0].State != edition.Sold || e.Ledger[1].Proof != 1 || e.Check() != nil {
		t.Errorf("read as %+v, %v", e, e.Check())
	}
	if err := json.Unmarshal([]byte(`{"ledger":[{"number":7,"state":"solt"}]}`), &e); err == nil {
		t.Error("read a state that is none")
	}
	back, err := json.Marshal(edition.PriceStep{Times: factor("1")})
	if err != nil || string(back) != `{"sold":0,"times":"1"}` {
		t.Errorf("a step is written as %s, %v", back, err)
	}
}
