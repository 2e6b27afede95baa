package form

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// crate is a made-up document.
type crate struct {
	ID     string                       `json:"id" need:"yes"`
	Count  int64                        `json:"count,omitzero" was:"number" range:"[1,9]"`
	Price  quoin.Amount                 `json:"price" need:"yes" range:"(0," or:"rate"`
	Rate   quoin.Optional[quoin.Rate]   `json:"rate,omitzero" range:"[0,1]"`
	Names  []string                     `json:"names,omitempty" most:"3"`
	Inside *crate                       `json:"inside,omitempty"`
	Lists  map[string][]quoin.Factor    `json:"lists,omitempty"`
	Size   quoin.Optional[quoin.Amount] `json:"size,omitzero"`
}

// TestRead lists what is wrong with a text as line:column, code and path, worked out by hand:
// columns are counted in bytes from 1.
func TestRead(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{`{"id":"a","price":"1"}`, ""},
		{`{"$schema":"x","id":"a","rate":"5%","lists":{"b":[1,"2"]}}`, ""},
		{`{"id":"a","price":"1","inside":{"$schema":"x","id":"b","price":1}}`, "1:43 unknown_field inside[\"$schema\"]"},
		{`{"id":"a","price":"0"}`, "1:19 out_of_range price"},
		{`{"id":"a","price":"1","rate":0}`, "1:30 rival_fields rate"},
		{`{"id":"a"}`, "1:1 missing_field price"},
		{`{"id":"","price":"1"}`, "1:7 missing_field id"},
		{"{\"id\":\"a\",\n \"price\":1, \"price\":2}", "2:21 duplicate_field price"},
		{`{"id":"a","price":1,"x":1,"x":2}`, "1:25 unknown_field x, 1:31 duplicate_field x"},
		{`{"id":"a","price":1,"names":["a","b","c","d"]}`, "1:29 too_many names"},
		{`{"id":"a","price":1,"names":null}`, "1:29 wrong_type names"},
		{`{"id":"a","price":1,"count":"10"}`, "1:29 out_of_range count"},
		{"{\"id\":\"a\xff\",\"price\":1}", "1:7 bad_text id"},
		{`{"id":"\ud800","price":1}`, "1:7 bad_text id"},
		{`{"id":"a\u0007","price":1}`, "1:7 bad_text id"},
		{`{"id":"a","price":1}{}`, "1:21 bad_json "},
		{`{"id":"a",`, "1:11 bad_json "},
		{``, "1:1 bad_json "},
		{`[]`, "1:1 wrong_type "},
		{`{"id":"a","price":1,"lists":{"b":[],"b":[]}}`, "1:41 duplicate_field lists.b"},
		{strings.Repeat(`{"id":"a","price":1,"inside":`, 200) + `{}`, fmt.Sprintf("1:%d bad_json %s", 29*100+7, strings.Repeat("inside.", 100)+"id")},
	} {
		var found Collector
		found.Read([]byte(c.text), new(crate))
		Locate([]byte(c.text), found.Problems)
		var got []string
		for _, p := range found.Problems {
			got = append(got, fmt.Sprintf("%d:%d %s %s", p.Line, p.Column, p.Code, p.Path))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%.60s: %q, want %q", c.text, s, c.want)
		}
	}
}

// A list is as long as what it holds, whatever was read before, and nothing of an earlier
// text shows in a later one.
func TestReadingLeavesNothingBehind(t *testing.T) {
	long, short := []byte(`{"id":"a","price":1,"names":["x","y","z"],"inside":{"id":"b","price":2}}`), []byte(`{"id":"c","rate":"1%","names":["w"]}`)
	for range 3 {
		var c Collector
		var first, second crate
		c.Read(long, &first)
		c.Read(short, &second)
		want := crate{ID: "c", Rate: quoin.Some(quoin.MustRate("1%")), Names: []string{"w"}}
		if len(c.Problems) > 0 || cap(second.Names) != 1 || fmt.Sprint(second) != fmt.Sprint(want) || len(first.Names) != 3 || first.Inside.ID != "b" {
			t.Fatalf("%+v and %+v, %v", first, second, c.Problems)
		}
	}
	text := []byte(`{"id":"heron","price":"12.50"}`)
	var c Collector
	var kept crate
	c.Read(text, &kept)
	for i := range text {
		text[i] = 'x'
	}
	if kept.ID != "heron" || kept.Price.String() != "12.50" {
		t.Errorf("the text was kept: %v", kept)
	}
}

