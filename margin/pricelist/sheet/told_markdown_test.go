package sheet_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin/margin/pricelist/sheet"
)

// same compares whole pages line by line.
func same(t *testing.T, got, want string) {
	t.Helper()
	if d := cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")); d != "" {
		t.Error(d)
	}
}

// All that an answer can say, in full. What is worked out on the page: 0.50 is 5.30 − 4.80 and 0.15
// is 5.10 − 4.95; 2.5 sales are 3 and 3.2 are 4; 1.412 times as many sales are 142 of 100; runs are
// whole ones, without what is over; 11.3 prints are 12.
func TestFullMarkdown(t *testing.T) {
	same(t, plain(sheet.FullMarkdown(toldAnswer(t))), fullMarkdown)
}

const fullMarkdown = `# Price list

| product | today | price, EUR | change | may be | held from below by | from above by |
|---|--:|--:|--:|---|---|---|
| Heron, A4 | 24.00 | 25.00 | +4.2% | 20.00–25.00, 26.00–40.00 | "leaves ten" | "market" |
| wren | 8.00 | 8.00 | as it is | up to 12.00 |  | "r0" |
| Tern | - | 30.00 | - | 30.00 | "r1" | "r2" |

## What needs a look

- Preference "ladder" was dropped: with it, no price would be left for Heron, A4.
- Preference "round" was dropped: with it, no price would be left.

## Heron, A4: 25.00 EUR (today 24.00)

- Not below 20.00: at 19.99 a print keeps 9.99 in Own shop from orders of kind 2, not 10.00 ("leaves ten").
- Not above 25.00: "market" asks at most 25.00.
- If unsure figures turn out well, it would be 24.00; if badly, none, by "leaves ten" and "market". Most: ink (3 ml to 4 ml): 0.50 a print.
- Also unsure: supplies[0].price (60.00 to 70.00): 0.15 a print.

| One print, on average | Own shop | Weekend fair |
|---|--:|--:|
| price of one print | 25.00 | 25.00 |
| + postage buyer pays | 4.00 | - |
| - tax, passed on | 4.83 | 4.17 |
| **= you receive** | **24.17** | **20.83** |
| - materials and packing | 3.00 | 3.00 |
| - your own time | 1.50 | 1.50 |
| - paid time | 0.50 | 0.50 |
| - selling fees | 1.27 | 0.33 |
| - postage you pay | 5.20 | - |
| - fixed cost of channel | 0.70 | - |
| **= stays with you** | **12.00** | **15.50** |
| - part of yearly costs | 2.00 | 2.00 |
| - income tax | 2.50 | 3.38 |
| **= yours in the end** | **7.50** | **10.12** |
| you may discount | 15.5% | 61% |
| sales for fixed cost | 3 | - |
| sales for yearly costs | 4 | - |
| sales for listing | 1 | - |
| sales for stand | - | - |
| gross margin | 79.3% | 76.0% |
| net margin | 31.0% | 48.6% |
| making it: at least | 4.50 | - |
| making it: at most | 5.60 | - |
| in the end: at least | 6.90 | - |
| in the end: at most | 8.00 | - |

- A larger discount breaks "leaves ten" and others in Own shop; loses money in Weekend fair.
- Avoid 20.00–23.48: in Own shop you keep less there than at 19.00.
- Avoid 30.00 and up: in Own shop you keep less there than at 29.00.
- Own shop needs the highest price: 23.10. With 15.5% off you keep 8.50 of a sale, and need 142 sales to earn what 100 earn now. 3 sales here pay the fixed cost of 30.00. 4 sales here pay the yearly costs, if nothing else paid them, of 40.00. 1 sale here pays the listing of 12.00. Avoid 20.00–23.48: in Own shop you keep less there than at 19.00. Avoid 24.50–25.50: in Own shop you keep less there than at 24.00. Avoid 30.00 and up: in Own shop you keep less there than at 29.00.
- No rule protects you in Weekend fair. With 61% off you keep 0.25 of a sale.
- Own shop, One print: 1 print at 25.00, 29.00 paid; keeps 11.40, 11.40 each (card 0.87, listing 0.40); given back, it costs 6.30
- Own shop, order 2: 3 prints at 27.00 USD, 81.00 USD paid; keeps 42.00, 14.00 each
- Own shop, One print: 1 print in tube, charged for 0.25 kg, postage 5.20; dearer from 4 prints on
- Own shop, order 2: 3 prints in 2 parcels (flat), each charged for 1 kg, postage 9.90 in all
- post: 2 prints in box, charged for 2 kg, postage 7.00
- paper: 8 out of a sheet, 71.2% of it used, 0.125 sheet each, weighing 18.5 g; the unusable edge of the sheet costs 0.03 a piece
- canvas: 12 out of a roll, 0.3 m each
- moulding: 2 sticks cut together, 1.2 m each
- ink: 3.5 ml each
- Start 12 prints: in 95 of 100 runs 10 are good. With 11 only in 61 of 100.
- a run costs least: 1 to 40 at home (9.00 to 165.00); 41 to 90 mill (166.00 to 300.00)
- mill: 41 cost 166.00 (4.05 each). It may deliver as few as 39, and bill up to 180.00; order 50, which costs least; for this demand have 45 made, of which 3.3 stay on average
- house: 41 cost 205.00 (5.00 each). It may deliver as few as 41, and bill up to 205.00

## wren: 8.00 EUR (today 8.00)

- Not above 12.00: Heron, A4 cannot be more than 24.00, so this cannot be more than 12.00 ("r0").
- Unsure figures do not change the price, only the lowest that is allowed: 7.00 to 7.50.

| One print, on average |
|---|
| price of one print |
| gross margin |
| net margin |

## Tern: 30.00 EUR

- Not below 30.00: Heron, A4 cannot be less than 25.00, so this cannot be less than 30.00 ("r1").
- Not above 30.00: no price of wren fits beside it ("r2").
- Unsure figures do not change the price.

| One print, on average |
|---|
| price of one print |
| gross margin |
| net margin |

## What others sell for

- Heron, A4: 9 comparables from 3 venues and 1 seller, from 12.00 to 48.00. The middle half lies from 18.00 to 31.00, the middle is 22.50. 25.00 is dearer than 67% of them, today's price dearer than 56%. Left out: 4 only asked for, 3 sold too seldom, 2 with a frame of unknown worth, 5 without a size, 6 worth no more than postage and frame.
- wren: 1 comparable from 1 venue and 1 seller, from 9.00 to 9.00. That is too few to go by: it takes 5 from 2 venues.
- Tern: no comparable counts. Left out: 1 only asked for.

## Fairs

- Reed fair: go. Expected to leave 75.50 on sales of 500.00, after fixed costs of 120.00 and commission of 25.00. It breaks even at 12 prints, sales of 282.50. That is 6.29 for each hour that it takes you in all: packing, the way, setting up, selling. Cash 300.00, profit on what was sold 80.00, stock left 45.00.
- mud: stay. Expected to lose 64.25 on sales of 50.00, after fixed costs of 90.00.

## Sets

- Pair: its products cost 33.00 apart, and its buyers would leave 14.00 without it; from 30.00 on the set leaves no less, and saves them 9.1%
- trio: its products cost 63.00 apart, and its buyers would leave 30.00 without it; no price considered leaves as much

## Editions

- Marsh edition: 50 numbered, 12 sold, 3 reserved, 35 free
- Heron, A4: 25.00 from 0 sold, 32.00 from 20 sold; the 38 left, all in this size, would bring 1076.00 in 9.5 months, of which 610.00 stays with you, in the worst channel
- wren: 8.00 from 0 sold; the 38 left, all in this size, would bring 304.00, of which 90.00 stays with you, in the worst channel
- reeds of Tern: 9 numbered, 1 sold, 0 reserved, 8 free
- Tern: 30.00 from 1 sold; the 8 left would bring 240.00, of which 88.00 stays with you, in the worst channel

## Supplies and machines

- paper: buy 60 for 58.00; 10 more than needed, worth 9.67; 45 to 59 cost more than 60; 40 cost more than 41
- ink: buy 5 for 50.00
- ink: 120 ml in stock, worth 48.00, for which 60.00 was paid; the next costs 0.41 (average)
- card: 30 sheet in stock, worth 9.00; the next costs 0.30 (last)
- press: adds 0.85 to each print, over 1200 prints

Averages over the kinds of order of each channel. Each column adds up as it is printed.

## Cautions

- Estimates only.
`

// What is short leaves out the further figures that are unsure, yearly costs, margins, ranges, channels, orders, what was worked out and
// supplies; nothing else.
func TestMarkdownIsShort(t *testing.T) {
	var want []string
	supplies := false
	for _, line := range strings.Split(fullMarkdown, "\n") {
		out := false
		for _, start := range []string{
			"- Also unsure", "| sales for yearly", "| gross margin", "| net margin", "| making it", "| in the end:", "- Own shop", "- No rule protects",
			"- post: ", "- paper: 8", "- canvas", "- moulding", "- ink: 3.5", "- Start 12", "- a run costs", "- mill", "- house",
		} {
			out = out || strings.HasPrefix(line, start)
		}
		supplies = line == "## Supplies and machines" || supplies && !strings.HasPrefix(line, "Averages")
		if !out && !supplies {
			want = append(want, line)
		}
	}
	same(t, plain(sheet.Markdown(toldAnswer(t))), strings.Join(want, "\n"))
}
