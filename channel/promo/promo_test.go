package promo_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

func amount(s string) quoin.Amount                { return quoin.MustAmount(s) }
func rate(s string) quoin.Rate                    { return quoin.MustRate(s) }
func price(s string) quoin.Optional[quoin.Amount] { return quoin.Some(amount(s)) }
func line(product string, n int64, unit string) promo.BasketLine {
	return promo.BasketLine{Product: product, Count: n, Unit: amount(unit)}
}

// offs writes what comes off each line, offers with + between them.
func offs(b promo.Basket) string {
	lines := make([]string, len(b.Lines))
	for i, l := range b.Lines {
		parts := make([]string, len(l.Off))
		for j, off := range l.Off {
			parts[j] = fmt.Sprintf("%.2f", off)
		}
		lines[i] = strings.Join(parts, "+")
	}
	return strings.Join(lines, " ")
}

func TestApply(t *testing.T) {
	birds := []promo.BasketLine{line("bittern", 2, "30.00"), line("rail", 3, "12.50"), line("reed", 1, "7.99")} // 60.00 + 37.50 + 7.99 = 105.49
	threeForTwo := promo.Offer{ID: "three", Buy: 3, Free: 1}
	tenth := promo.Offer{ID: "tenth", Rate: rate("10%")}
	ten := promo.Offer{ID: "ten", Amount: amount("10")}
	for _, c := range []struct {
		what   string
		lines  []promo.BasketLine
		offers []promo.Offer
		off    string
		net    string
		used   string
	}{
		{"nothing", birds, nil, "  ", "105.49", ""},
		{"a tenth, 0.799 to 0.80", birds, []promo.Offer{tenth}, "6.00 3.75 0.80", "94.94", "tenth"},
		{"a tenth of the rails", birds, []promo.Offer{{ID: "r", Rate: rate("10%"), Products: []string{"rail"}}}, "0.00 3.75 0.00", "101.74", "r"},
		// 10 × 60/105.49 = 5.6877, 3.5548, 0.7574: 5.68, 3.55, 0.75, and a cent each to the remainders .77 and .74
		{"ten off all", birds, []promo.Offer{ten}, "5.69 3.55 0.76", "95.49", "ten"},
		{"more than there is", birds, []promo.Offer{{ID: "x", Amount: amount("500")}}, "60.00 37.50 7.99", "0.00", "x"},
		{"more than the reeds", birds, []promo.Offer{{ID: "x", Amount: amount("8"), Products: []string{"reed"}}}, "0.00 0.00 7.99", "97.50", "x"},
		// Dearest first: 30 30 12.5 | 12.5 12.5 7.99.
		{"three for two", birds, []promo.Offer{threeForTwo}, "0.00 12.50 7.99", "85.00", "three"},
		{"three for two of the rails", birds, []promo.Offer{{ID: "t", Buy: 3, Free: 1, Products: []string{"rail"}}}, "0.00 12.50 0.00", "92.99", "t"},
		{"two of four, two over", birds, []promo.Offer{{ID: "t", Buy: 4, Free: 2}}, "0.00 25.00 0.00", "80.49", "t"},
		// After a tenth, 27 27 11.25 | 11.25 11.25 7.19: 33.75 ÷ 3 and all of 7.19.
		{"after a tenth", birds, []promo.Offer{tenth, threeForTwo}, "6.00+0.00 3.75+11.25 0.80+7.19", "76.50", "tenth three"},
		// A set saves 30 + 12.50 − 40 = 2.50, twice; 5.00 × 60/85 = 3.529…, 1.470….
		{"a set", birds, []promo.Offer{{ID: "pair", Price: price("40"), Products: []string{"bittern", "rail"}}}, "3.53 1.47 0.00", "100.49", "pair"},
		{"a set that is no saving", birds, []promo.Offer{{ID: "pair", Price: price("42.50"), Products: []string{"bittern", "rail"}}}, "0.00 0.00 0.00", "105.49", ""},
		{"a set with one missing", birds, []promo.Offer{{ID: "pair", Price: price("1"), Products: []string{"bittern", "heron"}}}, "0.00 0.00 0.00", "105.49", ""},
		// The second rail is cheaper: 20 + 12 − 25 = 7, then 20 + 4 − 25 < 0. 7 × 20/32 = 4.375, 2.625: 4.37, 2.62, and the cent to the first.
		{
			"a set while it saves",
			[]promo.BasketLine{line("rail", 1, "4"), line("bittern", 2, "20"), line("rail", 1, "12")},
			[]promo.Offer{{ID: "pair", Price: price("25"), Products: []string{"bittern", "rail"}}},
			"0.00 4.38 2.62", "49.00", "pair",
		},
		// 10.01 for two rails is 5.005 for the one in the set: 10.005 are given away, of which 10.00 can be.
		{
			"a set for nothing",
			[]promo.BasketLine{line("rail", 2, "5.005"), line("bittern", 1, "5")},
			[]promo.Offer{{ID: "pair", Price: price("0"), Products: []string{"bittern", "rail"}}},
			"5.00 5.00", "5.01", "pair",
		},
		{"a sale price", birds, []promo.Offer{{ID: "s", Sale: price("12.00")}}, "36.00 1.50 0.00", "67.99", "s"},
		{"a sale price after a tenth", birds, []promo.Offer{tenth, {ID: "s", Sale: price("12.00")}}, "6.00+30.00 3.75+0.00 0.80+0.00", "64.94", "tenth s"},
		{"given away", birds, []promo.Offer{{ID: "s", Sale: price("0"), Products: []string{"reed"}}}, "0.00 0.00 7.99", "97.50", "s"},
		{"threshold met to the cent", birds, []promo.Offer{{ID: "x", Amount: amount("5"), From: amount("7.99"), Products: []string{"reed"}}}, "0.00 0.00 5.00", "100.49", "x"},
		{"threshold a cent short", birds, []promo.Offer{{ID: "x", Amount: amount("5"), From: amount("8.00"), Products: []string{"reed"}}}, "0.00 0.00 0.00", "105.49", ""},
		{"after others it is short", birds, []promo.Offer{tenth, {ID: "x", Rate: rate("50%"), From: amount("100")}}, "6.00+0.00 3.75+0.00 0.80+0.00", "94.94", "tenth"},
		{"before others it is met", birds, []promo.Offer{tenth, {ID: "x", Rate: rate("50%"), From: amount("100"), Test: promo.Before}}, "6.00+27.00 3.75+16.88 0.80+3.59", "47.47", "tenth x"},
		// 47.47 off, of which 16.875 and 3.595 are due: the odd cent goes to the first of them.
		{"four lines, one discount", []promo.BasketLine{line("wren", 1, "4.76"), line("rail", 1, "4.76"), line("reed", 1, "4.76"), line("teal", 1, "4.76")}, []promo.Offer{{ID: "x", Rate: rate("1%")}}, "0.05 0.05 0.05 0.04", "18.85", "x"}, // 0.1904
		{"the discount is rounded", []promo.BasketLine{line("rail", 1, "1725.05")}, []promo.Offer{tenth}, "172.51", "1552.54", "tenth"},
		{"what is due is rounded", []promo.BasketLine{line("rail", 1, "1725.05")}, []promo.Offer{{ID: "x", Rate: rate("10%"), Rounding: quoin.HalfDown}}, "172.50", "1552.55", "x"},
		{"alone, and worse", birds, []promo.Offer{tenth, {ID: "x", Amount: amount("10.55"), Alone: true}}, "6.00+0.00 3.75+0.00 0.80+0.00", "94.94", "tenth"},
		{"alone, and better", birds[:1], []promo.Offer{tenth, {ID: "x", Amount: amount("6.01"), Alone: true}}, "0.00+6.01", "53.99", "x"},
		{"of equals the first alone", birds[:1], []promo.Offer{{ID: "a", Amount: amount("6.01"), Alone: true}, {ID: "b", Amount: amount("6.01"), Alone: true}}, "6.01+0.00", "53.99", "a"},
		{"a line of nothing in between", []promo.BasketLine{line("rail", 1, "0"), line("reed", 0, "5"), line("rail", 2, "0.02")}, []promo.Offer{threeForTwo}, "0.00 0.00 0.00", "0.04", ""},
		{"half cents", []promo.BasketLine{line("card", 3, "0.335")}, []promo.Offer{{ID: "s", Sale: price("0.335")}}, "0.00", "1.01", ""},
		{"no sense in it", []promo.BasketLine{line("card", -3, "1"), line("card", 3, "-1")}, []promo.Offer{ten, tenth, threeForTwo}, "0.00+0.00+0.00 0.00+0.00+0.00", "0.00", ""},
	} {
		b := promo.Apply(c.lines, c.offers, 2)
		if got := offs(b); strings.TrimSpace(got) != strings.TrimSpace(c.off) || !b.Net.Equal(amount(c.net)) || strings.Join(b.Used, " ") != c.used {
			t.Errorf("%s: %s off, net %s, used %q, want %s, %s, %q", c.what, got, b.Net, b.Used, c.off, c.net, c.used)
		}
	}
}

