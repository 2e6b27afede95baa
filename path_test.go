package quoin_test

import (
	"errors"
	"fmt"
	"testing"

	"example.com/quoin"
)

// TestPathsOfAnyDepth: lists, objects and names follow each other as often as a document
// has them.
func TestPathsOfAnyDepth(t *testing.T) {
	first := quoin.InList("channels", 0)
	for _, c := range []struct {
		path quoin.Path
		want string
	}{
		{first.Sub("orders", 1).Sub("codes", 2), "channels[0].orders[1].codes[2]"},
		{first.Sub("orders", 1).FieldAt("codes", 2), "channels[0].orders[1].codes[2]"},
		{first.Sub("orders", 1).Sub("codes", 2).Field("share"), "channels[0].orders[1].codes[2].share"},
		{first.Sub("orders", 1).Sub("codes", 2).Sub("steps", 0).Sub("parts", 13).FieldAt("of", 4), "channels[0].orders[1].codes[2].steps[0].parts[13].of[4]"},
		{quoin.InList("products", 0).Sub("quotes", 1).Inside("scale").Sub("steps", 2), "products[0].quotes[1].scale.steps[2]"},
		{quoin.InList("products", 0).Sub("quotes", 1).Inside("scale").FieldAt("steps", 2), "products[0].quotes[1].scale.steps[2]"},
		{quoin.InList("products", 0).Inside("scale").Sub("steps", 2).Inside("a").Inside("b").Field("c"), "products[0].scale.steps[2].a.b.c"},
		{first.Sub("trade", -1).Sub("credit", -1).Field("early"), "channels[0].trade.credit.early"},
		{first.Sub("orders", 1).Field("rate").Sub("codes", 2), "channels[0].orders[1].codes[2]"}, // in place of the field
		{first.Sub("orders", 1).Named("lists", "A 4", 3).Field("quantity"), `channels[0].orders[1].lists["A 4"][3].quantity`},
		{quoin.Path{}.Named("packings", "tube", 2).Field("quantity"), "packings.tube[2].quantity"},
		{quoin.Path{}.Sub("lines", 3), "lines[3]"},
		{quoin.Path{}.Inside("run").Sub("lines", 3), "run.lines[3]"},
		{quoin.Path{}.Sub("", 0), ""},
	} {
		if got := c.path.String(); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
		if text, err := c.path.AppendText([]byte("at ")); err != nil || string(text) != "at "+c.want {
			t.Errorf("%s, %v, want it behind at", text, err)
		}
	}
	a, b := first.Sub("orders", 1).Sub("codes", 2), first.Sub("orders", 1).FieldAt("codes", 2)
	if !a.Equal(b) || !a.Within(first) || a.Equal(first.Sub("orders", 1).Sub("codes", 3)) {
		t.Error("paths are compared as they are written")
	}
}

// TestLocateSeesThroughWraps: a Problem is located wherever it is, in the words that it
// was wrapped in.
func TestLocateSeesThroughWraps(t *testing.T) {
	at := quoin.InList("lines", 2)
	price := quoin.Problem{Code: quoin.NotANumber, Path: "price", Found: `"x"`}
	tax := quoin.Problem{Code: quoin.TooFine, Path: "tax", Found: "0.1234"}
	both := quoin.Problems{price, tax}
	for _, c := range []struct {
		err   error
		want  string
		paths []string
	}{
		{both, `lines[2].price: found "x" [not_a_number]` + "\n" + `lines[2].tax: found 0.1234 [too_fine]`, []string{"lines[2].price", "lines[2].tax"}},
		{fmt.Errorf("order 7: %w", price), `order 7: lines[2].price: found "x" [not_a_number]`, []string{"lines[2].price"}},
		{fmt.Errorf("order 7: %w, twice", both), `order 7: lines[2].price: found "x" [not_a_number]` + "\n" + `lines[2].tax: found 0.1234 [too_fine], twice`, []string{"lines[2].price", "lines[2].tax"}},
	} {
		got := at.Locate(c.err)
		if got.Error() != c.want {
			t.Errorf("%v, want %s", got, c.want)
		}
		var one quoin.Problem
		if !errors.As(got, &one) || one.Path != c.paths[0] {
			t.Errorf("%v: the first stands at %s", got, one.Path)
		}
		var all quoin.Problems
		if errors.As(got, &all) != (len(c.paths) > 1) || len(all) > 1 && all[1].Path != c.paths[1] {
			t.Errorf("%v: all are %v", got, all)
		}
		if _, plain := c.err.(quoin.Problems); !plain && !errors.Is(got, c.err) {
			t.Errorf("%v does not wrap what was located", got)
		}
	}
	if both[0].Path != "price" || quoin.InField("x").Locate(nil) != nil {
		t.Error("what was handed in changed")
	}
}

// TestProblemsAreFound: errors.As and errors.Is look into Problems, and through wraps.
func TestProblemsAreFound(t *testing.T) {
	price := quoin.Problem{Code: quoin.NotANumber, Severity: quoin.Fault, Path: "price", Args: []quoin.Arg{{Name: "n", Value: "1"}}}
	tax := quoin.Problem{Code: quoin.TooFine, Severity: quoin.Fault, Path: "tax", Line: 3}
	for _, c := range []struct {
		err    error
		target quoin.Problem
		want   bool
	}{
		{price, price, true},
		{price, quoin.Problem{Code: quoin.NotANumber}, true},
		{price, quoin.Problem{Code: quoin.NotANumber, Path: "price"}, true},
		{price, quoin.Problem{Code: quoin.NotANumber, Path: "tax"}, false},
		{price, quoin.Problem{Code: quoin.TooFine}, false},
		{price, quoin.Problem{Args: []quoin.Arg{{Name: "n", Value: "2"}}}, false},
		{tax, quoin.Problem{Line: 4}, false},
		{quoin.Problems{price, tax}, quoin.Problem{Code: quoin.TooFine}, true},
		{fmt.Errorf("order 7: %w", quoin.Problems{price, tax}), tax, true},
		{fmt.Errorf("order 7: %w", price), tax, false},
		{errors.New("other"), quoin.Problem{}, false},
	} {
		if got := errors.Is(c.err, c.target); got != c.want {
			t.Errorf("%v is like %+v: %t", c.err, c.target, got)
		}
	}
	var p quoin.Problem
	if !errors.As(quoin.Problems{price, tax}, &p) || p.Path != "price" {
		t.Errorf("the first of two is %v", p)
	}
	if errors.As(quoin.Problems{}, &p) && p.Path != "price" {
		t.Error("no problem is one")
	}
}
