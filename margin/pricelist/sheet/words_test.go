package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
	"example.com/quoin/margin/rule"
)

// below is what a page says of a product that is refused a lower price for one reason.
func below(t *testing.T, refusal string) string {
	t.Helper()
	a := toldAnswer(t, `{"rule": "r1", "kind": "size_ratio", "product": "tern", "price": "29.99", "bound": "at_least", "asked": "30.00", "got": "29.99", "neighbour": "heron-a4", "neighbour_price": "25.00"}`,
		`{"rule": "r1", "product": "tern", "price": "29.99", `+refusal+`}`)
	_, after, _ := strings.Cut(sheet.Text(a, 1000), "  Not below 30.00: ")
	said, _, _ := strings.Cut(strings.TrimPrefix(after[strings.Index(after, "Tern: 30.00 EUR")+1:], "ern: 30.00 EUR\n  Not below 30.00: "), "\n")
	return said
}

// Each kind of rule in its words. What is missing is never rounded away.
func TestRefusalsInWords(t *testing.T) {
	for refusal, want := range map[string]string{
		`"kind": "contribution", "bound": "at_least", "asked": "10.00", "got": "9.984"`:                                           `at 29.99 a print keeps 9.98, not 10.00 ("r1").`,
		`"kind": "contribution", "bound": "at_least", "asked": "10.00", "got": "9.996"`:                                           `at 29.99 a print keeps 9.996, not 10.00 ("r1").`,
		`"kind": "contribution", "channel": "web", "bound": "at_least", "asked": "10.00", "got": "9.98"`:                          `at 29.99 a print keeps 9.98 in Own shop, not 10.00 ("r1").`,
		`"kind": "contribution", "channel": "web", "order": 1, "bound": "at_least", "asked": "10.00", "got": "9.98"`:              `at 29.99 a print keeps 9.98 in Own shop from orders "One print", not 10.00 ("r1").`,
		`"kind": "contribution", "channel": "web", "order": 2, "bound": "at_least", "asked": "10.00", "got": "9.98"`:              `at 29.99 a print keeps 9.98 in Own shop from orders of kind 2, not 10.00 ("r1").`,
		`"kind": "contribution", "channel": "web", "order": 3, "bound": "at_least", "asked": "10.00", "got": "9.98"`:              `at 29.99 a print keeps 9.98 in Own shop from orders of kind 3, not 10.00 ("r1").`,
		`"kind": "net_margin", "channel": "fair", "bound": "at_least", "asked": "10%", "got": "9.123%"`:                           `at 29.99 the net margin in Weekend fair is 9.1%, not 10% ("r1").`,
		`"kind": "net_margin", "channel": "fair", "bound": "at_least", "asked": "10%", "got": "9.96%"`:                            `at 29.99 the net margin in Weekend fair is 9.96%, not 10% ("r1").`,
		`"kind": "gross_margin", "bound": "at_least", "asked": "40%", "got": "-2.5%"`:                                             `at 29.99 the gross margin is -2.5%, not 40% ("r1").`,
		`"kind": "gross_margin", "bound": "at_least", "asked": "0.4x", "got": "0.39x"`:                                            `at 29.99 the gross margin is 0.39, not 0.4 ("r1").`,
		`"kind": "cost_multiple", "channel": "web", "bound": "at_least", "asked": "31.50", "got": "29.99"`:                        `what it costs to make asks 31.50 in Own shop ("r1").`,
		`"kind": "price", "bound": "at_least", "asked": "30.00", "got": "29.99"`:                                                  `"r1" asks at least 30.00.`,
		`"kind": "price", "channel": "post", "bound": "at_most", "asked": "30.00", "got": "29.99"`:                                `"r1" asks at most 30.00 in post.`,
		`"kind": "price", "bound": "at_least", "asked": "30.00", "got": "29.99", "reason": "too cheap"`:                           `too cheap ("r1").`,
		`"kind": "size_ratio", "bound": "at_most", "asked": "30.00", "got": "29.99", "neighbour": "wren", "neighbour_price": "8"`: `wren cannot be more than 8.00, so this cannot be more than 30.00 ("r1").`,
	} {
		if got := below(t, refusal); got != want {
			t.Errorf("%s:\n%s, want\n%s", refusal, got, want)
		}
	}
}

