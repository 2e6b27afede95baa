package main

import (
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// A4 of the scenario: free postage begins at 30.00 in the own shop, so 30.50 keeps less than 29.99;
// at 5.00 every sale loses.
func TestNotesSayWhatCostsMoney(t *testing.T) {
	d := opened(t, scenario)
	lost := d.items[1].Offers[0].Sale.At(quoin.MustAmount("5.00")).Contribution
	if lost.Sign() >= 0 {
		t.Fatalf("at 5.00 a sale in the own shop keeps %s", lost)
	}
	for _, c := range []struct {
		price, want string
	}{
		{"25.50", ""},
		{"30.50", "In Own shop you keep less from 30.00 to 30.89 than at 29.99."},
		{"5.00", "Each sale in Own shop loses " + d.money(lost.Neg()) + " at this price. Each sale in Marketplace loses"},
	} {
		got := strings.Join(d.notes(1, quoin.MustAmount(c.price)), " ")
		if !strings.HasPrefix(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("at %s: %q, wanted %q", c.price, got, c.want)
		}
	}
}

// The list says A5 of the scenario in words: 15.00 to 18.00 is a fifth more, and a slider goes from
// half of the lower to twice the higher, 7.50 to 36.00.
func TestListInWords(t *testing.T) {
	l, err := opened(t, scenario).list()
	if err != nil {
		t.Fatal(err)
	}
	want := listed{
		ID: "bittern-a5", Name: "Bittern in the reeds, A5", Price: "18.00", Today: "15.00", Change: "+20%", Range: "18.00 to 18.50",
		From: 750, To: 3600, At: 1800, Count: 2,
	}
	if l.Products[0] != want {
		t.Errorf("%+v, wanted %+v", l.Products[0], want)
	}
	if r := l.Products[3].Range; r != "78.00 and up" {
		t.Errorf("framed prints may be %q", r)
	}
}

// What rounds to the figure that is asked, and is not enough, is written as it is known.
func TestFiguresThatRoundAlike(t *testing.T) {
	d := opened(t, scenario)
	asked, got := d.apart(quoin.MustRate("10%").Figure(), quoin.MustRate("9.98%").Figure())
	if asked != "10%" || got != "9.98%" {
		t.Errorf("asked %s, got %s", asked, got)
	}
	if asked, got = d.apart(quoin.MustRate("10%").Figure(), quoin.MustRate("9.21%").Figure()); asked != "10%" || got != "9.2%" {
		t.Errorf("asked %s, got %s", asked, got)
	}
}

// Sizes are compared with the prices that the list has for their neighbours: 25.50 ÷ 18.00 is 1.42,
// 40.50 ÷ 25.50 is 1.59, and 1.4 to 2 is asked.
func TestLadderIsComparedWithTheList(t *testing.T) {
	d := opened(t, scenario)
	a4, a3 := "Bittern in the reeds, A4 ÷ Bittern in the reeds, A5", "Bittern in the reeds, A3 ÷ Bittern in the reeds, A4"
	for _, c := range []struct {
		product int
		price   string
		want    []asks
	}{
		{0, "18.00", []asks{{true, a4, "1.4 to 2", "1.42"}}},
		{0, "19.00", []asks{{false, a4, "1.4 to 2", "1.34"}}},
		{1, "25.50", []asks{{true, a4, "1.4 to 2", "1.42"}, {true, a3, "1.4 to 2", "1.59"}}},
		{1, "60.00", []asks{{false, a4, "1.4 to 2", "3.33"}, {false, a3, "1.4 to 2", "0.68"}}},
		{2, "51.00", []asks{{true, a3, "1.4 to 2", "2"}}},
		{3, "78.00", nil}, // framed prints are on no ladder
	} {
		var got []asks
		for _, v := range d.verdicts(c.product, quoin.MustAmount(c.price)) {
			if v.Rule == "ladder of sizes" {
				got = v.Checks
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%d at %s: %v, wanted %v", c.product, c.price, got, c.want)
		}
	}
}

// A pinned price that holds is what the same document with the rule written into it decides.
func TestPinIsARuleOfTheDocument(t *testing.T) {
	d := opened(t, scenario)
	p, err := d.pin("bittern-a4", "29.00")
	if err != nil || !p.Holds || p.Price != "29.00" {
		t.Fatalf("%+v, %v", p, err)
	}
	text, err := os.ReadFile(scenario)
	if err != nil {
		t.Fatal(err)
	}
	with := strings.Replace(string(text), `"rules": [`, `"rules": [`+p.Rule+`,`, 1)
	answer, err := pricelist.Price([]byte(with))
	if err != nil || answer.Products[1].Price.String() != "29.00" {
		t.Fatalf("%v, %v", answer.Products, err)
	}
	var want []moved
	for i, r := range answer.Products {
		if was := d.answer.Products[i]; i != 1 && !was.Price.Equal(r.Price) {
			want = append(want, moved{r.Name, was.Price.String(), r.Price.String()})
		}
	}
	if !slices.Equal(p.Moved, want) {
		t.Errorf("moved %v, wanted %v", p.Moved, want)
	}
	if !slices.Equal(p.Dropped, answer.Dropped) || len(d.answer.Dropped) > 0 {
		t.Errorf("given up %q, wanted %q", p.Dropped, answer.Dropped)
	}
	if p, err = d.pin("bittern-a5", "19.00"); err != nil || !slices.Equal(p.Dropped, []string{"no jump"}) {
		t.Errorf("19.00 is more than a quarter above 15.00: %+v, %v", p, err)
	}
	dear, err := open([]byte(strings.Replace(string(text), `"rules": [`, `"rules": [`+p.Rule+`,`, 1)))
	if err != nil {
		t.Fatal(err)
	}
	if l, err := dear.list(); err != nil || len(l.Dropped) != 1 || l.Dropped[0] != "The wish “no jump” was given up: with it no price would be left for Bittern in the reeds, A5." {
		t.Errorf("%q, %v", l.Dropped, err)
	}
	again, err := open([]byte(with))
	if err != nil {
		t.Fatal(err)
	}
	if p, err = again.pin("bittern-a4", "28.00"); err != nil || !p.Holds || p.Price != "28.00" {
		t.Errorf("a second pin stands beside the first: %+v, %v", p, err)
	}
	if p, err = d.pin("bittern-a4", "15.00"); err != nil || p.Holds || !strings.Contains(p.Conflict, p.ID) {
		t.Errorf("15.00 is below what the market rule allows: %+v, %v", p, err)
	}
	if len(d.doc.Rules) != 7 || !d.answer.Products[1].Price.Equal(quoin.MustAmount("25.50")) {
		t.Error("a pin changed the document that lies open")
	}
}

// A defect of the engine is answered like a mistake, and the next call is answered as ever.
func TestDefectIsAnswered(t *testing.T) {
	d := opened(t, scenario)
	b := &bench{desk: d}
	speak := d.speak
	d.speak = nil // no document does this
	if got := b.call("look", "bittern-a5", "18.00", asIs); !strings.Contains(got, "a defect of the engine in look") {
		t.Errorf("%.300s", got)
	}
	d.speak = speak
	if got := b.call("look", "bittern-a5", "18.00", asIs); !strings.Contains(got, `"allowed":true`) {
		t.Errorf("%.300s", got)
	}
}
