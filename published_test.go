package quoin_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
)

// Every wanted value in this file was published by the source beside it.
// "From memory" marks a source that was not at hand when it was written down.

func TestPublishedRoundings(t *testing.T) {
	const (
		decimals = "General Decimal Arithmetic testcases, rounding.decTest 2.59, five digits"
		floating = "IEEE 754-2008 §4.3 (from memory)"
		nearest  = "ISO 80000-1:2009 annex B, no tie (from memory)"
		ruleA    = "ISO 80000-1:2009 annex B, rule A (from memory)"
		ruleB    = "ISO 80000-1:2009 annex B, rule B (from memory)"
		gst      = "A New Tax System (Goods and Services Tax) Act 1999 (Australia) s 9-90"
		salesTax = "Streamlined Sales and Use Tax Agreement §324"
		nzGST    = "Goods and Services Tax Act 1985 (New Zealand) s 19O"
	)
	for _, c := range []struct {
		in     string
		places int
		how    quoin.Rounding
		want   string
		source string
	}{
		{"12345.5", 0, quoin.Down, "12345", decimals},
		{"12345.5", 0, quoin.HalfDown, "12345", decimals},
		{"12346.5", 0, quoin.HalfDown, "12346", decimals},
		{"-12344.5", 0, quoin.HalfDown, "-12344", decimals},
		{"12345.5", 0, quoin.HalfEven, "12346", decimals},
		{"12345.5", 0, quoin.HalfUp, "12346", decimals},
		{"12345.5", 0, quoin.Up, "12346", decimals},
		{"12346.5", 0, quoin.HalfEven, "12346", decimals},
		{"12346.5", 0, quoin.HalfUp, "12347", decimals},
		{"12346.5", 0, quoin.Up, "12347", decimals},
		{"12344.9", 0, quoin.Down, "12344", decimals},

		// Away from zero is toward +∞ above zero and toward −∞ below it.
		{"2.5", 0, quoin.HalfEven, "2", floating},
		{"2.5", 0, quoin.HalfUp, "3", floating},
		{"2.5", 0, quoin.Up, "3", floating},
		{"2.5", 0, quoin.Down, "2", floating},
		{"-2.5", 0, quoin.HalfEven, "-2", floating},
		{"-2.5", 0, quoin.HalfUp, "-3", floating},
		{"-2.5", 0, quoin.Up, "-3", floating},
		{"-2.5", 0, quoin.Down, "-2", floating},

		{"12.223", 1, quoin.HalfEven, "12.2", nearest},
		{"12.251", 1, quoin.HalfEven, "12.3", nearest},
		{"12.275", 1, quoin.HalfEven, "12.3", nearest},
		{"12.223", 1, quoin.HalfUp, "12.2", nearest},
		{"12.251", 1, quoin.HalfUp, "12.3", nearest},
		{"12.275", 1, quoin.HalfUp, "12.3", nearest},
		{"12.25", 1, quoin.HalfEven, "12.2", ruleA},
		{"12.35", 1, quoin.HalfEven, "12.4", ruleA},
		{"12.25", 1, quoin.HalfUp, "12.3", ruleB},
		{"12.35", 1, quoin.HalfUp, "12.4", ruleB},

		{"0.104", 2, quoin.HalfUp, "0.10", gst},
		{"0.105", 2, quoin.HalfUp, "0.11", gst},
		{"0.104", 2, quoin.HalfUp, "0.10", salesTax},
		{"0.105", 2, quoin.HalfUp, "0.11", salesTax},
		// Halves up need no cut to three places first.
		{"0.1049", 2, quoin.HalfUp, "0.10", salesTax},
		// A fraction up to half a cent may be let go; more than half is a cent.
		{"0.105", 2, quoin.HalfDown, "0.10", nzGST},
		{"0.106", 2, quoin.HalfDown, "0.11", nzGST},
	} {
		if got := quoin.MustAmount(c.in).Round(c.places, c.how).String(); got != c.want {
			t.Errorf("%s: %s to %d places, %s: %s, want %s", c.source, c.in, c.places, c.how, got, c.want)
		}
	}
}

