package review_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
)

const (
	paper      = `supplies["paper"].price`
	commission = `channels["web"].fees["commission"].rate`
)

// TestShares: floors of the small shop by hand, to the cent, with the fee rounded half up.
// With paper p and fee f the floor is (5.00 + p) ÷ (1 − f), and one cent less leaves 4.99.
func TestShares(t *testing.T) {
	for _, c := range []struct {
		name          string
		edits         []string
		before, after string
		shares        string
	}{
		{
			// 9.00 ÷ 0.9 = 10.00; paper alone 10.80 ÷ 0.9 = 12.00; the fee alone 9.00 ÷ 0.8 = 11.25;
			// both 10.80 ÷ 0.8 = 13.50. Paper: (2.00 + 2.25) ÷ 2 = 2.125; the fee: (1.25 + 1.50) ÷ 2
			// = 1.375. Rounded down 2.12 and 1.37, and the cent that is left goes to the first by
			// name.
			"paper and the fee",
			[]string{`"4.00"`, `"5.80"`, `10%`, `20%`},
			"10.00", "13.50", commission + " 1.38; " + paper + " 2.12",
		},
		{"paper alone", []string{`"4.00"`, `"5.80"`}, "10.00", "12.00", paper + " 2.00"},
		{"cheaper paper", []string{`"4.00"`, `"2.20"`}, "10.00", "8.00", paper + " -2.00"},
		{
			// Paper falls to 2.20: 7.20 ÷ 0.9 = 8.00, and 7.20 ÷ 0.8 = 9.00 with the fee. Paper:
			// (−2.00 − 2.25) ÷ 2 = −2.125; the fee: (1.25 + 1.00) ÷ 2 = 1.125; rounded down −2.13
			// and 1.12.
			"against each other",
			[]string{`"4.00"`, `"2.20"`, `10%`, `20%`},
			"10.00", "9.00", commission + " 1.13; " + paper + " -2.13",
		},
		{
			// Paper that comes in at 4.00 a sheet, whatever is bought at a time.
			"twice as many for twice as much",
			[]string{`"1 sheet", "price": "4.00"`, `"2 sheet", "price": "8.00"`},
			"10.00", "10.00",
			// The price alone: 13.00 ÷ 0.9 = 14.4444, up 4.44 (14.44 − 1.44 = 13.00); the quantity
			// alone: 7.00 ÷ 0.9 = 7.7778, down 2.22 (7.78 − 0.78 = 7.00). Quantity: (−2.22 − 4.44) ÷ 2.
			`supplies["paper"].price 3.33; supplies["paper"].quantity -3.33`,
		},
		{"a name", []string{`"id": "paper",`, `"id": "paper", "name": "Rag",`}, "10.00", "10.00", ""},
		{"nothing", nil, "10.00", "10.00", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := must(review.Compare(edited(t, small), nil, edited(t, small, c.edits...), quoin.Rate{}))(t)
			f := floor(t, r, "heron")
			if f.Before.String() != c.before || f.After.String() != c.after {
				t.Errorf("from %s to %s, want %s to %s", f.Before, f.After, c.before, c.after)
			}
			if got := shares(f); got != c.shares {
				t.Errorf("got %s\nwant %s", got, c.shares)
			}
		})
	}
}

// A fee of 1.50 below 10.00 and of 3.00 from there on asks for 5.00 + 4.00 + 3.00: below 10.00 no
// price leaves enough. With 4.00 in place of 3.00 it is 1.00 more.
func TestSharesOfFixedTiers(t *testing.T) {
	tiers := []string{`"rate": "10%"`, `"tier_mode": "whole", "tiers": [{"from": 0, "fixed": "1.50"}, {"from": "10.00", "fixed": "3.00"}]`}
	r := must(review.Compare(edited(t, small, tiers...), nil, edited(t, small, append(tiers, `"3.00"`, `"4.00"`)...), quoin.Rate{}))(t)
	f := floor(t, r, "heron")
	if f.Before.String() != "12.00" || f.After.String() != "13.00" || shares(f) != `channels["web"].fees["commission"].tiers[1].fixed 1.00` {
		t.Errorf("from %s to %s by %s", f.Before, f.After, shares(f))
	}
}

func TestExactShares(t *testing.T) {
	r := must(review.Compare(edited(t, small), nil, edited(t, small, `"4.00"`, `"5.80"`, `10%`, `20%`), quoin.Rate{}))(t)
	s := floor(t, r, "heron").Shares[0]
	if r.Method != review.Shapley || !s.Exact.Equal(amount("1.375")) || !s.Rounding.Equal(amount("0.005")) {
		t.Errorf("%s: %s, rounded by %s", r.Method, s.Exact, s.Rounding)
	}
}

