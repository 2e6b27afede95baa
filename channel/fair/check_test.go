package fair_test

import (
	"encoding/json"
	"errors"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

func TestFairsRefused(t *testing.T) {
	for what, c := range map[string]struct {
		change func(*fair.Fair)
		code   quoin.Code
		path   string
	}{
		"shares of 90%":         {func(f *fair.Fair) { f.Mix[0].Share = rate("50%") }, fair.MixNotOne, "mix"},
		"no mix":                {func(f *fair.Fair) { f.Mix = nil }, quoin.MissingField, "mix"},
		"a bird twice":          {func(f *fair.Fair) { f.Mix[1].Product = "heron" }, quoin.DuplicateID, "mix[1].product"},
		"an unpriced bird":      {func(f *fair.Fair) { f.Mix[1].Product = "avocte" }, quoin.UnknownID, "mix[1].product"},
		"never accepted":        {func(f *fair.Fair) { f.Chance = quoin.Some(quoin.Rate{}) }, quoin.OutOfRange, "chance"},
		"more than accepted":    {func(f *fair.Fair) { f.Chance = quoin.Some(rate("101%")) }, quoin.OutOfRange, "chance"},
		"display for no fairs":  {func(f *fair.Fair) { f.DisplayFairs = quoin.Factor{} }, fair.MissingFairs, "display_fairs"},
		"fewer than no fairs":   {func(f *fair.Fair) { f.DisplayFairs = factor("-1") }, quoin.OutOfRange, "display_fairs"},
		"a minimum of nothing":  {func(f *fair.Fair) { f.Commission = quoin.Rate{} }, fair.StrayMinimum, "commission_at_least"},
		"a night not spent":     {func(f *fair.Fair) { f.Nights = 0 }, fair.MissingNights, "nights"},
		"hours not counted":     {func(f *fair.Fair) { f.Hours = quoin.Factor{} }, fair.MissingHours, "hours"},
		"nobody buys":           {func(f *fair.Fair) { f.Prints = quoin.Factor{} }, quoin.MissingField, "prints"},
		"a stand that pays":     {func(f *fair.Fair) { f.Stand = amount("-1") }, quoin.OutOfRange, "stand"},
		"insurance that pays":   {func(f *fair.Fair) { f.Other[0].Amount = amount("-1") }, quoin.OutOfRange, "other[0].amount"},
		"commission above all":  {func(f *fair.Fair) { f.Commission = rate("110%") }, quoin.OutOfRange, "commission"},
		"more cash than sales":  {func(f *fair.Fair) { f.Cash = quoin.Some(rate("110%")) }, quoin.OutOfRange, "cash"},
		"nights given back":     {func(f *fair.Fair) { f.Nights = -1 }, quoin.OutOfRange, "nights"},
		"fewer than no minutes": {func(f *fair.Fair) { f.Hours = factor("-2") }, quoin.OutOfRange, "hours"},
	} {
		f := autumn()
		c.change(&f)
		_, err := f.Outcome(prints())
		var ps quoin.Problems
		if !errors.As(err, &ps) || len(ps) != 1 {
			t.Errorf("%s: %v, want one problem", what, err)
			continue
		}
		if p := ps[0]; p.Code != c.code || p.Path != c.path || p.Found == "" || p.Wanted == "" || p.Severity != quoin.Fault {
			t.Errorf("%s: %v, want %s at %s", what, err, c.code, c.path)
		}
	}
}

func TestPrintsRefused(t *testing.T) {
	twice := append(prints(), fair.Print{Product: "heron"})
	negative := prints()
	negative[1].Revenue = amount("-1")
	for what, c := range map[string]struct {
		prints []fair.Print
		code   quoin.Code
		path   string
	}{
		"a bird twice":       {twice, quoin.DuplicateID, ""},
		"a negative revenue": {negative, quoin.OutOfRange, "mix[0].product"},
	} {
		_, err := autumn().Outcome(c.prints)
		var ps quoin.Problems
		if !errors.As(err, &ps) || len(ps) != 1 || ps[0].Code != c.code || ps[0].Path != c.path {
			t.Errorf("%s: %v, want %s at %q", what, err, c.code, c.path)
		}
	}
}

// All that is wrong is said at once, and the zero fair is refused too.
func TestAllProblemsAtOnce(t *testing.T) {
	f := autumn()
	f.Stand, f.Chance, f.Nights, f.Mix[0].Share = amount("-1"), quoin.Some(quoin.Rate{}), 0, rate("10%")
	f.Mix[1].Product = "avocte"
	_, err := f.Outcome(prints())
	var ps quoin.Problems
	if !errors.As(err, &ps) || len(ps) != 5 {
		t.Fatalf("%v, want five problems", err)
	}
	if ps[4].Near != "avocet" {
		t.Errorf("near %q, want avocet", ps[4].Near)
	}
	if _, err := (fair.Fair{}).Outcome(nil); err == nil {
		t.Error("the zero fair is reckoned")
	}
}

func TestFairReadsAndWrites(t *testing.T) {
	data, err := json.Marshal(autumn())
	if err != nil {
		t.Fatal(err)
	}
	var back fair.Fair
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	if got, want := line(mustPlan(t, back, prints())), line(mustPlan(t, autumn(), prints())); got != want {
		t.Errorf("read back: %s, want %s", got, want)
	}
	err = json.Unmarshal([]byte(`{"commission_of": "nett"}`), &back)
	var p quoin.Problem
	if !errors.As(err, &p) || p.Code != quoin.UnknownWord || p.Near != "net" {
		t.Errorf("nett: %v", err)
	}
	if back.CommissionOf != fair.Net {
		t.Errorf("a word that cannot be read changed it to %q", back.CommissionOf)
	}
}
