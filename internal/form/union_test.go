package form

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

// parcel is an object whose field sort says what others it has; bag has none but those.
type parcel struct {
	Name string   `json:"name" need:"yes"`
	Sort wrapping `json:"-" kind:"sort"`
}

type bag struct {
	Sort wrapping `json:"-" kind:"sort"`
}

type wrapping interface{ sort() string }

type flat struct {
	Wide int64 `json:"wide" need:"yes" range:"[1,9]"`
}

type tube struct {
	Long int64  `json:"long,omitzero" was:"length"`
	Day  string `json:"day,omitempty"`
}

func (flat) sort() string { return "flat" }
func (tube) sort() string { return "tube" }

var _ = Kinds("unknown_sort", "bad_sort", map[string]string{"roll": "tube"}, wrapping.sort, wrapping(flat{}), wrapping(tube{}))

// found reads a text, and writes what is wrong with it, each where it stands.
func found(text string, to any, records bool) string {
	c := Collector{Records: records}
	c.Read([]byte(text), to)
	Locate([]byte(text), c.Problems)
	return strings.ReplaceAll(problemtest.Full(c.All()), "fault ", "")
}

func TestUnions(t *testing.T) {
	for _, c := range []struct{ text, read, found string }{
		{`{"sort":"flat","name":"a","wide":3}`, "{a {3}}", ""},
		{`{"wide":3,"name":"a","sort":"flat"}`, "{a {3}}", ""},
		{`{"sort":"tube","name":"a"}`, "{a {0 }}", ""},
		{`{"sort":"flat","name":"a"}`, "{a {0}}", `1:1: wide: found nothing, wanted the field wide [missing_field]`},
		{`{"sort":"flat","wide":10}`, "{ {10}}", "1:23: wide: found 10, wanted a value of at least 1 and at most 9 [out_of_range]\n1:1: name: found nothing, wanted the field name [missing_field]"},
		{`{"sort":"flat","name":"a","wide":3,"long":4}`, "{a {3}}", `1:43: long: found the field "long", wanted a field of version 1 [unknown_field]`},
		{`{"sort":"tube","name":"a","length":4}`, "{a {0 }}", `1:36: length: found the field "length", wanted a field of version 1; did you mean long?; write "long", as it is called now [unknown_field]`},
		{`{"sort":"tubs","name":"a","wide":3,"long":4,"x":1}`, "{a <nil>}", "1:9: sort: found \"tubs\", wanted one of flat, tube; did you mean tube? [unknown_sort]\n1:49: x: found the field \"x\", wanted a field of version 1 [unknown_field]"},
		{`{"sort":"roll","name":"a"}`, "{a <nil>}", `1:9: sort: found "roll", wanted one of flat, tube; did you mean tube?; write "tube", as it is called now [unknown_sort]`},
		{`{"sort":5,"name":"a"}`, "{a <nil>}", `1:9: sort: found 5, wanted one of flat, tube [bad_sort]`},
		{`{"sort":{"a":"b"},"name":"a"}`, "{a <nil>}", `1:9: sort: found an object, wanted one of flat, tube [bad_sort]`},
		{`{"sort":["flat"],"name":"a"}`, "{a <nil>}", `1:9: sort: found a list, wanted one of flat, tube [bad_sort]`},
		{`{"sort":null,"name":"a"}`, "{a <nil>}", `1:9: sort: found nothing, wanted the kind of sort [missing_field]`},
		{`{"name":"a","srot":"flat"}`, "{a <nil>}", "1:1: sort: found nothing, wanted the kind of sort [missing_field]\n1:20: srot: found the field \"srot\", wanted a field of version 1; did you mean sort? [unknown_field]"},
		{`{"sort":"flat","sort":"tube","name":"a","wide":3}`, "{a {3}}", `1:23: sort: found "sort" again, wanted each field once [duplicate_field]`},
		{`{"sort":"flat","name":"a","name":"b","wide":3}`, "{b {3}}", `1:34: name: found "name" again, wanted each field once [duplicate_field]`},
		{`{"name":"a","wide":x,"sort":"flat"}`, "", "1:20: found invalid character 'x' at start of value, wanted a JSON document (RFC 8259) [bad_json]"},
		{`[]`, "{ <nil>}", "1:1: found a list, wanted an object [wrong_type]"},
	} {
		var p parcel
		if got := found(c.text, &p, false); got != c.found {
			t.Errorf("%s:\n%s\nwant\n%s", c.text, got, c.found)
		}
		if got := fmt.Sprint(p); c.read != "" && got != c.read {
			t.Errorf("%s is read as %s, want %s", c.text, got, c.read)
		}
	}
	for text, want := range map[string]string{
		`{"sort":"flat","wide":3}`: "", `{"srot":"flat"}`: `1:1: sort: found the field "srot", wanted the kind of sort; did you mean sort? [missing_field]`,
		`{}`: `1:1: sort: found nothing, wanted the kind of sort [missing_field]`, `{"sort":"x","name":1}`: `1:9: sort: found "x", wanted one of flat, tube [unknown_sort]`,
	} {
		if got := found(text, new(bag), false); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", text, got, want)
		}
	}
}

