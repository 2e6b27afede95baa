package quoin_test

import (
	"strings"
	"testing"

	"example.com/quoin"
)

// A figure in each of its texts: as its type writes it, so that the type can be read back, for a
// person, and so that a sum can be followed.
func TestFiguresInTexts(t *testing.T) {
	third := quoin.FactorOf(1).Over(quoin.FactorOf(3))
	inches := quoin.MustQuantity("3 2/3 in")
	for _, c := range []struct {
		f                          quoin.Figure
		kind                       quoin.FigureKind
		text, marshal, round, long string
	}{
		{quoin.MustAmount("17.50").Figure(), quoin.IsAmount, "17.50", "17.50", "17.50", "17.50"},
		{quoin.MustAmount("17.505").Figure(), quoin.IsAmount, "17.505", "17.505", "17.51", "17.505"},
		{quoin.MustAmount("-0.005").Figure(), quoin.IsAmount, "-0.005", "-0.005", "-0.01", "-0.005"},
		{quoin.MustAmount("1").Over(quoin.FactorOf(3)).Figure(), quoin.IsAmount, "0.333333333333", "0.333333333333", "0.33", "≈0.33333333"},
		{quoin.MustAmount("0.12345678").Figure(), quoin.IsAmount, "0.12345678", "0.12345678", "0.12", "0.12345678"},
		{quoin.MustAmount("0.12345678").Times(quoin.MustFactor("0.5")).Figure(), quoin.IsAmount, "0.06172839", "0.06172839", "0.06", "0.06172839"},
		{quoin.MustAmount("0.12345678").Times(quoin.MustFactor("0.1")).Figure(), quoin.IsAmount, "0.012345678", "0.012345678", "0.01", "≈0.01234568"},
		{quoin.MustRate("7.4%").Figure(), quoin.IsRate, "7.4%", "7.4%", "7.4%", "7.4%"},
		{quoin.MustRate("7.4564%").Figure(), quoin.IsRate, "7.4564%", "7.4564%", "7.456%", "7.4564%"}, // five places of the share
		{third.Rate().Figure(), quoin.IsRate, "33.333333333333%", "33.333333333333%", "33.333%", "≈33.33333333%"},
		{quoin.MustRate("0.12345678%").Figure(), quoin.IsRate, "0.12345678%", "0.12345678%", "0.123%", "0.12345678%"},
		{quoin.MustFactor("3.50").Figure(), quoin.IsFactor, "3.5", "3.5x", "3.5", "3.5"},
		{quoin.FactorOf(1000).Figure(), quoin.IsFactor, "1000", "1000x", "1000", "1000"},
		{third.Figure(), quoin.IsFactor, "0.333333333333", "0.333333333333x", "0.33333", "≈0.33333333"},
		{quoin.MustFactor("0.123455").Figure(), quoin.IsFactor, "0.123455", "0.123455x", "0.12346", "0.123455"},
		{quoin.MustQuantity("0.50 sheet").Figure(), quoin.IsQuantity, "0.5 sheet", "0.5 sheet", "0.5 sheet", "0.5 sheet"},
		{inches.Figure(), quoin.IsQuantity, "3.666666666667 in", "3.666666666667 in", "3.66667 in", "≈3.66666667 in"},
		{quoin.Quantity{}.Figure(), quoin.IsFactor, "0", "0x", "0", "0"},
		{quoin.Figure{}, quoin.IsFactor, "0", "0x", "0", "0"},
	} {
		marshal, err := c.f.MarshalText()
		if c.f.String() != c.text || string(marshal) != c.marshal || err != nil || c.f.Round(2) != c.round || c.f.Long() != c.long || c.f.Kind() != c.kind {
			t.Errorf("%s, %s, %s, %s of kind %q, want %s, %s, %s, %s", c.f, marshal, c.f.Round(2), c.f.Long(), c.f.Kind(), c.text, c.marshal, c.round, c.long)
		}
		behind, err := c.f.AppendText([]byte("is "))
		if string(behind) != "is "+c.marshal || err != nil {
			t.Errorf("%s behind is, %v", behind, err)
		}
		var back quoin.Figure
		if err := back.UnmarshalText(marshal); err != nil || back.Kind() != c.kind || !strings.Contains(c.long, "≈") && !back.Equal(c.f) {
			t.Errorf("%s is read back as %s, %v", marshal, back, err)
		}
		if a, ok := c.f.Amount(); ok != (c.kind == quoin.IsAmount) || !a.Figure().Factor().Equal(c.f.Factor()) || c.f.Rat().Cmp(c.f.Factor().Rat()) != 0 {
			t.Errorf("%s as an amount is %s, %t", c.f, a, ok)
		}
	}
}

