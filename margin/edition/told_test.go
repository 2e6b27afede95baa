package edition_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/internal/steptest"
	"example.com/quoin/margin/edition"
)

func explained(e edition.Edition, of edition.Tally, own bool) []quoin.Step {
	trail, at := quoin.NewTrail(32), quoin.InList("editions", 1)
	steps := e.Ladder(of, amount("80"), nil)
	if len(e.Steps) > 1 {
		e.Steps[1].Explain(trail, at.Sub("steps", 1), quoin.Given("list price", quoin.InField("price"), amount("80").Figure()))
	}
	if own {
		e.Explain(trail, at, of, steps, kept)
	} else {
		e.Explain(trail, at, of, steps, nil)
	}
	e.ExplainMonths(trail, at, of, steps)
	return trail.Steps()
}

func TestLedgers(t *testing.T) {
	e := bittern()
	e.Ledger = []edition.Entry{{Number: 1, State: edition.Sold}}
	steptest.Ledger(t, "with a ledger", explained(e, edition.Tally{Of: 50, Sold: 22, Destroyed: 2, Kept: 1, Free: 25}, true), withLedger)
	plain := edition.Edition{ID: "plain", Size: 10, Sold: 4, PerMonth: factor("3")}
	steptest.Ledger(t, "plain", explained(plain, edition.Tally{Of: 10, Sold: 4, Free: 6}, false), plainLedger)
	steptest.Ledger(t, "all sold", explained(plain, edition.Tally{Of: 10, Sold: 10}, false), allSoldLedger)
}

const withLedger = `
	// 1.15 × 80
	1 edition_step_price @editions[1].steps[1]: product list price @price 80, times @editions[1].steps[1].times 1.15 = 92
	// 22 are sold: none is left of the first 20, 13 up to 35, and 12 up to 50 − 2 − 1
	2 edition_last_sold @editions[1] (Bittern in the reeds): sum size @editions[1].size 50, destroyed −2, kept −1 = 47
	3 edition_step_end @editions[1].steps[0] (Bittern in the reeds): least sold @editions[1].steps[1].sold 20, edition_last_sold #2 47 = 20
	4 edition_step_start @editions[1].steps[0] (Bittern in the reeds): greatest sold @editions[1].steps[0].sold 0, sold 22 = 22
	5 edition_step_between @editions[1].steps[0] (Bittern in the reeds): sum end #3 20, start #4 −22 = -2
	6 edition_step_count @editions[1].steps[0] (Bittern in the reeds): greatest none 0, edition_step_between #5 -2 = 0
	7 edition_step_end @editions[1].steps[1] (Bittern in the reeds): least sold @editions[1].steps[2].sold 35, edition_last_sold #2 47 = 35
	8 edition_step_start @editions[1].steps[1] (Bittern in the reeds): greatest sold @editions[1].steps[1].sold 20, sold 22 = 22
	9 edition_step_between @editions[1].steps[1] (Bittern in the reeds): sum end #7 35, start #8 −22 = 13
	10 edition_step_count @editions[1].steps[1] (Bittern in the reeds): greatest none 0, edition_step_between #9 13 = 13
	11 edition_step_start @editions[1].steps[2] (Bittern in the reeds): greatest sold @editions[1].steps[2].sold 35, sold 22 = 35
	12 edition_step_between @editions[1].steps[2] (Bittern in the reeds): sum end #2 47, start #11 −35 = 12
	13 edition_step_count @editions[1].steps[2] (Bittern in the reeds): greatest none 0, edition_step_between #12 12 = 12
	// 13 × (60% × 92 − 6) + 12 × (60% × 104 − 6) = 639.60 + 676.80
	14 edition_kept @editions[1] (Bittern in the reeds): weighted count #6 0, kept 42.00, count #10 13, kept 49.20, count #13 12, kept 56.40 = 1316.40
	15 edition_last_sold @editions[1] (Bittern in the reeds): sum size @editions[1].size 50, destroyed −2, kept −1 = 47
	16 edition_step_end @editions[1].steps[0] (Bittern in the reeds): least sold @editions[1].steps[1].sold 20, edition_last_sold #15 47 = 20
	17 edition_step_start @editions[1].steps[0] (Bittern in the reeds): greatest sold @editions[1].steps[0].sold 0, sold 22 = 22
	18 edition_step_between @editions[1].steps[0] (Bittern in the reeds): sum end #16 20, start #17 −22 = -2
	19 edition_step_count @editions[1].steps[0] (Bittern in the reeds): greatest none 0, edition_step_between #18 -2 = 0
	20 edition_step_end @editions[1].steps[1] (Bittern in the reeds): least sold @editions[1].steps[2].sold 35, edition_last_sold #15 47 = 35
	21 edition_step_start @editions[1].steps[1] (Bittern in the reeds): greatest sold @editions[1].steps[1].sold 20, sold 22 = 22
	22 edition_step_between @editions[1].steps[1] (Bittern in the reeds): sum end #20 35, start #21 −22 = 13
	23 edition_step_count @editions[1].steps[1] (Bittern in the reeds): greatest none 0, edition_step_between #22 13 = 13
	24 edition_step_start @editions[1].steps[2] (Bittern in the reeds): greatest sold @editions[1].steps[2].sold 35, sold 22 = 35
	25 edition_step_between @editions[1].steps[2] (Bittern in the reeds): sum end #15 47, start #24 −35 = 12
	26 edition_step_count @editions[1].steps[2] (Bittern in the reeds): greatest none 0, edition_step_between #25 12 = 12
	// 13 ÷ 3 + 12 ÷ 2
	27 edition_step_months @editions[1].steps[1] (Bittern in the reeds): quotient count #23 13, per_month @editions[1].steps[1].per_month 3 = 4.333333333333
	28 edition_step_months @editions[1].steps[2] (Bittern in the reeds): quotient count #26 12, per_month @editions[1].steps[2].per_month 2 = 6
	29 edition_months @editions[1] (Bittern in the reeds): sum edition_step_months #27 4.333333333333, edition_step_months #28 6 = 10.333333333333`

