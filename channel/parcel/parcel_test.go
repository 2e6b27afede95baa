package parcel_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

func q(s string) quoin.Quantity    { return quoin.MustQuantity(s) }
func amount(s string) quoin.Amount { return quoin.MustAmount(s) }

func sides(length, width, height string) parcel.Sides {
	return parcel.Sides{Length: q(length), Width: q(width), Height: q(height)}
}

func TestRoom(t *testing.T) {
	flat := parcel.Packing{Inside: quoin.MustSize("32 x 45 cm"), Holds: 30, Depth: q("10 mm")}
	tube := parcel.Packing{Tube: q("17 in"), Holds: 6}
	for _, c := range []struct {
		what  string
		p     parcel.Packing
		sheet string
		thick string
		board string
		want  int64
	}{
		{"A3 upright", flat, "A3", "0.5 mm", "", 20},
		{"A3 lying", flat, "420 x 297 mm", "0.5 mm", "", 20},
		{"to the edge, in inches", flat, "320 x 450 mm", "0.4 mm", "", 25},
		{"a hair too wide", flat, "320.1 x 450 mm", "0.4 mm", "", 0},
		{"a board takes 2 mm of 10", flat, "A3", "0.5 mm", "2 mm", 16},
		{"thin ones: Holds is the bound", flat, "A3", "0.1 mm", "", 30},
		{"no thickness given", flat, "A3", "", "", 30},
		{"one too thick", flat, "A3", "11 mm", "", 0},
		{"just as thick as deep", flat, "A3", "1 cm", "", 1},
		{"a board as thick as the depth", flat, "A3", "0.5 mm", "10 mm", 0},
		{"rolled, shorter side 42 of 43.18 cm", tube, "420 x 594 mm", "", "", 6},
		{"rolled, lying", tube, "594 x 420 mm", "", "", 6},
		{"rolled, as long as it may be", tube, "17 in x 10 ft", "", "", 6},
		{"rolled, too wide both ways", tube, "431.9 x 432 mm", "", "", 0},
		{"a thickness that is none", flat, "A3", "3 g", "", 0},
	} {
		l := parcel.Load{Sheet: quoin.MustSize(c.sheet)}
		if c.thick != "" {
			l.Thickness = q(c.thick)
		}
		if c.board != "" {
			l.Board = parcel.Board{Mass: q("90 g"), Thickness: q(c.board)}
		}
		if got := c.p.Room(l); got != c.want {
			t.Errorf("%s: %d, want %d", c.what, got, c.want)
		}
	}
	if (parcel.Packing{Inside: quoin.MustSize("A3"), Holds: 5}).Room(parcel.Load{}) != 0 {
		t.Error("no sheet goes in")
	}
}