// What encoding/json reads of texts that any program may write is what is read here.
func TestReadAgreesWithJSON(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		v := map[string]any{"id": rapid.StringMatching(`[a-zé\\"/ ]{1,40}`).Draw(t, "id"), "price": rapid.Int64Range(1, 1e9).Draw(t, "price")}
		if rapid.Bool().Draw(t, "names") {
			v["names"] = rapid.SliceOfN(rapid.StringMatching(`[a-z\\"é]{1,5}`), 1, 3).Draw(t, "list")
			drawn++
		}
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		var ours Collector
		var got crate
		ours.Read(text, &got)
		var want struct {
			ID    string
			Price json.Number
			Names []string
		}
		if err := json.Unmarshal(text, &want); err != nil {
			t.Fatal(err)
		}
		if len(ours.Problems) > 0 || got.ID != want.ID || got.Price.String() != want.Price.String() || !reflect.DeepEqual(got.Names, want.Names) {
			t.Fatalf("%s is read as %v, %v, want %v", text, got, ours.Problems, want)
		}
	})
	if drawn == 0 {
		t.Error("no lists were drawn")
	}
}

// What was stored is read with all its digits, and later fields are passed over.
func TestReadStored(t *testing.T) {
	type stored struct {
		Sum   quoin.Amount                 `json:"sum"`
		Pair  [2]int                       `json:"pair"`
		Some  quoin.Optional[quoin.Amount] `json:"some,omitzero"`
		Range quoin.Range[quoin.Amount]    `json:"range,omitzero"`
		List  []quoin.Range[quoin.Amount]  `json:"list"`
		Text  string                       `json:"text,omitempty"`
	}
	for _, c := range []struct{ text, want string }{
		{`{"sum":"0.12345678901234567890","pair":[1,2],"list":null,"later":{"x":[1]}}`, ""},
		{`{"sum":"1","pair":[1,2],"list":[{"low":"1","high":"2"}],"some":null}`, ""},
		{`{"sum":"1","pair":[1],"list":[]}`, "wrong_type pair"},
		{`{"sum":1,"pair":[1,2],"list":[]}`, "wrong_type sum"},
		{`{"sum":"1","pair":[1,2]}`, "missing_field list"},
		{`{"sum":"1","pair":[1,2],"list":[{"low":"1"}]}`, "missing_field list[0].high"},
	} {
		got := ""
		if err := ReadStored([]byte(c.text), new(stored), nil); err != nil {
			p := err.(quoin.Problem)
			got = fmt.Sprint(p.Code, " ", p.Path)
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.text, got, c.want)
		}
	}
}

// Who writes a field, or a word, as it was called before is told what it is called now.
func TestOldNames(t *testing.T) {
	var found Collector
	found.Read([]byte(`{"id":"a","price":1,"number":2}`), new(crate))
	if p := found.Problems; len(p) != 1 || p[0].Code != quoin.UnknownField || p[0].Near != "count" || p[0].Remedy != `write "count", as it is called now` {
		t.Errorf("%v", p)
	}
}

// Whatever stands in a text, reading it neither panics nor takes it for other than JSON, and what is
// wrong with it stands in it.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		`{"id":"a","price":"1","names":["x"],"lists":{"b":[1,"2"]},"inside":{"id":"b","rate":"5%"}}`, `{"id":"a","id":"b"`, "{]", `{"id":"\ud800"}`, "{\"id\":\"\xff\"}", ``, `[[[`, `7 8`, `{"names":{}}`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var found Collector
		read := found.Read(data, new(crate))
		if deep := strings.Count(string(data), "{") + strings.Count(string(data), "["); read != json.Valid(data) && !found.Full && deep < mostDeep {
			t.Fatalf("%q is read: %t, %v", data, read, found.Problems)
		}
		Locate(data, found.Problems)
		for _, p := range found.Problems {
			if p.Line < 1 || p.Column < 1 || p.Line > 1+strings.Count(string(data), "\n") || p.Column > len(data)+1 {
				t.Fatalf("%q: %d:%d", data, p.Line, p.Column)
			}
		}
	})
}