const plainLedger = `
	1 edition_last_sold @editions[1] (plain): sum size @editions[1].size 10, destroyed @editions[1].ledger or −0, kept @editions[1].ledger or −0 = 10
	2 edition_step_between @editions[1] (plain): sum end #1 10, start @editions[1].sold −4 = 6
	3 edition_step_count @editions[1] (plain): greatest none 0, edition_step_between #2 6 = 6
	4 edition_gross @editions[1] (plain): weighted count #3 6, price 80 = 480
	5 edition_last_sold @editions[1] (plain): sum size @editions[1].size 10, destroyed @editions[1].ledger or −0, kept @editions[1].ledger or −0 = 10
	6 edition_step_between @editions[1] (plain): sum end #5 10, start @editions[1].sold −4 = 6
	7 edition_step_count @editions[1] (plain): greatest none 0, edition_step_between #6 6 = 6
	8 edition_step_months @editions[1] (plain): quotient count #7 6, per_month @editions[1].per_month 3 = 2
	9 edition_months @editions[1] (plain): sum edition_step_months #8 2 = 2`

const allSoldLedger = `
	1 edition_last_sold @editions[1] (plain): sum size @editions[1].size 10, destroyed @editions[1].ledger or −0, kept @editions[1].ledger or −0 = 10
	2 edition_step_between @editions[1] (plain): sum end #1 10, start @editions[1].sold −10 = 0
	3 edition_step_count @editions[1] (plain): greatest none 0, edition_step_between #2 0 = 0
	4 edition_gross @editions[1] (plain): weighted count #3 0, price 80 = 0
	5 edition_last_sold @editions[1] (plain): sum size @editions[1].size 10, destroyed @editions[1].ledger or −0, kept @editions[1].ledger or −0 = 10
	6 edition_step_between @editions[1] (plain): sum end #5 10, start @editions[1].sold −10 = 0
	7 edition_step_count @editions[1] (plain): greatest none 0, edition_step_between #6 0 = 0
	8 edition_months @editions[1] (plain): sum none left 0 = 0`

