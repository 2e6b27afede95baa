package quoin_test

import (
	"bytes"
	"database/sql"
	"database/sql/driver"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
)

// word is one number with every way into it. Each way starts from a value that
// was there before, and returns how what is there then is written.
type word struct {
	name, before string
	parse        func(s string) (string, error)
	text         func(s string) (string, error)
	json         func(data string) (string, error)
	scan         func(src any) (string, error)
}

func wordOf[T fmt.Stringer, P interface {
	*T
	encoding.TextUnmarshaler
	sql.Scanner
}](name, before string, parse func(string) (T, error)) word {
	read := func(how func(P) error) (string, error) {
		v, err := parse(before)
		if err == nil {
			err = how(&v)
		}
		return v.String(), err
	}
	return word{
		name: name, before: before,
		parse: func(s string) (string, error) { v, err := parse(s); return v.String(), err },
		text:  func(s string) (string, error) { return read(func(p P) error { return p.UnmarshalText([]byte(s)) }) },
		json: func(data string) (string, error) {
			return read(func(p P) error { return json.Unmarshal([]byte(data), p) })
		},
		scan: func(src any) (string, error) { return read(func(p P) error { return p.Scan(src) }) },
	}
}

var (
	amounts    = wordOf[quoin.Amount]("amount", "1.25", quoin.ParseAmount)
	rates      = wordOf[quoin.Rate]("rate", "12.5%", quoin.ParseRate)
	factors    = wordOf[quoin.Factor]("factor", "2.5", quoin.ParseFactor)
	quantities = wordOf[quoin.Quantity]("quantity", "3 sheet", quoin.ParseQuantity)
)

func codeOf(err error) quoin.Code {
	var p quoin.Problem
	errors.As(err, &p)
	return p.Code
}

func inQuotes(s string) string {
	quoted, err := json.Marshal(s)
	if err != nil {
		panic(err)
	}
	return string(quoted)
}

// refuse holds that no way reads a text, and that each leaves the old value.
func (w word) refuse(t *testing.T, s string, code quoin.Code) {
	t.Helper()
	if _, err := w.parse(s); codeOf(err) != code {
		t.Errorf("%s %.40q: %.200v, want %s", w.name, s, err, code)
	}
	for way, read := range map[string]func() (string, error){
		"text": func() (string, error) { return w.text(s) }, "JSON": func() (string, error) { return w.json(inQuotes(s)) },
		"SQL": func() (string, error) { return w.scan(s) }, "SQL bytes": func() (string, error) { return w.scan([]byte(s)) },
	} {
		if got, err := read(); codeOf(err) != code || got != w.before {
			t.Errorf("%s %.40q as %s: %.80s, %.200v, want %s and %s as before", w.name, s, way, got, err, code, w.before)
		}
	}
}

func TestTextsRefused(t *testing.T) {
	for _, s := range []string{
		"", " ", "-", ".", ".5", "5.", "+5", "--5", ".-5", "1.2.3", "17,50", "1,234.50", "1_000", "0x10", "1e3", "1E3", "1e999999", "5-",
		"NaN", "nan", "sNaN1", "Infinity", "-inf", "null", "true", "٣", "½", "17.50 EUR", "€5", " 5", "5\x00", "\xff",
	} {
		amounts.refuse(t, s, quoin.NotANumber)
		factors.refuse(t, s, quoin.NotANumber)
		rates.refuse(t, s, quoin.NotANumber)
		rates.refuse(t, s+"%", quoin.NotANumber)
		if s != "17.50 EUR" && s != " 5" && s != "½" { // which are quantities, or nearly
			quantities.refuse(t, s+" sheet", quoin.NotANumber)
		}
	}
	for _, s := range []string{"7.4", "-7.4", "1.0000000000000001", "100"} {
		for way, read := range map[string]func() (string, error){
			"parsed": func() (string, error) { return rates.parse(s) }, "text": func() (string, error) { return rates.text(s) },
			"JSON": func() (string, error) { return rates.json(inQuotes(s)) },
		} {
			if got, err := read(); codeOf(err) != quoin.BarePercentage {
				t.Errorf("rate %s, %s: %s, %v", s, way, got, err)
			}
		}
	}
	for _, s := range []string{"5", "5 ", " 5", "5 -", "5 _a", "5 sheets of paper", "5 m³", "5 2up", "5 " + strings.Repeat("a", 33)} {
		quantities.refuse(t, s, quoin.MissingUnit)
	}
	for _, s := range []string{"sheet", "0.5sheet", "0,5 sheet", "half sheet", "5\tsheet", "1/0 in", "1/1000 in", "1/02 in", "1 3/2 in", "1/2/3 in", "1/2.5 in", "-/2 in", "1.5½ in", "½½ in", "0/3 in", "8-1/2 in", "1.5 1/2 in"} {
		quantities.refuse(t, s, quoin.NotANumber)
	}
	for _, s := range []string{"5 5", "1 1/2 3", "1 1/2 3 in", "8 1/2 11 in", "4 fl oz", "4 fl. oz.", "4 fl_oz", "4 FLOZ", "4 fluid ounces"} {
		quantities.refuse(t, s, quoin.Ambiguous)
	}
}

