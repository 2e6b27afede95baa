package pricelist_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/margin/pricelist"
)

// plainAnswer is an answer that encoding/json writes by reflection.
type plainAnswer pricelist.Answer

// writtenByTags holds the JSON of an answer against encoding/json, which goes by the tags of the same structs through
// reflection. It is given what stands elsewhere in an answer: reasons, which TestStepsAreToldOnce holds, and allowed prices.
func writtenByTags(t fataler, a pricelist.Answer) {
	t.Helper()
	same := func(what string, got, want any) {
		x, err := json.Marshal(got)
		y, err2 := json.Marshal(want)
		if err != nil || err2 != nil || !bytes.Equal(x, y) {
			t.Fatalf("%s: %v, %v; written is\n%s\nby encoding/json\n%s", what, err, err2, x, y)
		}
	}
	bare := a.WithoutSteps()
	bare.Products = slices.Clone(a.Products)
	for i := range bare.Products {
		p := &bare.Products[i]
		same("by_channel of "+p.ID, p.ByChannel, p.ByChannel.Channels())
		for _, w := range []pricelist.WhyNot{p.Lower, p.Higher} {
			if why, ok := w.Why(); ok && len(why.By) <= 12 {
				same("why of "+p.ID, w, why)
			}
		}
		p.Allowed = pricelist.AllowedPrices{}
		p.Channels = slices.Clone(p.Channels)
		for k := range p.Channels {
			p.Channels[k].Steps = pricelist.Reasons{}
		}
	}
	same("the answer", bare, plainAnswer(bare))
	behind(t, a)
}

// behind holds the three ways to write an answer to each other.
func behind(t fataler, a pricelist.Answer) {
	t.Helper()
	marshalled, err := json.Marshal(a)
	own, err2 := a.MarshalJSON()
	appended, err3 := a.AppendJSON([]byte("before"))
	var escaped bytes.Buffer
	json.HTMLEscape(&escaped, own)
	if err != nil || err2 != nil || err3 != nil || string(appended) != "before"+string(own) || !bytes.Equal(escaped.Bytes(), marshalled) {
		t.Fatalf("%v, %v, %v: three texts\n%s\n%s\n%s", err, err2, err3, marshalled, own, appended)
	}
}

func TestAnswersAreWrittenByTheirTags(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) { writtenByTags(t, must(pricelist.Decide(drawnWays(t)))(t)) })
}

func FuzzAnswersAreWrittenByTheirTags(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { writtenByTags(t, must(pricelist.Decide(drawnWays(t)))(t)) }))
}

// So are those to the examples, with their points to draw, and with names that JSON and HTML escape.
func TestExamplesAreWrittenByTheirTags(t *testing.T) {
	n := 0
	for _, pattern := range []string{"../../examples/shops/*.json", "../../examples/pricesheet/*.json", "testdata/codes/*.json"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			for _, text := range [][]byte{data, bytes.ReplaceAll(data, []byte(`"name": "`), []byte(`"name": "<&> \u2028 \\ ö`))} {
				a, err := pricelist.Price(text)
				if err != nil {
					continue
				}
				t.Run(filepath.Base(f), func(t *testing.T) { writtenByTags(t, a.WithCurves()) })
				n++
			}
		}
	}
	if n < 80 {
		t.Errorf("%d answers", n)
	}
}

// Answers of one shop are written at the same time, and each as any other.
func TestAnswersAreWrittenFromAnywhere(t *testing.T) {
	shop, lot := scenarioShop(t)
	texts := make([]string, 24)
	var all sync.WaitGroup
	for i := range texts {
		all.Go(func() {
			a, err := shop.Decide(lot, pricelist.Full)
			if err != nil {
				t.Error(err)
				return
			}
			text, err := a.AppendJSON(nil)
			if err != nil {
				t.Error(err)
			}
			texts[i] = string(text)
		})
	}
	all.Wait()
	for i, text := range texts {
		if text == "" || text != texts[0] {
			t.Fatalf("answer %d is\n%s\nthe first is\n%s", i, text, texts[0])
		}
	}
}