// Sums by hand; divisors and increments invented unless a source is named.
func TestBillable(t *testing.T) {
	metric := func(measured parcel.SideRounding, increment, from string) *parcel.Dimensional {
		d := &parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "cm", Mass: "kg", Sides: measured}
		if increment != "" {
			d.Increment = q(increment)
		}
		if from != "" {
			d.From = q(from)
		}
		return d
	}
	inches := func(measured parcel.SideRounding, increment string) *parcel.Dimensional {
		return &parcel.Dimensional{Divisor: quoin.MustFactor("139"), Length: "in", Mass: "lb", Sides: measured, Increment: q(increment)}
	}
	for _, c := range []struct {
		what string
		d    *parcel.Dimensional
		s    parcel.Sides
		mass string
		want string
	}{
		{"no dimensional mass", nil, sides("1 m", "1 m", "1 m"), "2 lb", "907.18474 g"},
		{"50 × 40 × 10 ÷ 5000 = 4 kg", metric("", "", ""), sides("50 cm", "40 cm", "10 cm"), "1 kg", "4 kg"},
		{"sides in any order and unit", metric("", "", ""), sides("100 mm", "0.5 m", "40 cm"), "1 kg", "4 kg"},
		{"the scales say more", metric("", "", ""), sides("50 cm", "40 cm", "10 cm"), "4.1 kg", "4.1 kg"},
		{"50.2 up is 51: 51 × 40 × 10 ÷ 5000", metric(parcel.WholeUp, "", ""), sides("50.2 cm", "40 cm", "10 cm"), "1 kg", "4.08 kg"},
		{"50.2 nearest is 50", metric(parcel.WholeNearest, "", ""), sides("50.2 cm", "40 cm", "10 cm"), "1 kg", "4 kg"},
		{"50.5 nearest is 51", metric(parcel.WholeNearest, "", ""), sides("50.5 cm", "40 cm", "10 cm"), "1 kg", "4.08 kg"},
		{"0.3 nearest is 1, not 0: 60 × 50 × 1 ÷ 5000", metric(parcel.WholeNearest, "", ""), sides("60 cm", "50 cm", "3 mm"), "1 g", "0.6 kg"},
		{"4.08 up to half a kg", metric(parcel.WholeUp, "0.5 kg", ""), sides("50.2 cm", "40 cm", "10 cm"), "1 kg", "4.5 kg"},
		{"4 is a multiple already", metric("", "0.5 kg", ""), sides("50 cm", "40 cm", "10 cm"), "1 kg", "4 kg"},
		{"the scales are not rounded", metric("", "0.5 kg", ""), sides("50 cm", "40 cm", "10 cm"), "4.1 kg", "4.1 kg"},
		{"20 l, and counted from 20 l", metric("", "", "20 l"), sides("50 cm", "40 cm", "10 cm"), "1 kg", "4 kg"},
		{"20 l, and counted from 20.001 l", metric("", "", "20.001 l"), sides("50 cm", "40 cm", "10 cm"), "1 kg", "1 kg"},
		{"18 × 14 × 3 = 756 in³ ÷ 139 = 5.4, so 6 lb", inches("", "1 lb"), sides("18 in", "14 in", "3 in"), "2 lb", "6 lb"},
		{"17.2 × 13.4 × 2.6 up: 18 × 14 × 3", inches(parcel.WholeUp, "1 lb"), sides("17.2 in", "13.4 in", "2.6 in"), "2 lb", "6 lb"},
		{"and not up: 599.2 in³, 4.3, so 5 lb", inches("", "1 lb"), sides("17.2 in", "13.4 in", "2.6 in"), "2 lb", "5 lb"},
		{"139 in³ is 1 lb and not 2", inches("", "1 lb"), sides("139 in", "1 in", "1 in"), "1 oz", "1 lb"},
		{"a cubic foot, 1728 ÷ 139 = 12.43, so 13 lb", inches(parcel.WholeUp, "1 lb"), sides("1 ft", "1 ft", "1 ft"), "1 oz", "13 lb"},
	} {
		got, err := c.d.Billable(c.s, q(c.mass))
		if err != nil || !got.Equal(q(c.want)) {
			t.Errorf("%s: %s, %v, want %s", c.what, got, err, c.want)
		}
	}
}

// The divisor 5000 cm³ to the kg is 138.4 in³ to the lb and not 139: by the
// yard and pound of 1959, 5000 × 0.45359237 ÷ 2.54³.
func TestDivisorsAreNotConverted(t *testing.T) {
	d := &parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "cm", Mass: "kg"}
	inch, err := d.Billable(sides("1 in", "1 in", "1 in"), q("0 g"))
	if err != nil {
		t.Fatal(err)
	}
	perPound, err := q("1 lb").Ratio(inch)
	if err != nil || perPound.Round(1, quoin.HalfUp).String() != "138.4" {
		t.Errorf("%s in³ to the lb, %v, want 138.4", perPound, err)
	}
	// 1390 in³: ten pounds by the one, 10.04 and so eleven by the other.
	box := sides("13.9 in", "10 in", "10 in")
	d.Increment = q("1 lb")
	metric, _ := d.Billable(box, q("1 lb"))
	imperial, _ := (&parcel.Dimensional{Divisor: quoin.MustFactor("139"), Length: "in", Mass: "lb", Increment: q("1 lb")}).Billable(box, q("1 lb"))
	if !metric.Equal(q("11 lb")) || !imperial.Equal(q("10 lb")) {
		t.Errorf("%s and %s, want 11 lb and 10 lb", metric, imperial)
	}
}