func TestTextsRead(t *testing.T) {
	for _, c := range []struct {
		word     word
		in, want string
	}{
		{amounts, "17.50", "17.50"},
		{amounts, "17.5", "17.5"},
		{amounts, "-3", "-3"},
		{amounts, "0017", "17"},
		{amounts, "-0", "0"},
		{amounts, "-0.00", "0.00"},
		{factors, "3.5", "3.5"},
		{factors, "-0.0000000000000001", "-0.0000000000000001"},
		{rates, "7.4%", "7.4%"},
		{rates, "7.4 %", "7.4%"},
		{rates, "0.074", "7.4%"},
		{rates, "1", "100%"},
		{rates, "-1", "-100%"},
		{rates, "150%", "150%"},
		{rates, "7.400%", "7.4%"},
		{quantities, "0.5 sheet", "0.5 sheet"},
		{quantities, "14 in", "14 in"},
		{quantities, " 390  s ", "390 s"},
		{quantities, "3 A4-sheet_2", "3 A4-sheet_2"},
		{quantities, "-1 Bögen", "-1 Bögen"},
	} {
		for way, read := range map[string]func() (string, error){
			"parsed": func() (string, error) { return c.word.parse(c.in) }, "text": func() (string, error) { return c.word.text(c.in) },
			"JSON": func() (string, error) { return c.word.json(inQuotes(c.in)) },
			"SQL":  func() (string, error) { return c.word.scan(c.in) }, "SQL bytes": func() (string, error) { return c.word.scan([]byte(c.in)) },
		} {
			if got, err := read(); err != nil || got != c.want {
				t.Errorf("%s %q, %s: %s, %v, want %s", c.word.name, c.in, way, got, err, c.want)
			}
		}
	}
}

func TestBounds(t *testing.T) {
	for _, c := range []struct {
		word          word
		whole, places int
		after         string
	}{
		{amounts, 12, 8, ""}, {rates, 6, 16, "%"}, {factors, 12, 16, ""}, {quantities, 12, 12, " sheet"},
	} {
		digits := strings.Repeat("9", c.whole) + "." + strings.Repeat("9", c.places)
		for _, s := range []string{digits, "-" + digits, "000" + digits} {
			want := strings.TrimPrefix(s, "000") + c.after
			if got, err := c.word.parse(s + c.after); err != nil || got != want {
				t.Errorf("%s %s: %s, %v, want %s", c.word.name, s, got, err, want)
			}
		}
		for s, code := range map[string]quoin.Code{
			"9" + digits: quoin.TooLarge, digits + "9": quoin.TooFine, "1." + strings.Repeat("0", c.places+1): quoin.TooFine, strings.Repeat("0", 65): quoin.TooLong,
		} {
			if got, err := c.word.parse(s + c.after); codeOf(err) != code {
				t.Errorf("%s %s: %s, %v, want %s", c.word.name, s, got, err, code)
			}
		}
	}
}