// Steps that are no power of ten, and tens: divided, rounded to a whole number
// of steps, multiplied again.
func TestPublishedSteps(t *testing.T) {
	const (
		pennies = "taxtips.ca, elimination of the penny"
		quebec  = "Office de la protection du consommateur (opc.gouv.qc.ca), rounding of cash"
		refund  = "A New Tax System (Goods and Services Tax) Regulations (Australia) 168-5.11"
		ruleA   = "ISO 80000-1:2009 annex B, rule A (from memory)"
		ruleB   = "ISO 80000-1:2009 annex B, rule B (from memory)"
	)
	for _, c := range []struct {
		in, step string
		how      quoin.Rounding
		want     string
		source   string
	}{
		{"1.01", "0.05", quoin.HalfUp, "1.00", pennies},
		{"1.02", "0.05", quoin.HalfUp, "1.00", pennies},
		{"1.03", "0.05", quoin.HalfUp, "1.05", pennies},
		{"1.04", "0.05", quoin.HalfUp, "1.05", pennies},
		{"1.06", "0.05", quoin.HalfUp, "1.05", pennies},
		{"1.07", "0.05", quoin.HalfUp, "1.05", pennies},
		{"1.08", "0.05", quoin.HalfUp, "1.10", pennies},
		{"1.09", "0.05", quoin.HalfUp, "1.10", pennies},
		{"5.98", "0.05", quoin.HalfUp, "6.00", quebec},
		{"5.97", "0.05", quoin.HalfUp, "5.95", quebec},
		{"10.025", "0.05", quoin.HalfUp, "10.05", refund},
		{"1225", "10", quoin.HalfEven, "1220", ruleA},
		{"1235", "10", quoin.HalfEven, "1240", ruleA},
		{"1225", "10", quoin.HalfUp, "1230", ruleB},
		{"1235", "10", quoin.HalfUp, "1240", ruleB},
	} {
		step := quoin.MustFactor(c.step)
		got := quoin.MustAmount(c.in).Over(step).Round(0, c.how).Times(step)
		if !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: %s in steps of %s, %s: %s, want %s", c.source, c.in, c.step, c.how, got, c.want)
		}
	}
}

// ISO 4217, as listed in the data set currency-codes (github.com/datasets).
func TestPublishedMinorUnits(t *testing.T) {
	for digits, codes := range map[int]string{
		0: "JPY KRW CLP VND ISK XOF XAF XPF",
		2: "USD EUR GBP CHF",
		3: "BHD KWD JOD OMR TND IQD LYD",
	} {
		for code := range strings.FieldsSeq(codes) {
			if got := quoin.MustCurrency(code).Digits(); got != digits {
				t.Errorf("%s has %d digits, want %d", code, got, digits)
			}
		}
	}
}

const (
	apportioning = "OpenStax Contemporary Mathematics 11.4"
	paradoxes    = "OpenStax Contemporary Mathematics 11.5"
)

// Seats are given out as cents are: whole ones first, then by largest remainder.
func TestPublishedSplits(t *testing.T) {
	const money = "Fowler, Patterns of Enterprise Application Architecture (2002), Money (from memory)"
	for _, c := range []struct {
		whole   string
		places  int
		weights string
		want    string
		source  string
	}{
		{"10", 0, "6 6 2", "[4 4 2]", paradoxes},
		{"11", 0, "6 6 2", "[5 5 1]", paradoxes},
		{"38", 0, "894000 696000 215000", "[19 15 4]", paradoxes},
		{"38", 0, "953000 706000 218000", "[19 14 5]", paradoxes},
		{"90", 0, "7100 9080", "[39 51]", paradoxes},
		{"98", 0, "7100 9080 1500", "[40 50 8]", paradoxes},
		{"90", 0, "700000 937000", "[38 52]", paradoxes},
		{"99", 0, "700000 937000 170000", "[39 51 9]", paradoxes},
		{"0.05", 2, "70 30", "[0.04 0.01]", money},
		{"200", 0, "40 81 40", "[50 100 50]", "common practice: largest remainder"},
		{"10.03", 2, "49 51", "[4.91 5.12]", "common practice: largest remainder"},
		{"99.99", 2, "75 25", "[74.99 25.00]", "common practice: largest remainder"},
		{"10.00", 2, "1 1 1", "[3.34 3.33 3.33]", "common practice: ties to the first"},
		{"6.85", 2, "1 1 1 1 1 1", "[1.15 1.14 1.14 1.14 1.14 1.14]", "common practice: ties to the first"},
	} {
		var weights []quoin.Factor
		for w := range strings.FieldsSeq(c.weights) {
			weights = append(weights, quoin.MustFactor(w))
		}
		parts, err := quoin.MustAmount(c.whole).Split(c.places, weights...)
		if got := fmt.Sprint(parts); err != nil || got != c.want {
			t.Errorf("%s: %s by %s: %s, %v, want %s", c.source, c.whole, c.weights, got, err, c.want)
		}
	}
}

