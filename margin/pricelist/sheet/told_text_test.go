package sheet_test

import (
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// The same figures as in Markdown, laid out in lines: all of it at 80 characters; what fits on a
// screen of 24 lines, where why the price is no higher, what is unsure and what a discount breaks are left
// out; and at 60, which is no screen, where they are not.
func TestLayoutOfText(t *testing.T) {
	a := toldAnswer(t)
	for name, got := range map[string]string{
		"full-80.txt": sheet.FullText(a, 80), "short-80.txt": sheet.Text(a, 80), "short-60.txt": sheet.Text(a, 60), "full.html": withoutPictures(sheet.FullHTML(a)),
	} {
		want, err := os.ReadFile("testdata/told-" + name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(name, func(t *testing.T) { same(t, got, string(want)) })
	}
}

// withoutPictures is the body of a page with the captions of its pictures alone.
func withoutPictures(page string) string {
	_, body, _ := strings.Cut(page, "</head>\n")
	return regexp.MustCompile(`(?s)<figure>.*?(<figcaption>.*?</figcaption>).*?</figure>`).ReplaceAllString(body, "$1")
}

// The whole story of a price, to be followed with a pocket calculator: 64.00 ÷ 50 × 0.5 is 0.64;
// 10.12 × 2.1% + 0.27 is 0.48252, so 0.48; 10.12 − 0.64 − 0.48 is 9.00, and 0.01 less keeps 8.99.
// (10.12 − 0.64) ÷ 10.12 is 93.7%, 9.00 ÷ 10.12 is 88.9%.
func TestWholeStory(t *testing.T) {
	story, _ := sheet.Why(answer(), "bittern-a4", 300)
	same(t, story, `Bittern, A4: 10.12 EUR
  May be 10.12 and up.

Why not lower?
  10.11 is forbidden:
    at 10.11 a print keeps 8.99 in Own shop, not 9.00 ("leaves nine")
Why not higher?
  No rule forbids it. 10.12 was taken because without a price today the least is taken.

  One print, on average       Own shop
    price of one print           10.12
  - materials and packing         0.64
  - selling fees                  0.48
  = stays with you                9.00
  you may discount                none
  gross margin                   93.7%
  net margin                     88.9%

Goods and overhead, step by step

    1  landed cost, paper = price 64.00 = 64.00
    2  unit cost, paper = landed cost [1] 64.00 / quantity 50 sheet = 1.28
    3  line cost, paper = unit cost [2] 1.28 x quantity 0.5 sheet = 0.64
    4  goods per item = line cost [3] 0.64 = 0.64
    5  overhead = nothing = 0

Own shop: one item at 10.12, step by step

    6  unit price = list price 10.12 = 10.12
    7  items = unit price [6] 10.12 = 10.12
    8  tax = items [7] 10.12 x tax rate 0% = 0.00
    9  order revenue = items [7] 10.12 = 10.12
   10  fee rated, payment = items [7] 10.12 x rate 2.1% = 0.21252
   11  fee charge, payment = fee rated [10] 0.21252 + fixed 0.27 = 0.48252; rounded half up to 0.48, a difference of -0.00252
   12  fee, payment = fee charge [11] 0.48 = 0.48
   13  order fees = payment [12] 0.48 = 0.48
   14  order fulfilment = postage 0 = 0
   15  order cost = goods per item [4] 0.64 x items 1 + goods per order 0 x 1 = 0.64
   16  order goods = order cost [15] 0.64 = 0.64
   17  items per order = share 100% x items 1 = 1
   18  revenue = order revenue [9] 10.12 / items per order [17] 1 = 10.12
   19  tax passed on = tax [8] 0.00 / items per order [17] 1 = 0.00
   20  goods = order goods [16] 0.64 / items per order [17] 1 = 0.64
   21  fees = order fees [13] 0.48 / items per order [17] 1 = 0.48
   22  fulfilment = order fulfilment [14] 0 / items per order [17] 1 = 0
   23  fixed cost = nothing = 0
   24  gross = revenue [18] 10.12 - goods [20] 0.64 = 9.48
   25  contribution = gross [24] 9.48 - fees [21] 0.48 - fulfilment [22] 0 - fixed cost [23] 0 = 9.00
   26  operating = contribution [25] 9.00 - overhead [5] 0 = 9.00
   27  operating above 0 = greatest of operating [26] 9.00, nothing 0 = 9.00
   28  income tax = operating above 0 [27] 9.00 x income tax 0% = 0.00
   29  net = operating [26] 9.00 - income tax [28] 0.00 = 9.00

These are estimates from the figures in the document, and only as good as they are.
This is not tax, legal or accounting advice.
Fees, taxes and the law on resale prices differ by place and change; ask the authority or a licensed professional.
`)
}

// Each side says what was allowed there and what refuses the next price, once each.
func TestWhyNotSaysWhatWasChosen(t *testing.T) {
	const refused = "\n  29.99 is forbidden:\n    Heron, A4 cannot be less than 25.00, so this cannot be less than 30.00 (\"r1\")"
	for name, c := range map[string]struct {
		change       func(a *pricelist.Answer)
		lower, other string
	}{
		"at the end":   {func(a *pricelist.Answer) {}, refused[1:], ""},
		"nearest, new": {func(a *pricelist.Answer) { a.Products[2].Least = quoin.MustAmount("28.00") }, "  Down to 28.00 is allowed. 30.00 was taken because without a price today the least is taken." + refused, ""},
		"nearest, today": {func(a *pricelist.Answer) {
			a.Products[2].Least, a.Products[2].Today = quoin.MustAmount("28.00"), quoin.Some(quoin.MustAmount("31.00"))
		}, "  Down to 28.00 is allowed. 30.00 was taken because it is nearest to today's 31.00." + refused, ""},
		"least":    {func(a *pricelist.Answer) { a.Choose = "least"; a.Products[2].Higher = pricelist.WhyNot{} }, refused[1:], "  No rule forbids it. 30.00 was taken because \"choose\" asks for the least."},
		"greatest": {func(a *pricelist.Answer) { a.Choose = "greatest"; a.Products[2].Higher = pricelist.WhyNot{} }, refused[1:], "  No rule forbids it. 30.00 was taken because \"choose\" asks for the greatest."},
	} {
		a := toldAnswer(t)
		c.change(&a)
		if c.other == "" {
			c.other = "  30.01 is forbidden:\n    no price of wren fits beside it (\"r2\")"
		}
		text, ok := sheet.WhyNot(a, "tern", 200)
		if want := "Why not lower?\n" + c.lower + "\nWhy not higher?\n" + c.other + "\n"; !ok || text != want {
			t.Errorf("%s: got\n%s\nwant\n%s", name, text, want)
		}
	}
}

// What refuses a neighbouring size stands under the refusal, and only so many are told.
func TestWhyNotGoesOn(t *testing.T) {
	deep := toldAnswer(t, `"neighbour": "wren"}`, `"neighbour": "wren", "because": [
		{"rule": "r0", "kind": "price", "product": "wren", "price": "15.00", "bound": "at_most", "asked": "12.00", "got": "15.00"}]},
		{"rule": "own", "kind": "price", "product": "tern", "price": "30.01", "bound": "at_most", "asked": "30.00", "got": "30.01", "reason": "too dear for a card"}], "more": true}, "x": {"by": [`)
	text, _ := sheet.WhyNot(deep, "tern", 200)
	_, text, _ = strings.Cut(text, "higher?\n")
	same(t, text, `  30.01 is forbidden:
    no price of wren fits beside it ("r2")
      wren at 15.00 is forbidden:
        "r0" asks at most 12.00
    too dear for a card ("own")
    and other rules
`)
}

// decoded is what a stored answer has at some place.
func decoded[T any](t *testing.T, text string) (v T) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}
