package form

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
)

func TestPaths(t *testing.T) {
	root := (*Path)(nil)
	line := root.Field("orders").At(2).Field("lines").At(0)
	for _, c := range []struct{ got, want string }{
		{root.String(), ""},
		{root.Field("id").String(), "id"},
		{line.Field("weight").String(), "orders[2].lines[0].weight"},
		{root.Field("r9-_z").String(), "r9-_z"},
		{root.Field("").Field("flat box").String(), `[0]["flat box"]`},
		{root.Field("lists").Field("Ried").At(1).String(), `lists["Ried"][1]`},
		{root.Field(strings.Repeat("é", 40)).String(), `["` + strings.Repeat("é", 32) + `"…]`},
		{root.Field("orders").At(2).Field("price").Range().String(), "orders[2].price_range"},
		{line.Up().String(), "orders[2].lines"},
		{fmt.Sprint(line.Up().Up().Index()), "2"},
		{Beneath("", "id"), "id"},
		{Beneath("orders", ""), "orders"},
		{Beneath("orders", "[1].id"), "orders[1].id"},
		{Beneath("orders[1]", "id"), "orders[1].id"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// TestSpans lists what ranges hold, and how they are said.
func TestSpans(t *testing.T) {
	for _, c := range []struct{ tag, in, out, words, percent string }{
		{"[0,", "0 1", "-1", "of at least 0", "of at least 0%"},
		{"(0,", "1", "0 -1", "above 0", "above 0%"},
		{"[0,1]", "0 1", "-1 2", "of at least 0 and at most 1", "of at least 0% and at most 100%"},
		{"(0,1)", "0.5", "0 1", "above 0 and below 1", "above 0% and below 100%"},
		{"[1,1]", "1", "0 2", "of 1", "of 100%"},
		{",9]", "-9 9", "10", "at most 9", "at most 900%"},
	} {
		s := parseSpan(c.tag)
		for _, x := range strings.Fields(c.in) {
			if !s.holds(quoin.MustFactor(x)) {
				t.Errorf("%s does not hold %s", c.tag, x)
			}
		}
		for _, x := range strings.Fields(c.out) {
			if s.holds(quoin.MustFactor(x)) {
				t.Errorf("%s holds %s", c.tag, x)
			}
		}
		if got := s.words(false); got != c.words {
			t.Errorf("%s is said %q, want %q", c.tag, got, c.words)
		}
		if got := s.words(true); got != c.percent {
			t.Errorf("%s is said %q, want %q", c.tag, got, c.percent)
		}
	}
}

// TestNumbers: the value and the sign of whatever is a number, of an optional one only
// where it is given.
func TestNumbers(t *testing.T) {
	seven, amount, rate, factor := int64(-7), quoin.MustAmount("-7"), quoin.MustRate("-700%"), quoin.MustFactor("-7")
	mm, someSeven, someAmount, someRate, someFactor := quoin.MustQuantity("-7 mm"), quoin.Some(seven), quoin.Some(amount), quoin.Some(rate), quoin.Some(factor)
	for _, at := range []any{&seven, &amount, &rate, &factor, &mm, &someSeven, &someAmount, &someRate, &someFactor} {
		if x, ok := number(at); !ok || !x.Equal(factor) {
			t.Errorf("%T: %v, %v", at, x, ok)
		}
		if got := shown(at); !strings.HasPrefix(got, "-7") {
			t.Errorf("%T is shown as %q", at, got)
		}
	}
	text, yes := "7", true
	for _, at := range []any{
		&text, &yes, new(quoin.Optional[int64]), new(quoin.Optional[quoin.Amount]), new(quoin.Optional[quoin.Rate]), new(quoin.Optional[quoin.Factor]), new(line),
	} {
		if _, ok := number(at); ok {
			t.Errorf("%T is a number", at)
		}
	}
}

// shelf is a made-up document with ranges at every depth.
type shelf struct {
	Board  *order           `json:"board,omitempty"`
	Orders []order          `json:"orders,omitempty"`
	Named  map[string][]cut `json:"named,omitempty"`
}

type cut struct {
	Length quoin.Quantity              `json:"length" range:"(0,"`
	Range  quoin.Range[quoin.Quantity] `json:"length_range,omitzero" dear:"low"`
}

func TestUnsures(t *testing.T) {
	amount, mm := quoin.MustAmount, quoin.MustQuantity
	priced := sound()
	priced.Price, priced.Range = amount("5"), quoin.Between(amount("4"), amount("6"))
	v := shelf{Board: &priced, Orders: []order{sound(), priced}, Named: map[string][]cut{
		"b": {{}, {mm("30 mm"), quoin.Between(mm("2 cm"), mm("4 cm"))}}, "a": {{mm("30 mm"), quoin.Between(mm("4 cm"), mm("5 cm"))}},
	}}
	var got []string
	all := Unsures(nil, reflect.ValueOf(&v).Elem())
	for _, u := range all {
		got = append(got, fmt.Sprintf("%s %s: %s, dear at %s", u.At, u.Field.Name, shown(pointer(u.End(u.Cheap()))), shown(pointer(u.End(u.Dear)))))
	}
	want := "board.price price: 4, dear at 6; orders[1].price price: 4, dear at 6; " +
		"named.a[0].length length: 5 cm, dear at 4 cm; named.b[1].length length: 4 cm, dear at 2 cm"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("%s\nwant %s", s, want)
	}
	var c Collector
	if c.Ranges(all); len(c.Problems) != 1 || c.Problems[0].Path != "named.a[0].length_range" || c.Problems[0].Code != quoin.RangeOrder {
		t.Errorf("found %v", c.Problems)
	}
	all[1].Value.Set(all[1].End("high"))
	if !v.Orders[1].Price.Equal(amount("6")) {
		t.Errorf("set to %s", v.Orders[1].Price)
	}
	if none := Unsures(nil, reflect.ValueOf(shelf{Orders: []order{sound()}})); len(none) > 0 {
		t.Errorf("%d ranges where there are none", len(none))
	}
}

// What could not be read is zero behind a walk, as reading leaves it; what is out of range,
// or too long a text, stays.
func TestWalkLeavesZero(t *testing.T) {
	o := sound()
	o.Per, o.Kept, o.Price = "metre", 77, quoin.MustAmount("10").Over(quoin.FactorOf(3))
	o.ID, o.Count = strings.Repeat("a", 401), 10
	o.Lines = []line{{"a", quoin.FactorOf(1)}, {"b", quoin.FactorOf(1)}, {"c", quoin.FactorOf(1)}}
	var c Collector
	c.Walk(nil, reflect.ValueOf(&o).Elem())
	if len(c.Problems) != 6 || o.Per != "" || o.Kept != 0 || o.Price.IsGiven() || len(o.Lines) != 2 {
		t.Errorf("%d problems, left are %q, %v, %v and %d lines", len(c.Problems), o.Per, o.Kept, o.Price, len(o.Lines))
	}
	if len(o.ID) != 401 || o.Count != 10 {
		t.Errorf("%d bytes, %d", len(o.ID), o.Count)
	}
}

// TestNames: names are sorted, and near ones are looked for as long as there is room.
func TestNames(t *testing.T) {
	if got := SortedNames(reflect.ValueOf(map[string]int{"b": 1, "a": 2})); fmt.Sprint(got) != "[a b]" {
		t.Errorf("%v", got)
	}
	if got := Names(Of(reflect.TypeFor[line]()).Fields); fmt.Sprint(got) != "[name weight]" {
		t.Errorf("%v", got)
	}
	var c Collector
	if got := c.Near("hern", []string{"rail", "heron"}); got != "heron" {
		t.Errorf("near is %q", got)
	}
	for range MostProblems {
		c.Stray(nil, "more", "less")
	}
	if got := c.Near("hern", []string{"heron"}); got != "" || c.Full {
		t.Errorf("behind the last problem %q is near", got)
	}
}

// TestAddAll puts the problems of any error under a path.
func TestAddAll(t *testing.T) {
	var c Collector
	at := (*Path)(nil).Field("orders").At(1)
	c.AddAll(at, nil)
	c.AddAll(at, quoin.Problem{Code: quoin.TooFine, Path: "price"})
	c.AddAll(at, quoin.Problems{{Code: quoin.TooLong, Path: "[3]"}, {Code: quoin.TooMany}})
	var got []string
	for _, p := range c.All() {
		got = append(got, fmt.Sprint(p.Path, " ", p.Code, " ", p.Severity))
	}
	if want := "orders[1].price too_fine fault, orders[1][3] too_long fault, orders[1] too_many fault"; strings.Join(got, ", ") != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !c.Under(at) || !c.Under(nil) || !c.Under(at.Up()) || c.Under(at.Field("id")) || c.Under((*Path)(nil).Field("order")) {
		t.Error("problems stand elsewhere")
	}
	if err := c.All().Err(); !errors.Is(err, quoin.Problem{Code: quoin.TooLong}) {
		t.Errorf("%v", err)
	}
}
