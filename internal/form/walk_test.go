package form

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
)

// order is a made-up document that has one of each kind of field.
type order struct {
	ID       string                     `json:"id" need:"yes"`
	Kept     quoin.Rounding             `json:"kept,omitzero"`
	Per      quoin.Per                  `json:"per,omitempty"`
	Price    quoin.Amount               `json:"price" need:"yes" range:"[0,"`
	Range    quoin.Range[quoin.Amount]  `json:"price_range,omitzero" dear:"high"`
	Share    quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"(0,1]"`
	Length   quoin.Quantity             `json:"length,omitzero" range:"(0," dim:"length"`
	Count    int64                      `json:"count,omitzero" range:"[1,9]"`
	Lines    []line                     `json:"lines,omitempty" most:"2"`
	Lists    map[string][]line          `json:"lists,omitempty"`
	Gift     *line                      `json:"gift,omitempty" or:"share"`
	Unspoken string                     // of no document
	Shape    figure                     `json:"-" kind:"shape"`
}

type line struct {
	Name   string       `json:"name" need:"yes"`
	Weight quoin.Factor `json:"weight" need:"yes" range:"(0,"`
}

type figure interface{ figure() }

type round struct {
	Radius int64 `json:"radius" need:"yes" range:"[1,"`
}

func (round) figure() {}

func sound() order {
	return order{ID: "heron", Price: quoin.MustAmount("0"), Shape: round{3}}
}

// TestWalk changes one thing of a sound value, and lists what is found.
func TestWalk(t *testing.T) {
	amount, rate := quoin.MustAmount, quoin.MustRate
	for name, c := range map[string]struct {
		change func(*order)
		found  string
	}{
		"nothing":                {func(*order) {}, ""},
		"no id":                  {func(o *order) { o.ID = "" }, "id missing_field"},
		"a tab in it":            {func(o *order) { o.ID = "a\tb" }, "id bad_text"},
		"no UTF-8":               {func(o *order) { o.ID = "a\xff" }, "id bad_text"},
		"401 bytes":              {func(o *order) { o.ID = strings.Repeat("a", 401) }, "id too_long"},
		"400 bytes":              {func(o *order) { o.ID = strings.Repeat("a", 400) }, ""},
		"no rounding":            {func(o *order) { o.Kept = 77 }, "kept unknown_word"},
		"no word":                {func(o *order) { o.Per = "metre" }, "per unknown_word"},
		"a price left out":       {func(o *order) { o.Price = quoin.Amount{} }, "price missing_field"},
		"a price below 0":        {func(o *order) { o.Price = amount("-1") }, "price out_of_range"},
		"a third of 10":          {func(o *order) { o.Price = amount("10").Over(quoin.FactorOf(3)) }, "price too_fine"},
		"13 digits":              {func(o *order) { o.Price = quoin.AmountOf(1_000_000_000_000, 0) }, "price too_large"},
		"a range beside it":      {func(o *order) { o.Price, o.Range = amount("5"), quoin.Between(amount("4"), amount("6")) }, ""},
		"a range around no 5":    {func(o *order) { o.Price, o.Range = amount("5"), quoin.Between(amount("6"), amount("7")) }, "price_range range_order"},
		"half a range":           {func(o *order) { o.Range.High = amount("6") }, "price_range.low missing_field"},
		"a share of 0":           {func(o *order) { o.Share = quoin.Some(rate("0%")) }, "share out_of_range"},
		"a length in kg":         {func(o *order) { o.Length = quoin.MustQuantity("3 kg") }, "length unit_mismatch"},
		"a length of 0":          {func(o *order) { o.Length = quoin.MustQuantity("0 mm") }, "length out_of_range"},
		"a unit of two words":    {func(o *order) { o.Length = quoin.Unit("m m").Times(quoin.FactorOf(1)) }, "length missing_unit"},
		"ten":                    {func(o *order) { o.Count = 10 }, "count out_of_range"},
		"three lines":            {func(o *order) { o.Lines = []line{{"a", quoin.FactorOf(1)}, {"b", quoin.FactorOf(1)}, {}} }, "lines too_many"},
		"a line without weight":  {func(o *order) { o.Lines = []line{{Name: "a"}} }, "lines[0].weight missing_field"},
		"a weight of 0":          {func(o *order) { o.Lines = []line{{"a", quoin.FactorOf(0)}} }, "lines[0].weight out_of_range"},
		"a list by a bad name":   {func(o *order) { o.Lists = map[string][]line{"a\x00": nil} }, `lists["a\x00"] bad_text`},
		"a line in a named list": {func(o *order) { o.Lists = map[string][]line{"a": {{}}} }, "lists.a[0].name missing_field, lists.a[0].weight missing_field"},
		"a gift beside a share":  {func(o *order) { o.Gift, o.Share = &line{"a", quoin.FactorOf(1)}, quoin.Some(rate("1%")) }, "share rival_fields"},
		"an empty gift":          {func(o *order) { o.Gift = &line{} }, "gift.name missing_field, gift.weight missing_field"},
		"what nobody reads":      {func(o *order) { o.Unspoken = "\x00" }, ""},
		"no shape":               {func(o *order) { o.Shape = nil }, "shape missing_field"},
		"a shape at fault":       {func(o *order) { o.Shape = round{} }, "radius missing_field"},
		"a pointer to a shape":   {func(o *order) { o.Shape = &round{3} }, "shape wrong_type"},
	} {
		o := sound()
		c.change(&o)
		var found []string
		for _, p := range Check(o).All() {
			found = append(found, fmt.Sprint(p.Path, " ", p.Code))
		}
		if got := strings.Join(found, ", "); got != c.found {
			t.Errorf("%s: found %q, want %q", name, got, c.found)
		}
	}
}

// TestWalkStops: of a value with no end of faults a thousand are listed.
func TestWalkStops(t *testing.T) {
	lists := make(map[string][]line)
	for i := range 2000 {
		lists[fmt.Sprint("l", i)] = make([]line, 1)
	}
	o := sound()
	o.Lists = lists
	all := Check(o).All()
	if len(all) != MostProblems+1 || all[MostProblems].Code != quoin.MoreProblems {
		t.Errorf("%d problems, the last %s", len(all), all[len(all)-1].Code)
	}
}

// TestLeftOut: what nothing was written to is left out, and a 0 that was written is not,
// at any depth.
func TestLeftOut(t *testing.T) {
	var o order
	in := reflect.ValueOf(&o).Elem()
	if !nothingIn(Of(in.Type()), in) {
		t.Error("an empty order holds something")
	}
	for name, write := range map[string]func(){
		"a price of 0":      func() { o.Price = quoin.MustAmount("0") },
		"a range of 0 to 0": func() { o.Range = quoin.Between(quoin.MustAmount("0"), quoin.MustAmount("0")) },
		"a share of 0":      func() { o.Share = quoin.Some(quoin.MustRate("0")) },
		"a length of 0":     func() { o.Length = quoin.MustQuantity("0 mm") },
		"a shape":           func() { o.Shape = round{} },
		"an empty list":     func() { o.Lines = []line{} },
	} {
		if write(); nothingIn(Of(in.Type()), in) {
			t.Errorf("%s is left out", name)
		}
		o = order{}
	}
}

// TestCopy sets all that an order refers to; its copy stays as it was.
func TestCopy(t *testing.T) {
	type kept struct {
		Shapes []figure
		Order  *order
	}
	o := sound()
	o.Lines = []line{{Name: "a"}}
	o.Lists = map[string][]line{"b": {{Name: "b"}}}
	o.Gift = &line{Name: "c"}
	v := kept{[]figure{round{1}, &round{2}}, &o}
	c := Copy(v)
	v.Shapes[0], v.Shapes[1].(*round).Radius = nil, 9
	o.ID, o.Lines[0].Name, o.Gift.Name = "x", "x", "x"
	o.Lists["b"][0].Name = "x"
	delete(o.Lists, "b")
	got := []string{c.Order.ID, c.Order.Lines[0].Name, c.Order.Lists["b"][0].Name, c.Order.Gift.Name}
	if !slices.Equal(got, []string{"heron", "a", "b", "c"}) || c.Shapes[0] != (round{1}) || c.Shapes[1].(*round).Radius != 2 {
		t.Errorf("the copy has %q, %v", got, c.Shapes)
	}
	if e := Copy(kept{}); e.Shapes != nil || e.Order != nil {
		t.Errorf("an empty one is copied as %v", e)
	}
}