func TestJSONNumbers(t *testing.T) {
	const anything = ""
	for _, c := range []struct {
		word     word
		in, want string
		code     quoin.Code
	}{
		{amounts, "17.50", "17.50", anything},
		{amounts, "-0", "0", anything},
		{amounts, "1.75e1", "17.5", anything},
		{amounts, "1750E-2", "17.5", anything},
		{amounts, "1e+3", "1000", anything},
		{amounts, "1e11", "100000000000", anything},
		{amounts, "0e999999", "0", anything},
		{amounts, "9007199254.740993", "9007199254.740993", anything}, // 53 bits do not hold it
		{amounts, "1e12", "", quoin.TooLarge},
		{amounts, "1e999999", "", quoin.TooLarge},
		{amounts, "1e-9", "", quoin.TooFine},
		{amounts, "1e-999999", "", quoin.TooFine},
		{amounts, strings.Repeat("1", 65), "", quoin.TooLong},
		{rates, "0.074", "7.4%", anything},
		{rates, "7.4e-2", "7.4%", anything},
		{rates, "7.4", "", quoin.BarePercentage},
		{rates, "1e999999", "", quoin.TooLarge},
		{factors, "3.5", "3.5", anything},
		{factors, "1e-16", "0.0000000000000001", anything},
		{factors, "1e-17", "", quoin.TooFine},
	} {
		got, err := c.word.json(c.in)
		if c.code == anything && (err != nil || got != c.want) {
			t.Errorf("%s %.40s: %s, %v, want %s", c.word.name, c.in, got, err, c.want)
		}
		if c.code != anything && (codeOf(err) != c.code || got != c.word.before) {
			t.Errorf("%s %.40s: %s, %v, want %s and %s as before", c.word.name, c.in, got, err, c.code, c.word.before)
		}
	}
	for _, w := range []word{amounts, rates, factors} {
		for _, data := range []string{"null", "true", "false", "[]", "[1]", "{}", `{"a":1}`} {
			if got, err := w.json(data); codeOf(err) != quoin.NotANumber || got != w.before {
				t.Errorf("%s %s: %s, %v, want %s", w.name, data, got, err, quoin.NotANumber)
			}
		}
	}
	for _, data := range []string{"5", "true", "[]", "{}"} {
		if got, err := quantities.json(data); err == nil || got != quantities.before {
			t.Errorf("quantity %s: %s, %v, want an error", data, got, err)
		}
	}
}

func TestScan(t *testing.T) {
	for _, c := range []struct {
		word word
		in   int64
		want string
	}{{amounts, 17, "17"}, {amounts, -999999999999, "-999999999999"}, {rates, 1, "100%"}, {factors, 3, "3"}} {
		if got, err := c.word.scan(c.in); err != nil || got != c.want {
			t.Errorf("%s of the integer %d: %s, %v, want %s", c.word.name, c.in, got, err, c.want)
		}
	}
	for _, src := range []any{17.5, float32(17.5), nil, true, time.Time{}, int32(5)} {
		for _, w := range []word{amounts, rates, factors, quantities} {
			if got, err := w.scan(src); codeOf(err) != quoin.NotANumber || got != w.before {
				t.Errorf("%s of a %T: %s, %v, want %s", w.name, src, got, err, quoin.NotANumber)
			}
		}
	}
	for want, v := range map[string]driver.Valuer{
		"17.50": quoin.MustAmount("17.50"), "0.074": quoin.MustRate("7.40%"), "1.5": quoin.MustRate("150%"), "3.5": quoin.MustFactor("3.5"), "0.5 sheet": quoin.MustQuantity("0.5 sheet"),
	} {
		if got, err := v.Value(); err != nil || got != want {
			t.Errorf("stored as %v, %v, want %s", got, err, want)
		}
	}
}