// A record may have longer texts, and is told the names that it may have; of too many fields it is
// told their number.
func TestRecords(t *testing.T) {
	type record struct {
		Note string     `json:"note"`
		Day  quoin.Date `json:"day,omitzero"`
	}
	for text, want := range map[string]string{
		`{"note":"` + strings.Repeat("a", 1000) + `"}`: "",
		`{"note":"` + strings.Repeat("a", 1001) + `"}`: `1:9: note: found 1001 bytes of text, wanted at most 1000 bytes; write it shorter [too_long]`,
		`{"note":"a","nota":"b"}`:                      `1:20: nota: found the field "nota", wanted one of note, day; did you mean note? [unknown_field]`,
		`{"note":"a","day":"2026-03-01"}`:              "",
		`{"note":"a","day":""}`:                        `1:19: day: found "", wanted a date such as 2026-03-01 [bad_date]`,
	} {
		if got := found(text, new(record), true); got != want {
			t.Errorf("%.60s:\n%s\nwant\n%s", text, got, want)
		}
	}
	if got := found(`{"note":"`+strings.Repeat("a", 401)+`","day":""}`, new(record), false); got != "1:9: note: found 401 bytes of text, wanted at most 400 bytes; write it shorter [too_long]" {
		t.Errorf("no record: %s", got)
	}
	many := func(n int) string {
		text := `{"sort":"tube","name":"a"`
		for i := range n - 2 {
			text += fmt.Sprintf(`,"f%02d":{"x":[%d]}`, i, i)
		}
		return text + "}"
	}
	if got := found(many(65), new(parcel), true); !strings.HasPrefix(got, "1:1: found 65 entries, wanted at most 64 [too_many]") {
		t.Errorf("65 fields: %.100s", got)
	}
	if got := found(many(64), new(parcel), true); strings.Contains(got, "too_many") || !strings.Contains(got, "f61") {
		t.Errorf("64 fields: %.100s", got)
	}
	if got := found(many(65), new(parcel), false); strings.Contains(got, "too_many") {
		t.Errorf("65 fields of no record: %.100s", got)
	}
}

func TestMeanings(t *testing.T) {
	for _, c := range []struct{ object, word, known, near, remedy string }{
		{"pricelist.Document", "market", "comparables", "comparables", "or a rule market"},
		{"pricelist.Document", "waste", "contingency stages", "contingency", `or "stages.yield"`},
		{"pricelist.Document", "discount", "", "", `say it by "channels.trade_discount", or "channels.promotion"`},
		{"pricelist.Document", "markup", "", "", "say it by a rule cost_multiple"},
		{"pricelist.Product", "size", "image sheet", "image", `or "sheet"`},
		{"pricelist.Product", "size", "sheet", "sheet", `or "image"`},
		{"channel.Fee", "percent", "rate", "rate", ""},
		{"channel.Fee", "percent", "", "", `say it by "rate"`},
	} {
		near, remedy, ok := meant(c.object, c.word, strings.Fields(c.known))
		if near != c.near || remedy != c.remedy || !ok {
			t.Errorf("%s of %s beside %s: %q, %q, %t, want %q, %q", c.word, c.object, c.known, near, remedy, ok, c.near, c.remedy)
		}
	}
	for _, c := range [][2]string{{"channel.Fee", "color"}, {"channel.Paint", "percent"}} {
		if near, remedy, ok := meant(c[0], c[1], nil); ok || near+remedy != "" {
			t.Errorf("%s of %s means %s, %s", c[1], c[0], near, remedy)
		}
	}
	meanings["form.parcel"] = map[string]string{"title": "name, chanels.name"}
	defer delete(meanings, "form.parcel")
	if got, want := found(`{"sort":"tube","name":"a","title":"b"}`, new(parcel), false),
		`1:35: title: found the field "title", wanted a field of version 1; did you mean name?; or "chanels.name" [unknown_field]`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if len(Meanings()) < 10 {
		t.Errorf("%d objects", len(Meanings()))
	}
}

