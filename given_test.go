package quoin_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin"
)

// TestAZeroThatWasWritten is told from a field that was left out, wherever the 0
// comes from.
func TestAZeroThatWasWritten(t *testing.T) {
	price, rate, factor := quoin.MustAmount("17.50"), quoin.MustRate("7.4%"), quoin.MustFactor("3.5")
	sheets := quoin.MustQuantity("0.5 sheet")
	var read struct {
		Amount   quoin.Amount
		Rate     quoin.Rate
		Factor   quoin.Factor
		Quantity quoin.Quantity
		LeftOut  quoin.Amount
	}
	if err := json.Unmarshal([]byte(`{"Amount": 0, "Rate": "0%", "Factor": "0.0", "Quantity": "0 sheet"}`), &read); err != nil {
		t.Fatal(err)
	}
	var scanned quoin.Amount
	if err := scanned.Scan(int64(0)); err != nil {
		t.Fatal(err)
	}
	parts, err := quoin.AmountOf(0, 2).Split(2, quoin.FactorOf(1), quoin.FactorOf(1))
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		value interface{ IsGiven() bool }
		given bool
	}{
		"amount left out":        {quoin.Amount{}, false},
		"rate left out":          {quoin.Rate{}, false},
		"factor left out":        {quoin.Factor{}, false},
		"quantity left out":      {quoin.Quantity{}, false},
		"field not in JSON":      {read.LeftOut, false},
		"share, as a multiple":   {quoin.Rate{}.Factor(), false}, // still the same nothing
		"number of no quantity":  {quoin.Quantity{}.Number(), false},
		"0":                      {quoin.MustAmount("0"), true},
		"0 cents":                {quoin.AmountOf(0, 2), true},
		"17.50 − 17.50":          {price.Sub(price), true},
		"nothing + nothing":      {quoin.Amount{}.Add(quoin.Amount{}), true},
		"nothing, rounded":       {quoin.Amount{}.Round(2, quoin.HalfUp), true},
		"nothing, as compared":   {quoin.Amount{}.Snap(), true},
		"17.50 ÷ 17.50":          {price.Ratio(price), true},
		"nothing ÷ 1":            {quoin.Amount{}.Over(quoin.FactorOf(1)), true},
		"a half of 0":            {parts[1], true},
		"JSON 0":                 {read.Amount, true},
		"JSON 0%":                {read.Rate, true},
		"JSON 0.0":               {read.Factor, true},
		"JSON 0 sheet":           {read.Quantity, true},
		"0 of a database":        {scanned, true},
		"7.4% − 7.4%":            {rate.Sub(rate), true},
		"0%":                     {quoin.MustRate("0%"), true},
		"3.5 − 3.5":              {factor.Sub(factor), true},
		"0 as a factor":          {quoin.FactorOf(0), true},
		"0 sheet":                {sheets.Times(quoin.FactorOf(0)), true},
		"sheet, no number given": {quoin.Unit("sheet").Times(quoin.Factor{}), true},
	} {
		if c.value.IsGiven() != c.given {
			t.Errorf("%s: given is %t", name, !c.given)
		}
	}
	if zero := (quoin.Amount{}); !zero.Equal(quoin.MustAmount("0.00")) || !zero.IsZero() || zero.String() != "0" {
		t.Errorf("the zero value is 0, not %v", zero)
	}
}
