package quoin_test

import (
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// Quantities as people write them, and as they are written again.
func TestQuantitiesAsWritten(t *testing.T) {
	for text, written := range map[string]string{
		"8 1/2 in": "8.5 in", "1/2 sheet": "0.5 sheet", "½ sheet": "0.5 sheet", "3 ⅛ in": "3.125 in", "-1 1/4 in": "-1.25 in",
		"3 2/3 in": "3 2/3 in", "-3 2/3 in": "-3 2/3 in", "11/3 in": "3 2/3 in", "1/3 sheets": "1/3 sheet", "0 1/7 m": "1/7 m", "6/3 in": "2 in", "1/512 in": "0.001953125 in",
		"40cm": "40 cm", "40.5cm": "40.5 cm", "1/2in": "0.5 in", "0.5L": "0.5 l", "500 mL": "500 ml",
		"3 sheets": "3 sheet", "2 boxes": "2 box", "2 batches": "2 batch", "2 brushes": "2 brush", "3 glasses": "3 glass", "4 copies": "4 copy", "5 pages": "5 page", "6 cans": "6 can",
		"1 glass": "1 glass", "1 canvas": "1 canvas", "1 lens": "1 lens", "1 box": "1 box", "1 bus": "1 bus", "1 chassis": "1 chassis", "3 Bogens": "3 Bogens", "1 pcs": "1 pcs", "1 series": "1 series",
		"2 hours": "2 h", "1 hour": "1 h", "30 minutes": "30 min", "90 seconds": "90 s", "8 inches": "8 in", "2 feet": "2 ft", "2 yards": "2 yd", "1 foot": "1 ft",
		"3 metres": "3 m", "3 meters": "3 m", "20 centimetres": "20 cm", "5 millimeters": "5 mm", "500 grams": "500 g", "2 kilograms": "2 kg", "4 ounces": "4 oz", "1 pound": "1 lb", "3 lbs": "3 lb",
		"2 litres": "2 l", "2 liter": "2 l", "10 sq ft": "10 ft2", "10 square feet": "10 ft2", "2 square yards": "2 yd2", "1.5 sq m": "1.5 m2", "2 m²": "2 m2",
		"4 us fl oz": "4 us_fl_oz", "4 US fl oz": "4 us_fl_oz", "4 imp fl oz": "4 imp_fl_oz", "4 us_fl_oz": "4 us_fl_oz", "300 g/m2": "300 gsm",
	} {
		q, err := quoin.ParseQuantity(text)
		if err != nil || q.String() != written {
			t.Errorf("%q is read as %s, %v, want %s", text, q, err, written)
			continue
		}
		back, err := quoin.ParseQuantity(q.String())
		if err != nil || back.Rat().Cmp(q.Rat()) != 0 || back.String() != written {
			t.Errorf("%q is written %s and read as %s, %v", text, q, back, err)
		}
	}
}

// Counted words of one and of many are one unit, also where Go makes them.
func TestPluralsAreTheSameUnit(t *testing.T) {
	made, read := quoin.Unit("sheets").Times(quoin.FactorOf(3)), quoin.MustQuantity("3 sheet")
	if !made.Equal(read) || made.Unit() != "sheet" || quoin.Unit("sheets").Dimension() != "sheet" {
		t.Errorf("3 sheets made in Go are %s, of %s", made, quoin.Unit("sheets").Dimension())
	}
	for _, u := range []quoin.Unit{"sheet", "sheets"} {
		if q, err := read.In(u); err != nil || !q.Equal(read) || q.Unit() != "sheet" {
			t.Errorf("3 sheet in %s: %s, %v", u, q, err)
		}
	}
	var u quoin.Unit
	if err := u.UnmarshalText([]byte("sheets")); err != nil || u != "sheet" {
		t.Errorf("sheets is read as %s, %v", u, err)
	}
	if q, err := quoin.Unit("inches").Times(quoin.FactorOf(1)).In("millimetres"); err != nil || q.String() != "25.4 mm" {
		t.Errorf("an inch in millimetres: %s, %v", q, err)
	}
}

// Three pieces of 3 2/3 in come out of 11 in, before and after they were written.
func TestThirdsAreExact(t *testing.T) {
	third := quoin.MustQuantity("3 2/3 in")
	for _, q := range []quoin.Quantity{third, quoin.MustQuantity(third.String())} {
		if three := q.Times(quoin.FactorOf(3)); !three.Equal(quoin.MustQuantity("11 in")) {
			t.Errorf("three times %s is %s", q, three)
		}
		if q.Rat().RatString() != "11/3" {
			t.Errorf("%s is %s", q, q.Rat().RatString())
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		in := quoin.MustQuantity(rapid.StringMatching(`-?([1-9][0-9]{0,5} )?1/[1-9][0-9]{0,2} (mm|in|sheet)`).Filter(func(s string) bool {
			_, err := quoin.ParseQuantity(s)
			return err == nil // not 3 1/1
		}).Draw(t, "quantity"))
		data, err := in.MarshalBinary()
		var back quoin.Quantity
		if err != nil || back.UnmarshalBinary(data) != nil || back.Rat().Cmp(in.Rat()) != 0 || back.String() != in.String() {
			t.Fatalf("%s comes back from bytes as %s, %v", in, back, err)
		}
		text, err := json.Marshal(in)
		if err != nil || json.Unmarshal(text, &back) != nil || back.Rat().Cmp(in.Rat()) != 0 || back.String() != in.String() {
			t.Fatalf("%s comes back from %s as %s, %v", in, text, back, err)
		}
		if mm, err := in.In("cm"); err == nil && !mm.Equal(in) {
			t.Fatalf("%s is not %s", in, mm)
		}
	})
	var q quoin.Quantity
	if err := q.UnmarshalBinary([]byte{0xff, 0, 3, 2, 'i', 'n'}); err == nil {
		t.Errorf("a fraction without a number is read as %s", q)
	}
}

// What is misspelt or ambiguous names what may be meant.
func TestUnitsThatDoNotMeet(t *testing.T) {
	for _, c := range []struct {
		in, near, remedy string
		unit             quoin.Unit
	}{
		{"5 mms", "mm", "", "cm"},
		{"5 MM", "mm", "", "cm"},
		{"5 gramm", "g", "", "kg"},
		{"5 litter", "l", "", "ml"},
		{"5 shet", "sheet", "", "sheet"},
		{"5 oz", "", "oz is a mass; a volume is in us_fl_oz, of 29.5735 ml, or imp_fl_oz, of 28.4131 ml", "ml"},
		{"5 g", "", "gramm is a unit that is counted; if g is meant, write g there", "gramm"},
		{"5 mm", "", "", "ml"},
	} {
		_, err := quoin.MustQuantity(c.in).In(c.unit)
		if p, _ := err.(quoin.Problem); p.Code != quoin.UnitMismatch || p.Near != c.near || p.Remedy != c.remedy {
			t.Errorf("%s in %s: %v, want near %q and %q", c.in, c.unit, err, c.near, c.remedy)
		}
	}
}

// FuzzAsWritten holds that a text is refused with a problem, or read as what is written so that it
// is read again.
func FuzzAsWritten(f *testing.F) {
	for _, s := range []string{"8 1/2 x 11 in", "3 2/3 in", "½ sheets", "30x40cm", "a4", "4 fl oz", "-1 1/3 sq ft", "1 1/2 3", "\ufeff1 g"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if q, err := quoin.ParseQuantity(s); err == nil {
			back, err := quoin.ParseQuantity(q.String())
			if err != nil || back.String() != q.String() || back.Rat().Cmp(q.Rat()) != 0 || back.Unit() != q.Unit() {
				t.Errorf("%q is written %s and read as %s, %v", s, q, back, err)
			}
		}
		if size, err := quoin.ParseSize(s); err == nil {
			back, err := quoin.ParseSize(size.String())
			if err != nil || back.String() != size.String() || !back.Equal(size) {
				t.Errorf("%q is written %s and read as %s, %v", s, size, back, err)
			}
		}
	})
}
