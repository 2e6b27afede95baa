package cost_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/problemtest"
)

func amount(s string) quoin.Amount     { return quoin.MustAmount(s) }
func quantity(s string) quoin.Quantity { return quoin.MustQuantity(s) }
func factor(s string) quoin.Factor     { return quoin.MustFactor(s) }

func codeOf(err error) quoin.Code {
	p := problemtest.Only(err)
	return p.Code
}

func TestLandedUnitCost(t *testing.T) {
	for _, c := range []struct {
		what                                     string
		quantity, price, discount, freight, duty string
		exchange                                 string // not given where empty
		landed, unit                             string
	}{
		{"price alone", "80 ml", "46.00", "0", "0", "0", "", "46.00", "0.575"},
		{"a gift", "30 sheet", "0", "0", "0", "0", "", "0", "0"},
		{"a gift that was sent", "30 sheet", "0", "0", "4.50", "0", "", "4.50", "0.15"},
		{"with freight", "50 sheet", "62.00", "0", "6.90", "0", "", "68.90", "1.378"},
		{"with duty", "50 sheet", "62.00", "0", "0", "3.10", "", "65.10", "1.302"},
		{"with a discount", "50 sheet", "62.00", "12.00", "0", "0", "", "50.00", "1"},
		{"with all of them", "50 sheet", "62.00", "12.00", "7.00", "3.00", "", "60.00", "1.2"},
		{"all of it exchanged", "50 sheet", "62.00", "12.00", "7.00", "3.00", "1.25", "75.00", "1.5"},
		{"exchanged at 1", "50 sheet", "62.00", "0", "0", "0", "1", "62.00", "1.24"},
		{"a discount of everything", "5 tube", "20.00", "22.00", "1.50", "0.50", "1.1", "0", "0"},
		{"less than one", "0.25 sheet", "1.00", "0", "0", "0", "", "1.00", "4"},
		{"a third", "3 roll", "20.00", "0", "0", "0", "", "20.00", "6.666666666667"},
		{"hundredths of a cent", "5000 sheet", "0.01", "0", "0", "0", "", "0.01", "0.000002"},
	} {
		s := cost.Supply{
			ID: "it", Quantity: quantity(c.quantity), Price: amount(c.price), Discount: amount(c.discount),
			Freight: amount(c.freight), Duty: amount(c.duty),
		}
		if c.exchange != "" {
			s.Exchange = factor(c.exchange)
		}
		if got := s.Landed(); !got.Equal(amount(c.landed)) {
			t.Errorf("%s: landed for %s, want %s", c.what, got, c.landed)
		}
		u, err := s.UnitCost()
		if err != nil || !u.Amount.Ratio(amount("1")).Equal(factor(c.unit)) || u.Unit != s.Quantity.Unit() {
			t.Errorf("%s: one %s costs %s, %v, want %s", c.what, u.Unit, u.Amount, err, c.unit)
		}
	}
}

func TestSuppliesRefused(t *testing.T) {
	for what, c := range map[string]struct {
		supply cost.Supply
		code   quoin.Code
		path   string
		among  quoin.Code // of UnitCosts, which says it as a document does
	}{
		"nothing bought":          {cost.Supply{Quantity: quantity("0 sheet"), Price: amount("5")}, quoin.OutOfRange, "quantity", quoin.OutOfRange},
		"no quantity":             {cost.Supply{Price: amount("5")}, quoin.OutOfRange, "quantity", quoin.MissingField},
		"less than nothing":       {cost.Supply{Quantity: quantity("-1 sheet"), Price: amount("5")}, quoin.OutOfRange, "quantity", quoin.OutOfRange},
		"more off than it costs":  {cost.Supply{Quantity: quantity("5 sheet"), Price: amount("5"), Discount: amount("5.01")}, cost.NegativeCost, "discount", cost.NegativeCost},
		"more off, and exchanged": {cost.Supply{Quantity: quantity("5 sheet"), Price: amount("5"), Discount: amount("6"), Duty: amount("0.99"), Exchange: factor("0.5")}, cost.NegativeCost, "discount", cost.NegativeCost},
	} {
		u, err := c.supply.UnitCost()
		p := problemtest.Only(err)
		if p.Code != c.code || p.Path != c.path || p.Severity != quoin.Fault || !cmp.Equal(u, cost.UnitCost{}) {
			t.Errorf("%s: %s, %v, want %s at %s", what, u.Amount, err, c.code, c.path)
		}
		good := cost.Supply{ID: "good", Quantity: quantity("1 sheet"), Price: amount("1")}
		c.supply.ID = "other"
		costs, err := cost.UnitCosts([]cost.Supply{good, c.supply})
		var ps quoin.Problems
		if !errors.As(err, &ps) || len(ps) != 1 || ps[0].Code != c.among || ps[0].Path != "supplies[1]."+c.path || costs != nil {
			t.Errorf("%s among others: %v, %v, want %s", what, costs, err, c.among)
		}
	}
}

