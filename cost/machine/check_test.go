package machine_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/problemtest"
)

// Check says all at once what a document would be told, with the same codes and paths.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		of   interface{ Check() error }
		want string
	}{
		{
			machine.Machine{ID: "printer", Unit: "print", Price: quoin.MustAmount("1200"), LifeMonths: 60, PrintsPerMonth: quoin.MustFactor("40")},
			"",
		},
		{
			machine.Machine{ID: "printer", Unit: "print", Price: quoin.MustAmount("1200"), LifeMonths: 60, PrintsPerMonth: quoin.MustFactor("40"), Interest: quoin.MustRate("101%"), Resale: quoin.MustAmount("1201")},
			"out_of_range interest, resale_above_price resale",
		},
		{
			machine.Machine{},
			"missing_field id, missing_field unit, missing_field price, missing_life life_months, missing_life prints_per_month",
		},
		{
			machine.Machine{ID: "press", Unit: "print", Price: quoin.MustAmount("5"), LifePrints: quoin.MustFactor("9"), Method: machine.CapitalRecovery},
			"stray_life life_prints, missing_life life_months, missing_life prints_per_month",
		},
		{
			machine.Machine{ID: "printer", Unit: "print", Price: quoin.MustAmount("1200"), LifeMonths: 60, PrintsPerMonth: quoin.MustFactor("40"), Method: "by_age", Service: []machine.Part{{Name: "head", Price: quoin.MustAmount("-1"), Every: quoin.MustFactor("0")}, {Name: "belt", Price: quoin.MustAmount("9")}}},
			"unknown_word method, out_of_range service[0].price, out_of_range service[0].every, missing_field service[1].every",
		},
	} {
		if got := problemtest.Listed(c.of.Check()); got != c.want {
			t.Errorf("%v: %s, want %s", c.of, got, c.want)
		}
	}
}
