package margin_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/waste"
)

const (
	managerial23  = "OpenStax Principles of Accounting vol. 2, Managerial, 2.3"
	managerial44  = "OpenStax Principles of Accounting vol. 2, Managerial, 4.4"
	managerial45  = "OpenStax Principles of Accounting vol. 2, Managerial, 4.5"
	managerial61  = "OpenStax Principles of Accounting vol. 2, Managerial, 6.1"
	managerial63  = "OpenStax Principles of Accounting vol. 2, Managerial, 6.3"
	managerial102 = "OpenStax Principles of Accounting vol. 2, Managerial, 10.2"
)

// goodsOfRun costs one of so many units that share a fixed cost as a run's
// set-up and take a variable cost each.
func goodsOfRun(t *testing.T, fixed, variable string, units int64) margin.Goods {
	t.Helper()
	costs, err := cost.UnitCosts([]cost.Supply{
		{ID: "stuff", Quantity: quoin.MustQuantity("1 set"), Price: quoin.MustAmount(variable)},
	})
	if err != nil {
		t.Fatal(err)
	}
	goods, err := margin.Recipe{
		Costs: costs,
		Bill:  cost.Bill{{Supply: "stuff", Quantity: quoin.MustQuantity("1 set")}},
		Run:   cost.Run{Good: units, Setup: quoin.MustAmount(fixed)},
	}.Goods()
	if err != nil {
		t.Fatal(err)
	}
	return goods
}

func TestPublishedTotalCosts(t *testing.T) {
	for _, c := range []struct {
		fixed, variable string
		units           int64
		total           string
		source          string
	}{
		{"125000", "70", 5000, "475000", managerial23},
		{"125000", "70", 8000, "685000", managerial23},
		{"125000", "70", 12000, "965000", managerial23},
		{"3000", "350", 25, "11750", managerial23},
		{"3200", "100", 93, "12500", managerial23},
		{"27000", "102", 1500, "180000", managerial23},
		{"27000", "102", 2000, "231000", managerial23},
		{"27000", "102", 2500, "282000", managerial23},
		{"44920", "1.96", 20000, "84120", managerial23},
		{"44920", "1.96", 23000, "90000", managerial23},
		{"44920", "1.96", 10000, "64520", managerial23},
	} {
		got := goodsOfRun(t, c.fixed, c.variable, c.units).Order(c.units)
		if !got.Equal(quoin.MustAmount(c.total)) {
			t.Errorf("%s: %d units cost %s, want %s", c.source, c.units, got, c.total)
		}
	}
	// High and low: what a unit more costs, between the two ends.
	slope := quoin.MustAmount("90000").Sub(quoin.MustAmount("64520")).Over(quoin.FactorOf(23000 - 10000))
	if !slope.Equal(quoin.MustAmount("1.96")) {
		t.Errorf("%s: a unit more costs %s, want 1.96", managerial23, slope)
	}
}

// A special order of 800 units at 1,800, which cost 1,650 each, and then also
// 160,000 once.
func TestPublishedSpecialOrder(t *testing.T) {
	for _, c := range []struct{ extra, floor, left string }{
		{"0", "1650", "150"},
		{"160000", "1850", "-50"},
	} {
		sale := margin.NewSale(channel.Channel{}.Terms(publishedIn), goodsOfRun(t, c.extra, "1650", 800))
		if got := sale.GoodsPerItem(); !got.Equal(quoin.MustAmount(c.floor)) {
			t.Errorf("%s: with %s extra a unit costs %s, want %s", managerial102, c.extra, got, c.floor)
		}
		if got := sale.At(quoin.MustAmount("1800")).Contribution; !got.Equal(quoin.MustAmount(c.left)) {
			t.Errorf("%s: with %s extra a unit leaves %s, want %s", managerial102, c.extra, got, c.left)
		}
	}
}