// What is written in any way is read as the same, by the same way.
func TestWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.StringMatching(`-?(0|[1-9][0-9]{0,5})(\.[0-9]{1,8})?`).Draw(t, "digits")
		unit := rapid.SampledFrom([]string{"sheet", "mm", "oz"}).Draw(t, "unit")
		a, f, q := quoin.MustAmount(digits), quoin.MustFactor(digits), quoin.MustQuantity(digits+" "+unit)
		r := quoin.MustRate(digits + "%")
		if got := a.String(); got != digits && strings.Trim(digits, "-0.") != "" {
			t.Fatalf("%s is written %s", digits, got)
		}
		type all struct {
			A quoin.Amount
			R quoin.Rate
			F quoin.Factor
			Q quoin.Quantity
			O quoin.Optional[quoin.Amount]
		}
		in := all{a, r, f, q, quoin.Some(a)}
		data, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		var out all
		if err := json.Unmarshal(data, &out); err != nil || !cmp.Equal(in, out) {
			t.Fatalf("%s is read as %s, %v", data, cmp.Diff(in, out), err)
		}
		var bare quoin.Amount
		if err := json.Unmarshal([]byte(digits), &bare); err != nil || !bare.Equal(a) {
			t.Fatalf("the JSON number %s is read as %s, %v", digits, bare, err)
		}
		if r.Cmp(quoin.MustRate("100%")) > 0 || r.Cmp(quoin.MustRate("-100%")) < 0 {
			return // as a fraction it would pass for a percentage
		}
		for _, v := range []interface {
			driver.Valuer
			encoding.TextMarshaler
			fmt.Stringer
		}{a, r, f, q} {
			stored, err := v.Value()
			if err != nil {
				t.Fatal(err)
			}
			text, err := v.MarshalText()
			if err != nil {
				t.Fatal(err)
			}
			w := map[string]word{"quoin.Amount": amounts, "quoin.Rate": rates, "quoin.Factor": factors, "quoin.Quantity": quantities}[fmt.Sprintf("%T", v)]
			if got, err := w.scan(stored); err != nil || got != v.String() {
				t.Fatalf("stored %v is read as %s, %v", stored, got, err)
			}
			if got, err := w.text(string(text)); err != nil || got != v.String() {
				t.Fatalf("%s is read as %s, %v", text, got, err)
			}
		}
	})
}

// Ten megabytes are refused by their length, before anything is made of them.
func TestHugeTexts(t *testing.T) {
	const size = 10_000_000
	for _, piece := range []string{"1", "0,5% sheet"} {
		huge := strings.Repeat(piece, size/len(piece))
		for _, w := range []word{amounts, rates, factors, quantities} {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := w.parse(huge)
			runtime.ReadMemStats(&after)
			if made := after.TotalAlloc - before.TotalAlloc; codeOf(err) != quoin.TooLong || made > 1<<20 || len(err.Error()) > 400 {
				t.Errorf("%s of 10 MB of %q: %.80v after %d bytes made, want %s", w.name, piece, err, made, quoin.TooLong)
			}
			if n := testing.AllocsPerRun(2, func() { _, _ = w.parse(huge) }); n > 100 {
				t.Errorf("%s of 10 MB of %q takes %.0f allocations", w.name, piece, n)
			}
		}
	}
	digits := strings.Repeat("1", size)
	for _, c := range []struct {
		word word
		data string
	}{{amounts, digits}, {amounts, `"` + digits + `"`}, {rates, `"` + digits[:size/10] + `%"`}, {factors, digits[:size/10]}, {quantities, `"` + digits[:size/10] + ` sheet"`}} {
		if got, err := c.word.json(c.data); codeOf(err) != quoin.TooLong || got != c.word.before {
			t.Errorf("%s of %d bytes of JSON: %.80v, want %s", c.word.name, len(c.data), err, quoin.TooLong)
		}
	}
}