// A quota is a share of the seats before rounding.
func TestPublishedQuotas(t *testing.T) {
	for _, c := range []struct {
		seats, weight, all string
		places             int
		quota, floor       string
		source             string
	}{
		{"27", "13", "62", 2, "5.66", "5", apportioning},
		{"27", "12", "62", 2, "5.23", "5", apportioning},
		{"27", "5", "62", 2, "2.18", "2", apportioning},
		{"27", "16", "62", 2, "6.97", "6", apportioning},
		{"27", "7", "62", 2, "3.05", "3", apportioning},
		{"27", "9", "62", 2, "3.92", "3", apportioning},
		{"299", "1513401", "62979766", 4, "7.1850", "7", paradoxes},
		{"300", "1513401", "62979766", 4, "7.2090", "7", paradoxes},
	} {
		quota := quoin.MustAmount(c.seats).Times(quoin.MustFactor(c.weight)).Over(quoin.MustFactor(c.all))
		if got := quota.Round(c.places, quoin.HalfUp).String(); got != c.quota {
			t.Errorf("%s: quota of %s in %s: %s, want %s", c.source, c.weight, c.all, got, c.quota)
		}
		if got := quota.Round(0, quoin.Down).String(); got != c.floor {
			t.Errorf("%s: lower quota of %s in %s: %s, want %s", c.source, c.weight, c.all, got, c.floor)
		}
	}
}

// The international yard and pound of 1959 (from memory), exactly. A US gallon is 231 in3 and has
// 128 fluid ounces (NIST SP 811 B.8, from memory): 231 × 16.387064 ml ÷ 128. An imperial gallon is
// 4.54609 l and has 160 (UK Units of Measurement Regulations 1995, from memory).
func TestPublishedUnits(t *testing.T) {
	for _, c := range []struct {
		in   string
		unit quoin.Unit
		want string
	}{
		{"1 in", "mm", "25.4"},
		{"1 ft", "mm", "304.8"},
		{"1 in2", "cm2", "6.4516"},
		{"1 lb", "g", "453.59237"},
		{"1 oz", "g", "28.349523125"},
		{"1 yd", "m", "0.9144"},
		{"1 ft2", "cm2", "929.0304"},
		{"1 ft2", "in2", "144"},
		{"1 yd2", "m2", "0.83612736"},
		{"1 yd2", "ft2", "9"},
		{"128 us_fl_oz", "ml", "3785.411784"},
		{"160 imp_fl_oz", "l", "4.54609"},
		{"1 us_fl_oz", "ml", "29.5735295625"},
		{"1 imp_fl_oz", "ml", "28.4130625"},
	} {
		q, err := quoin.MustQuantity(c.in).In(c.unit)
		if err != nil || !q.Number().Equal(quoin.MustFactor(c.want)) {
			t.Errorf("%s is %s, %v, want %s %s", c.in, q, err, c.want, c.unit)
		}
	}
}

func TestPublishedLengths(t *testing.T) {
	const drawings = "ANSI/ASME Y14.1, sheet sizes"
	for _, c := range []struct {
		in     string
		unit   quoin.Unit
		places int
		want   string
		source string
	}{
		{"8.5 in", "mm", 0, "216", drawings},
		{"11 in", "mm", 0, "279", drawings},
		{"17 in", "mm", 0, "432", drawings},
		{"22 in", "mm", 0, "559", drawings},
		{"28 in", "mm", 0, "711", drawings},
		{"34 in", "mm", 0, "864", drawings},
		{"40 in", "mm", 0, "1016", drawings},
		{"44 in", "mm", 0, "1118", drawings},
	} {
		q, err := quoin.MustQuantity(c.in).In(c.unit)
		if got := q.Number().Round(c.places, quoin.HalfUp); err != nil || !got.Equal(quoin.MustFactor(c.want)) {
			t.Errorf("%s: %s in %s: %s, %v, want %s", c.source, c.in, c.unit, got, err, c.want)
		}
	}
}