// To avoid is what lies within a quarter of the price, here from 18.75 to 31.25, and where rules leave room.
func TestPricesToAvoidAreNear(t *testing.T) {
	for _, c := range []struct {
		least, greatest, first, last string
		near                         bool
	}{
		{"10.00", "80.00", "31.25", "40.00", true},
		{"10.00", "80.00", "31.26", "40.00", false},
		{"10.00", "80.00", "12.00", "18.75", true},
		{"10.00", "80.00", "12.00", "18.74", false},
		{"20.00", "80.00", "19.00", "20.00", true},
		{"20.01", "80.00", "19.00", "20.00", false},
		{"10.00", "30.00", "30.00", "31.00", true},
		{"10.00", "29.99", "30.00", "31.00", false},
	} {
		a := toldAnswer(t, `"least": "20.00", "greatest": "40.00"`, fmt.Sprintf(`"least": %q, "greatest": %q`, c.least, c.greatest),
			`"first": "30.00", "last": "90.00"`, fmt.Sprintf(`"first": %q, "last": %q, "again": "91.00"`, c.first, c.last))
		want := "- Avoid " + c.first + "–" + c.last + ": in Own shop you keep less there than at 29.00.\n"
		if got := strings.Contains(sheet.Markdown(a), want); got != c.near {
			t.Errorf("%s to %s, allowed %s to %s: %t", c.first, c.last, c.least, c.greatest, got)
		}
	}
}

// Of many ranges the four around the price are named, and that there are others.
func TestRangesAroundThePrice(t *testing.T) {
	for _, c := range []struct {
		price  string
		ranges int
		more   bool
		want   string
	}{
		{"1.20", 7, false, "1.00–1.50, 2.00–2.50, 3.00–3.50, 4.00–4.50, and some higher"},
		{"2.50", 7, false, "1.00–1.50, 2.00–2.50, 3.00–3.50, 4.00–4.50, and some higher"},
		{"3.50", 7, false, "1.00–1.50, 2.00–2.50, 3.00–3.50, 4.00–4.50, and some higher"},
		{"4.50", 7, false, "some lower, 2.00–2.50, 3.00–3.50, 4.00–4.50, 5.00–5.50, and some higher"},
		{"5.20", 7, false, "some lower, 3.00–3.50, 4.00–4.50, 5.00–5.50, 6.00–6.50, and some higher"},
		{"6.20", 7, false, "some lower, 4.00–4.50, 5.00–5.50, 6.00–6.50, 7.00–7.50"},
		{"7.50", 7, false, "some lower, 4.00–4.50, 5.00–5.50, 6.00–6.50, 7.00–7.50"},
		{"7.50", 7, true, "some lower, 4.00–4.50, 5.00–5.50, 6.00–6.50, 7.00–7.50, and some higher"},
		{"1.20", 4, false, "1.00–1.50, 2.00–2.50, 3.00–3.50, 4.00–4.50"},
		{"1.20", 2, true, "1.00–1.50, 2.00–2.50, and some higher"},
		{"1.20", 0, false, "0.80–9.00"},
	} {
		a := toldAnswer(t)
		it := &a.Products[2]
		it.Price, it.Least, it.Greatest, it.MayLie, it.MoreRanges = quoin.MustAmount(c.price), quoin.MustAmount("0.80"), quoin.MustAmount("9.00"), nil, c.more
		for n := range c.ranges {
			first := quoin.MustAmount(fmt.Sprintf("%d.00", n+1))
			it.MayLie = append(it.MayLie, rule.AllowedRange{First: first, Last: first.Add(quoin.MustAmount("0.50"))})
		}
		if got := sheet.Markdown(a); !strings.Contains(got, "| Tern | - | "+c.price+" | - | "+c.want+" | ") {
			t.Errorf("%s of %d is not in %s:\n%s", c.price, c.ranges, c.want, got[:600])
		}
		all, _ := sheet.Why(withChannel(a), "tern", 1000)
		if may := strings.Split(all, "\n")[1]; strings.Contains(may, "some lower") || strings.HasSuffix(may, "some higher.") != c.more {
			t.Errorf("the story says %s", may)
		}
	}
}