// An invented tariff; length and girth as longest + 2 × (the two others) is
// common practice.
func TestPrice(t *testing.T) {
	box := sides("40 cm", "30 cm", "5 cm")
	tariff := parcel.Tariff{ID: "post", Zones: []parcel.Zone{
		{ID: "home", Steps: []parcel.PriceBand{
			{Mass: q("5 kg"), Price: amount("7.20"), Additional: quoin.Some(amount("4.00"))},
			{Mass: q("500 g"), Within: &box, Price: amount("3.90")},
			{Mass: q("2 kg"), LengthAndGirth: q("120 cm"), Price: amount("5.10")},
			{Mass: q("2 kg"), LongestSide: q("60 cm"), Classes: []string{"rigid"}, Price: amount("4.70")},
			{Mass: q("10 kg"), LongestSide: q("60 cm"), Price: amount("9.00"), Additional: quoin.Some(amount("0"))},
		}},
		{ID: "abroad", Steps: []parcel.PriceBand{{Mass: q("1 lb"), Price: amount("14")}}},
	}}
	for _, c := range []struct {
		what    string
		zone    string
		s       parcel.Sides
		mass    string
		class   string
		parcels int64
		step    int
		want    string
	}{
		{"exactly the mass and the box, turned", "home", sides("5 cm", "40 cm", "30 cm"), "500 g", "", 1, 1, "3.90"},
		{"a gram more: 40 + 2 × 35 = 110 cm around", "home", sides("5 cm", "40 cm", "30 cm"), "501 g", "", 1, 2, "5.10"},
		{"the same, and rigid", "home", sides("5 cm", "40 cm", "30 cm"), "501 g", "rigid", 1, 3, "4.70"},
		{"40 + 2 × 40 = 120 cm around, just taken", "home", sides("40 cm", "30 cm", "10 cm"), "1 kg", "", 1, 2, "5.10"},
		{"a millimetre more", "home", sides("40 cm", "30 cm", "100.1 mm"), "1 kg", "", 1, 0, "7.20"},
		{"two: 2 × 5.10 against 7.20 + 4 against 9", "home", sides("40 cm", "30 cm", "10 cm"), "1 kg", "", 2, 4, "9.00"},
		{"two of 70 cm: 7.20 + 4.00", "home", sides("70 cm", "30 cm", "10 cm"), "1 kg", "", 2, 0, "11.20"},
		{"four light ones: 4 × 3.90 against 9", "home", box, "100 g", "", 4, 4, "9.00"},
		{"abroad, to the ounce", "abroad", box, "16 oz", "", 2, 0, "28"},
	} {
		got, err := tariff.Price(c.zone, parcel.Parcel{Outside: c.s, Mass: q(c.mass), Class: c.class}, c.parcels)
		if err != nil || got.Step != c.step || !got.Price.Equal(amount(c.want)) {
			t.Errorf("%s: step %d for %s, %v, want step %d for %s", c.what, got.Step, got.Price, err, c.step, c.want)
		}
	}
}