// OpenStax, Contemporary Mathematics, 6.2, and Principles of Accounting, vol. 1
// Financial, 6.1 and 6.3; Principles of Finance, 19.2.
func TestPublishedDiscounts(t *testing.T) {
	for _, c := range []struct{ price, off, discount, net string }{
		{"75.80", "25%", "18.95", "56.85"},
		{"80", "30%", "24", "56"},
		{"500", "10%", "50", "450"},
		{"360", "75%", "270", "90"},
		{"210", "10%", "21", "189"},
		{"1600", "2%", "32", "1568"},
		{"4020", "5%", "201", "3819"},
		{"10500", "2%", "210", "10290"},
	} {
		b := promo.Apply([]promo.BasketLine{line("rail", 1, c.price)}, []promo.Offer{{ID: "x", Rate: rate(c.off)}}, 2)
		if !b.Discount.Equal(amount(c.discount)) || !b.Net.Equal(amount(c.net)) {
			t.Errorf("%s of %s: %s, %s left, want %s, %s", c.off, c.price, b.Discount, b.Net, c.discount, c.net)
		}
	}
	for _, c := range []struct{ list, sale, off string }{{"1200", "900", "25%"}, {"240", "168", "30%"}} {
		b := promo.Apply([]promo.BasketLine{line("rail", 1, c.list)}, []promo.Offer{{ID: "x", Sale: price(c.sale)}}, 2)
		if got := b.Discount.Share(b.Gross); !got.Equal(rate(c.off)) {
			t.Errorf("%s for %s: %s off, want %s", c.list, c.sale, got, c.off)
		}
	}
}