func TestFormats(t *testing.T) {
	amount, rate, factor, quantity := quoin.MustAmount("17.5"), quoin.MustRate("6.25%"), quoin.MustFactor("3.50"), quoin.MustQuantity("0.5 sheet")
	for _, c := range []struct {
		format string
		value  any
		want   string
	}{
		{"%v", amount, "17.5"},
		{"%s", amount, "17.5"},
		{"%q", amount, `"17.5"`},
		{"%f", amount, "17.5"},
		{"%+v", amount, "17.5"},
		{"%.2f", amount, "17.50"},
		{"%.0f", amount, "18"},
		{"%8.2f|", amount, "   17.50|"},
		{"%-8s|", amount, "17.5    |"},
		{"%8v|", amount, "    17.5|"},
		{"%2s|", amount, "17.5|"},
		{"%+.2f", amount, "+17.50"},
		{"% .2f", amount, " 17.50"},
		{"%+.2f", amount.Neg(), "-17.50"},
		{"%+8.1f|", amount, "   +17.5|"},
		{"%+.2f", quoin.MustAmount("-0.004"), "+0.00"},
		{"%.2f", quoin.MustAmount("-0.005"), "-0.01"},
		{"%.4f", quoin.MustAmount("20").Over(quoin.FactorOf(3)), "6.6667"},
		{"%#v", amount, `quoin.MustAmount("17.5")`},
		{"%d", amount, "%!d(quoin.Amount=17.5)"},
		{"%x", amount, "%!x(quoin.Amount=17.5)"},
		{"%v", rate, "6.25%"},
		{"%.1f", rate, "6.3"},
		{"%8s|", rate, "   6.25%|"},
		{"%#v", rate, `quoin.MustRate("6.25%")`},
		{"%e", rate, "%!e(quoin.Rate=6.25%)"},
		{"%v", factor, "3.5"},
		{"%.1f", factor, "3.5"},
		{"%#v", factor, `quoin.MustFactor("3.5")`},
		{"%b", factor, "%!b(quoin.Factor=3.5)"},
		{"%v", quantity, "0.5 sheet"},
		{"%.2f", quantity, "0.50"},
		{"%q", quantity, `"0.5 sheet"`},
		{"%#v", quantity, `quoin.MustQuantity("0.5 sheet")`},
		{"%g", quantity, "%!g(quoin.Quantity=0.5 sheet)"},
		{"%s", quoin.MustCurrency("EUR"), "EUR"},
		{"%v", quoin.HalfEven, "half_even"},
		{"%v", []quoin.Amount{amount, amount.Neg()}, "[17.5 -17.5]"},
	} {
		if got := fmt.Sprintf(c.format, c.value); got != c.want {
			t.Errorf("%s of %v: %q, want %q", c.format, c.value, got, c.want)
		}
	}
}

func TestLogs(t *testing.T) {
	for want, handler := range map[string]func(*bytes.Buffer) slog.Handler{
		"level=INFO msg=sold price=17.50 fee=7.4% step=1.4 paper=\"0.5 sheet\" currency=EUR rounding=half_even problem=\"found x [y]\"\n": func(b *bytes.Buffer) slog.Handler {
			return slog.NewTextHandler(b, nil)
		},
		`{"level":"INFO","msg":"sold","price":"17.50","fee":"7.4%","step":"1.4","paper":"0.5 sheet","currency":"EUR","rounding":"half_even","problem":"found x [y]"}` + "\n": func(b *bytes.Buffer) slog.Handler {
			return slog.NewJSONHandler(b, nil)
		},
	} {
		var out bytes.Buffer
		record := slog.NewRecord(time.Time{}, slog.LevelInfo, "sold", 0) // of no time, which is not written
		record.Add("price", quoin.MustAmount("17.50"), "fee", quoin.MustRate("7.4%"), "step", quoin.MustFactor("1.4"), "paper", quoin.MustQuantity("0.5 sheet"),
			"currency", quoin.MustCurrency("EUR"), "rounding", quoin.HalfEven, "problem", quoin.Problem{Code: "y", Found: "x"})
		if err := handler(&out).Handle(t.Context(), record); err != nil || out.String() != want {
			t.Errorf("logged as %s, %v, want %s", out.String(), err, want)
		}
	}
}

func TestFoundIsShort(t *testing.T) {
	for _, c := range []struct{ in, found string }{
		{"seventeen", `"seventeen"`},
		{"a\tb\x00c\x7fd\xffe", `"a·b·c·d·e"`},
		{strings.Repeat("x", 48), `"` + strings.Repeat("x", 48) + `"`},
		{strings.Repeat("x", 49), `"` + strings.Repeat("x", 48) + `…"`},
		{strings.Repeat("𝔵", 5000), `"` + strings.Repeat("𝔵", 48) + `…" (20000 bytes)`},
	} {
		_, err := quoin.ParseAmount(c.in)
		var p quoin.Problem
		if !errors.As(err, &p) || p.Found != c.found || !utf8.ValidString(p.Error()) {
			t.Errorf("%.60q was found as %s, want %s", c.in, p.Found, c.found)
		}
	}
}