// Figures are the same where number, type and unit are.
func TestFiguresAreEqual(t *testing.T) {
	all := []quoin.Figure{
		quoin.MustAmount("0.5").Figure(), quoin.MustRate("50%").Figure(), quoin.MustFactor("0.5").Figure(), quoin.MustQuantity("0.5 sheet").Figure(), quoin.MustQuantity("0.5 mm").Figure(),
		quoin.MustAmount("0.6").Figure(),
	}
	for i, f := range all {
		for j, g := range all {
			if f.Equal(g) != (i == j) {
				t.Errorf("%v equals %v: %t", f, g, f.Equal(g))
			}
		}
	}
	if !quoin.MustAmount("0.50").Figure().Equal(all[0]) {
		t.Error("0.50 is not 0.5")
	}
}

func TestNoFigureIsRead(t *testing.T) {
	for _, c := range []struct {
		text string
		code quoin.Code
	}{
		{"", quoin.NotANumber},
		{"x", quoin.NotANumber},
		{"%", quoin.NotANumber},
		{"≈", quoin.NotANumber},
		{"1.5y", quoin.NotANumber},
		{"1 ", quoin.NotANumber},
		{"1 two words", quoin.NotANumber},
		{"1e5", quoin.NotANumber},
		{"≈" + strings.Repeat("9", 60), quoin.NotANumber},
		{strings.Repeat("1", 4096), ""},
		{strings.Repeat("1", 4097), quoin.TooLong},
	} {
		f := quoin.MustAmount("7").Figure()
		err := f.UnmarshalText([]byte(c.text))
		p, _ := err.(quoin.Problem)
		if p.Code != c.code || (err != nil) != (c.code != "") || err != nil && (!f.Equal(quoin.MustAmount("7").Figure()) || p.Severity != quoin.Fault) {
			t.Errorf("%.20q is read as %.20s, %v", c.text, f, err)
		}
		want := "a figure such as 17.50, 7.4%, 0.5 sheet or 3.5x"
		if c.code == quoin.TooLong {
			want += ", of at most 4096 bytes"
		}
		if err != nil && p.Wanted != want {
			t.Errorf("%.20q: %s", c.text, p.Wanted)
		}
	}
}

// A path lies within another where it is that, or goes on from it with a field or an entry.
func TestPathsWithin(t *testing.T) {
	path := func(s string) (p quoin.Path) {
		if err := p.UnmarshalText([]byte(s)); err != nil {
			t.Fatal(err)
		}
		return p
	}
	for _, c := range []struct {
		p, q string
		want bool
	}{
		{"channels[0]", "channels[0]", true},
		{"channels[0].fees[1]", "channels[0]", true},
		{"channels[0].fees[1]", "channels", true},
		{"channels[0]", "channels[0].fees", false},
		{"channels[10]", "channels[1]", false},
		{"channelsx", "channels", false},
		{"channels_x", "channels", false},
		{`channels["a b"]`, "channels", true},
		{"channels", "", true},
		{"", "", true},
		{"", "channels", false},
		{"price_range", "price", false},
		{"price.low", "price", true},
	} {
		if got := path(c.p).Within(path(c.q)); got != c.want {
			t.Errorf("%s is within %s: %t", c.p, c.q, got)
		}
	}
	at := quoin.InList("products", 2)
	for _, c := range []struct {
		p    quoin.Path
		want string
	}{
		{at.Inside("ink"), "products[2].ink"},
		{at.Inside("ink").Inside("upkeep"), "products[2].ink.upkeep"},
		{at.Inside("ink").Inside("upkeep").Field("share"), "products[2].ink.upkeep.share"},
		{at.Field("name").Inside("ink"), "products[2].ink"},
		{at.Sub("bill", 1).Inside("ink").FieldAt("log", 3), "products[2].bill[1].ink.log[3]"},
		{at.FieldAt("log", 3).Inside("ink"), "products[2].ink"},
		{quoin.Path{}.Inside("overhead"), "overhead"},
		{at.Inside("").Field("x"), "products[2].x"},
	} {
		if got := c.p.String(); got != c.want || c.p.IsZero() {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
	if !(quoin.Path{}).IsZero() || at.Equal(quoin.InList("products", 3)) || !at.Within(quoin.Path{}) {
		t.Error("no path is one")
	}
}
