package parcel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

// The marsh plan by hand. In the envelope a print of 20 g and 0.5 mm: 8 mm hold
// 16; empty 60 g, so the large letter (100 g, 1.80) takes 2 and the maxi letter
// (1 kg, 2.90) all 16. In the tube (180 g, holds 10) the parcel at 5.50 + 3.00
// each further one takes 10. An envelope costs 0.45, a tube 1.20.
func TestCheapest(t *testing.T) {
	for _, c := range []struct {
		prints, parcels, each, last int64
		step, lastStep              int
		postage, total              string
	}{
		{1, 1, 1, 1, 0, 0, "1.80", "2.25"},
		{2, 1, 2, 2, 0, 0, "1.80", "2.25"},
		{3, 1, 3, 3, 1, 1, "2.90", "3.35"}, // against two letters, 3.60 + 0.90
		{16, 1, 16, 16, 1, 1, "2.90", "3.35"},
		{17, 2, 16, 1, 1, 0, "4.70", "5.60"}, // 2.90 + 1.80, two envelopes
		{18, 2, 16, 2, 1, 0, "4.70", "5.60"},
		{19, 2, 16, 3, 1, 1, "5.80", "6.70"},
		{34, 3, 16, 2, 1, 0, "7.60", "8.95"}, // 2 × 2.90 + 1.80 + 3 × 0.45
		{48, 3, 16, 16, 1, 1, "8.70", "10.05"},
	} {
		s, err := marsh().Cheapest("home", heron(), c.prints, packings)
		if err != nil || s.Packing != "envelope" || s.Parcels != c.parcels || s.Each != c.each || s.Last != c.last || s.Step != c.step || s.LastStep != c.lastStep ||
			!s.Postage.Equal(amount(c.postage)) || !s.Total.Equal(amount(c.total)) || !s.Postage.Add(s.Packed).Equal(s.Total) {
			t.Errorf("%d prints: %+v, %v, want %+v", c.prints, s, err, c)
		}
	}
}

// A sheet that only the tube takes: 5.50 for the first parcel, 3.00 for each
// further one.
func TestCheapestRolled(t *testing.T) {
	l := parcel.Load{Sheet: quoin.MustSize("A2"), Mass: q("60 g")}
	for _, c := range []struct {
		prints, parcels, last int64
		postage, total, mass  string
	}{
		{1, 1, 1, "5.50", "6.70", "240 g"},
		{10, 1, 10, "5.50", "6.70", "780 g"},
		{11, 2, 1, "8.50", "10.90", "780 g"},
		{30, 3, 10, "11.50", "15.10", "780 g"},
	} {
		s, err := marsh().Cheapest("home", l, c.prints, packings)
		if err != nil || s.Packing != "tube" || s.Parcels != c.parcels || s.Last != c.last ||
			!s.Postage.Equal(amount(c.postage)) || !s.Total.Equal(amount(c.total)) || !s.Mass.Equal(q(c.mass)) {
			t.Errorf("%d prints: %+v, %v, want %+v", c.prints, s, err, c)
		}
		if len(s.Others) != 1 || s.Others[0].Packing != "envelope" || s.Others[0].Reason.Code != parcel.NothingFits || s.Others[0].Reason.Severity != quoin.Fault {
			t.Errorf("%d prints: %+v", c.prints, s.Others)
		}
	}
}

// The mass that a tariff takes, not the room of the packing, splits the prints.
func TestCheapestByMass(t *testing.T) {
	l := heron()
	l.Mass = q("120 g") // 60 + 16 × 120 = 1980 g; a kilogram takes 7
	pl := marsh()
	pl.Tariff.Zones[0].Steps = pl.Tariff.Zones[0].Steps[:2]
	s, err := pl.Cheapest("home", l, 16, nil)
	if err != nil || s.Parcels != 3 || s.Each != 7 || s.Last != 2 || !s.Total.Equal(amount("8.70")) || !s.Mass.Equal(q("900 g")) {
		t.Errorf("%+v, %v", s, err)
	}
}