func TestRefusals(t *testing.T) {
	box := sides("40 cm", "30 cm", "5 cm")
	steps := func(s ...parcel.PriceBand) parcel.Tariff {
		for i := range s {
			s[i].Price = amount("1")
		}
		return parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: s}}}
	}
	for _, c := range []struct {
		what          string
		t             parcel.Tariff
		zone          string
		p             parcel.Parcel
		parcels       int64
		code          quoin.Code
		path          string
		found, wanted string
	}{
		{
			"too heavy for the largest", steps(parcel.PriceBand{Mass: q("1 kg")}, parcel.PriceBand{Mass: q("3 kg")}, parcel.PriceBand{Mass: q("2 kg")}), "home",
			parcel.Parcel{Outside: box, Mass: q("3.5 kg")},
			1, parcel.NoStep, "", "a parcel charged as 3500 g", "one of at most 3 kg",
		},
		{
			"too long", steps(parcel.PriceBand{Mass: q("1 kg"), LongestSide: q("35 cm")}), "home",
			parcel.Parcel{Outside: box, Mass: q("1 g")},
			1, parcel.NoStep, "", "a parcel 400 mm long", "one of at most 35 cm",
		},
		{
			"too much around", steps(parcel.PriceBand{Mass: q("1 kg"), LengthAndGirth: q("1 m")}), "home",
			parcel.Parcel{Outside: box, Mass: q("1 g")},
			1, parcel.NoStep, "", "a parcel of 1100 mm length and girth", "one of at most 1 m",
		},
		{
			"not into the box", steps(parcel.PriceBand{Mass: q("1 kg"), Within: &parcel.Sides{Length: q("40 cm"), Width: q("30 cm"), Height: q("4 cm")}}), "home",
			parcel.Parcel{Outside: box, Mass: q("1 g")},
			1, parcel.NoStep, "", "a parcel of 400 × 300 × 50 mm", "one within 40 cm × 30 cm × 4 cm",
		},
		{
			"too limp", steps(parcel.PriceBand{Mass: q("1 kg"), Classes: []string{"stiff", "rigid"}}), "home",
			parcel.Parcel{Outside: box, Mass: q("1 g"), Class: "flexible"},
			1, parcel.NoStep, "", `a parcel of class "flexible"`, "one of class stiff, rigid",
		},
		{
			"no class", steps(parcel.PriceBand{Mass: q("1 kg"), Classes: []string{"stiff"}}), "home",
			parcel.Parcel{Outside: box, Mass: q("1 g")},
			1, parcel.NoStep, "", "a parcel of no class", "one of class stiff",
		},
		{
			"nowhere", steps(parcel.PriceBand{Mass: q("1 kg")}), "hone",
			parcel.Parcel{Outside: box, Mass: q("1 g")},
			1, parcel.UnknownZone, "zone", `"hone"`, "one of home",
		},
		{
			"none", steps(parcel.PriceBand{Mass: q("1 kg")}), "home",
			parcel.Parcel{Outside: box, Mass: q("1 g")},
			0, quoin.OutOfRange, "parcels", "0", "a value of at least 1 and at most 1000000",
		},
		{
			"no mass", steps(parcel.PriceBand{Mass: q("1 kg")}), "home",
			parcel.Parcel{Outside: box},
			1, quoin.MissingField, "parcel.mass", "nothing", "the field mass",
		},
	} {
		_, err := c.t.Price(c.zone, c.p, c.parcels)
		if p := only(t, c.what, err); p.Code != c.code || p.Path != c.path || p.Found != c.found || p.Wanted != c.wanted {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}

// only returns the one problem that an error is.
func only(t *testing.T, what string, err error) quoin.Problem {
	t.Helper()
	switch e := err.(type) {
	case quoin.Problem:
		return e
	case quoin.Problems:
		if len(e) == 1 {
			return e[0]
		}
	}
	t.Errorf("%s: %v, want one problem", what, err)
	return quoin.Problem{}
}

func TestChecks(t *testing.T) {
	good := marsh()
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what  string
		spoil func(*parcel.ShippingTerms)
		code  quoin.Code
		path  string
	}{
		{"neither flat nor a tube", func(pl *parcel.ShippingTerms) { pl.Packings[0].Inside = quoin.Size{} }, quoin.MissingField, "packings[0].inside"},
		{"both", func(pl *parcel.ShippingTerms) { pl.Packings[1].Inside = quoin.MustSize("A4") }, quoin.RivalFields, "packings[1].tube"},
		{"a deep tube", func(pl *parcel.ShippingTerms) { pl.Packings[1].Depth = q("7 cm") }, parcel.StrayDepth, "packings[1].depth"},
		{"holds none", func(pl *parcel.ShippingTerms) { pl.Packings[1].Holds = 0 }, quoin.MissingField, "packings[1].holds"},
		{"no height", func(pl *parcel.ShippingTerms) { pl.Packings[1].Outside.Height = quoin.Quantity{} }, quoin.MissingField, "packings[1].outside.height"},
		{"shrinks", func(pl *parcel.ShippingTerms) { pl.Packings[0].Grows = q("-1 mm") }, quoin.OutOfRange, "packings[0].grows"},
		{"mass in mm", func(pl *parcel.ShippingTerms) { pl.Packings[0].Mass = q("5 mm") }, quoin.UnitMismatch, "packings[0].mass"},
		{"a count unit called mass", func(pl *parcel.ShippingTerms) { pl.Packings[0].Mass = q("5 mass") }, quoin.UnitMismatch, "packings[0].mass"},
		{"two of a name", func(pl *parcel.ShippingTerms) { pl.Packings[1].ID = "envelope" }, quoin.DuplicateID, "packings[1].id"},
		{"no zones", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones = nil }, quoin.MissingField, "tariff.zones"},
		{"two zones of a name", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones = append(pl.Tariff.Zones, pl.Tariff.Zones[0]) }, quoin.DuplicateID, "tariff.zones[1].id"},
		{"a list of no zones", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones = []parcel.Zone{} }, quoin.EmptyList, "tariff.zones"},
		{"a list of no steps", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones[0].Steps = []parcel.PriceBand{} }, quoin.EmptyList, "tariff.zones[0].steps"},
		{"a zone without steps", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones[0].Steps = nil }, quoin.MissingField, "tariff.zones[0].steps"},
		{"a step of no mass", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones[0].Steps[1].Mass = q("0 g") }, quoin.OutOfRange, "tariff.zones[0].steps[1].mass"},
		{"a box without sides", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones[0].Steps[1].Within.Width = q("0 cm") }, quoin.OutOfRange, "tariff.zones[0].steps[1].within.width"},
		{"a gift", func(pl *parcel.ShippingTerms) { pl.Tariff.Zones[0].Steps[1].Price = amount("-2") }, quoin.OutOfRange, "tariff.zones[0].steps[1].price"},
		{"a gift with the second", func(pl *parcel.ShippingTerms) {
			pl.Tariff.Zones[0].Steps[1].Additional = quoin.Some(amount("-2"))
		}, quoin.OutOfRange, "tariff.zones[0].steps[1].additional"},
		{"divisor 0", func(pl *parcel.ShippingTerms) { pl.Tariff.Dimensional = &parcel.Dimensional{Length: "cm", Mass: "kg"} }, quoin.MissingField, "tariff.dimensional.divisor"},
		{"no length", func(pl *parcel.ShippingTerms) {
			pl.Tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.FactorOf(1), Mass: "kg"}
		}, quoin.MissingField, "tariff.dimensional.length"},
		{"a rounding that is none", func(pl *parcel.ShippingTerms) {
			pl.Tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.FactorOf(1), Length: "cm", Mass: "kg", Sides: "upp"}
		}, quoin.UnknownWord, "tariff.dimensional.sides"},
		{"from a mass", func(pl *parcel.ShippingTerms) {
			pl.Tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.FactorOf(1), Length: "cm", Mass: "kg", From: q("1 kg")}
		}, quoin.UnitMismatch, "tariff.dimensional.from"},
	} {
		pl := marsh()
		c.spoil(&pl)
		if p := only(t, c.what, pl.Check()); p.Code != c.code || p.Path != c.path || p.Wanted == "" {
			t.Errorf("%s: %v, want %s at %s", c.what, p, c.code, c.path)
		}
		if _, err := pl.Cheapest("home", heron(), 1, nil); err == nil {
			t.Errorf("%s: shipped all the same", c.what)
		}
	}
	if p := only(t, "a load without mass", parcel.Load{Sheet: quoin.MustSize("A4")}.Check()); p.Path != "mass" {
		t.Error(p)
	}
	if p := only(t, "a tube alone", parcel.Packing{ID: "tube", Tube: q("3 kg"), Holds: 1, Outside: sides("1 m", "1 m", "1 m"), Mass: q("1 g")}.Check()); p.Path != "tube" {
		t.Error(p)
	}
	// All at once.
	_, err := parcel.ShippingTerms{Packings: []parcel.Packing{{}}}.Cheapest("home", parcel.Load{}, 0, nil)
	if ps, _ := err.(quoin.Problems); len(ps) != 9 { // id, inside, holds, outside, mass, tariff, sheet, mass, prints
		t.Errorf("%d problems, want 9:\n%v", len(ps), err)
	}
}

