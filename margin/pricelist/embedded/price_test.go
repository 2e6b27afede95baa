package embedded

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/version"
	"example.com/quoin/margin/pricelist"
	"github.com/google/go-cmp/cmp"
)

// read is a reply as a program in another language reads it.
type read struct {
	Version  int               `json:"version"`
	Engine   string            `json:"engine"`
	Answer   *pricelist.Answer `json:"answer"`
	Problems quoin.Problems    `json:"problems"`
}

func opened(t testing.TB, reply []byte) (r read) {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(reply))
	d.DisallowUnknownFields() // of the reply; an answer reads itself
	if err := d.Decode(&r); err != nil || d.More() {
		t.Fatalf("not one object: %v in %.200s", err, reply)
	}
	if r.Version != 1 || r.Engine != version.Engine || bytes.ContainsAny(reply, "\n\r") {
		t.Fatalf("version %d of %q, or more than a line: %.200s", r.Version, r.Engine, reply)
	}
	if (r.Answer == nil) == (len(r.Problems) == 0) {
		t.Fatalf("not one of answer and problems: %.200s", reply)
	}
	return r
}

// documents are all example documents, and those of the cases and of the codes.
func documents(t testing.TB) map[string][]byte {
	t.Helper()
	out := make(map[string][]byte)
	for _, pattern := range []string{
		"../../../examples/*/*.json", "../testdata/cases/*.json", "../testdata/codes/*.json",
	} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) < 4 {
			t.Fatalf("%d documents as %s, %v", len(files), pattern, err)
		}
		for _, f := range files {
			if out[f], err = os.ReadFile(f); err != nil {
				t.Fatal(err)
			}
		}
	}
	return out
}

// A reply holds what Price of package pricelist returns, to the byte of the answer, and to every
// field of the problems.
func TestReplyHoldsWhatPriceReturns(t *testing.T) {
	answered, conflicts, refused := 0, 0, 0
	for name, document := range documents(t) {
		before := bytes.Clone(document)
		reply := Price(document)
		if !bytes.Equal(before, document) {
			t.Errorf("%s: the document was written to", name)
		}
		r := opened(t, reply)
		want, err := pricelist.Price(document)
		if err != nil {
			refused++
			if r.Answer != nil {
				t.Errorf("%s: an answer where there are problems", name)
			}
			if diff := cmp.Diff(err, error(r.Problems)); diff != "" {
				t.Errorf("%s: %s", name, diff)
			}
			continue
		}
		answered++
		if len(want.Conflict) > 0 {
			conflicts++
		}
		text, err := want.AppendJSON(nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.TrimSuffix(strings.TrimPrefix(string(reply), `{"version":1,"engine":"`+version.Engine+`","answer":`), "}"); got != string(text) {
			t.Errorf("%s: other bytes than the answer", name)
		}
	}
	if answered < 20 || conflicts < 1 || refused < 10 {
		t.Errorf("%d answered, %d of them conflicts, %d refused: too few of one", answered, conflicts, refused)
	}
}

// Whatever is no document is a reply too: nothing, half a document, bytes that are no text.
func TestWhatIsNoDocumentIsAReply(t *testing.T) {
	for _, document := range []string{"", " ", "null", "{", `{"version":1`, "\xff\xfe", "<shop>", `{"version":9}`, strings.Repeat("[", 100_000)} {
		r := opened(t, Price([]byte(document)))
		for _, p := range r.Problems {
			if p.Severity != quoin.Fault || p.Code == "" || p.Code == Defect || p.Found+p.Wanted == "" {
				t.Errorf("%.20q: %+v", document, p)
			}
		}
		if r.Answer != nil {
			t.Errorf("%.20q is answered", document)
		}
	}
	if r := opened(t, Price(nil)); len(r.Problems) == 0 {
		t.Error("nothing is answered")
	}
}

// A defect of the library ends the reply, not the host.
func TestDefectIsAProblem(t *testing.T) {
	for _, c := range []struct {
		name  string
		price func([]byte) (pricelist.Answer, error)
		found string
	}{
		{"a panic", func([]byte) (pricelist.Answer, error) { panic("slice of <nothing>") }, "a defect of quoin: slice of <nothing>"},
		{"an index", func(b []byte) (pricelist.Answer, error) { _ = b[len(b)]; return pricelist.Answer{}, nil }, "index out of range"},
		{"an error of another kind", func([]byte) (pricelist.Answer, error) { return pricelist.Answer{}, errors.New("lost") }, "a defect of quoin: lost"},
	} {
		text := reply([]byte("{}"), c.price)
		if bytes.Contains(text, []byte(`\u003c`)) {
			t.Errorf("%s: signs are written as for HTML: %s", c.name, text)
		}
		r := opened(t, text)
		if len(r.Problems) != 1 || r.Problems[0].Code != Defect || !strings.Contains(r.Problems[0].Found, c.found) {
			t.Errorf("%s: %+v", c.name, r.Problems)
		}
	}
}

// Any number of goroutines get the same bytes, each its own.
func TestRepliesBelongToTheirCallers(t *testing.T) {
	document, err := os.ReadFile("../../../examples/first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	want := string(Price(document))
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for range 5 {
				got := Price(document)
				if string(got) != want {
					t.Error("another reply to the same document")
				}
				clear(got)
			}
		})
	}
	wg.Wait()
}

// FuzzPrice: any bytes get a reply that can be read, and no defect.
func FuzzPrice(f *testing.F) {
	for _, document := range documents(f) {
		f.Add(document)
	}
	f.Fuzz(func(t *testing.T, document []byte) {
		r := opened(t, Price(document))
		if len(r.Problems) > 0 && r.Problems[0].Code == Defect {
			t.Fatal(r.Problems)
		}
	})
}