// A frame takes twice width and height, eight times the width of the moulding
// for the mitres, and an allowance.
func TestPublishedMouldings(t *testing.T) {
	const (
		course   = "a framing course"
		supplier = "a framing supplier's guide"
		chart    = "a framing footage chart"
	)
	for _, c := range []struct {
		width, height, moulding, allowance string
		unit                               quoin.Unit
		in                                 quoin.Unit
		places                             int
		want                               string
		source                             string
	}{
		{"305", "407", "0", "0", "mm", "mm", 0, "1424", supplier},
		{"305", "407", "66", "4", "mm", "mm", 0, "1956", supplier},
		{"16", "20", "0", "0", "in", "in", 0, "72", course},
		{"16", "20", "2", "0", "in", "in", 0, "88", course},
		{"16", "20", "2", "0.25", "in", "in", 2, "88.25", course},
		{"16", "20", "2", "0.25", "in", "ft", 2, "7.35", course},
		{"8", "10", "1", "4", "in", "ft", 1, "4.0", chart},
		{"8", "10", "1.5", "4", "in", "ft", 1, "4.3", chart},
		{"8", "10", "2", "4", "in", "ft", 1, "4.7", chart},
		{"8", "10", "2.5", "4", "in", "ft", 1, "5.0", chart},
		{"8", "10", "3", "4", "in", "ft", 1, "5.3", chart},
		{"8", "10", "3.5", "4", "in", "ft", 1, "5.7", chart},
		{"8", "10", "4", "4", "in", "ft", 1, "6.0", chart},
		{"8", "10", "4.5", "4", "in", "ft", 1, "6.3", chart},
		{"8", "10", "5", "4", "in", "ft", 1, "6.7", chart},
	} {
		factor := quoin.MustFactor
		length := factor(c.width).Add(factor(c.height)).Times(factor("2"))
		length = length.Add(factor(c.moulding).Times(factor("8"))).Add(factor(c.allowance))
		q, err := quoin.MustQuantity("1 " + string(c.unit)).Times(length).In(c.in)
		if got := q.Number().Round(c.places, quoin.HalfUp); err != nil || !got.Equal(factor(c.want)) {
			t.Errorf("%s: %s × %s in moulding of %s %s: %s %s, %v, want %s",
				c.source, c.width, c.height, c.moulding, c.unit, got, c.in, err, c.want)
		}
	}
}

// The grammage of a paper of one pound basis weight: a ream of 500 sheets of
// the basic size weighs a pound.
func TestPublishedGrammages(t *testing.T) {
	const (
		printed  = "printwiki.org, Grammage"
		computed = "from the international yard and pound of 1959"
	)
	for _, c := range []struct {
		long, short string // inches
		places      int
		want        string
		source      string
	}{
		{"22", "17", 3, "3.760", printed},
		{"26", "20", 3, "2.704", printed},
		{"36", "24", 3, "1.627", printed},
		{"38", "25", 3, "1.480", printed},
		{"22", "17", 4, "3.7597", computed},
		{"26", "20", 4, "2.7041", computed},
		{"36", "24", 4, "1.6275", computed},
		{"38", "25", 4, "1.4801", computed},
		{"28.5", "22.5", 4, "2.1928", computed},
		{"30.5", "25.5", 4, "1.8080", computed},
	} {
		sheet := quoin.MustQuantity("1 in2").Times(quoin.MustFactor(c.long)).Times(quoin.MustFactor(c.short))
		area, err := sheet.Times(quoin.FactorOf(500)).Ratio(quoin.MustQuantity("1 m2"))
		if err != nil {
			t.Fatal(err)
		}
		pound, err := quoin.MustQuantity("1 lb").In("g")
		if err != nil {
			t.Fatal(err)
		}
		if got := pound.Number().Over(area).Round(c.places, quoin.HalfUp); !got.Equal(quoin.MustFactor(c.want)) {
			t.Errorf("%s: %s × %s in: %s, want %s", c.source, c.short, c.long, got, c.want)
		}
	}
}

// Dawe, Paper and Its Uses (1914), p. 148: paper for 6,500 copies of 400 pages,
// 32 pages to a sheet, 500 sheets to a ream.
func TestPublishedReams(t *testing.T) {
	copyOf, err := quoin.MustQuantity("400 page").Ratio(quoin.MustQuantity("32 page"))
	if err != nil || !copyOf.Equal(quoin.MustFactor("12.5")) {
		t.Errorf("a copy takes %s sheets, %v, want 12.5", copyOf, err)
	}
	sheets := quoin.MustQuantity("1 sheet").Times(copyOf).Times(quoin.FactorOf(6500))
	reams, err := sheets.Ratio(quoin.MustQuantity("500 sheet"))
	if err != nil || !reams.Equal(quoin.MustFactor("162.5")) {
		t.Errorf("the edition takes %s reams, %v, want 162.5", reams, err)
	}
}
