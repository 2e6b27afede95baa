package waste_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// Every wanted value in this file was published by the source beside it.

func TestPublishedStarts(t *testing.T) {
	for _, c := range []struct {
		good, started string // the yield is good of started
		wanted        string
		places        int
		starts        string
		source        string
	}{
		{"90", "100", "3.6", 1, "4.0", "a food-yield textbook: 3.6 kg at 90%"},
		{"90", "100", "900", 0, "1000", "ACCA F2 workbook, process costing: normal loss of 10% of the input"},
		{"500", "516", "500", 0, "516", "Babbage, On the Economy of Machinery and Manufactures (1846) §387: a printer's ream of 21½ quires of 24"},
		{"85", "100", "1", 5, "1.17647", "common practice: 15% of what is started is lost"},
	} {
		route := waste.Route{{ID: "make", Yield: quoin.MustAmount(c.good).Share(quoin.MustAmount(c.started))}}
		per, ok := route.Starts("make")
		if !ok {
			t.Fatal("a stage is not on its own route")
		}
		got := per.Times(quoin.MustFactor(c.wanted)).Round(c.places, quoin.HalfUp)
		if !got.Equal(quoin.MustFactor(c.starts)) {
			t.Errorf("%s: %s good take %s starts, want %s", c.source, c.wanted, got, c.starts)
		}
	}
}

// Babbage, On the Economy of Machinery and Manufactures (1846) §387: the
// allowance in a printer's ream, here as overs on top of what is wanted.
func TestPublishedOvers(t *testing.T) {
	sheets := quoin.FactorOf(24).Times(quoin.MustFactor("21.5"))
	if !sheets.Equal(quoin.FactorOf(516)) {
		t.Errorf("a printer's ream is %s sheets, want 516", sheets)
	}
	over := quoin.AmountOf(16, 0).Share(quoin.AmountOf(500, 0))
	if got := over.Round(0).String(); got != "3%" {
		t.Errorf("16 over 500 is %s, want 3%%", got)
	}
	a := waste.Allowance{Contingency: over}
	if got := a.Apply(quoin.AmountOf(500, 0)); !got.Equal(quoin.AmountOf(516, 0)) {
		t.Errorf("500 with the allowance on top come to %s, want 516", got)
	}
}

// ACCA F2 workbook, process costing: 1,000 kg put in at 18 each, with 1,800 of
// labour and 900 of overhead, and a normal loss of 10%.
func TestPublishedNormalLoss(t *testing.T) {
	amount, kg := quoin.MustAmount, quoin.FactorOf
	input := amount("18").Times(kg(1000)).Add(amount("1800")).Add(amount("900"))
	if !input.Equal(amount("20700")) {
		t.Errorf("put in for %s, want 20700", input)
	}
	for _, c := range []struct {
		scrap   string // what a lost kg brings
		perGood string
		total   string // of the 900 kg expected, net of scrap
	}{
		{"0", "23", "20700"},
		{"1.80", "22.80", "20520"},
	} {
		perGood := normalLoss(t, input, amount(c.scrap))
		if !perGood.Equal(amount(c.perGood)) {
			t.Errorf("scrap at %s: a good kg costs %s, want %s", c.scrap, perGood, c.perGood)
		}
		if got := perGood.Times(kg(900)); !got.Equal(amount(c.total)) {
			t.Errorf("scrap at %s: all good ones cost %s, want %s", c.scrap, got, c.total)
		}
	}
	// An output of 950 is 50 above what was expected.
	if got := normalLoss(t, input, amount("1.80")).Times(kg(50)); !got.Equal(amount("1140")) {
		t.Errorf("the abnormal gain is worth %s, want 1140", got)
	}
}

// normalLoss returns what a good kg costs of 1,000 put in for so much.
func normalLoss(t *testing.T, input, scrap quoin.Amount) quoin.Amount {
	t.Helper()
	route := waste.Route{{ID: "process", Yield: quoin.MustRate("90%"), Recovery: scrap}}
	starts, ok := route.Starts("process")
	if !ok {
		t.Fatal("a stage is not on its own route")
	}
	return input.Over(quoin.FactorOf(1000)).Times(starts).Sub(route.Recovered())
}