// The worked splits of the trade, policy largest remainder, ties to the first
// (common practice).
func TestWorkedSplits(t *testing.T) {
	six := strings.Fields("7 7 7 7 7 7")
	for _, c := range []struct {
		amount string
		lines  []string
		want   string
	}{
		{"10.03", []string{"49", "51"}, "4.91 5.12"},
		{"99.99", []string{"75", "25"}, "74.99 25.00"},
		{"10.00", six[:3], "3.34 3.33 3.33"},
		{"6.85", six, "1.15 1.14 1.14 1.14 1.14 1.14"},
	} {
		var lines []promo.BasketLine
		for _, unit := range c.lines {
			lines = append(lines, line("rail", 1, unit))
		}
		if got := offs(promo.Apply(lines, []promo.Offer{{ID: "x", Amount: amount(c.amount)}}, 2)); got != c.want {
			t.Errorf("%s over %s: %s, want %s", c.amount, c.lines, got, c.want)
		}
	}
	// 36 pieces at 1.66 come to 59.76, once rounded as a line.
	if b := promo.Apply([]promo.BasketLine{line("card", 36, "1.66")}, nil, 2); !b.Net.Equal(amount("59.76")) {
		t.Errorf("36 at 1.66: %s, want 59.76", b.Net)
	}
}

