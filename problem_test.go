package quoin_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

func TestProblemSentences(t *testing.T) {
	for _, c := range []struct {
		problem quoin.Problem
		want    string
	}{
		{quoin.Problem{Code: "bare"}, " [bare]"},
		{quoin.Problem{Code: "found", Found: "7"}, "found 7 [found]"},
		{quoin.Problem{Code: "wanted", Wanted: "a rate"}, "wanted a rate [wanted]"},
		{quoin.Problem{Code: "look", Severity: quoin.Warning, Found: "it loses money", Remedy: "raise it"}, "it loses money; raise it [look]"},
		{
			quoin.Problem{
				Code: "misspelt", Severity: quoin.Fault, Path: "products[2].bill[0].supply", Found: "papr", Wanted: "a supply", Near: "paper",
				Remedy: "add it", Line: 12, Column: 7, Args: []quoin.Arg{{Name: "supply", Value: "papr"}},
			},
			"12:7: products[2].bill[0].supply: found papr, wanted a supply; did you mean paper?; add it [misspelt]",
		},
	} {
		if got := c.problem.Error(); got != c.want {
			t.Errorf("%#v reads\n%s, want\n%s", c.problem, got, c.want)
		}
	}
}

// A fault stops; warnings alone do not.
func TestProblemsAsAnError(t *testing.T) {
	fault, warning := quoin.Problem{Code: "a", Severity: quoin.Fault}, quoin.Problem{Code: "b", Severity: quoin.Warning}
	for _, c := range []struct {
		problems quoin.Problems
		stops    bool
	}{{nil, false}, {quoin.Problems{}, false}, {quoin.Problems{warning, warning}, false}, {quoin.Problems{fault}, true}, {quoin.Problems{warning, fault}, true}} {
		if err := c.problems.Err(); (err != nil) != c.stops {
			t.Errorf("%v as an error: %v", []quoin.Problem(c.problems), err)
		}
	}
	if got, want := (quoin.Problems{warning, fault}).Error(), " [b]\n [a]"; got != want {
		t.Errorf("two problems read %q, want %q", got, want)
	}
}

func TestProblemAsJSON(t *testing.T) {
	data, err := json.Marshal(quoin.Problem{Code: quoin.TooFine, Severity: quoin.Fault, Found: `"0.001"`, Args: []quoin.Arg{{Name: "places", Value: "2"}}})
	const want = `{"code":"too_fine","severity":"fault","found":"\"0.001\"","args":[{"name":"places","value":"2"}]}`
	if err != nil || string(data) != want {
		t.Errorf("a problem is %s, %v, want %s", data, err, want)
	}
}

// What is said of a text: the right thing is wanted, and where one is known,
// the way out is named.
func TestProblemsOfTexts(t *testing.T) {
	errOf := func(_ any, err error) error { return err }
	amount := func(s string) error { return errOf(quoin.ParseAmount(s)) }
	rate := func(s string) error { return errOf(quoin.ParseRate(s)) }
	quantity := func(s string) error { return errOf(quoin.ParseQuantity(s)) }
	in := func(u quoin.Unit) func(string) error {
		return func(s string) error { return errOf(quoin.MustQuantity(s).In(u)) }
	}
	for _, c := range []struct {
		read  func(string) error
		text  string
		code  quoin.Code
		parts []string // of the sentence
	}{
		{amount, "17,50", quoin.NotANumber, []string{`found "17,50"`, "such as 17.50", "a point, not a comma"}},
		{amount, "0.123456789", quoin.TooFine, []string{`found "0.123456789"`, "at most 8 digits after the point"}},
		{amount, "1234567890123", quoin.TooLarge, []string{"at most 12 digits before the point"}},
		{amount, strings.Repeat("1", 100), quoin.TooLong, []string{"(100 bytes)", `…"`}},
		{rate, "7.4", quoin.BarePercentage, []string{`found "7.4"`, "from 0 to 1", "write 7.4% if 7.4 percent was meant"}},
		{rate, "7,4%", quoin.NotANumber, []string{`found "7,4%"`, "such as 7.4%", "a point, not a comma"}},
		{quantity, "5", quoin.MissingUnit, []string{`found "5"`, "such as 0.5 sheet", "put a space and a unit word after the number"}},
		{in("mm"), "3 g", quoin.UnitMismatch, []string{`found "3 g"`, "wanted a length, such as one in mm"}},
		{in("sheet"), "3 g", quoin.UnitMismatch, []string{"wanted a quantity in sheet"}},
		{func(s string) error { return errOf(quoin.ParseCurrency(s)) }, "EURO", quoin.UnknownCurrency, []string{`found "EURO"`, "ISO 4217", "did you mean EUR?"}},
		{func(s string) error { return errOf(quoin.ParseRounding(s)) }, "halfup", quoin.UnknownWord, []string{"one of half_up, half_even, half_down, up, down", "did you mean half_up?"}},
		{func(s string) error { return new(quoin.Per).UnmarshalText([]byte(s)) }, "itme", quoin.UnknownWord, []string{"one of item, order", "did you mean item?"}},
	} {
		p, ok := c.read(c.text).(quoin.Problem)
		if !ok || p.Code != c.code || p.Severity != quoin.Fault {
			t.Errorf("%.40q: %v, want a fault with the code %s", c.text, p, c.code)
		}
		for _, part := range append(c.parts, "["+string(c.code)+"]") {
			if !strings.Contains(p.Error(), part) {
				t.Errorf("%.40q: %s\ndoes not say %s", c.text, p.Error(), part)
			}
		}
	}
	if p := amount("17.5.0").(quoin.Problem); p.Remedy != "" {
		t.Errorf("no comma, and yet: %s", p.Remedy)
	}
}