// What UnitCosts finds beside what a supply costs by itself, all at once.
func TestUnitCostsRefuses(t *testing.T) {
	one := func(id string) cost.Supply {
		return cost.Supply{ID: id, Quantity: quantity("50 sheet"), Price: amount("60.00")}
	}
	free, unpriced, misspelt := one("offcuts"), one("glue"), one("time")
	free.Price, unpriced.Price, misspelt.Labour = amount("0"), quoin.Amount{}, "mine"
	costs, err := cost.UnitCosts([]cost.Supply{one("paper"), one("paper"), unpriced, misspelt, free})
	var ps quoin.Problems
	if !errors.As(err, &ps) || costs != nil {
		t.Fatalf("%v, %v", costs, err)
	}
	var got []string
	for _, p := range ps {
		got = append(got, p.Path+" "+string(p.Code))
	}
	want := []string{"supplies[1].id duplicate_id", "supplies[2].price missing_field", "supplies[3].labour unknown_word"}
	if !cmp.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if costs, err := cost.UnitCosts([]cost.Supply{free}); err != nil || !costs["offcuts"].Amount.IsZero() {
		t.Errorf("what costs nothing, and says so: %v, %v", costs, err)
	}
}

// Round figures, to be added up in the head: a sheet 1.20, a gram 0.05, a
// minute 0.30, a mailer 0.80.
func someCosts(t *testing.T) map[string]cost.UnitCost {
	t.Helper()
	costs, err := cost.UnitCosts([]cost.Supply{
		{ID: "paper", Quantity: quantity("50 sheet"), Price: amount("60.00")},
		{ID: "ink", Quantity: quantity("1 kg"), Price: amount("50.00")},
		{ID: "time", Quantity: quantity("1 h"), Price: amount("18.00")},
		{ID: "mailer", Quantity: quantity("25 mailer"), Price: amount("20.00")},
	})
	if err != nil || len(costs) != 4 {
		t.Fatal(costs, err)
	}
	return costs
}

// twoStages are printing, which takes 1.25 starts for a good one, and drying.
func twoStages(stage string) (quoin.Factor, bool) {
	starts, ok := map[string]string{"print": "1.25", "dry": "1.0"}[stage]
	if !ok {
		return quoin.Factor{}, false
	}
	return factor(starts), true
}

var someBill = cost.Bill{
	{Supply: "paper", Quantity: quantity("0.5 sheet"), Stage: "print"},
	{Supply: "ink", Quantity: quantity("4 g"), Stage: "print", Per: cost.EachItem},
	{Supply: "time", Quantity: quantity("2 min"), Stage: "dry"},
	{Supply: "paper", Quantity: quantity("0.1 sheet")},
	{Supply: "mailer", Quantity: quantity("1 mailer"), Per: cost.EachOrder},
	{Supply: "time", Quantity: quantity("90 s"), Stage: "dry", Per: cost.EachOrder},
}

func TestCharges(t *testing.T) {
	charges, err := someBill.Charges(someCosts(t), twoStages, cost.Run{})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct{ number, starts, amount string }{
		{"0.5", "1.25", "0.75"},         // 0.5 × 1.20 × 1.25
		{"0.004", "1.25", "0.25"},       // 4 × 0.05 × 1.25
		{"0.033333333333", "1", "0.60"}, // 2 × 0.30; a thirtieth of an hour
		{"0.1", "1", "0.12"},
		{"1", "1", "0.80"},
		{"0.025", "1", "0.45"}, // 1.5 × 0.30
	} {
		c := charges[i]
		if !c.Number.Equal(factor(want.number)) || !c.Times.Equal(factor(want.starts)) || !c.Amount.Equal(amount(want.amount)) {
			t.Errorf("line %d: %s with %s starts cost %s, want %+v", i, c.Number, c.Times, c.Amount, want)
		}
		if !cmp.Equal(*c.Line, someBill[i]) || !cmp.Equal(c.Unit, someCosts(t)[c.Line.Supply]) {
			t.Errorf("line %d is charged as %v", i, c.Line)
		}
	}
	if got := cost.PerItem(charges); !got.Equal(amount("1.72")) {
		t.Errorf("an item costs %s, want 1.72", got)
	}
	if got := cost.PerOrder(charges); !got.Equal(amount("1.25")) {
		t.Errorf("an order costs %s, want 1.25", got)
	}
}