func TestOthers(t *testing.T) {
	pl := marsh()
	pl.Packings = append(pl.Packings, pl.Packings[0], pl.Packings[0])
	pl.Packings[2].ID, pl.Packings[3].ID = "twin", "stone"
	pl.Packings[3].Mass = q("5 kg")
	s, err := pl.Cheapest("home", heron(), 2, nil)
	if err != nil || s.Packing != "envelope" || s.Index != 0 || len(s.Others) != 3 {
		t.Fatalf("%+v, %v", s, err)
	}
	for i, want := range []struct {
		packing  string
		code     quoin.Code
		severity quoin.Severity
		found    string
	}{
		{"tube", parcel.Dearer, quoin.Warning, "costs 5.50 in all"},
		{"twin", parcel.Dearer, quoin.Warning, "costs 1.80 in all"},
		{"stone", parcel.NoStep, quoin.Fault, "a parcel charged as 5020 g"},
	} {
		o := s.Others[i]
		if o.Packing != want.packing || o.Reason.Code != want.code || o.Reason.Severity != want.severity || o.Reason.Found != want.found {
			t.Errorf("%d: %+v, want %+v", i, o, want)
		}
	}
}

func TestNothingSends(t *testing.T) {
	for _, c := range []struct {
		what   string
		spoil  func(*parcel.ShippingTerms, *parcel.Load)
		zone   string
		prints int64
		codes  []quoin.Code
		paths  []string
	}{
		{
			"too large for both", func(_ *parcel.ShippingTerms, l *parcel.Load) { l.Sheet = quoin.MustSize("A0") }, "home", 1,
			[]quoin.Code{parcel.NothingFits, parcel.NothingFits},
			[]string{"packings[0]", "packings[1]"},
		},
		{
			"too large for one, too heavy in the other", func(_ *parcel.ShippingTerms, l *parcel.Load) { l.Sheet, l.Mass = quoin.MustSize("A3"), q("2 kg") }, "home", 1,
			[]quoin.Code{parcel.NothingFits, parcel.NoStep},
			[]string{"packings[0]", "packings[1]"},
		},
		{
			"too thick", func(pl *parcel.ShippingTerms, l *parcel.Load) { pl.Packings, l.Thickness = pl.Packings[:1], q("9 mm") }, "home", 1,
			[]quoin.Code{parcel.NothingFits},
			[]string{"packings[0]"},
		},
		{
			"no packing", func(pl *parcel.ShippingTerms, _ *parcel.Load) { pl.Packings = nil }, "home", 1,
			[]quoin.Code{parcel.NothingFits},
			[]string{"packings"},
		},
		{
			"nowhere, and none", func(*parcel.ShippingTerms, *parcel.Load) {}, "abroad", 0,
			[]quoin.Code{quoin.OutOfRange, parcel.UnknownZone},
			[]string{"prints", "zone"},
		},
		{
			"a million and one", func(*parcel.ShippingTerms, *parcel.Load) {}, "home", parcel.MostPrints + 1,
			[]quoin.Code{quoin.OutOfRange},
			[]string{"prints"},
		},
	} {
		pl, l := marsh(), heron()
		c.spoil(&pl, &l)
		_, cheapest := pl.Cheapest(c.zone, l, c.prints, nil)
		_, next := pl.Next(c.zone, l, c.prints, nil)
		_, rise := pl.Rise(c.zone, l, c.prints, nil)
		for _, err := range []error{cheapest, next, rise} {
			ps, _ := err.(quoin.Problems)
			if len(ps) != len(c.codes) {
				t.Errorf("%s: %v", c.what, err)
				continue
			}
			for i, p := range ps {
				if p.Code != c.codes[i] || p.Path != c.paths[i] || p.Found == "" || p.Wanted == "" {
					t.Errorf("%s: %v, want %s at %s", c.what, p, c.codes[i], c.paths[i])
				}
			}
		}
	}
	if _, err := marsh().Next("home", heron(), parcel.MostPrints, nil); err == nil {
		t.Error("a print after the last")
	}
	stiff := heron()
	stiff.Board = parcel.Board{Thickness: q("2 mm")}
	_, err := marsh().Cheapest("home", stiff, 1, nil)
	if p := only(t, "a board without mass", err); p.Path != "load.board.mass" {
		t.Error(p)
	}
}