// A printed sign: materials, labour, and overhead at 2.50 for each unit of
// money paid for labour, taken here as a run's set-up.
func TestPublishedJobCost(t *testing.T) {
	bill, labour := cost.Bill{}, quoin.Amount{}
	supplies := []cost.Supply{}
	for _, l := range []struct{ supply, one, quantity string }{
		{"vinyl", "300", "1 piece"},
		{"black-ink", "50", "2 piece"},
		{"red-ink", "60", "1 piece"},
		{"gold-ink", "60", "1 piece"},
		{"grommets", "10", "12 piece"},
		{"wood", "1.50", "40 piece"},
	} {
		supplies = append(supplies, cost.Supply{ID: l.supply, Quantity: quoin.MustQuantity("1 piece"), Price: quoin.MustAmount(l.one)})
		bill = append(bill, cost.BillLine{Supply: l.supply, Quantity: quoin.MustQuantity(l.quantity)})
	}
	costs, err := cost.UnitCosts(supplies)
	if err != nil {
		t.Fatal(err)
	}
	charges, err := bill.Charges(costs, waste.Route{}.Starts, cost.Run{})
	if err != nil {
		t.Fatal(err)
	}
	materials := cost.PerItem(charges)
	for _, hours := range []struct{ rate, number string }{{"15", "1"}, {"15", "1"}, {"18", "2"}} {
		labour = labour.Add(quoin.MustAmount(hours.rate).Times(quoin.MustFactor(hours.number)))
	}
	overhead := labour.Times(quoin.MustFactor("2.50"))
	recipe := margin.Recipe{Costs: costs, Bill: bill, Run: cost.Run{Good: 1, Setup: labour.Add(overhead)}}
	goods, err := recipe.Goods()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what string
		got  quoin.Amount
		want string
	}{
		{"materials", materials, "700"},
		{"labour", labour, "66"},
		{"overhead", overhead, "165"},
		{"the job", goods.Order(1), "931"},
	} {
		if !c.got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: %s cost %s, want %s", managerial45, c.what, c.got, c.want)
		}
	}
}

// A recurring cost spread over what drives it.
func TestPublishedOverheadRates(t *testing.T) {
	for _, c := range []struct{ cost, drivers, rate, source string }{
		{"250000", "100000", "2.50", managerial44 + ", labour money"},
		{"2500000", "1250000", "2.00", managerial61 + ", labour hours"},
		{"700000", "140000", "5", managerial61 + ", units"},
		{"800000", "100000", "8", managerial61 + ", units"},
		{"1000000", "250000", "4", managerial61 + ", units"},
		{"200000", "5000", "40", managerial63 + ", set-ups"},
		{"500000", "10000", "50", managerial63 + ", requisitions"},
		{"300000", "20000", "15", managerial63 + ", inspections"},
		{"600000", "30000", "20", managerial63 + ", parts"},
		{"900000", "150000", "6", managerial63 + ", machine hours"},
		{"1260000", "140000", "9.00", managerial63 + ", units"},
		{"815000", "100000", "8.15", managerial63 + ", units"},
		{"425000", "250000", "1.70", managerial63 + ", units"},
	} {
		got, err := channel.FixedCost{Cost: quoin.MustAmount(c.cost), Items: quoin.MustFactor(c.drivers)}.PerItem()
		if err != nil || !got.Equal(quoin.MustAmount(c.rate)) {
			t.Errorf("%s: %s over %s is %s, %v, want %s", c.source, c.cost, c.drivers, got, err, c.rate)
		}
	}
}

// What activities cost a product: its use of each driver at the rate of each.
func TestPublishedActivityCosts(t *testing.T) {
	const rates = "40 50 15 20 6" // set-up, requisition, inspection, part, machine hour
	for _, c := range []struct{ use, want string }{
		{"2000 5000 10000 15000 80000", "1260000"},
		{"1500 4000 9000 3000 60000", "815000"},
		{"1500 1000 1000 12000 10000", "425000"},
	} {
		if got := composite(c.use, rates); !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: a use of %s costs %s, want %s", managerial63, c.use, got, c.want)
		}
	}
}

func TestPublishedGrossProfits(t *testing.T) {
	for _, c := range []struct{ price, unit, gross, source string }{
		{"20", "18.50", "1.50", managerial61},
		{"25", "16.75", "8.25", managerial61},
		{"30", "20.00", "10.00", managerial61},
		{"20", "22.50", "-2.50", managerial63},
		{"25", "16.90", "8.10", managerial63},
		{"30", "17.70", "12.30", managerial63},
	} {
		if got := plainSale(c.unit).At(quoin.MustAmount(c.price)).Gross; !got.Equal(quoin.MustAmount(c.gross)) {
			t.Errorf("%s: %s at %s leaves %s, want %s", c.source, c.unit, c.price, got, c.gross)
		}
	}
}