// A document is read with the words of the fields.
func TestDocument(t *testing.T) {
	var pl parcel.ShippingTerms
	err := json.Unmarshal([]byte(`{"packings":[{"id":"tube","tube":"43 cm","holds":5,"outside":{"length":"46 cm","width":"8 cm","height":"8 cm"},"mass":"180 g"}],
		"tariff":{"id":"post","dimensional":{"divisor":"5000","length":"cm","mass":"kg","sides":"up","increment":"1 kg"},
		"zones":[{"id":"home","steps":[{"mass":"2 kg","longest_side":"60 cm","price":"5.50","additional":"3.00"}]}]}}`), &pl)
	if err != nil {
		t.Fatal(err)
	}
	s, err := pl.Cheapest("home", parcel.Load{Sheet: quoin.MustSize("A2"), Mass: q("50 g")}, 7, nil)
	// 46 × 8 × 8 ÷ 5000 = 0.59, so 1 kg.
	if err != nil || s.Parcels != 2 || s.Last != 2 || !s.Total.Equal(amount("8.50")) || !s.Billable.Equal(q("1 kg")) || !s.Mass.Equal(q("430 g")) {
		t.Errorf("%+v, %v", s, err)
	}
	if err := json.Unmarshal([]byte(`{"tariff":{"dimensional":{"sides":"upp"}}}`), &pl); err == nil {
		t.Error("upp was read")
	}
}