// What is said of each kind of mistake in a text.
func TestReadSays(t *testing.T) {
	for text, want := range map[string]string{
		`{"id":"a","price":"0"}`:                         "1:19: price: found 0, wanted a value above 0 [out_of_range]",
		`{"id":"a","price":"1","rate":0}`:                "1:30: rate: found rate beside price, wanted one of them; leave one out: each says what the other would [rival_fields]",
		`{"id":"a"}`:                                     "1:1: price: found nothing, wanted the field price or rate [missing_field]",
		`{"id":"","price":"1"}`:                          `1:7: id: found "", wanted the field id [missing_field]`,
		`{"id":"a","price":1,"price":2}`:                 `1:29: price: found "price" again, wanted each field once [duplicate_field]`,
		`{"id":"a","price":1,"prise":2}`:                 `1:29: prise: found the field "prise", wanted a field of version 1; did you mean price? [unknown_field]`,
		`{"id":"a","price":1,"names":["a","b","c","d"]}`: "1:29: names: found 4 entries, wanted at most 3 [too_many]",
		`{"id":"a","price":1,"names":null}`:              "1:29: names: found null, wanted a list [wrong_type]",
		`{"id":"a","price":1,"names":{"b":1}}`:           "1:29: names: found an object, wanted a list [wrong_type]",
		`{"id":"a","price":1,"lists":[1]}`:               "1:29: lists: found a list, wanted an object of lists by name [wrong_type]",
		`{"id":"a","price":1,"inside":"x"}`:              `1:30: inside: found "x", wanted an object [wrong_type]`,
		`{"id":"a","price":1,"inside":true}`:             `1:30: inside: found true, wanted an object [wrong_type]`,
		`{"id":["a"],"price":1}`:                         `1:7: id: found a list, wanted text [wrong_type]`,
		`{"id":7,"price":1}`:                             `1:7: id: found 7, wanted text [wrong_type]`,
		`{"id":"a","price":true}`:                        `1:19: price: found true, wanted an amount such as "17.50" [wrong_type]`,
		`{"id":"a","price":1,"count":"10"}`:              "1:29: count: found 10, wanted a value of at least 1 and at most 9 [out_of_range]",
		`{"id":"a","price":1,"count":1.5}`:               "1:29: count: found 1.5, wanted a whole number [wrong_type]",
		`{"id":"a","rate":"101%"}`:                       "1:18: rate: found 101%, wanted a value of at least 0% and at most 100% [out_of_range]",
		`{"id":"a\u0007","price":1}`:                     `1:7: id: found "a·", wanted text in UTF-8 without control characters [bad_text]`,
		`{"id":"a","price":1}{}`:                         "1:21: found something after the end of the document, wanted a JSON document (RFC 8259) [bad_json]",
		`{"id":"a",`:                                     "1:11: found the end of the text, after 10 bytes, wanted a JSON document (RFC 8259) [bad_json]",
		`{"id":"a","price":1,"lists":{"b":[],"b":[]}}`:   `1:41: lists.b: found "b" again, wanted each name once [duplicate_field]`,
		`{"id":"a","price":1,"lists":{"a\u0007":[]}}`:    `1:40: lists["a\a"]: found "a·", wanted text in UTF-8 without control characters [bad_text]`,
	} {
		if got := found(text, new(crate), false); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", text, got, want)
		}
	}
}

// sealed reads JSON of its own.
type sealed struct{ X int }

func (s *sealed) UnmarshalJSON(data []byte) error {
	switch string(data) {
	case `"refused"`:
		return errors.New("not\nnow")
	case `"wrong"`:
		return quoin.Problem{Code: quoin.TooFine, Path: "deep", Found: "it"}
	}
	s.X = len(data)
	return nil
}

// Types that read their own JSON do, unless something else stands there for them.
func TestReadInside(t *testing.T) {
	type box struct {
		Seal  sealed   `json:"seal"`
		Seals []sealed `json:"seals,omitempty"`
	}
	inside := func(at any) any {
		if s, ok := at.(*sealed); ok {
			return &s.X
		}
		return nil
	}
	for _, c := range []struct {
		text, read, found string
		inside            func(any) any
	}{
		{`{"seal":{"a":[1]}}`, "{{9} []}", "", nil},
		{`{"seal":"refused"}`, "", `1:9: seal: found not·now, wanted a value as it was written [wrong_type]`, nil},
		{`{"seal":1,"seals":[2,"wrong"]}`, "", `1:22: seals[1].deep: found it [too_fine]`, nil},
		{`{"seal":7,"seals":[8,9]}`, "{{7} [{8} {9}]}", "", inside},
		{`{"seal":"x"}`, "", `1:9: seal: found "x", wanted a whole number [wrong_type]`, inside},
		{`{"seals":[1]}`, "", `1:1: seal: found nothing, wanted the field seal [missing_field]`, inside},
		{`{"seal":1,"new":[{"a":1}],"new":2}`, "{{1} []}", "", nil},
	} {
		var b box
		err := ReadStored([]byte(c.text), &b, c.inside)
		if got := strings.TrimPrefix(problemtest.Full(err), "fault "); got != c.found || c.found == "" && fmt.Sprint(b) != c.read {
			t.Errorf("%s is read as %v, %s, want %s, %s", c.text, b, got, c.read, c.found)
		}
	}
}
