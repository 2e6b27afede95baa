package pricelist_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// hostileFiles returns the documents that were made to hurt.
func hostileFiles(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob("testdata/hostile/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no hostile documents: %v", err)
	}
	out := make(map[string][]byte)
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(f)] = data
	}
	return out
}

// A hostile document is refused with problems, or decided like any other; it
// never panics, and what is refused leaves nothing behind.
func TestHostileDocumentsAreAnswered(t *testing.T) {
	oneGoroutine(t)
	for name, data := range hostileFiles(t) {
		a, err := pricelist.Price(data)
		if err != nil {
			if _, ok := err.(quoin.Problems); !ok || len(a.Products) > 0 || len(a.Conflict) > 0 {
				t.Errorf("%s: %T with %d products", name, err, len(a.Products))
			}
			continue
		}
		if len(a.Products) == 0 && len(a.Conflict) == 0 {
			t.Errorf("%s: neither prices nor a conflict nor a problem", name)
		}
		for _, p := range a.Products {
			for _, c := range p.Channels {
				if err := quoin.Replay(c.Steps.Steps()); err != nil {
					t.Errorf("%s: %v", name, err)
				}
			}
		}
	}
}

// addDocuments begins with the documents of the tests.
func addDocuments(f *testing.F) {
	f.Add([]byte(sound))
	f.Add(scenario(f))
	for _, docs := range []map[string][]byte{read(f), hostileFiles(f)} {
		for _, data := range docs {
			f.Add(data)
		}
	}
}

// FuzzDecode: nothing that can be read panics, hangs, or gives half an answer.
func FuzzDecode(f *testing.F) {
	oneGoroutine(f)
	addDocuments(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := pricelist.Decode(data)
		if err != nil {
			if len(doc.Products) > 0 || err.Error() == "" {
				t.Fatal("half an answer")
			}
			return
		}
		if err := doc.Check(); err != nil {
			t.Fatalf("decoded without a problem, checked with one: %v", err)
		}
		out, err := json.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := pricelist.Decode(out); err != nil {
			t.Fatalf("encoded, it does not decode: %v", err)
		}
	})
}

// FuzzPrice: whatever is decoded can be decided, and its steps replay.
func FuzzPrice(f *testing.F) {
	oneGoroutine(f)
	addDocuments(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := pricelist.Price(data)
		if err != nil {
			return
		}
		for _, p := range a.Products {
			if !p.Allowed.Contains(p.Price) {
				t.Fatalf("%s costs %v, which is not allowed", p.ID, p.Price)
			}
			for _, c := range p.Channels {
				if err := quoin.Replay(c.Steps.Steps()); err != nil {
					t.Fatal(err)
				}
			}
		}
	})
}