func TestLinesSayWhatCountsThem(t *testing.T) {
	for _, c := range []struct {
		line               cost.BillLine
		order, test, plain bool // counted by the order, used by a test of "print", of no stage
	}{
		{cost.BillLine{}, false, false, true},
		{cost.BillLine{Per: cost.EachItem}, false, false, true},
		{cost.BillLine{Stage: "print"}, false, true, false},
		{cost.BillLine{Stage: "dry"}, false, false, false},
		{cost.BillLine{Stage: "print", Per: cost.EachOrder}, true, false, false},
		{cost.BillLine{Per: cost.EachOrder}, true, false, false},
	} {
		if c.line.ForOrder() != c.order || c.line.UsedByTest("print") != c.test || c.line.UsedByTest("") != c.plain {
			t.Errorf("%v: for an order %t, by a test %t, without stages %t", c.line, c.line.ForOrder(), c.line.UsedByTest("print"), c.line.UsedByTest(""))
		}
	}
}

func TestLinesRefused(t *testing.T) {
	for what, c := range map[string]struct {
		line cost.BillLine
		code quoin.Code
	}{
		"an unknown supply":     {cost.BillLine{Supply: "papr", Quantity: quantity("1 sheet")}, quoin.UnknownID},
		"an unknown stage":      {cost.BillLine{Supply: "paper", Quantity: quantity("1 sheet"), Stage: "cut"}, quoin.UnknownID},
		"another dimension":     {cost.BillLine{Supply: "ink", Quantity: quantity("4 ml")}, quoin.UnitMismatch},
		"another count":         {cost.BillLine{Supply: "paper", Quantity: quantity("1 mailer")}, quoin.UnitMismatch},
		"no quantity with unit": {cost.BillLine{Supply: "paper"}, quoin.UnitMismatch},
	} {
		charges, err := append(slices.Clone(someBill), c.line).Charges(someCosts(t), twoStages, cost.Run{})
		if codeOf(err) != c.code || charges != nil {
			t.Errorf("%s: %d charges, %v, want %s", what, len(charges), err, c.code)
		}
		if p := problemtest.Only(err); c.code == quoin.UnknownID && !strings.Contains(p.Error(), strings.TrimPrefix(what, "an unknown ")) {
			t.Errorf("%s: %s", what, p)
		}
	}
}