func TestVolume(t *testing.T) {
	for _, c := range []struct {
		before, after string
		needed        string
		ok            bool
	}{
		{"12", "8", "1.5", true}, // half as many again
		{"8", "8", "1", true},
		{"8", "10", "0.8", true}, // a rise may lose a fifth
		{"8", "0", "0", false},
		{"8", "-1", "0", false},
		{"0", "3", "0", true},
		{"-2", "3", "0", true},
	} {
		f, ok := promo.VolumeNeeded(amount(c.before), amount(c.after))
		if ok != c.ok || !f.Equal(quoin.MustFactor(c.needed)) {
			t.Errorf("from %s to %s: %s, %t, want %s, %t", c.before, c.after, f, ok, c.needed, c.ok)
		}
	}
}

func TestOffersChecked(t *testing.T) {
	pair := []string{"bittern", "rail"}
	for what, c := range map[string]struct {
		offer promo.Offer
		want  string // code at path, several with ; between them
	}{
		"a rate":         {promo.Offer{Rate: rate("10%")}, ""},
		"an amount":      {promo.Offer{Amount: amount("5")}, ""},
		"three for two":  {promo.Offer{Buy: 3, Free: 1}, ""},
		"a set":          {promo.Offer{Price: price("0"), Products: pair}, ""},
		"a sale":         {promo.Offer{Sale: price("0")}, ""},
		"nothing":        {promo.Offer{ID: "x", From: amount("5")}, "missing_discount@"},
		"two kinds":      {promo.Offer{Rate: rate("10%"), Amount: amount("5")}, "several_discounts@amount"},
		"set and sale":   {promo.Offer{Price: price("5"), Sale: price("5"), Products: pair}, "several_discounts@sale"},
		"buy alone":      {promo.Offer{Buy: 3}, "bad_multi_buy@free"},
		"free alone":     {promo.Offer{Free: 1}, "bad_multi_buy@buy"},
		"all free":       {promo.Offer{Buy: 3, Free: 3}, "bad_multi_buy@free"},
		"a set of all":   {promo.Offer{Price: price("5")}, "bad_set@products"},
		"a set of twins": {promo.Offer{Price: price("5"), Products: []string{"rail", "rail"}}, "bad_set@products;bad_set@products[1]"},
		"all at once":    {promo.Offer{Rate: rate("10%"), Buy: 2, Free: 2, Price: price("5")}, "several_discounts@buy;bad_multi_buy@free;bad_set@products"},
	} {
		var got []string
		c.offer.ID = "SPRING"
		err := c.offer.Check()
		ps, _ := err.(quoin.Problems)
		for _, p := range ps {
			got = append(got, string(p.Code)+"@"+p.Path)
			if p.Found == "" || p.Wanted == "" || p.Severity != quoin.Fault {
				t.Errorf("%s: %v says too little", what, p)
			}
		}
		if text := strings.Join(got, ";"); text != c.want || err == nil != (c.want == "") {
			t.Errorf("%s: %v, want %q", what, err, c.want)
		}
	}
}

// What an offer's fields do not take is said as a document says it.
func TestOffersFields(t *testing.T) {
	o := promo.Offer{Rate: rate("110%"), Test: "during", Buy: 1}
	var got []string
	ps, _ := o.Check().(quoin.Problems)
	for _, p := range ps {
		got = append(got, string(p.Code)+"@"+p.Path)
	}
	if text := strings.Join(got, ";"); text != "out_of_range@rate;out_of_range@buy;unknown_word@test;missing_field@id" {
		t.Errorf("found %q", text)
	}
}

func TestTestWord(t *testing.T) {
	var got promo.Test
	if err := got.UnmarshalText([]byte("before")); err != nil || got != promo.Before {
		t.Errorf("%q, %v", got, err)
	}
	err := got.UnmarshalText([]byte("befor"))
	if p, _ := err.(quoin.Problem); p.Code != quoin.UnknownWord || p.Near != "before" || got != promo.Before {
		t.Errorf("%q, %v, want a near name and the old word", got, err)
	}
}
