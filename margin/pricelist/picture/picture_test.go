package picture_test

import (
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
)

var update = flag.Bool("update", false, "write the golden files")

func answer(t *testing.T, text string) pricelist.Answer {
	t.Helper()
	a, err := pricelist.Price([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return a.WithCurves()
}

func shop(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// all is every picture of a product of an answer, by a name.
func all(a pricelist.Answer, product string) map[string]picture.Picture {
	out := make(map[string]picture.Picture)
	for name, draw := range map[string]func(pricelist.Answer, string) (picture.Picture, bool){"goes": picture.Breakdown, "keeps": picture.Keeps, "market": picture.Market} {
		if p, ok := draw(a, product); ok {
			out[name] = p
		}
	}
	for n, p := range picture.Layouts(a, product) {
		out["cut-"+strconv.Itoa(n+1)] = p
	}
	for _, it := range a.Products {
		if p, ok := picture.Ladder(a, it.Design); ok && it.ID == product {
			out["ladder"] = p
		}
	}
	return out
}

// nameOf is how files of a product begin.
func nameOf(product string) string {
	if product == "a" {
		return "crowded"
	}
	return product
}

// What the pictures look like. These files prove no figure: they show what has changed.
func TestGoldenPictures(t *testing.T) {
	roll, crowd := answer(t, shop(t, "testdata/roll.json")), answer(t, hostile())
	seen := 0
	for product, a := range map[string]pricelist.Answer{"bittern-a3": roll, "bittern-a4": roll, "a": crowd} {
		for name, p := range all(a, product) {
			seen++
			file := filepath.Join("testdata", nameOf(product)+"-"+name+".svg")
			if *update {
				if err := os.WriteFile(file, []byte(p.SVG()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if want := shop(t, file); p.SVG() != want {
				t.Errorf("%s is not as it was drawn now; -update writes it", file)
			}
		}
	}
	if seen != 14 {
		t.Errorf("%d pictures", seen)
	}
}

type rect struct{ x, y, wide, high float64 }

func number(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// rects are the rectangles that a pattern of a picture finds, as x, y, width and height.
func rects(t *testing.T, svg, begin string) []rect {
	t.Helper()
	var out []rect
	for _, m := range regexp.MustCompile(begin+`[^>]*? x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"`).FindAllStringSubmatch(svg, -1) {
		out = append(out, rect{number(t, m[1]), number(t, m[2]), number(t, m[3]), number(t, m[4])})
	}
	return out
}

func near(a, b float64) bool { return math.Abs(a-b) <= 0.11 }

// What there is no room for is said.
func TestMoreThanIsDrawn(t *testing.T) {
	a := answer(t, hostile())
	for name, want := range map[string]string{"goes": "The table holds 18 channels more.", "keeps": "24 channels more stand in the table."} {
		p := all(a, "a")[name]
		if !strings.HasSuffix(p.Text, want) {
			t.Errorf("%s: %q, want %q at its end", name, p.Text, want)
		}
	}
	p := all(a, "a")
	if n := strings.Count(p["keeps"].Bare(), `class="line l`); n != 12 { // each with its sample in the key
		t.Errorf("%d lines", n)
	}
	if n := len(p["goes"].Head); n != 31 {
		t.Errorf("%d heads", n)
	}
	if !strings.Contains(p["cut-1"].Bare(), "Each box is many pieces.") || len(rects(t, p["cut-1"].Bare(), `<rect class="box"`)) > 9 {
		t.Error("many pieces are drawn one by one")
	}
	// 5000 mm hold 47 pieces of 105 mm, 4935 mm, in one block.
	whole, box := rects(t, p["cut-1"].Bare(), `<rect class="sheet"`)[0], rects(t, p["cut-1"].Bare(), `<rect class="box"`)
	area := 0.0
	for _, b := range box {
		area += b.wide * b.high
	}
	cut := a.Products[0].WorkedOut[0].Sheet
	if share := area / (whole.wide * whole.high); !within(share, cut.Used.Float64(), 0.01) {
		t.Errorf("the blocks cover %.3f of the sheet, want %s", share, cut.Used)
	}
}

// The parts of a bar stand side by side without a gap, each as wide as its amount, and all together as wide as what the
// buyer pays: 40.00 of 44.00 and a loss in the first channel, where a fee of 60.00 is more than all of it.
func TestBarsSumUp(t *testing.T) {
	a := answer(t, shop(t, "testdata/roll.json"))
	p, ok := picture.Breakdown(a, "bittern-a3")
	if !ok {
		t.Fatal("no picture")
	}
	it := a.Products[0]
	bars := make(map[float64][]rect)
	legend := slices.Max(heights(rects(t, p.Bare(), `<rect class="part"`)))
	for _, r := range rects(t, p.Bare(), `<rect class="part"`) {
		if r.high == legend {
			bars[r.y] = append(bars[r.y], r)
		}
	}
	if len(bars) != 2 {
		t.Fatalf("%d bars", len(bars))
	}
	for y, parts := range bars {
		for i := 1; i < len(parts); i++ {
			if !near(parts[i-1].x+parts[i-1].wide, parts[i].x) {
				t.Errorf("at %v a part ends at %v, the next begins at %v", y, parts[i-1].x+parts[i-1].wide, parts[i].x)
			}
		}
	}
	// Of the first: tax 6.67 of 40.00, materials 3.21, fees 60.00, postage 5.00: 74.88 in all, drawn over 620. Paid are 40.00
	// and 4.00 of shipping, which is not charged from 42.00 on.
	st := it.Channels[0].Statement
	costs := st.Tax.Add(st.Goods).Add(st.Fees).Add(st.Fulfilment).Float64()
	unit := 620 / costs
	first := bars[slices.Min(keys(bars))]
	for i, want := range []float64{st.Tax.Float64(), st.Goods.Float64(), st.Fees.Float64(), st.Fulfilment.Float64()} {
		if !within(first[i].wide, want*unit, 0.2) {
			t.Errorf("part %d is %v wide, want %v", i, first[i].wide, want*unit)
		}
	}
	over := rects(t, p.Bare(), `<rect class="over"`)
	paid := it.Channels[0].Buyer.Item.Add(it.Channels[0].Buyer.Postage).Float64()
	if len(over) != 1 || !within(over[0].x, 10+paid*unit, 0.2) || !within(over[0].wide, (costs-paid)*unit, 0.2) {
		t.Errorf("the loss stands at %v, want one from %v, %v wide", over, 10+paid*unit, (costs-paid)*unit)
	}
}

// within allows what rounding each line to cents moves, and a tenth.
func within(got, want, by float64) bool { return math.Abs(got-want) <= by }

func heights(all []rect) (out []float64) {
	for _, r := range all {
		out = append(out, r.high)
	}
	return out
}

func keys(m map[float64][]rect) (out []float64) {
	for k := range m {
		out = append(out, k)
	}
	return out
}

func attribute(t *testing.T, svg, name string) float64 {
	t.Helper()
	m := regexp.MustCompile(name + `="([-\d.]+)"`).FindStringSubmatch(svg)
	if m == nil {
		t.Fatalf("no %s", name)
	}
	return number(t, m[1])
}

// points are where a path of lines goes through.
func points(t *testing.T, path string) (out [][2]float64) {
	t.Helper()
	x, y := 0.0, 0.0
	for _, m := range regexp.MustCompile(`([MLHV])([-\d.]+)(?: ([-\d.]+))?`).FindAllStringSubmatch(path, -1) {
		switch m[1] {
		case "H":
			x = number(t, m[2])
		case "V":
			y = number(t, m[2])
		default:
			x, y = number(t, m[2]), number(t, m[3])
		}
		out = append(out, [2]float64{x, y})
	}
	return out
}

// Each line goes through each point of its curve: its jumps stand at their prices. The scale of prices is what the picture says
// of itself, that of amounts follows from the labels of its axis.
func TestLinesGoThroughTheirPoints(t *testing.T) {
	for _, file := range []string{"testdata/roll.json", "../../../examples/pricesheet/scenario.json"} {
		a := answer(t, shop(t, file))
		it := a.Products[0]
		p, _ := picture.Keeps(a, it.ID)
		svg := p.Bare()
		from, to, left, right := attribute(t, svg, "data-from"), attribute(t, svg, "data-to"), attribute(t, svg, "data-left"), attribute(t, svg, "data-right")
		labels := regexp.MustCompile(`<text class="e soft" x="58" y="([-\d.]+)">([-\d.]+)</text>`).FindAllStringSubmatch(svg, -1)
		if len(labels) < 2 {
			t.Fatalf("%d labels", len(labels))
		}
		first, last := labels[0], labels[len(labels)-1]
		scale := (number(t, last[1]) - number(t, first[1])) / (number(t, last[2]) - number(t, first[2]))
		lines := regexp.MustCompile(`<path class="line l(\d)" d="(M[^h"]+)"`).FindAllStringSubmatch(svg, -1)
		if len(lines) != len(it.Channels) {
			t.Fatalf("%d lines of %d channels", len(lines), len(it.Channels))
		}
		for n, line := range lines {
			drawn := points(t, line[2])
			for _, at := range it.Channels[n].Curve {
				x := left + (at.Price.Float64()-from)/(to-from)*(right-left)
				y := number(t, first[1]) - 4 + (at.Contribution.Float64()-number(t, first[2]))*scale
				if !slices.ContainsFunc(drawn, func(d [2]float64) bool { return near(d[0], x) && within(d[1], y, 0.3) }) {
					t.Errorf("%s, line %d: nothing at %s, %s: wanted %.1f %.1f in %v", file, n, at.Price, at.Contribution, x, y, drawn)
				}
			}
		}
		// The new price is a line, and the allowed prices are a band that holds it.
		price := left + (it.Price.Float64()-from)/(to-from)*(right-left)
		now := regexp.MustCompile(`<path class="now" d="M([\d.]+) `).FindStringSubmatch(svg)
		band := rects(t, svg, `<rect class="may"`)
		if !near(number(t, now[1]), price) || band[0].x > price+0.1 || band[0].x+band[0].wide < price-0.1 {
			t.Errorf("%s: the price stands at %s, want %.1f, in %v", file, now[1], price, band)
		}
	}
}

// Postage of 4.00 is free from 42.00: there the line of the web shop falls by 4.00 less 20% of tax in it.
func TestJumpStandsAtItsPrice(t *testing.T) {
	a := answer(t, shop(t, "testdata/roll.json"))
	p, _ := picture.Keeps(a, "bittern-a3")
	want := [][]string{{"Own web shop", "41.99"}, {"Own web shop", "42.00"}}
	for _, w := range want {
		if !slices.ContainsFunc(p.Rows, func(r []string) bool { return r[0] == w[0] && (r[1] == w[1] || r[3] == w[1]) }) {
			t.Errorf("no row of %v in %v", w, p.Rows)
		}
	}
}

// Pieces are drawn to scale: an A4 of 210 mm is 210 ÷ 500 of the sheet's width, and all 4 of them lie on it.
func TestLayoutIsToScale(t *testing.T) {
	a := answer(t, shop(t, "testdata/roll.json"))
	for _, c := range []struct {
		product         string
		pieces          int
		across, of, all float64 // the side that lies along the picture, what it is compared with
	}{
		{"bittern-a4", int(a.Products[1].WorkedOut[0].Sheet.Pieces), 210, 500, 0},
	} {
		p := picture.Layouts(a, c.product)
		if len(p) != 1 {
			t.Fatalf("%s: %d pictures", c.product, len(p))
		}
		whole, boxes := rects(t, p[0].Bare(), `<rect class="sheet"`), rects(t, p[0].Bare(), `<rect class="box"`)
		if len(whole) != 1 || len(boxes) != c.pieces {
			t.Fatalf("%s: %d sheets, %d pieces, want %d", c.product, len(whole), len(boxes), c.pieces)
		}
		for i, b := range boxes {
			if b.x < whole[0].x-0.1 || b.y < whole[0].y-0.1 || b.x+b.wide > whole[0].x+whole[0].wide+0.1 || b.y+b.high > whole[0].y+whole[0].high+0.1 {
				t.Errorf("%s: piece %d at %v is not on the sheet %v", c.product, i, b, whole[0])
			}
			if side := math.Min(b.wide, b.high); !within(side/whole[0].wide, c.across/c.of, 0.002) {
				t.Errorf("%s: piece %d is %v wide of %v", c.product, i, side, whole[0].wide)
			}
			for k, o := range boxes[:i] {
				if b.x+0.2 < o.x+o.wide && o.x+0.2 < b.x+b.wide && b.y+0.2 < o.y+o.high && o.y+0.2 < b.y+b.high {
					t.Errorf("%s: pieces %d and %d lie on each other: %v and %v", c.product, k, i, o, b)
				}
			}
		}
	}
	// Of a roll 610 mm wide, 2 pieces of 297 mm with 5 mm between them.
	p := picture.Layouts(a, "bittern-a3")[0].Bare()
	whole, boxes := rects(t, p, `<rect class="sheet"`)[0], rects(t, p, `<rect class="box"`)
	beside := boxes[1+slices.IndexFunc(boxes[1:], func(b rect) bool { return b.x == boxes[0].x })]
	if !within(boxes[0].high/whole.high, 297.0/610, 0.002) || !within((beside.y-boxes[0].y)/whole.high, 302.0/610, 0.002) || !within(boxes[0].wide/whole.high, 420.0/610, 0.002) {
		t.Errorf("pieces %v of a roll %v", boxes, whole)
	}
}

// Bars of a ladder are as long as their prices, and sheets as large as their sizes.
func TestLadderIsToScale(t *testing.T) {
	a := answer(t, strings.Replace(shop(t, "testdata/roll.json"), `"rules": [`, `"rules": [{"id": "a4", "rule": "price", "products": ["bittern-a4"], "at_most": "40.00"}, {"id": "a3", "rule": "price", "products": ["bittern-a3"], "at_least": "45.00"},`, 1))
	p, ok := picture.Ladder(a, "Bittern")
	if !ok {
		t.Fatal("no picture")
	}
	bars, sheets := rects(t, p.Bare(), `<rect class="may"`), rects(t, p.Bare(), `<rect class="sheet"`)
	if len(bars) != 2 || !within(bars[0].wide/bars[1].wide, 40.0/45, 0.002) {
		t.Errorf("bars %v", bars)
	}
	if len(sheets) != 2 || !within(sheets[0].high/sheets[1].high, 297.0/420, 0.01) || !within(sheets[0].wide/sheets[1].wide, 210.0/297, 0.01) {
		t.Errorf("sheets %v", sheets)
	}
}

// A mark for each comparable, at its price; what does not count and lies far off stands at the end.
func TestMarketMarks(t *testing.T) {
	a := answer(t, shop(t, "testdata/roll.json"))
	p, _ := picture.Market(a, "bittern-a3")
	marks := regexp.MustCompile(`<circle class="(tick|open)" cx="([\d.]+)"`).FindAllStringSubmatch(p.Bare(), -1)
	if len(marks) != 2 || !strings.Contains(p.Bare(), "240.00 →") {
		t.Fatalf("%v", marks)
	}
	// 30.00, today's, and 45.00 are the ends, and a twentieth of 15.00 more on both sides.
	for i, price := range []float64{36, 45} {
		if want := 190 + (price-29.25)/16.5*440; !near(number(t, marks[i][2]), want) {
			t.Errorf("%.2f stands at %s, want %.1f", price, marks[i][2], want)
		}
	}
}

// hostile is a document whose names try to leave their places, and that is large wherever it can be.
func hostile() string {
	name := strings.Repeat(`</text><script>alert(1)</script>&\"'`, 3)
	var channels, seen []string
	for i := range 30 {
		channels = append(channels, fmt.Sprintf(`{"id": "c%d", "name": "%s %d", "orders": [{"shipping": "4.00", "free_from": "%d.50", "postage": "5.00"}], "price_points": {"step": "0.%02d"}, "fees": [{"name": "x", "rate": "9%%", "at_most": "%d.00"}]}`, i, name, i, 12+i, 7+i, 2+i))
		seen = append(seen, fmt.Sprintf(`{"product": "a", "venue": "%s %d", "price": "%d.00", "sold": 1}`, name, i, 10+7*i))
	}
	for i := range 400 {
		seen = append(seen, fmt.Sprintf(`{"product": "a", "venue": "north", "price": "%d.00", "sold": 1}`, 10+i))
	}
	return `{"version": 1, "currency": "EUR", "supplies": [{"id": "` + name + `", "quantity": "1 sheet", "price": "1.00", "sheet": {"size": "5000 x 7000 mm"}}],
		"products": [{"id": "a", "name": "` + name + `", "design": "` + name + `", "sheet": "A6", "price": "90.00", "bill": [{"supply": "` + name + `", "cut": {"of": "sheet"}}]},
		{"id": "b", "name": "` + name + `", "design": "` + name + `", "sheet": "A5"}],
		"channels": [` + strings.Join(channels, ",") + `], "comparables": [` + strings.Join(seen, ",") + `], "rules": [{"id": "r", "rule": "price", "at_least": "80.00"}]}`
}

// Every picture is well-formed, below 30 kB, without script or anything loaded, the same each time, and its table has as many
// cells as heads in each row.
func TestPicturesHold(t *testing.T) {
	files, err := filepath.Glob("../../../examples/*/*.json")
	if err != nil || len(files) < 8 {
		t.Fatalf("%v, %v", files, err)
	}
	texts := []string{hostile(), shop(t, "testdata/roll.json")}
	for _, f := range files {
		texts = append(texts, shop(t, f))
	}
	drawn, kinds := 0, make(map[string]int)
	for n, text := range texts {
		a, err := pricelist.Price([]byte(text))
		if err != nil {
			continue // a document of another kind
		}
		a = a.WithCurves()
		for _, it := range a.Products[:min(len(a.Products), 4)] {
			again := all(a, it.ID)
			for name, p := range all(a, it.ID) {
				drawn++
				kinds[name[:3]]++
				holds(t, fmt.Sprintf("document %d, %s, %s", n, it.ID, name), p)
				if p.SVG() != again[name].SVG() {
					t.Errorf("%s is another picture the second time", name)
				}
			}
		}
	}
	if drawn < 40 || len(kinds) != 5 {
		t.Errorf("only %d pictures: %v", drawn, kinds)
	}
}

func holds(t *testing.T, what string, p picture.Picture) {
	t.Helper()
	svg := p.SVG()
	if len(svg) >= 30_000 {
		t.Errorf("%s: %d bytes", what, len(svg))
	}
	for _, foreign := range []string{"<script", "href", "http:", "https:", "@import", "onload"} {
		if strings.Contains(strings.ReplaceAll(strings.ToLower(svg), `xmlns="http://www.w3.org/2000/svg"`, ""), foreign) {
			t.Errorf("%s: holds %s", what, foreign)
		}
	}
	for _, part := range []string{`role="img"`, "<title id=", "<desc id="} {
		if !strings.Contains(svg, part) {
			t.Errorf("%s: lacks %s", what, part)
		}
	}
	d := xml.NewDecoder(strings.NewReader(svg))
	d.Strict = true
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
	}
	if p.Title == "" || p.Text == "" || len(p.Rows) == 0 {
		t.Errorf("%s: no title, text or table", what)
	}
	for _, row := range p.Rows {
		if len(row) != len(p.Head) {
			t.Errorf("%s: %d cells under %d heads", what, len(row), len(p.Head))
		}
	}
}

// Without curves, or of nothing, there is no picture.
func TestNoPicture(t *testing.T) {
	a, err := pricelist.Price([]byte(shop(t, "testdata/roll.json")))
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := picture.Keeps(a, "bittern-a3"); ok {
		t.Error("curves without curves")
	}
	if _, ok := picture.Market(a, "bittern-a3"); ok {
		t.Error("comparables without any")
	}
	a = a.WithCurves()
	for name, p := range all(a, "heron") {
		t.Errorf("%s: %s", name, p.Title)
	}
	if _, ok := picture.Ladder(a, ""); ok {
		t.Error("a ladder of no design")
	}
}

func TestZeroValues(t *testing.T) {
	all := []any{picture.Picture{}, picture.Breakdown, picture.Keeps, picture.Market, picture.Layouts, picture.Ladder, picture.Style}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	if (picture.Picture{}).SVG() != "" {
		t.Error("a picture of nothing")
	}
}

func ExampleKeeps() {
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "products": [{"id": "heron", "price": "20.00"}],
		"channels": [{"id": "web", "orders": [{"shipping": "5.00", "free_from": "30.00", "postage": "5.00"}]}],
		"rules": [{"id": "at least", "rule": "price", "at_least": "24.00", "at_most": "36.00"}]}`))
	if err != nil {
		panic(err)
	}
	p, _ := picture.Keeps(a.WithCurves(), "heron")
	fmt.Println(p.Title)
	fmt.Println(p.Text)
	for _, row := range p.Rows {
		fmt.Println(strings.Join(row, " "))
	}
	fmt.Println(len(p.SVG()) < 30_000)
	// Output:
	// What a sale keeps: heron
	// At 24.00 a sale keeps 24.00 in web. It may be 24.00 to 36.00. In web a price of 29.99 keeps more than any from 30.00 until 34.99.
	// web 10.00 10.00 29.99 29.99
	// web 29.99 29.99 30.00 25.00
	// web 30.00 25.00 48.00 43.00
	// true
}
