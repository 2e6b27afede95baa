package proof_test

import (
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/proof"
)

// The heads of the three sheets, and nothing else, are heads; and what the document does not give, so that
// a default holds, is told so beside its place: the order of a channel without any is for one item.
func TestHeadsAndDefaults(t *testing.T) {
	doc, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "supplies": [{"id": "paper", "quantity": "50 sheet", "price": "64.00"}],
		"products": [{"id": "bittern", "bill": [{"supply": "paper", "quantity": "0.5 sheet"}]}], "channels": [{"id": "shop"}], "rules": [{"id": "nine", "rule": "contribution", "at_least": "9.00"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	sheets := proof.Of(doc, decided(t, doc))
	for n, want := range []string{"Print, Way of selling, Line, Worked out here, By the engine, Agree", "What the document says, Number, As written, Where", "Figure, Of, Is, Before rounding, Figure, By the engine, Agree"} {
		at := 0
		if n == 0 {
			at = 2
			if one := sheets[0].Rows[0]; len(one) != 1 || !one[0].Head || !strings.Contains(one[0].Formula, "All figures agree.") {
				t.Errorf("above the statements stands %v", one)
			}
		}
		var got []string
		for r, row := range sheets[n].Rows {
			for _, c := range row {
				if r == at {
					got = append(got, c.Text)
				}
				if head := r == at || n == 0 && r == 0; c.Head != head {
					t.Errorf("%s, row %d: %v is a head: %t", sheets[n].Name, r+1, c, c.Head)
				}
			}
		}
		if strings.Join(got, ", ") != want {
			t.Errorf("heads are %v, want %s", got, want)
		}
	}
	given, not := 0, 0
	for _, row := range sheets[1].Rows[1:] {
		switch where := row[3].Text; {
		case strings.HasSuffix(where, " (not given, so this holds)"):
			not++
			if row[1].Number.IsZero() {
				t.Errorf("%v has no number", row)
			}
		case strings.HasPrefix(where, "supplies[0].") || where == "products[0].bill[0].quantity":
			given++
		}
	}
	if given != 3 || not < 1 {
		t.Errorf("%d figures are given and %d are not:\n%v", given, not, sheets[1].Rows)
	}
}