// What is said of a ledger, in full.
func TestAuditTold(t *testing.T) {
	const a3 = "heron-a3"
	sold := func(n int64, product string) edition.Entry {
		return edition.Entry{Number: n, State: edition.Sold, Product: product}
	}
	many := edition.Edition{ID: "rail", Products: []string{"rail-a5"}, Size: 1}
	for range 1002 {
		many.Ledger = append(many.Ledger, sold(1, "rail-a6"))
	}
	last := func(ps quoin.Problems) error { return ps[len(ps)-2:] }
	audit := func(e edition.Edition) quoin.Problems {
		_, problems := e.Audit()
		return problems
	}
	// Eight can sell at most: a step from the ninth on is not reached, one from the eighth is the last.
	unreached := heron(true, edition.Entry{Number: 1, State: edition.Kept, Product: a3}, edition.Entry{Number: 2, State: edition.Destroyed, Product: a3})
	from := func(n int64) edition.Edition {
		e := unreached
		e.Steps = []edition.PriceStep{{Times: factor("1")}, {Sold: n, Times: factor("2")}}
		return e
	}
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"entries", audit(heron(true, sold(11, a3), edition.Entry{Proof: 3, State: edition.Kept, Product: a3}, sold(1, ""), sold(1, "heron-a4"), edition.Entry{State: edition.Sold, Product: a3},
			edition.Entry{Number: 1, Proof: 1, State: edition.Sold, Product: a3}, edition.Entry{Number: 1, State: "solt", Product: a3}, edition.Entry{Number: 1, Product: a3},
			edition.Entry{Number: 1, State: edition.Reserved, Product: a3}, sold(1, a3), edition.Entry{Proof: 2, State: edition.Reserved, Product: a3})).Err(), `fault ledger[0].number: found 11, wanted a number from 1 to 10 [no_such_number]
fault ledger[1].proof: found 3, wanted a proof from 1 to 2 [no_such_proof]
fault ledger[2].product: found nothing, wanted the product whose number it is [unclear_product]
fault ledger[3].product: found "heron-a4", wanted one of the products of the edition; did you mean heron-a3? [product_not_of_edition]
fault ledger[4].number: found nothing, wanted the field number or proof [missing_field]
fault ledger[5].proof: found proof beside number, wanted one of them [rival_fields]
fault ledger[6].state: found "solt", wanted one of sold, reserved, destroyed, kept; did you mean sold? [unknown_word]
fault ledger[7].state: found nothing, wanted the field state [missing_field]
warning ledger[8]: number 1 is reserved, and the ledger does not say for whom; write it down under to, or free the number [reserved_for_nobody]
fault ledger[9].number: found number 1 of "heron-a3", sold here and reserved in ledger[8], wanted one entry for each; keep the one that holds, or correct the number [number_twice]
warning ledger[10]: proof 2 is reserved, and the ledger does not say for whom; write it down under to, or free the number [reserved_for_nobody]`},
		{"more than there are", audit(edition.Edition{ID: "rail", Products: []string{"rail-a5"}, Size: 1, Ledger: []edition.Entry{sold(1, ""), sold(1, "")}}).Err(), `fault ledger[1].number: found number 1, sold here and sold in ledger[0], wanted one entry for each; keep the one that holds, or correct the number [number_twice]
fault ledger: found 2 entries of numbers sold, wanted at most the size of 1 [sold_above_size]`},
		{"a step too late", told(audit(from(8))), `warning steps[1].sold: a step from 8 sold is not reached: at most 8 of "heron-a3" can sell; begin the step earlier, or take it out [step_unreached]`},
		{"a step at the last", told(audit(from(7))), ""},
		{"a step from 1", told(audit(from(1))), ""},
		{"a thousand and more", last(audit(many)), `fault ledger[999].product: found "rail-a6", wanted one of the products of the edition; did you mean rail-a5? [product_not_of_edition]
fault ledger: found more than 1000 of these; mend the ones above first [more_problems]`},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}