// TestStandTogether: changes that leave no document when they are made alone count as
// one.
func TestStandTogether(t *testing.T) {
	for _, c := range []struct {
		name, doc string
		edits     []string
		shares    string
	}{
		{
			// Gold leaf at 0.90: (9.00 + 0.90) ÷ 0.9 = 11.00.
			"a line with its supply", small,
			[]string{`"supplies": [`, `"supplies": [{"id": "gold", "quantity": "1 leaf", "price": "0.90"}, `, `"bill": [`, `"bill": [{"supply": "gold", "quantity": "1 leaf"}, `},
			`products["heron"].bill["gold"] and supplies["gold"] 1.00`,
		},
		{
			// A quarter of the orders instead of half have two prints and postage of 3.60: the
			// postage of an average print goes from 1.80 × 2 ÷ 3 = 1.20 to 0.90 ÷ 1.25 = 0.72.
			// Floors: 10.20 ÷ 0.9 = 11.3333, of which 11.33 keeps 5.00 (its fees are 1.13, and 2.27
			// on two: 3.40 ÷ 3 = 1.13333, and 11.33 − 1.13333 − 4 − 1.20 = 4.99667, so it is 11.34:
			// (1.13 + 2.27) ÷ 3, 5.00667); and 9.72 ÷ 0.9 = 10.80 (fees 1.08 and 2.16).
			"shares of orders",
			strings.Replace(small, `"id": "web",`, `"id": "web", "orders": [{"id": "one", "share": "50%", "items": 1}, {"id": "two", "share": "50%", "items": 2, "postage": "3.60"}],`, 1),
			[]string{`"one", "share": "50%"`, `"one", "share": "75%"`, `"two", "share": "50%"`, `"two", "share": "25%"`},
			`channels["web"].orders["one"].share and channels["web"].orders["two"].share -0.54`,
		},
		{
			// What is spoiled, said in another way: 20% of what is started is a quarter of what
			// comes out good. 5.00 of paper for each good print all the same.
			"rival fields",
			strings.NewReplacer(`"products"`, `"stages": [{"id": "print", "yield": "80%"}], "products"`, `"quantity": "1 sheet"}]}]`, `"quantity": "1 sheet", "stage": "print"}]}]`).Replace(small),
			[]string{`"yield": "80%"`, `"lost_of_good": "25%"`},
			``,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := must(review.Compare(edited(t, c.doc), nil, edited(t, c.doc, c.edits...), quoin.Rate{}))(t)
			if got := shares(floor(t, r, "heron")); got != c.shares || r.Method != review.Shapley {
				t.Errorf("%s: got %s, want %s", r.Method, got, c.shares)
			}
		})
	}
}

// TestManyChanges: of nine supplies, each a unit of 0.10 dearer by 0.09, what each does
// first and last is 0.10, 0.09 ÷ 0.9, give or take a cent of rounding.
func TestManyChanges(t *testing.T) {
	supplies, lines := "", ""
	for _, id := range strings.Split("abcdefghi", "") {
		supplies += `, {"id": "` + id + `", "quantity": "1 piece", "price": "0.10"}`
		lines += `, {"supply": "` + id + `", "quantity": "1 piece"}`
	}
	doc := strings.NewReplacer(`"price": "4.00"}`, `"price": "4.00"}`+supplies, `"quantity": "1 sheet"}]}]`, `"quantity": "1 sheet"}`+lines+`]}]`).Replace(small)
	last := edited(t, doc)
	now := edited(t, strings.ReplaceAll(doc, `"0.10"`, `"0.19"`))
	r := must(review.Compare(last, nil, now, quoin.Rate{}))(t)
	f := floor(t, r, "heron")
	// (9.90 ÷ 0.9 = 11.00; 10.71 ÷ 0.9 = 11.90)
	if r.Method != review.FirstAndLast || f.Before.String() != "11.00" || f.After.String() != "11.90" || len(f.Shares) != 9 {
		t.Fatalf("%s: %s", r.Method, written(f))
	}
	sum := quoin.Amount{}
	for _, s := range f.Shares {
		if !s.By.Equal(amount("0.10")) {
			t.Errorf("%v %s", s.Inputs, s.By)
		}
		sum = sum.Add(s.By)
	}
	if f.Together != nil || !sum.Equal(amount("0.90")) {
		t.Errorf("together %v, in all %s", f.Together, sum)
	}
}