func TestMargins(t *testing.T) {
	for _, c := range []struct {
		prints int64
		next   string
		rise   int64
	}{
		{1, "0", 3}, {2, "1.10", 3}, {3, "0", 17}, {16, "2.25", 17}, {17, "0", 19}, {18, "1.10", 19}, {19, "0", 33},
	} {
		next, err := marsh().Next("home", heron(), c.prints, packings)
		rise, again := marsh().Rise("home", heron(), c.prints, packings)
		if err != nil || again != nil || !next.Cost.Equal(amount(c.next)) || rise != c.rise {
			t.Errorf("%d prints: the next costs %s, rise at %d, %v, %v, want %s and %d", c.prints, next.Cost, rise, err, again, c.next, c.rise)
		}
	}
	// A board of 1 mm leaves room for 14, one of 30 g lets the letter take none
	// but the first print: 60 + 30 + 20 is above 100 already.
	for _, c := range []struct {
		prints int64
		board  parcel.Board
		want   string
	}{
		{1, parcel.Board{Mass: q("20 g"), Thickness: q("1 mm")}, "0"},
		{2, parcel.Board{Mass: q("20 g"), Thickness: q("1 mm")}, "1.10"},
		{1, parcel.Board{Mass: q("30 g"), Thickness: q("1 mm")}, "1.10"},
		{14, parcel.Board{Mass: q("30 g"), Thickness: q("1 mm")}, "0"},
		{15, parcel.Board{Mass: q("30 g"), Thickness: q("1 mm")}, "3.35"}, // a second maxi letter, and its envelope
	} {
		stiff := heron()
		stiff.Board = c.board
		without, err := marsh().Cheapest("home", heron(), c.prints, packings)
		with, again := marsh().Cheapest("home", stiff, c.prints, packings)
		if err != nil || again != nil || !with.Total.Sub(without.Total).Equal(amount(c.want)) {
			t.Errorf("%d prints with %+v: %s more than %s, %v, %v, want %s", c.prints, c.board, with.Total, without.Total, err, again, c.want)
		}
	}
	// Where every further parcel is free nothing ever costs more.
	pl := marsh()
	pl.Packings, pl.Tariff.Zones[0].Steps = pl.Packings[:1], []parcel.PriceBand{{Mass: q("1 kg"), Price: amount("4"), Additional: quoin.Some(amount("0"))}}
	if rise, err := pl.Rise("home", heron(), 3, nil); rise != 0 || err != nil {
		t.Errorf("rise at %d, %v, want none", rise, err)
	}
}

// A further parcel that costs more than a first is charged as the tariff says,
// and explained so.
func TestDearAdditional(t *testing.T) {
	pl := marsh()
	pl.Packings, pl.Tariff.Zones[0].Steps = pl.Packings[:1], []parcel.PriceBand{{Mass: q("1 kg"), Price: amount("4"), Additional: quoin.Some(amount("5"))}}
	s, err := pl.Cheapest("home", heron(), 17, nil)
	if err != nil || !s.Postage.Equal(amount("9")) || s.LastStep != s.Step {
		t.Errorf("%+v, %v, want 4 + 5", s, err)
	}
	trail := quoin.NewTrail(4)
	if got, _ := pl.Explain(trail, parcel.Places{}, heron(), s).Value.Amount(); !got.Equal(s.Total) {
		t.Errorf("explained as %s", got)
	}
}