func TestRun(t *testing.T) {
	charges, err := someBill.Charges(someCosts(t), twoStages, cost.Run{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what  string
		run   cost.Run
		first string
		want  string
	}{
		{"no run", cost.Run{}, "print", "0"},
		{"no good ones", cost.Run{Tests: 2, Setup: amount("5")}, "print", "0"},
		{"nothing but good ones", cost.Run{Good: 20}, "print", "0"},
		{"set-up alone", cost.Run{Good: 20, Setup: amount("5.00")}, "print", "0.25"},
		{"tests of the first stage", cost.Run{Good: 20, Tests: 2}, "print", "0.08"},             // 2 × (0.60 + 0.20) ÷ 20
		{"both", cost.Run{Good: 20, Tests: 2, Setup: amount("5.00")}, "print", "0.33"},          // (1.60 + 5.00) ÷ 20
		{"tests of another stage", cost.Run{Good: 20, Tests: 2}, "dry", "0.06"},                 // 2 × 0.60 ÷ 20
		{"tests without stages", cost.Run{Good: 20, Tests: 2, Setup: amount("1")}, "", "0.062"}, // (2 × 0.12 + 1) ÷ 20
		{"a stage that uses nothing", cost.Run{Good: 20, Tests: 2, Setup: amount("1")}, "cut", "0.05"},
		{"one good one", cost.Run{Good: 1, Tests: 3}, "print", "2.40"},
	} {
		if got := c.run.PerItem(charges, c.first); !got.Equal(amount(c.want)) {
			t.Errorf("%s: %s for each good print, want %s", c.what, got, c.want)
		}
	}
	if got := cost.OneTest(charges, "print"); !got.Equal(amount("0.80")) {
		t.Errorf("a test uses up %s, want 0.80", got)
	}
}

func TestBillAsJSON(t *testing.T) {
	for _, c := range []struct {
		bill cost.Bill
		want string
	}{
		{nil, `[]`},
		{cost.Bill{}, `[]`},
		{someBill[1:2], `[{"supply":"ink","quantity":"4 g","stage":"print","per":"item"}]`},
		{someBill[3:5], `[{"supply":"paper","quantity":"0.1 sheet"},{"supply":"mailer","quantity":"1 mailer","per":"order"}]`},
	} {
		data, err := json.Marshal(c.bill)
		if err != nil || string(data) != c.want {
			t.Errorf("%v is written %s, %v, want %s", c.bill, data, err, c.want)
		}
		var back cost.Bill
		if err := json.Unmarshal(data, &back); err != nil || !cmp.Equal(append(cost.Bill{}, c.bill...), back) {
			t.Errorf("%s is read as %v, %v", data, back, err)
		}
	}
}

var units = [][]string{{"sheet"}, {"m", "cm", "mm", "in", "ft"}, {"m2", "cm2", "in2"}, {"l", "ml"}, {"kg", "g", "oz", "lb"}, {"h", "min", "s"}}

func drawSupply(t *rapid.T, unit string) cost.Supply {
	money := func(name string) quoin.Amount { return quoin.AmountOf(rapid.Int64Range(0, 1e6).Draw(t, name), 2) }
	s := cost.Supply{ID: "it", Price: money("price"), Freight: money("freight"), Duty: money("duty")}
	s.Discount = s.Price.Part(quoin.AmountOf(rapid.Int64Range(0, 100).Draw(t, "discount"), 2).Share(quoin.AmountOf(1, 0)))
	if rapid.Bool().Draw(t, "exchanged") {
		s.Exchange = quoin.FactorOf(rapid.Int64Range(1, 1e7).Draw(t, "exchange")).Times(factor("0.0001"))
	}
	s.Quantity = quantity("1 " + unit).Times(quoin.FactorOf(rapid.Int64Range(1, 1e6).Draw(t, "bought")).Times(factor("0.01")))
	return s
}

// All that was bought costs what it landed for, and law 5: whatever it is
// bought and used by, the same costs the same.
func TestUnitCostLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		same := rapid.SampledFrom(units).Draw(t, "dimension")
		unit := func(name string) string { return rapid.SampledFrom(same).Draw(t, name) }
		s := drawSupply(t, unit("bought by"))
		u, err := s.UnitCost()
		if err != nil {
			t.Fatal(err)
		}
		if all, err := u.Of(s.Quantity); err != nil || !all.Equal(s.Landed()) {
			t.Fatalf("%s landed for %s and costs %s, %v", s.Quantity, s.Landed(), all, err)
		}
		other := s
		if other.Quantity, err = s.Quantity.In(quoin.Unit(unit("bought by as well"))); err != nil {
			t.Fatal(err)
		}
		// Converted, it may have more digits than a document takes.
		converted, err := cost.Supply{ID: "other", Quantity: other.Quantity, Price: s.Landed()}.UnitCost()
		if err != nil {
			t.Fatal(err)
		}
		costs := map[string]cost.UnitCost{s.ID: u, "other": converted}
		used := quantity("1 " + unit("used by")).Times(quoin.FactorOf(rapid.Int64Range(0, 1e5).Draw(t, "used")).Times(factor("0.01")))
		usedToo, err := used.In(quoin.Unit(unit("used by as well")))
		if err != nil {
			t.Fatal(err)
		}
		charges, err := cost.Bill{
			{Supply: "it", Quantity: used}, {Supply: "other", Quantity: used}, {Supply: "it", Quantity: usedToo}, {Supply: "other", Quantity: usedToo},
		}.Charges(costs, twoStages, cost.Run{})
		if err != nil {
			t.Fatal(err)
		}
		part, err := used.Ratio(s.Quantity)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range charges {
			if want := s.Landed().Times(part); !c.Amount.Equal(want) {
				t.Fatalf("%s of %s for %s cost %s, want %s", c.Line.Quantity, s.Quantity, s.Landed(), c.Amount, want)
			}
		}
	})
}