// TestWhatIsTogether: nine changes of which two do something, and only both together do
// more: the floor is 10.00, 12.00 with paper, 11.25 with the fee, 13.50 with both. First and
// last they come to 2.125 and 1.375, as the Shapley values do of two, and leave nothing.
func TestWhatIsTogether(t *testing.T) {
	supplies := ""
	for _, id := range strings.Split("abcdefgh", "") {
		supplies += `, {"id": "` + id + `", "quantity": "1 piece", "price": "0.10"}`
	}
	doc := strings.Replace(small, `"price": "4.00"}`, `"price": "4.00"}`+supplies, 1)
	now := strings.NewReplacer(`"0.10"`, `"0.19"`, `"4.00"`, `"5.80"`, `10%`, `20%`).Replace(doc)
	r := must(review.Compare(edited(t, doc), nil, edited(t, now), quoin.Rate{}))(t)
	if got := shares(floor(t, r, "heron")); r.Method != review.FirstAndLast || got != commission+" 1.38; "+paper+" 2.12" {
		t.Errorf("%s: %s", r.Method, got)
	}
}

// TestChannelFloors: a gallery that keeps half asks for 9.00 ÷ 0.5 = 18.00, and the web for
// 10.00. When the gallery takes 20%, it asks for 11.25; the web then takes 40%: 15.00.
func TestChannelFloors(t *testing.T) {
	doc := strings.Replace(small, `"channels": [`, `"channels": [{"id": "gallery", "fees": [{"name": "share", "rate": "50%"}]}, {"id": "silent"}, `, 1)
	doc = strings.Replace(doc, `"rule": "contribution"`, `"rule": "contribution", "channels": ["gallery", "web"]`, 1)
	r := must(review.Compare(edited(t, doc), nil, edited(t, doc, `50%`, `20%`, `10%`, `40%`), quoin.Rate{}))(t)
	want := `[{"channel":"gallery","before":"18.00","after":"11.25","change":"-6.75","set":true,"sets":false},` +
		`{"channel":"silent","set":false,"sets":false},` +
		`{"channel":"web","before":"10.00","after":"15.00","change":"5.00","set":false,"sets":true}]`
	if got := written(floor(t, r, "heron").Channels); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	// Both 18.00, the gallery alone 11.25, the web alone 18.00, both changed 15.00. Gallery:
	// (−6.75 − 3.00) ÷ 2 = −4.875; web: (0 + 3.75) ÷ 2 = 1.875.
	if got := shares(floor(t, r, "heron")); got != `channels["gallery"].fees["share"].rate -4.87; `+commission+" 1.87" {
		t.Error(got)
	}
}

// TestWithoutShares: what has no floor on one side says why.
func TestWithoutShares(t *testing.T) {
	last := edited(t, small, `"products": [`, `"products": [{"id": "wren", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, `)
	now := edited(t, small, `"products": [`, `"products": [{"id": "crane", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, `, `"4.00"`, `"400.00"`)
	r := must(review.Compare(last, nil, now, quoin.Rate{}))(t)
	got := ""
	for _, f := range r.Floors {
		got += f.Product + " " + string(f.Without.Code) + "; "
	}
	if got != "crane new_product; heron no_floor; wren gone_product; " {
		t.Error(got)
	}
	if strings.Join(r.Conflict, " ") != "keeps" || len(r.Moves) != 0 {
		t.Errorf("conflict %v, moves %v", r.Conflict, r.Moves)
	}
}

// TestChannelFloorsWhereItIsSold: an egret that the web alone sells extends the heron, which both sell. It costs 4.00
// more: (4.00 + 4.00 + 5.00) ÷ 0.9 is 14.44, its fee 1.44. The gallery, which asks for 18.00, does not know it; once
// it sells it too, it asks for (8.00 + 5.00) ÷ 0.5.
func TestChannelFloorsWhereItIsSold(t *testing.T) {
	doc := strings.Replace(small, `"channels": [`, `"channels": [{"id": "gallery", "fees": [{"name": "share", "rate": "50%"}]}, `, 1)
	doc = strings.Replace(doc, `"products": [`, `"products": [{"id": "egret", "extends": "heron", "channels": ["web"], "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, `, 1)
	r := must(review.Compare(edited(t, doc), nil, edited(t, doc, `10%`, `20%`), quoin.Rate{}))(t)
	if got := written(floor(t, r, "egret").Channels); got != `[{"channel":"web","before":"14.44","after":"16.25","change":"1.81","set":true,"sets":true}]` {
		t.Error(got)
	}
	r = must(review.Compare(edited(t, doc), nil, edited(t, doc, `"channels": ["web"], `, ``), quoin.Rate{}))(t)
	want := `[{"channel":"gallery","after":"26.00","set":false,"sets":true},{"channel":"web","before":"14.44","after":"14.44","change":"0.00","set":true,"sets":false}]`
	if got := written(floor(t, r, "egret").Channels); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	if got := shares(floor(t, r, "egret")); got != `products["egret"].channels 11.56` {
		t.Error(got)
	}
}
