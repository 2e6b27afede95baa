package sheet_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// warned is a warning with its arguments, name and value in turn.
func warned(code quoin.Code, found, remedy string, args ...string) quoin.Problem {
	p := quoin.Problem{Code: code, Severity: quoin.Warning, Found: found, Remedy: remedy}
	for i := 0; i+1 < len(args); i += 2 {
		p.Args = append(p.Args, quoin.Arg{Name: args[i], Value: args[i+1]})
	}
	return p
}

func short(paid, short, enough string) quoin.Problem {
	return warned(pricelist.PostageShort, "postage costs "+paid, "the price carries "+short, "channel", "web", "paid", paid, "short", short, "enough", enough)
}

func unasked(id, name string) quoin.Problem {
	return warned(pricelist.SilentChannel, "no rule checks whether you earn anything at "+name, `add a rule for channel "`+id+`"`, "channel", id)
}

func silent(id, name string) quoin.Problem {
	return warned(pricelist.SilentChannel, "no rule checks "+name, "", "channel", id)
}

func places(n int) (out []string) {
	for i := range n {
		out = append(out, fmt.Sprintf("p%d", i+1))
	}
	return out
}

func today(product string) quoin.Problem {
	return warned(pricelist.TodayBreaksRule, `today's 15.00 breaks "tenth"`, "take the decided price", "product", product)
}