// Items and orders together are all charges; a run's cost, times the good
// prints, is what was spent; and more good prints never cost more each.
func TestBillAndRunLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		costs := map[string]cost.UnitCost{}
		for _, id := range []string{"a", "b"} {
			u, err := drawSupply(t, "sheet").UnitCost()
			if err != nil {
				t.Fatal(err)
			}
			costs[id] = u
		}
		var bill cost.Bill
		for range rapid.IntRange(0, 5).Draw(t, "lines") {
			bill = append(bill, cost.BillLine{
				Supply: rapid.SampledFrom([]string{"a", "b"}).Draw(t, "supply"), Stage: rapid.SampledFrom([]string{"", "print", "dry"}).Draw(t, "stage"),
				Quantity: quantity("1 sheet").Times(quoin.FactorOf(rapid.Int64Range(0, 300).Draw(t, "quantity")).Times(factor("0.01"))),
				Per:      rapid.SampledFrom([]cost.Driver{"", cost.EachItem, cost.EachOrder}).Draw(t, "per"),
			})
		}
		charges, err := bill.Charges(costs, twoStages, cost.Run{})
		if err != nil {
			t.Fatal(err)
		}
		all, tested := quoin.Amount{}, quoin.Amount{}
		first := rapid.SampledFrom([]string{"", "print"}).Draw(t, "first")
		for i, c := range charges {
			all = all.Add(c.Amount)
			if bill[i].Stage == first && bill[i].Per != cost.EachOrder {
				tested = tested.Add(c.Amount.Over(c.Times))
			}
		}
		if got := cost.PerItem(charges).Add(cost.PerOrder(charges)); !got.Equal(all) {
			t.Fatalf("items and orders cost %s, all lines %s", got, all)
		}
		run := cost.Run{Good: rapid.Int64Range(1, 500).Draw(t, "good"), Tests: rapid.Int64Range(0, 9).Draw(t, "tests"), Setup: quoin.AmountOf(rapid.Int64Range(0, 1e5).Draw(t, "setup"), 2)}
		each := run.PerItem(charges, first)
		if spent := tested.Times(quoin.FactorOf(run.Tests)).Add(run.Setup); !each.Times(quoin.FactorOf(run.Good)).Equal(spent) {
			t.Fatalf("%d good prints at %s are not %s", run.Good, each, spent)
		}
		more := run
		more.Good++
		if more.PerItem(charges, first).Cmp(each) > 0 {
			t.Fatalf("a good print of %d costs %s, of %d %s", run.Good, each, more.Good, more.PerItem(charges, first))
		}
	})
}

// What is explained is what is computed, and the explanation can be followed.
func TestCostsAreExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSupply(t, "kg")
		u, err := s.UnitCost()
		if err != nil {
			t.Fatal(err)
		}
		line := cost.BillLine{Supply: "it", Quantity: quantity(rapid.SampledFrom([]string{"2 kg", "7 oz", "300 g"}).Draw(t, "used")), Stage: "print"}
		charges, err := cost.Bill{line}.Charges(map[string]cost.UnitCost{"it": u}, twoStages, cost.Run{})
		if err != nil {
			t.Fatal(err)
		}
		run := cost.Run{Good: rapid.Int64Range(1, 500).Draw(t, "good"), Tests: rapid.Int64Range(0, 9).Draw(t, "tests"), Setup: amount("3.50")}
		trail := quoin.NewTrail(8)
		unit := s.Explain(trail, quoin.InList("supplies", 0))
		starts := quoin.Given("starts", quoin.Path{}, factor("1.25").Figure())
		charged, used := charges[0].Explain(trail, quoin.InList("products", 0).Sub("bill", 0), unit, starts, quoin.Operand{})
		perItem := run.Explain(trail, quoin.InList("products", 0).Sub("run", -1), unit, used)
		for what, c := range map[string]struct {
			got  quoin.Operand
			want quoin.Amount
		}{
			"unit cost": {unit, u.Amount}, "line": {charged, charges[0].Amount}, "run": {perItem, run.PerItem(charges, "print")},
		} {
			if got, ok := c.got.Value.Amount(); !ok || !got.Equal(c.want) || c.got.Step == 0 {
				t.Fatalf("%s is explained as %s of step %d, computed as %s", what, c.got.Value, c.got.Step, c.want)
			}
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}
