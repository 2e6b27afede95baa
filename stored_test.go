package quoin_test

import (
	"bytes"
	"database/sql"
	"database/sql/driver"
	"encoding"
	"encoding/gob"
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// stored is what is written in every way and read back.
type stored[T any] interface {
	Equal(T) bool
	driver.Valuer
	encoding.TextMarshaler
}

type reader[T any] interface {
	*T
	sql.Scanner
	encoding.TextUnmarshaler
}

// comesBack holds that v is read back from its text, its JSON and its column, where its
// text may come as bytes.
func comesBack[T stored[T], P reader[T]](t *rapid.T, v T) {
	var fromText, fromJSON, fromColumn, fromBytes T
	text, err := v.MarshalText()
	if err != nil || P(&fromText).UnmarshalText(text) != nil || !fromText.Equal(v) {
		t.Fatalf("the text %s of %v is read as %v", text, v, fromText)
	}
	data, err := json.Marshal(v)
	if err != nil || json.Unmarshal(data, &fromJSON) != nil || !fromJSON.Equal(v) {
		t.Fatalf("the JSON %s of %v is read as %v", data, v, fromJSON)
	}
	column, err := v.Value()
	if err != nil || P(&fromColumn).Scan(column) != nil || !fromColumn.Equal(v) {
		t.Fatalf("the column %v of %v is read as %v", column, v, fromColumn)
	}
	if err := P(&fromBytes).Scan([]byte(column.(string))); err != nil || !fromBytes.Equal(v) {
		t.Fatalf("the bytes %v of %v are read as %v, %v", column, v, fromBytes, err)
	}
}

// inGob is v written and read by gob.
func inGob[T any](t *rapid.T, v T) (out T) {
	var b bytes.Buffer
	if err := gob.NewEncoder(&b).Encode(v); err != nil {
		t.Fatal(err)
	}
	if err := gob.NewDecoder(&b).Decode(&out); err != nil {
		t.Fatal(err)
	}
	return out
}

// anyFigure draws what sums come to: exact ones of many places and digits, quotients
// that go on, nothing.
func anyFigure(t *rapid.T) quoin.Amount {
	a := anyAmount(t, "amount")
	for range rapid.IntRange(0, 6).Draw(t, "products") {
		a = a.Times(anyFactor(t, "factor"))
	}
	if rapid.Bool().Draw(t, "quotient") {
		a = a.Over(aboveZero(t, "divisor"))
	}
	switch rapid.IntRange(0, 9).Draw(t, "form") {
	case 0:
		return quoin.Amount{}
	case 1:
		return a.Sub(a)
	case 2, 3:
		return a.Times(quoin.FactorOf(1e18))
	case 4:
		return a.Round(rapid.IntRange(0, 64).Draw(t, "places"), quoin.HalfUp)
	}
	return a
}

func TestEveryNumberReadsWhatItWrites(t *testing.T) {
	drawn, fine, large := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		drawn++
		a := anyFigure(t)
		f := a.Ratio(quoin.AmountOf(1, 0))
		q := rapid.SampledFrom([]quoin.Unit{"sheet", "mm", "ft", "lb", "oz"}).Draw(t, "unit").Times(f)
		r := f.Rate()
		comesBack(t, a)
		comesBack(t, f)
		comesBack(t, r)
		comesBack(t, q)
		comesBack(t, quoin.Quantity{})
		if a.Places() > 8 {
			fine++
		}
		if !a.Equal(a.Mod(quoin.AmountOf(1e12, 0))) {
			large++
		}
		for name, same := range map[string]bool{
			"amount":   inGob(t, a).Equal(a) && inGob(t, a).Rat().Cmp(a.Rat()) == 0 && inGob(t, a).IsGiven() == a.IsGiven(),
			"rate":     inGob(t, r).Equal(r) && inGob(t, r).Rat().Cmp(r.Rat()) == 0,
			"factor":   inGob(t, f).Equal(f) && inGob(t, f).Rat().Cmp(f.Rat()) == 0,
			"quantity": inGob(t, q).Equal(q) && inGob(t, q).Rat().Cmp(q.Rat()) == 0 && inGob(t, q).Unit() == q.Unit(),
		} {
			if !same {
				t.Fatalf("the %s %v does not come back from gob", name, a)
			}
		}
	})
	if fine < drawn/20 || large < drawn/50 {
		t.Errorf("of %d numbers %d have more than 8 places, %d more than 12 digits", drawn, fine, large)
	}
}