// withChannel sells all products in one more channel, without which there is no story.
func withChannel(a pricelist.Answer) pricelist.Answer {
	for i := range a.Products {
		a.Products[i].Channels = append(a.Products[i].Channels, pricelist.ChannelResult{ID: "stall"})
	}
	return a
}

// What a price was and how it changes, to a tenth of a per cent.
func TestTodayInWords(t *testing.T) {
	amount, rate := func(s string) quoin.Optional[quoin.Amount] { return quoin.Some(quoin.MustAmount(s)) }, func(s string) quoin.Optional[quoin.Rate] { return quoin.Some(quoin.MustRate(s)) }
	for _, c := range []struct {
		today  quoin.Optional[quoin.Amount]
		change quoin.Optional[quoin.Rate]
		want   string
	}{
		{quoin.Optional[quoin.Amount]{}, quoin.Optional[quoin.Rate]{}, "| - | 30.00 | - |"},
		{amount("0.00"), quoin.Optional[quoin.Rate]{}, "| 0.00 | 30.00 | - |"},
		{amount("29.00"), rate("3.448%"), "| 29.00 | 30.00 | +3.4% |"},
		{amount("32.00"), rate("-6.25%"), "| 32.00 | 30.00 | -6.3% |"},
		{amount("30.00"), rate("0%"), "| 30.00 | 30.00 | as it is |"},
	} {
		a := toldAnswer(t)
		a.Products[2].Today, a.Products[2].Change = c.today, c.change
		if got := sheet.Markdown(a); !strings.Contains(got, "| Tern "+c.want) {
			t.Errorf("want %s:\n%s", c.want, got[:600])
		}
	}
}

// A rule that refuses twice is named once, and after twelve reasons others are spoken of.
func TestRulesThatHoldAPrice(t *testing.T) {
	for n, want := range map[int]string{
		1: `"a"`, 2: `"a"`, 3: `"a" and "c"`, 4: `"a", "c" and "d"`,
		12: `"a", "c", "d", "e", "f", "g", "h", "i", "j", "k" and "l"`, 13: `"a", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l" and others`,
	} {
		var by []string
		for i := range n {
			name := string(rune('a' + i))
			if i == 1 {
				name = "a"
			}
			by = append(by, fmt.Sprintf(`{"rule": %q, "kind": "price", "product": "tern", "price": "30.01", "bound": "at_most", "asked": "30.00", "got": "30.01"}`, name))
		}
		by = append(by[:n:n], `{"rule": "limit", "kind": "price", "product": "tern", "price": "30.01", "bound": "at_most", "asked": "30.00", "got": "30.01", "at_limit": true}`)
		a := toldAnswer(t)
		a.Products[2].Higher = decoded[pricelist.WhyNot](t, `{"price": "30.01", "by": [`+strings.Join(by, ",")+`]}`)
		if got := sheet.Text(a, 1000); !strings.Contains(got, `; from above by `+want+"\n") {
			t.Errorf("%d: %s", n, strings.Split(got, "\n")[6])
		}
	}
}

// The price list's columns take 36 characters. A name has what is left, if that is 12 or more, and
// else, or where it is longer, a line of its own.
func TestNamesInThePriceList(t *testing.T) {
	a := toldAnswer(t)
	a.Products = a.Products[2:]
	const figures = "           -       30.00           -\n"
	for _, c := range []struct {
		wide       int
		name, want string
	}{
		{48, "Tern", "Tern        " + figures},
		{47, "Tern", "Tern\n" + figures},
		{48, "Common terns", "Common terns" + figures},
		{48, "Common terns!", "Common terns!\n" + strings.Repeat(" ", 12) + figures},
	} {
		a.Products[0].Name = c.name
		_, rows, _ := strings.Cut(sheet.Text(a, c.wide), "change\n")
		if !strings.HasPrefix(rows, c.want) {
			t.Errorf("%d: got\n%s\nwant\n%s", c.wide, rows[:120], c.want)
		}
	}
}
