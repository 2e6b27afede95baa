package history_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"example.com/quoin"
	"example.com/quoin/margin/history"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func on(s string) quoin.Date       { return quoin.MustDate(s) }

// listed writes problems as "line:column code path".
func listed(err error) []string {
	problems, _ := err.(quoin.Problems)
	var out []string
	for _, p := range problems {
		out = append(out, fmt.Sprintf("%d:%d %s %s", p.Line, p.Column, p.Code, p.Path))
	}
	if err != nil && out == nil {
		return []string{err.Error()}
	}
	return out
}

// Columns are counted by hand, in bytes from 1.
func TestLinesThatCannotBeRead(t *testing.T) {
	const price = `{"record":"price","product":"a","price":"9","from":"2026-01-01"`
	for _, c := range []struct {
		what, line string
		want       []string
	}{
		{"a price", price + `}`, nil},
		{"spaces and a carriage return", "  " + price + " } \r", nil},
		{"the kind at the end", `{"product":"a","price":9.5,"from":"2026-01-01","record":"price"}`, nil},
		{"a whole number as text", `{"record":"sale","edition":"e","number":"7","date":"2026-01-01"}`, nil},
		{"a proof", `{"record":"sale","edition":"e","proof":1,"date":"2026-01-01"}`, nil},
		{"nothing", ``, nil},
		{"spaces", " \t \r", nil},

		{"no kind", `{"product":"a"}`, []string{"1:1 missing_field lines[0].record"}},
		{"no kind in it", `{}`, []string{"1:1 missing_field lines[0].record"}},
		{"a kind that is none", `{"record":"prise"}`, []string{"1:11 unknown_word lines[0].record"}},
		{"a kind that is a number", `{"record":7}`, []string{"1:11 wrong_type lines[0].record"}},
		{"an unknown field", price + `,"chanel":"web"}`, []string{"1:74 unknown_field lines[0].chanel"}},
		{"a field of another kind", price + `,"edition":"e"}`, []string{"1:75 unknown_field lines[0].edition"}},
		{"a field twice", price + `,"price":"8"}`, []string{"1:73 duplicate_field lines[0].price"}},
		{"an unknown field twice", price + `,"x":1,"x":1}`, []string{"1:69 unknown_field lines[0].x", "1:75 duplicate_field lines[0].x"}},
		{"the kind twice", price + `,"record":"price"}`, []string{"1:74 duplicate_field lines[0].record"}},
		{"nothing but the kind", `{"record":"price"}`, []string{"1:1 missing_field lines[0].product", "1:1 missing_field lines[0].price", "1:1 missing_field lines[0].from"}},
		{"all of the types wrong", `{"record":"price","product":1,"channel":[],"price":true,"from":{},"until":null}`, []string{
			"1:29 wrong_type lines[0].product", "1:41 wrong_type lines[0].channel", "1:52 wrong_type lines[0].price", "1:64 wrong_type lines[0].from", "1:75 wrong_type lines[0].until",
		}},
		{"a price of nothing", `{"record":"price","product":"a","price":"0","from":"2026-01-01"}`, []string{"1:41 out_of_range lines[0].price"}},
		{"a price too fine", `{"record":"price","product":"a","price":"0.123456789","from":"2026-01-01"}`, []string{"1:41 too_fine lines[0].price"}},
		{"a price too large", `{"record":"price","product":"a","price":1e999999999,"from":"2026-01-01"}`, []string{"1:41 too_large lines[0].price"}},
		{"a comma in it", `{"record":"price","product":"a","price":"9,50","from":"2026-01-01"}`, []string{"1:41 not_a_number lines[0].price"}},
		{"an empty product", `{"record":"price","product":"","price":"9","from":"2026-01-01"}`, []string{"1:29 missing_field lines[0].product"}},
		{"no day of the calendar", `{"record":"price","product":"a","price":"9","from":"2026-02-29"}`, []string{"1:52 bad_date lines[0].from"}},
		{"an empty date", price + `,"until":""}`, []string{"1:73 bad_date lines[0].until"}},
		{"an end on the first day", price + `,"until":"2026-01-01"}`, []string{"1:73 empty_period lines[0].until"}},
		{"an end before it", price + `,"until":"2025-12-31"}`, []string{"1:73 empty_period lines[0].until"}},
		{"neither number nor proof", `{"record":"sale","edition":"e","date":"2026-01-01"}`, []string{"1:1 missing_field lines[0].number"}},
		{"both", `{"record":"sale","edition":"e","number":1,"proof":1,"date":"2026-01-01"}`, []string{"1:51 rival_fields lines[0].proof"}},
		{"number nought", `{"record":"sale","edition":"e","number":0,"date":"2026-01-01"}`, []string{"1:41 out_of_range lines[0].number"}},
		{"half a number", `{"record":"sale","edition":"e","number":1.5,"date":"2026-01-01"}`, []string{"1:41 wrong_type lines[0].number"}},
		{"a number beyond all", `{"record":"sale","edition":"e","number":99999999999999999999999,"date":"2026-01-01"}`, []string{"1:41 wrong_type lines[0].number"}},
		{"a negative price of a sale", `{"record":"sale","edition":"e","number":1,"date":"2026-01-01","price":"-1"}`, []string{"1:71 out_of_range lines[0].price"}},
		{"a trial without what counts", `{"record":"trial","id":"t","product":"a","channel":"web","price":"9","from":"2026-01-01","until":"2026-02-01"}`, []string{
			"1:1 missing_field lines[0].exposure", "1:1 missing_field lines[0].exposure_unit", "1:1 missing_field lines[0].sold",
		}},
		{"a unit that is none", `{"record":"trial","id":"t","product":"a","channel":"web","price":"9","from":"2026-01-01","until":"2026-02-01","exposure":9,"exposure_unit":"visit","sold":-1}`, []string{
			"1:140 unknown_word lines[0].exposure_unit", "1:155 out_of_range lines[0].sold",
		}},
		{"a control character", `{"record":"price","product":"a\u0000","price":"9","from":"2026-01-01"}`, []string{"1:29 bad_text lines[0].product"}},
		{"no UTF-8", "{\"record\":\"price\",\"product\":\"a\xff\",\"price\":\"9\",\"from\":\"2026-01-01\"}", []string{"1:29 bad_text lines[0].product"}},
		{"half a pair", `{"record":"price","product":"\ud800","price":"9","from":"2026-01-01"}`, []string{"1:29 bad_text lines[0].product"}},
		{"a long text", `{"record":"price","product":"` + strings.Repeat("a", 1001) + `","price":"9","from":"2026-01-01"}`, []string{"1:29 too_long lines[0].product"}},

		{"no object", `[1]`, []string{"1:1 wrong_type lines[0]"}},
		{"a number", ` 7`, []string{"1:2 wrong_type lines[0]"}},
		{"two records on a line", price + `} {}`, []string{"1:66 bad_json lines[0]"}},
		{"half a record", price, []string{"1:64 bad_json lines[0]"}},
		{"a comma too many", price + `,}`, []string{"1:64 bad_json lines[0]"}},
		{"a NUL", "\x00", []string{"1:1 bad_json lines[0]"}},
	} {
		_, err := history.ReadAll(strings.NewReader(c.line))
		if got := listed(err); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

func TestNearNames(t *testing.T) {
	_, err := history.ReadAll(strings.NewReader(`{"record":"prise"}` + "\n" + `{"record":"price","product":"a","price":"9","form":"2026-01-01"}` + "\n" + `{"recrod":"price"}`))
	problems, _ := err.(quoin.Problems)
	var got []string
	for _, p := range problems {
		got = append(got, p.Near)
	}
	if want := []string{"price", "from", "", "record"}; !slices.Equal(got, want) {
		t.Errorf("near are %q, want %q", got, want)
	}
}

// Faulty lines are passed on with the rest, each with all that is wrong.
func TestReadGoesOn(t *testing.T) {
	const text = "\n" + `{"record":"sale","edition":"e","number":1,"date":"2026-01-01"}` + "\n" +
		`{"record":"sale","edition":"e","number":0,"date":"x"}` + "\r\n\r\n" +
		`{"record":"sale","edition":"e","number":2,"date":"2026-01-02"}`
	var got []string
	for r, err := range history.Read(strings.NewReader(text)) {
		if err != nil {
			got = append(got, listed(err)...)
			continue
		}
		got = append(got, fmt.Sprint(r.Line, " ", r.Entry.(history.Sale).Number))
	}
	want := []string{"2 1", "3:41 out_of_range lines[2].number", "3:50 bad_date lines[2].date", "5 2"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for range history.Read(strings.NewReader(text)) {
		break
	}
}

// Wherever a reader fails, the records of all whole lines before come first, and then its
// error; nothing is said of the line that it cut short.
func TestReadersThatFailAnywhere(t *testing.T) {
	const line = `{"record":"sale","edition":"e","number":1,"date":"2026-01-01"}` + "\n"
	text := line + "\n" + line + line
	for n := range len(text) + 1 {
		for _, broken := range []error{errors.New("gone"), io.ErrUnexpectedEOF, fmt.Errorf("gone: %w", quoin.Problems{})} {
			r := io.MultiReader(strings.NewReader(text[:n]), iotest.ErrReader(broken))
			if n%2 == 1 {
				r = iotest.DataErrReader(r)
			}
			records, want := 0, strings.Count(text[:n], "}\n")
			var last error
			for _, err := range history.Read(r) {
				if last != nil {
					t.Fatalf("cut behind %d bytes: more after %v", n, last)
				}
				if last = err; err == nil {
					records++
				}
			}
			at := fmt.Sprintf("line %d: ", 1+strings.Count(text[:n], "\n"))
			if records != want || last == nil || !strings.HasSuffix(last.Error(), broken.Error()) || !strings.HasPrefix(last.Error(), at) {
				t.Errorf("cut behind %d bytes: %d records, want %d, then %v at %s", n, records, want, last, at)
			}
		}
	}
	own := fmt.Errorf("gone: %w", quoin.Problems{{Code: quoin.BadText}})
	if _, err := history.ReadAll(iotest.ErrReader(own)); err == nil || err.Error() != "line 1: "+own.Error() {
		t.Errorf("%v, want %v", err, own)
	}
	if _, err := history.ReadAll(nil); !slices.Equal(listed(err), []string{"0:0 missing_field "}) {
		t.Errorf("no reader: %v", err)
	}
}

func TestReadersThatFail(t *testing.T) {
	broken := errors.New("the disk is gone")
	const line = `{"record":"sale","edition":"e","number":1,"date":"2026-01-01"}` + "\n"
	_, err := history.ReadAll(io.MultiReader(strings.NewReader(line), iotest.ErrReader(broken)))
	if !errors.Is(err, broken) || !strings.Contains(err.Error(), "line 2") {
		t.Errorf("%v, want %v in line 2", err, broken)
	}
	_, err = history.ReadAll(io.MultiReader(strings.NewReader("{}\n"), iotest.ErrReader(broken)))
	var problems quoin.Problems
	if !errors.Is(err, broken) || !errors.As(err, &problems) {
		t.Errorf("%v, want %v beside a problem", err, broken)
	}
	all, err := history.ReadAll(iotest.OneByteReader(strings.NewReader(line + line)))
	if len(all) != 2 || err != nil {
		t.Errorf("byte by byte: %d records, %v", len(all), err)
	}
}

func TestProblemsAreBounded(t *testing.T) {
	_, err := history.ReadAll(strings.NewReader(strings.Repeat("{}\n", 1000)))
	if problems, _ := err.(quoin.Problems); len(problems) != 1000 || problems[999].Code != quoin.MissingField {
		t.Errorf("a thousand: %d problems", len(problems))
	}
	_, err = history.ReadAll(strings.NewReader(strings.Repeat(`{"record":"price"}`+"\n", 5000)))
	if problems, _ := err.(quoin.Problems); len(problems) != 1001 || problems[1000].Code != quoin.MoreProblems {
		t.Errorf("more: %d problems", len(problems))
	}
	sale := history.Record{Entry: history.Sale{Edition: "e", Number: 1, Date: on("2026-01-01")}}
	_, err = history.New(slices.Repeat([]history.Record{sale}, 5000))
	if problems, _ := err.(quoin.Problems); len(problems) != 1001 || problems[1000].Code != quoin.MoreProblems {
		t.Errorf("sold again and again: %d problems", len(problems))
	}
	_, err = history.New(slices.Repeat([]history.Record{sale}, 100_001))
	if problems, _ := err.(quoin.Problems); len(problems) != 1 || problems[0].Code != quoin.TooMany {
		t.Errorf("too many: %v", problems)
	}
}

// endless hands out one text again and again, up to a size.
type endless struct {
	text string
	left int
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	if e.left == 0 {
		return 0, io.EOF
	}
	n := 0
	for n < len(p) && e.left > 0 {
		k := copy(p[n:], e.text[e.at:])
		k = min(k, e.left)
		n, e.left, e.at = n+k, e.left-k, (e.at+k)%len(e.text)
	}
	return n, nil
}

func TestHostileText(t *testing.T) {
	const mib = 1 << 20
	field := `{"record":"price","product":"`
	for _, c := range []struct {
		what string
		from io.Reader
		want []string
	}{
		{"a million empty lines", &endless{text: "\n", left: 1_000_000}, nil},
		{"a line of exactly a MiB", strings.NewReader(strings.Repeat(" ", mib) + "\n"), nil},
		{"a line of exactly a MiB without its end", strings.NewReader(strings.Repeat(" ", mib)), nil},
		{"a byte more", strings.NewReader(strings.Repeat(" ", mib+1) + "\n"), []string{"1:1 too_long lines[0]"}},
		{"a byte more without its end", strings.NewReader(strings.Repeat(" ", mib+1)), []string{"1:1 too_long lines[0]"}},
		{"a line of 64 MiB", &endless{text: "x", left: 64 * mib}, []string{"1:1 too_long lines[0]"}},
		{"then another", io.MultiReader(&endless{text: "x", left: 3 * mib}, strings.NewReader("\n{}")), []string{"1:1 too_long lines[0]", "2:1 missing_field lines[1].record"}},
		{"NUL bytes", &endless{text: "\x00", left: mib / 2}, []string{"1:1 bad_json lines[0]"}},
		{"lists in lists", strings.NewReader(strings.Repeat("[", mib/2)), []string{"1:1 wrong_type lines[0]"}},
		{"lists in lists in a field", strings.NewReader(`{"record":` + strings.Repeat("[", mib/4) + strings.Repeat("]", mib/4) + "}"), []string{"1:11 wrong_type lines[0].record"}},
		{"objects in objects", strings.NewReader(strings.Repeat(`{"a":`, mib/8)), []string{"1:50001 bad_json lines[0]"}}, // 10,000 of them, of five bytes, are as deep as JSON is read
		{"a long text", strings.NewReader(field + strings.Repeat("a", mib-100) + `"}`), []string{"1:29 too_long lines[0].product", "1:1 missing_field lines[0].price", "1:1 missing_field lines[0].from"}},
		{"a long number", strings.NewReader(`{"record":"sale","edition":"e","number":` + strings.Repeat("9", mib/2) + `,"date":"2026-01-01"}`), []string{"1:41 wrong_type lines[0].number"}},
		{
			"a long name", strings.NewReader(`{"record":"price","product":"a","price":1,"from":"2026-01-01","` + strings.Repeat("a", mib/2) + `":1}`),
			[]string{fmt.Sprintf("1:%d unknown_field lines[0][%q…]", 62+mib/2+4, strings.Repeat("a", 64))},
		},
		{"many fields", strings.NewReader("{" + strings.Repeat(`"":0,`, mib/6) + `"":0}`), []string{"1:1 too_many lines[0]"}},
	} {
		_, err := history.ReadAll(c.from)
		if got := listed(err); !slices.Equal(got, c.want) {
			t.Errorf("%s: %.300q, want %q", c.what, got, c.want)
		}
		if err != nil && len(err.Error()) > 2000 {
			t.Errorf("%s: an error of %d bytes", c.what, len(err.Error()))
		}
	}
}

// What Read would not take, Append does not write.
func TestAppendRefuses(t *testing.T) {
	sound := history.Price{Product: "a", Price: amount("9"), From: on("2026-01-01")}
	for _, c := range []struct {
		what string
		e    history.Entry
		want []string
	}{
		{"a price", sound, nil},
		{"nothing", nil, []string{"0:0 wrong_type "}},
		{"a pointer", &sound, []string{"0:0 wrong_type "}},
		{"an empty price", history.Price{}, []string{"0:0 missing_field product", "0:0 missing_field price", "0:0 missing_field from"}},
		{"a third", history.Price{Product: "a", Price: amount("10").Over(quoin.FactorOf(3)), From: on("2026-01-01")}, []string{"0:0 too_fine price"}},
		{"no UTF-8", history.Price{Product: "\xff", Price: amount("9"), From: on("2026-01-01")}, []string{"0:0 bad_text product"}},
		{"a line in it", history.Price{Product: "a\n{}", Price: amount("9"), From: on("2026-01-01")}, []string{"0:0 bad_text product"}},
		{"an end before it", history.Reduction{Product: "a", Price: amount("9"), From: on("2026-01-02"), Until: on("2026-01-01")}, []string{"0:0 empty_period until"}},
		{"number and proof", history.Sale{Edition: "e", Number: 1, Proof: 1, Date: on("2026-01-02")}, []string{"0:0 rival_fields proof"}},
		{"neither", history.Sale{Edition: "e", Date: on("2026-01-02")}, []string{"0:0 missing_field number"}},
		{"below 0", history.Sale{Edition: "e", Number: -1, Date: on("2026-01-02"), Price: quoin.Some(amount("-1"))}, []string{"0:0 out_of_range number", "0:0 out_of_range price"}},
		{"nobody says how many sold", trialOf(quoin.Optional[int64]{}), []string{"0:0 missing_field sold"}},
		{"an empty trial", history.Trial{ExposureUnit: "seconds", Sold: quoin.Some(int64(-1))}, []string{
			"0:0 unknown_word exposure_unit", "0:0 out_of_range sold",
			"0:0 missing_field id", "0:0 missing_field product", "0:0 missing_field channel", "0:0 missing_field price", "0:0 missing_field from", "0:0 missing_field until",
			"0:0 missing_field exposure",
		}},
	} {
		line, err := history.Append([]byte("before"), c.e)
		if got := listed(err); !slices.Equal(got, c.want) || c.want != nil && string(line) != "before" {
			t.Errorf("%s: %q, %q, want %q", c.what, got, line, c.want)
		}
		_, err = history.New([]history.Record{{Entry: c.e}})
		if got := listed(err); len(got) != len(c.want) {
			t.Errorf("%s, put into a history: %q", c.what, got)
		}
	}
}

// trialOf is a trial of so many sold.
func trialOf(sold quoin.Optional[int64]) history.Trial {
	return history.Trial{
		ID: "spring", Product: "p", Channel: "web", Price: amount("12"), From: on("2026-04-01"), Until: on("2026-05-01"),
		Exposure: quoin.FactorOf(40), ExposureUnit: history.Visits, Sold: sold,
	}
}

// None sold is said, and read back.
func TestNoneSold(t *testing.T) {
	line, err := history.Append(nil, trialOf(quoin.Some(int64(0))))
	if err != nil || !strings.Contains(string(line), `"sold":0`) {
		t.Errorf("%s, %v", line, err)
	}
	back, err := history.ReadAll(bytes.NewReader(line))
	if err != nil || len(back) != 1 || !back[0].Entry.(history.Trial).Sold.Equal(quoin.Some(int64(0))) {
		t.Errorf("%+v, %v", back, err)
	}
}