func TestWordsAndCurrencies(t *testing.T) {
	for _, r := range []quoin.Rounding{quoin.HalfUp, quoin.HalfEven, quoin.HalfDown, quoin.Up, quoin.Down} {
		text, _ := r.MarshalText()
		if got, err := quoin.ParseRounding(string(text)); err != nil || got != r {
			t.Errorf("%s is read as %s, %v", text, got, err)
		}
	}
	for _, p := range []quoin.Per{quoin.PerItem, quoin.PerOrder} {
		var got quoin.Per
		if err := got.UnmarshalText([]byte(p)); err != nil || got != p {
			t.Errorf("%s is read as %s, %v", p, got, err)
		}
	}
	for _, code := range []string{"eur", "Eur", "EU", "EURO", "€", "ZZZ", " EUR", strings.Repeat("EUR", 1e6)} {
		c := quoin.MustCurrency("CHF")
		if err := c.UnmarshalText([]byte(code)); codeOf(err) != quoin.UnknownCurrency || c.String() != "CHF" {
			t.Errorf("currency %.20q: %s, %.100v, want %s", code, c, err, quoin.UnknownCurrency)
		}
	}
	r, p := quoin.Up, quoin.PerOrder
	if err := r.UnmarshalText([]byte("UP")); codeOf(err) != quoin.UnknownWord || r != quoin.Up {
		t.Errorf("rounding UP: %s, %v", r, err)
	}
	if err := p.UnmarshalText([]byte("")); codeOf(err) != quoin.UnknownWord || p != quoin.PerOrder {
		t.Errorf("per nothing: %s, %v", p, err)
	}
}

func TestMustPanicsWithTheProblem(t *testing.T) {
	for code, must := range map[quoin.Code]func(){
		quoin.NotANumber: func() { quoin.MustAmount("x") }, quoin.BarePercentage: func() { quoin.MustRate("7.4") }, quoin.TooFine: func() { quoin.MustFactor("0.00000000000000001") },
		quoin.MissingUnit: func() { quoin.MustQuantity("5") }, quoin.UnknownCurrency: func() { quoin.MustCurrency("eur") },
	} {
		func() {
			defer func() {
				if err, ok := recover().(error); !ok || codeOf(err) != code || !strings.HasPrefix(err.Error(), "quoin: Must") {
					t.Errorf("panics with %v, want %s", err, code)
				}
			}()
			must()
		}()
	}
}

func TestNear(t *testing.T) {
	shop := []string{"own-shop", "marketplace", "fair", "shops"}
	for _, c := range []struct {
		s     string
		names []string
		want  string
	}{
		{"marketplace", shop, "marketplace"},
		{"marketplce", shop, "marketplace"},
		{"markteplace", shop, "marketplace"},
		{"amrketplcae", shop, "marketplace"},
		{"fiar", shop, "fair"},
		{"fayr", shop, "fair"},
		{"farr", []string{"fair", "far"}, "fair"},
		{"farr", []string{"far", "fair"}, "far"},
		{"shop", shop, "shops"},
		{"ownshop", shop, "own-shop"},
		{"gallery", shop, ""},
		{"", shop, ""},
		{"fair", nil, ""},
		{"xy", []string{"ab"}, ""},
		{"x", []string{"a"}, ""},
		{"reihre", []string{"reiher", "meise"}, "reiher"},
		{strings.Repeat("a", 65), []string{strings.Repeat("a", 64)}, ""},
	} {
		if got := prose.Near(c.s, c.names); got != c.want {
			t.Errorf("%.20q most likely means %q, want %q", c.s, got, c.want)
		}
	}
}

func TestOneSlipIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[a-z-]{3,20}`).Draw(t, "name")
		i := rapid.IntRange(0, len(name)-2).Draw(t, "at")
		slip := map[string]string{
			"missed": name[:i] + name[i+1:], "added": name[:i] + "x" + name[i:], "changed": name[:i] + "7" + name[i+1:],
			"swapped": name[:i] + name[i+1:i+2] + name[i:i+1] + name[i+2:],
		}[rapid.SampledFrom([]string{"missed", "added", "changed", "swapped"}).Draw(t, "slip")]
		if got := prose.Near(slip, []string{name}); got != name {
			t.Fatalf("%s most likely means %q, want %q", slip, got, name)
		}
		other := rapid.SliceOfN(rapid.StringMatching(`[a-z-]{1,20}`), 0, 5).Draw(t, "others")
		if got := prose.Near(slip, append(other, name)); !slices.Contains(append(other, name), got) {
			t.Fatalf("%s most likely means %q, which is no name", slip, got)
		}
	})
}

func TestOptionalAsJSON(t *testing.T) {
	type order struct {
		FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero"`
		Share    quoin.Optional[quoin.Rate]   `json:"share"`
		MinSold  quoin.Optional[int64]        `json:"min_sold,omitzero"`
	}
	for _, c := range []struct{ in, out string }{
		{`{}`, `{"share":null}`},
		{`{"free_from":null,"share":null,"min_sold":null}`, `{"share":null}`},
		{`{"free_from":"0","share":0,"min_sold":0}`, `{"free_from":"0","share":"0%","min_sold":0}`},
		{`{"free_from":60.00,"share":"75%","min_sold":3}`, `{"free_from":"60.00","share":"75%","min_sold":3}`},
	} {
		var o order
		if err := json.Unmarshal([]byte(c.in), &o); err != nil {
			t.Errorf("%s: %v", c.in, err)
		}
		if data, err := json.Marshal(o); err != nil || string(data) != c.out {
			t.Errorf("%s is written %s, %v, want %s", c.in, data, err, c.out)
		}
	}
	given := order{FreeFrom: quoin.Some(quoin.MustAmount("60"))}
	if err := json.Unmarshal([]byte(`{"free_from":null}`), &given); err != nil || !given.FreeFrom.IsZero() {
		t.Errorf("null over a value: %v, %v, want none", given.FreeFrom, err)
	}
	for in, code := range map[string]quoin.Code{`{"free_from":"60,00"}`: quoin.NotANumber, `{"share":75}`: quoin.BarePercentage, `{"free_from":true}`: quoin.NotANumber} {
		var o order
		if err := json.Unmarshal([]byte(in), &o); codeOf(err) != code {
			t.Errorf("%s: %v, want %s", in, err, code)
		}
	}
}

func TestLocatePutsAPathBeforeThatOfAProblem(t *testing.T) {
	other := errors.New("not a problem")
	for _, c := range []struct {
		at   quoin.Path
		err  error
		want error
	}{
		{quoin.InList("lines", 2), quoin.Problem{Path: "price"}, quoin.Problem{Path: "lines[2].price"}},
		{quoin.InList("lines", 2), quoin.Problem{Path: `["A 4"].price`}, quoin.Problem{Path: `lines[2]["A 4"].price`}},
		{quoin.InList("lines", 2), quoin.Problem{}, quoin.Problem{Path: "lines[2]"}},
		{quoin.Path{}, quoin.Problem{Path: "price"}, quoin.Problem{Path: "price"}},
		{quoin.InField("cut"), other, other},
		{quoin.InField("cut"), nil, nil},
	} {
		if got := c.at.Locate(c.err); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%v in %q: %v, want %v", c.err, c.at, got, c.want)
		}
	}
}

// Compilers begin each line with file, line and column.
func TestProblemsInFile(t *testing.T) {
	ps := quoin.Problems{
		{Code: quoin.UnknownCurrency, Severity: quoin.Fault, Path: "currency", Found: `"ERU"`, Wanted: "a currency", Line: 3, Column: 14},
		{Code: quoin.BadGrid, Severity: quoin.Fault, Path: "price_step", Found: "0.005", Wanted: "a cent"},
	}
	const want = "shop.json:3:14: currency: found \"ERU\", wanted a currency [unknown_currency]\n" +
		"shop.json: price_step: found 0.005, wanted a cent [bad_grid]"
	if got := ps.InFile("shop.json"); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}