// What is the same but for its place is said once, and whatever differs in its figures is said by itself. The answer
// keeps each warning.
func TestWarningsAreFolded(t *testing.T) {
	decided := []pricelist.ProductResult{
		{ID: "a5", Name: "Heron, A5", Channels: []pricelist.ChannelResult{{ID: "web", Name: "Own shop"}, {ID: "fair", Name: "Weekend fair"}}}, {ID: "a4", Name: "Heron, A4"},
	}
	ink := func(ml string) quoin.Problem {
		return warned(pricelist.InkAsIfExact, ml+" of ink, as if it were known exactly", "give a range beside it")
	}
	for name, c := range map[string]struct {
		warnings quoin.Problems
		places   []string
		conflict []string
		want     []string
	}{
		"postage, three places": {
			warnings: quoin.Problems{short("6.20", "1.70", "7.44"), short("6.80", "2.30", "8.16"), short("6.20", "1.70", "7.44")},
			places:   []string{"Own shop, order 1, shipping", "Own shop, order 2, shipping", "Marketplace, order 1, shipping"},
			want: []string{"Buyers pay less for shipping, without the tax in it, than postage costs you. The price carries the rest: " +
				"2.30 of 6.80, which 8.16 would cover (Own shop, order 2) and 1.70 of 6.20, which 7.44 would cover (Own shop, order 1; Marketplace, order 1)."},
		},
		"postage, one place": {
			warnings: quoin.Problems{short("6.20", "1.70", "7.44")}, places: []string{"Own shop, order 1, shipping"},
			want: []string{"Postage costs 6.20; the price carries 1.70 (Own shop, order 1, shipping)."},
		},
		"two channels, with the id to write": {
			warnings: quoin.Problems{unasked("web", "Own shop"), unasked("fair", "Weekend fair")}, places: []string{"Own shop", "Weekend fair"},
			want: []string{`No rule checks whether you earn anything at Own shop; add a rule for channel "web". The same for Weekend fair ("fair").`},
		},
		"a sentence that begins with an id": {
			warnings: quoin.Problems{
				warned(pricelist.FairStay, "reed-fair is expected to leave 1.00", "stay away", "fair", "reed-fair"),
				warned(pricelist.FairStay, "fair is expected to leave 1.00", "stay away", "fair", "fair"), // the id of a channel, too
			},
			places: []string{"reed-fair", "fair"},
			want:   []string{"reed-fair is expected to leave 1.00; stay away.", "fair is expected to leave 1.00; stay away."},
		},
		"one text, two places": {
			warnings: quoin.Problems{ink("8 ml"), ink("8 ml"), ink("9 ml")}, places: []string{"Heron, A5, ink", "Heron, A4, ink", "Heron, A3, ink"},
			want: []string{
				"8 ml of ink, as if it were known exactly; give a range beside it (Heron, A5, ink; Heron, A4, ink).",
				"9 ml of ink, as if it were known exactly; give a range beside it (Heron, A3, ink).",
			},
		},
		"today's prices, healed": {
			warnings: quoin.Problems{today("a5"), today("a4"), today("a5")}, places: []string{"Heron, A5, price", "Heron, A4, price", "Heron, A5, price"},
			want: []string{"Today's prices of Heron, A5; and Heron, A4 break a rule; the decided prices do not."},
		},
		"today's price, healed": {
			warnings: quoin.Problems{today("a4")}, places: []string{"Heron, A4, price"},
			want: []string{"Today's price of Heron, A4 breaks a rule; the decided price does not."},
		},
		"three channels, without commas": {
			warnings: quoin.Problems{silent("web", "Own shop"), silent("fair", "Weekend fair"), silent("post", "post")}, places: []string{"Own shop", "Weekend fair", "post"},
			want: []string{`No rule checks Own shop. The same for Weekend fair and post.`},
		},
		"the other has a comma": {
			warnings: quoin.Problems{
				warned(pricelist.TodayBreaksRule, `a3 breaks`, "", "product", "a3"), warned(pricelist.TodayBreaksRule, `a2 breaks`, "", "product", "a2"), warned(pricelist.SilentChannel, "a3 is silent", "", "product", "a3"),
				warned(pricelist.SilentChannel, "a4 is silent", "", "product", "a4"),
			},
			want: []string{"a3 breaks. The same for a2.", "a3 is silent. The same for Heron, A4."},
		},
		"by what is at stake": {
			warnings: quoin.Problems{
				warned("nothing", "nothing", ""), warned(pricelist.LosesMoney, "loses 3", "", "contribution", "-3.00"), warned(pricelist.WholesaleBelow, "is 4 below", "", "goods", "9.00", "revenue", "5.00"),
				warned(pricelist.LargerKeepsLess, "keeps 2 less", "", "smaller_keeps", "7.00", "keeps", "5.00"), warned(pricelist.LosesOnWorst, "loses 6", "", "contribution", "-6.00"),
				warned("a", "5 short", "", "short", "5.00"), warned("b", "1 each", "", "each", "1.00"), warned("c", "7 less", "", "less", "7.00", "each", "100.00"), warned("d", "8 lost", "", "loss", "8.00", "less", "1.00"),
			},
			want: []string{"8 lost.", "7 less.", "Loses 6.", "5 short.", "Is 4 below.", "Loses 3.", "Keeps 2 less.", "1 each.", "Nothing."},
		},
		"twelve places": {
			warnings: slices.Repeat(quoin.Problems{ink("8 ml")}, 12), places: places(12),
			want: []string{"8 ml of ink, as if it were known exactly; give a range beside it (p1; p2; p3; p4; p5; p6; p7; p8; p9; p10; p11; p12)."},
		},
		"fourteen places": {
			warnings: slices.Repeat(quoin.Problems{ink("8 ml")}, 14), places: places(14),
			want: []string{"8 ml of ink, as if it were known exactly; give a range beside it (p1; p2; p3; p4; p5; p6; p7; p8; p9; p10; p11; p12; 2 more)."},
		},
		"today's price, and none decided": {
			warnings: quoin.Problems{today("a3")}, places: []string{"Heron, A3, price"}, conflict: []string{"tenth"},
			want: []string{`Today's 15.00 breaks "tenth"; take the decided price (Heron, A3, price).`},
		},
	} {
		t.Run(name, func(t *testing.T) {
			a := pricelist.Answer{Currency: quoin.MustCurrency("EUR"), Products: decided, Warnings: c.warnings, Places: c.places, Conflict: c.conflict}
			_, text, _ := strings.Cut(sheet.Text(a, 1000), "What needs a look:\n")
			text, _, _ = strings.Cut(text, "\n\n")
			if want := "- " + strings.Join(c.want, "\n- "); text != want {
				t.Errorf("got\n%s\nwant\n%s", text, want)
			}
			if len(a.Warnings) != len(c.warnings) {
				t.Errorf("%d warnings are left", len(a.Warnings))
			}
		})
	}
}