// told is problems as an error, whatever they mean.
func told(ps quoin.Problems) error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

func TestCheckTold(t *testing.T) {
	e := bittern()
	e.Products, e.Proofs, e.Sold = []string{"a", "a"}, 9, 99
	e.Steps[0].Sold, e.Steps[1].Sold, e.Steps[2].Sold = 1, 1, 50
	rival, unclear := bittern(), bittern()
	rival.Sold, rival.Ledger = 1, []edition.Entry{{Number: 1, State: edition.Sold}}
	unclear.Sold, unclear.Each, unclear.Products = 1, true, []string{"a", "b"}
	for _, c := range []struct {
		e    edition.Edition
		want string
	}{
		{e, `fault products[1]: found "a" again, wanted each product once, and it is products[0] [duplicate_id]
fault proofs: found 9, wanted at most 5, 10% of 50 [too_many_proofs]
fault sold: found 99, wanted at most the size of 50 [sold_above_size]
fault steps[0].sold: found 1, wanted the first step from 0 sold on [bad_edition_steps]
fault steps[1].sold: found 1, wanted more than the 1 of the step before [bad_edition_steps]
fault steps[2].sold: found 50, wanted less than the size of 50, so that something is left to sell [bad_edition_steps]`},
		{rival, "fault ledger: found ledger beside sold, wanted one of them [rival_fields]"},
		{unclear, "fault sold: found 1 of 2 numberings, wanted a ledger, which says of which product each is [unclear_sold]"},
	} {
		if got := problemtest.Told(c.e.Check()); got != c.want {
			t.Errorf("%s\nwant\n%s", got, c.want)
		}
	}
}

// How tallies are written, and which numbering is a product's.
func TestTallies(t *testing.T) {
	e := heron(true, edition.Entry{Number: 1, State: edition.Sold, Product: "heron-a5"}, edition.Entry{Number: 3, State: edition.Sold, Product: "heron-a5"})
	numberings, _ := e.Audit()
	text, err := json.Marshal(numberings[1].Numbers)
	if want := `{"of":10,"sold":2,"free":8,"free_numbers":["2","4–10"]}`; err != nil || string(text) != want {
		t.Errorf("%s, %v, want %s", text, err, want)
	}
	for product, want := range map[string]int64{"heron-a3": 10, "heron-a5": 8} {
		if n, ok := edition.NumberingOf(numberings, product); !ok || n.Product != product || n.Numbers.Free != want {
			t.Errorf("%s has %v, %t", product, n, ok)
		}
	}
	if n, ok := edition.NumberingOf(numberings, "heron-a4"); ok || n.Product != "" {
		t.Errorf("a numbering of what is none: %v", n)
	}
	one, _ := heron(false).Audit()
	if n, ok := edition.NumberingOf(one, "heron-a4"); !ok || n.Numbers.Of != 10 {
		t.Errorf("one for all: %v, %t", n, ok)
	}
	// What was sold without a ledger, kept within what there is; which numbers they had is not known.
	for sold, want := range map[int64]string{0: `{"of":10,"sold":0,"free":10,"free_numbers":["1–10"]}`, 1: `{"of":10,"sold":1,"free":9}`, 11: `{"of":10,"sold":10,"free":0}`} {
		e := heron(false)
		e.Sold = sold
		n, _ := e.Audit()
		if text, err := json.Marshal(n[0].Numbers); err != nil || string(text) != want {
			t.Errorf("%d sold: %s, %v, want %s", sold, text, err, want)
		}
	}
}