func TestSizesAndWordsReadWhatTheyWrite(t *testing.T) {
	two, three := quoin.FactorOf(2), quoin.FactorOf(3)
	third, err := quoin.NewSize(quoin.MustQuantity("1 ft").Times(two.Over(three)), quoin.MustQuantity("70 cm"))
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		for _, s := range []quoin.Size{{}, quoin.MustSize("A4"), quoin.MustSize("24 in x 50 ft"), third} {
			comesBack(t, s)
		}
		for _, c := range []quoin.Currency{{}, quoin.MustCurrency("EUR")} {
			comesBack(t, c)
		}
	})
}

// A quotient that goes on comes back from gob as one: three thirds are still one.
func TestQuotientsGoOnInGob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := quoin.FactorOf(rapid.Int64Range(1, 1e6).Draw(t, "n"))
		a := quoin.AmountOf(rapid.Int64Range(1, 1e9).Draw(t, "cents"), 2)
		if back := inGob(t, a.Over(n)).Times(n); !back.Equal(a) {
			t.Fatalf("%v ÷ %v × %v is %v", a, n, n, back)
		}
	})
}

// What was stored has bounds too, and they are the same for every way back.
func TestStoredBounds(t *testing.T) {
	most := strings.Repeat("9", 1000)
	for _, c := range []struct {
		word  word
		after string
	}{{amounts, ""}, {rates, "%"}, {factors, ""}, {quantities, " g"}} {
		for _, s := range []string{most, "-" + most, "0." + most} {
			s += c.after
			for way, read := range map[string]func() (string, error){
				"text": func() (string, error) { return c.word.text(s) }, "JSON": func() (string, error) { return c.word.json(inQuotes(s)) },
				"SQL": func() (string, error) { return c.word.scan(s) },
			} {
				if got, err := read(); err != nil || got != s {
					t.Errorf("%s of %d digits, %s: %.40s, %.100v", c.word.name, len(s), way, got, err)
				}
			}
		}
		for s, code := range map[string]quoin.Code{"0." + most + "9": quoin.TooFine, "9" + most: quoin.TooLarge, strings.Repeat("0", 5000): quoin.TooLong} {
			s += c.after
			for way, read := range map[string]func() (string, error){
				"text": func() (string, error) { return c.word.text(s) }, "JSON": func() (string, error) { return c.word.json(inQuotes(s)) },
				"SQL": func() (string, error) { return c.word.scan(s) },
			} {
				if got, err := read(); codeOf(err) != code || got != c.word.before {
					t.Errorf("%s of %d digits, %s: %.40s, %.100v, want %s", c.word.name, len(s), way, got, err, code)
				}
			}
		}
	}
}

// FuzzBinary holds that bytes of any kind are refused, or read as a number that is written
// as the very same bytes, and that its text is short.
func FuzzBinary(f *testing.F) {
	for _, a := range []quoin.Amount{{}, quoin.MustAmount("-17.50"), quoin.AmountOf(0, 2), quoin.MustAmount("20").Over(quoin.FactorOf(3))} {
		data, err := a.MarshalBinary()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	sheets, err := quoin.MustQuantity("0.5 sheet").MarshalBinary()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(sheets)
	f.Add([]byte{1, 0xff, 0xff, 0xff, 0xff, 0x0f, 1})
	f.Fuzz(func(t *testing.T, data []byte) {
		var a quoin.Amount
		if err := a.UnmarshalBinary(data); err == nil {
			if again, _ := a.MarshalBinary(); !bytes.Equal(again, data) {
				t.Errorf("%x is written as %x", data, again)
			}
			if len(a.String()) > 3100 {
				t.Errorf("%x has %d digits", data, len(a.String()))
			}
			_ = a.Add(a).Times(quoin.MustFactor("0.5")).Round(2, quoin.HalfEven)
		}
		var q quoin.Quantity
		if err := q.UnmarshalBinary(data); err == nil {
			var back quoin.Quantity
			if again, _ := q.MarshalBinary(); back.UnmarshalBinary(again) != nil || !back.Equal(q) {
				t.Errorf("%x is %v, and back %v", data, q, back)
			}
		}
	})
}
