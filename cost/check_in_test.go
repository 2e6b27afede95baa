package cost_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/problemtest"
)

// shelf is a document with three supplies and one stage; the unit of one is not known.
type shelf struct{ found *form.Collector }

func (s shelf) Supply(id string) (quoin.Unit, bool) {
	unit, ok := map[string]quoin.Unit{"paper": "sheet", "ink": "ml", "moulding": ""}[id]
	return unit, ok
}

func (s shelf) Stage(id string) bool { return id == "print" }

func (s shelf) Unknown(at *form.Path, list, id string) {
	s.found.Fault(at, quoin.UnknownID, id, "one of "+list, "")
}

// All that contradicts itself in a bill, each where it stands.
func TestBillCheckedIn(t *testing.T) {
	good := cost.BillLine{Supply: "paper", Quantity: quantity("1 sheet"), Stage: "print"}
	with := func(change func(*cost.BillLine)) cost.BillLine {
		l := good
		change(&l)
		return l
	}
	var k form.Collector
	bill := cost.Bill{
		good,
		with(func(l *cost.BillLine) { l.Supply = "papr" }),
		with(func(l *cost.BillLine) { l.Stage = "dry" }),
		with(func(l *cost.BillLine) { l.Stage = "" }),
		with(func(l *cost.BillLine) { l.Supply, l.Stage = "", "" }), // said elsewhere
		with(func(l *cost.BillLine) { l.Quantity = quoin.Quantity{} }),
		with(func(l *cost.BillLine) { l.Quantity, l.Cut = quoin.Quantity{}, &cut.Cut{} }),
		with(func(l *cost.BillLine) { l.Quantity = quantity("1 ml") }),
		with(func(l *cost.BillLine) { l.Supply, l.Quantity = "moulding", quantity("1 ml") }), // by a unit nobody knows
		with(func(l *cost.BillLine) { l.Stage, l.Per = "", cost.EachRun }),
		with(func(l *cost.BillLine) { l.Stage, l.Per = "", cost.EachDesign }),
		with(func(l *cost.BillLine) { l.SharedBy = factor("2") }),
	}
	bill.CheckIn(&k, form.In("bill"), cost.Run{}, shelf{&k})
	const want = `fault bill[1].supply: found papr, wanted one of supplies [unknown_id]
fault bill[2].stage: found dry, wanted one of stages [unknown_id]
fault bill[5].quantity: found nothing, wanted the field quantity [missing_field]
fault bill[7].quantity: found "1 ml", wanted a quantity in sheet; "paper" is bought by the sheet [unit_mismatch]
fault bill[9].per: found a line per run, wanted a run of the product, with its good prints [missing_run]
fault bill[10].shared_by: found a line per design, wanted the number of prints that share it [missing_shared_by]
fault bill[11].shared_by: found 2, wanted no number that shares a line per item [stray_shared_by]`
	if got := problemtest.Full(k.All()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// What is worked out is checked where it stands.
func TestWorkedOutQuantitiesCheckedIn(t *testing.T) {
	for field, l := range map[string]cost.BillLine{
		"cut": {Cut: &cut.Cut{}}, "ink": {Ink: &ink.Use{}}, "moulding": {Moulding: &frame.Moulding{}},
		"width_plus_height": {WidthPlusHeight: &frame.United{}}, "area": {Area: cut.Image}, "quantity": {},
	} {
		l.Supply, l.Quantity = "ink", quantity("1 m2")
		var k form.Collector
		cost.Bill{l}.CheckIn(&k, form.In("bill"), cost.Run{}, shelf{&k})
		want := "unit_mismatch bill[0]." + field
		if got := problemtest.Listed(k.All()); got != want {
			t.Errorf("%s: %s, want %s", field, got, want)
		}
		if l.Follows() != (field != "quantity") {
			t.Errorf("%s: the quantity follows %t", field, l.Follows())
		}
		l.Quantity = quoin.Quantity{}
		k = form.Collector{}
		cost.Bill{l}.CheckIn(&k, form.In("bill"), cost.Run{}, shelf{&k})
		if got := problemtest.Listed(k.All()); (got != "") != (field == "quantity") {
			t.Errorf("%s not worked out yet: %s", field, got)
		}
	}
}

// Where something has been said of a field, nothing more is.
func TestBillCheckedInOnce(t *testing.T) {
	for _, said := range []string{"shared_by", "per", "quantity"} {
		var k form.Collector
		k.Add(form.In("bill").At(1).Field(said), quoin.Problem{Code: quoin.OutOfRange})
		cost.Bill{{}, {Supply: "paper", Quantity: quantity("1 ml"), Per: cost.EachDesign}}.CheckIn(&k, form.In("bill"), cost.Run{}, shelf{&k})
		want := map[string]string{
			"shared_by": "out_of_range bill[1].shared_by, unit_mismatch bill[1].quantity",
			"per":       "out_of_range bill[1].per, unit_mismatch bill[1].quantity",
			"quantity":  "out_of_range bill[1].quantity, missing_shared_by bill[1].shared_by",
		}[said]
		if got := problemtest.Listed(k.All()); got != want {
			t.Errorf("%s: %s, want %s", said, got, want)
		}
	}
	// What is said of one line is not said of another.
	var k form.Collector
	k.Add(form.In("bill").At(0).Field("shared_by"), quoin.Problem{Code: quoin.OutOfRange})
	cost.Bill{{}, {Supply: "paper", Quantity: quantity("1 sheet"), Per: cost.EachRun, SharedBy: factor("2")}}.CheckIn(&k, form.In("bill"), cost.Run{}, shelf{&k})
	if got, want := problemtest.Listed(k.All()), "out_of_range bill[0].shared_by, missing_run bill[1].per, stray_shared_by bill[1].shared_by"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A supply checked by itself says what UnitCost does, unless its price is worked out elsewhere.
func TestSupplyCheck(t *testing.T) {
	tooMuchOff := cost.Supply{ID: "glue", Quantity: quantity("5 ml"), Price: amount("5"), Discount: amount("6")}
	const all = "negative_cost discount"
	if got := problemtest.Listed(tooMuchOff.Check()); got != all {
		t.Errorf("%s, want %s", got, all)
	}
	offer, stock, yearly := tooMuchOff, tooMuchOff, tooMuchOff
	offer.Offer, stock.Stock, yearly.Yearly = &buy.Offer{}, &buy.Stock{}, &cost.Yearly{Spent: amount("5"), Printed: quantity("5 prints")}
	for name, s := range map[string]cost.Supply{"offer": offer, "stock": stock, "yearly": yearly} {
		var k form.Collector
		k.AddAll(nil, s.Check())
		for _, p := range k.Problems {
			if p.Code == cost.NegativeCost {
				t.Errorf("%s: %s", name, p)
			}
		}
	}
	// An offer, a stock and a year are no unit cost yet: UnitCosts says so where they stand.
	s := cost.Supply{ID: "glue", Yearly: yearly.Yearly}
	costs, err := cost.UnitCosts([]cost.Supply{{ID: "ink", Quantity: quantity("1 ml"), Price: amount("1")}, s})
	if got, want := problemtest.Full(err), `fault supplies[1].quantity: found 0, wanted a quantity above zero, with its unit [out_of_range]`; got != want || costs != nil {
		t.Errorf("%v, %s, want %s", costs, got, want)
	}
}

func TestSupplyAsJSON(t *testing.T) {
	yearly := &cost.Yearly{Spent: amount("380.00"), Printed: quantity("900 prints")}
	for _, c := range []struct {
		supply cost.Supply
		price  string // as it is written, empty where it is not
	}{
		{cost.Supply{Yearly: yearly}, ""},
		{cost.Supply{Offer: &buy.Offer{}}, ""},
		{cost.Supply{Stock: &buy.Stock{}}, ""},
		{cost.Supply{}, `"price":"0"`}, // a gift
		{cost.Supply{Price: amount("2.50")}, `"price":"2.50"`},
	} {
		got, err := json.Marshal(c.supply)
		if err != nil || c.price == "" && strings.Contains(string(got), "price") || !strings.Contains(string(got), c.price) {
			t.Errorf("%s, %v, want %s", got, err, c.price)
		}
	}
	var l cost.Labour
	for _, word := range []cost.Labour{cost.OwnTime, cost.PaidTime} {
		if err := l.UnmarshalText([]byte(word)); err != nil || l != word {
			t.Errorf("%s is read as %s, %v", word, l, err)
		}
	}
}

func TestRunIsZero(t *testing.T) {
	if !(cost.Run{}).IsZero() {
		t.Error("the zero run is none")
	}
	for what, r := range map[string]cost.Run{
		"good": {Good: 1}, "tests": {Tests: 1}, "set-up": {Setup: amount("0")}, "certainty": {Certainty: quoin.MustRate("90%")},
		"from": {SetupRange: quoin.Range[quoin.Amount]{Low: amount("1")}}, "to": {SetupRange: quoin.Range[quoin.Amount]{High: amount("1")}},
	} {
		if r.IsZero() {
			t.Errorf("a run with %s is none", what)
		}
	}
}
