package cost_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/problemtest"
)

// A print in a frame: the frame is 305 + 457 = 762 mm around a corner, which is 30 in.
var someSizes = cost.Sizes{
	Image: quoin.MustSize("200 x 300 mm"), Sheet: quoin.MustSize("210 x 297 mm"), Mat: quoin.MustSize("300 x 400 mm"),
	Frame: quoin.MustSize("305 x 457 mm"), At: quoin.InList("products", 2),
}

// worked is what a line takes of a supply: the quantity, and each step of its explanation.
func worked(t *testing.T, what string, l cost.BillLine, s cost.Supply) (got cost.DerivedQuantity, told string) {
	t.Helper()
	got, err := l.Work(s, someSizes)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return got, ""
	}
	trail := quoin.NewTrail(4)
	o := got.Explain(trail, someSizes.At.Sub("bill", 0))
	if n := got.Quantity.Number(); !o.Value.Factor().Equal(n) {
		t.Errorf("%s: explained as %s, computed as %s", what, o.Value, n)
	}
	if len(trail.Steps()) == 0 {
		return got, problemtest.Operand(o)
	}
	return got, problemtest.Steps(trail.Steps())
}

func TestWork(t *testing.T) {
	bought := func(unit string) cost.Supply { return cost.Supply{ID: "it", Quantity: quantity("10 " + unit)} }
	sheet, roll, stick := bought("sheet"), bought("roll"), bought("stick")
	sheet.Sheet = &cut.Sheet{Size: quoin.MustSize("500 x 700 mm"), Border: quantity("5 mm")}
	roll.Roll = &cut.Roll{Width: quantity("610 mm"), Length: quantity("10 m")}
	stick.Stick = &cut.Stick{Length: quantity("1 m")}
	own := quoin.MustSize("100 x 100 mm")
	for what, c := range map[string]struct {
		line   cost.BillLine
		supply cost.Supply
		want   string
		told   string
	}{
		"what is given": {
			cost.BillLine{Quantity: quantity("4 g")},
			bought("kg"), "4 g",
			"quantity 4 g @products[2].bill[0].quantity",
		},
		// 490 × 690 mm can be used: two beside each other, two above.
		"a size of the print out of a sheet": {
			cost.BillLine{Cut: &cut.Cut{Of: cut.Paper}},
			sheet, "0.25 sheet",
			"pieces products[2].bill[0]: weighted across 2x, down 2x = 4x\n" +
				"per_piece products[2].bill[0]: quotient one 1x, pieces 4x #1 = 0.25x\n",
		},
		"a size of the line out of a sheet": {
			cost.BillLine{Cut: &cut.Cut{Piece: quoin.MustSize("490 x 690 mm")}},
			sheet, "1 sheet",
			"pieces products[2].bill[0]: weighted across 1x, down 1x = 1x\n" +
				"per_piece products[2].bill[0]: quotient one 1x, pieces 1x #1 = 1x\n",
		},
		// 2 × 300 beside each other, 25 × 400 along.
		"out of a roll": {
			cost.BillLine{Cut: &cut.Cut{Of: cut.Mat}},
			roll, "0.02 roll",
			"pieces products[2].bill[0]: weighted lanes 2x, rows 25x = 50x\n" +
				"per_piece products[2].bill[0]: quotient one 1x, pieces 50x #1 = 0.02x\n",
		},
		"the ink of the image": {
			cost.BillLine{Ink: &ink.Use{PerM2: quantity("12 ml")}},
			bought("ml"), "0.72 ml",
			"image_area products[2].bill[0].ink: quotient width 200 mm @products[2].image, height 300 mm @products[2].image, mm2 in 1 m2 1000000x = 0.06x\n" +
				"ink_on_paper products[2].bill[0].ink: product per m2 12 ml @products[2].bill[0].ink.per_m2, image_area 0.06x #1 = 0.72x\n" +
				"ink_of_print products[2].bill[0].ink: sum ink_on_paper 0.72x #2 = 0.72x\n" +
				"ink products[2].bill[0].ink: quotient ink_of_print 0.72x #3, share of upkeep one_minus 0% @products[2].bill[0].ink.upkeep.share ? = 0.72x\n",
		},
		"the ink of an image of its own": {
			cost.BillLine{Ink: &ink.Use{PerM2: quantity("12 ml"), Image: own}},
			bought("ml"), "0.12 ml",
			"image_area products[2].bill[0].ink: quotient width 100 mm @products[2].bill[0].ink.image, height 100 mm @products[2].bill[0].ink.image, mm2 in 1 m2 1000000x = 0.01x\n" +
				"ink_on_paper products[2].bill[0].ink: product per m2 12 ml @products[2].bill[0].ink.per_m2, image_area 0.01x #1 = 0.12x\n" +
				"ink_of_print products[2].bill[0].ink: sum ink_on_paper 0.12x #2 = 0.12x\n" +
				"ink products[2].bill[0].ink: quotient ink_of_print 0.12x #3, share of upkeep one_minus 0% @products[2].bill[0].ink.upkeep.share ? = 0.12x\n",
		},
		// 2 × 762 + 8 × 20
		"moulding by its length": {
			cost.BillLine{Moulding: &frame.Moulding{Width: quantity("20 mm")}},
			bought("m"), "1684 mm",
			"moulding_length products[2].bill[0].moulding: weighted width 305 mm @products[2].frame, times 2x, height 457 mm @products[2].frame, times 2x, " +
				"moulding width 20 mm @products[2].bill[0].moulding.width, times 8x, rabbet minus 0 mm @products[2].bill[0].moulding.rabbet ?, times 8x, " +
				"allowance 0 mm @products[2].bill[0].moulding.allowance ?, times 1x = 1684x\n",
		},
		// 2 × 200 + 8 × 20
		"moulding around a glass of its own": {
			cost.BillLine{Moulding: &frame.Moulding{Width: quantity("20 mm"), Glass: own}},
			bought("m"), "560 mm",
			"moulding_length products[2].bill[0].moulding: weighted width 100 mm @products[2].bill[0].moulding.glass, times 2x, height 100 mm @products[2].bill[0].moulding.glass, times 2x, " +
				"moulding width 20 mm @products[2].bill[0].moulding.width, times 8x, rabbet minus 0 mm @products[2].bill[0].moulding.rabbet ?, times 8x, " +
				"allowance 0 mm @products[2].bill[0].moulding.allowance ?, times 1x = 560x\n",
		},
		// two of 457 + 40 out of one, two of 305 + 40 out of another
		"moulding out of sticks": {
			cost.BillLine{Moulding: &frame.Moulding{Width: quantity("20 mm")}},
			stick, "2 stick",
			"per_frame products[2].bill[0].moulding: quotient sticks 2x, frames cut together 1x @products[2].bill[0].moulding.together ? = 2x\n",
		},
		"united inches of the print": {
			cost.BillLine{WidthPlusHeight: &frame.United{Of: cut.Glass}},
			bought("united_in"), "30 united_in",
			"width_and_height products[2].bill[0].width_plus_height: sum width 305 mm @products[2].frame, height 457 mm @products[2].frame = 762x\n" +
				"united_inches products[2].bill[0].width_plus_height: quotient width_and_height 762x #1, mm in 1 in 25.4x = 30x\n",
		},
		"united inches of a size of its own": {
			cost.BillLine{WidthPlusHeight: &frame.United{Size: quoin.MustSize("8 x 10 in")}},
			bought("united_in"), "18 united_in",
			"width_and_height products[2].bill[0].width_plus_height: sum width 203.2 mm @products[2].bill[0].width_plus_height.size, height 254 mm @products[2].bill[0].width_plus_height.size = 457.2x\n" +
				"united_inches products[2].bill[0].width_plus_height: quotient width_and_height 457.2x #1, mm in 1 in 25.4x = 18x\n",
		},
		"the area of the image": {
			cost.BillLine{Area: cut.Image},
			bought("m2"), "0.06 m2",
			"area products[2].bill[0]: quotient width 200 mm @products[2].image, height 300 mm @products[2].image, mm2 in 1 m2 1000000x = 0.06x\n",
		},
		"the area of the mat": {
			cost.BillLine{Area: cut.Mat},
			bought("m2"), "0.12 m2",
			"area products[2].bill[0]: quotient width 300 mm @products[2].mat, height 400 mm @products[2].mat, mm2 in 1 m2 1000000x = 0.12x\n",
		},
	} {
		got, told := worked(t, what, c.line, c.supply)
		if got.Quantity.String() != c.want || told != c.told {
			t.Errorf("%s: %s, want %s, as\n%s\nwant\n%s", what, got.Quantity, c.want, told, c.told)
		}
	}
}

// What is cut says how it lies; what is not cut does not.
func TestWorkSaysHowItIsCut(t *testing.T) {
	sheet := cost.Supply{Quantity: quantity("1 sheet"), Sheet: &cut.Sheet{Size: quoin.MustSize("500 x 700 mm")}}
	roll := cost.Supply{Quantity: quantity("1 roll"), Roll: &cut.Roll{Width: quantity("610 mm"), Length: quantity("10 m")}}
	stick := cost.Supply{Quantity: quantity("1 stick"), Stick: &cut.Stick{Length: quantity("1 m")}}
	byLength := cost.Supply{Quantity: quantity("1 m")}
	moulding := cost.BillLine{Moulding: &frame.Moulding{Width: quantity("20 mm")}}
	for _, c := range []struct {
		line                cost.BillLine
		supply              cost.Supply
		sheet, roll, sticks int64
		piece               string
	}{
		{cost.BillLine{Cut: &cut.Cut{Of: cut.Mat}}, sheet, 2, 0, 0, "300 x 400 mm"},
		{cost.BillLine{Cut: &cut.Cut{Piece: quoin.MustSize("400 x 500 mm")}}, roll, 0, 25, 0, "400 x 500 mm"}, // a row of one every 40 cm
		{moulding, stick, 0, 0, 2, ""},
		{moulding, byLength, 0, 0, 0, ""},
	} {
		w, err := c.line.Work(c.supply, someSizes)
		var sheets, rolls, sticks int64
		if w.Sheet != nil {
			sheets = w.Sheet.Pieces
		}
		if w.Roll != nil {
			rolls = w.Roll.Pieces
		}
		if w.Sticks != nil {
			sticks = w.Sticks.Sticks
		}
		if err != nil || sheets != c.sheet || rolls != c.roll || sticks != c.sticks || w.Piece.String() != c.piece {
			t.Errorf("%v: %d, %d, %d of %s, %v, want %d, %d, %d of %s", c.line, sheets, rolls, sticks, w.Piece, err, c.sheet, c.roll, c.sticks, c.piece)
		}
	}
}

func TestWorkRefused(t *testing.T) {
	paper := cost.Supply{ID: "rag", Quantity: quantity("1 sheet"), Sheet: &cut.Sheet{Size: quoin.MustSize("500 x 700 mm")}}
	roll := cost.Supply{ID: "canvas", Quantity: quantity("1 roll"), Roll: &cut.Roll{Width: quantity("610 mm"), Length: quantity("10 m")}}
	stick := cost.Supply{ID: "oak", Quantity: quantity("1 stick"), Stick: &cut.Stick{Length: quantity("400 mm")}}
	yearly := cost.Supply{ID: "ink", Yearly: &cost.Yearly{Spent: amount("380.00"), Printed: quantity("900 prints")}}
	big := &cut.Cut{Piece: quoin.MustSize("2 x 3 m")}
	for what, c := range map[string]struct {
		line   cost.BillLine
		supply cost.Supply
		sizes  cost.Sizes
		want   string
	}{
		"ink that the year holds already": {
			cost.BillLine{Ink: &ink.Use{PerM2: quantity("12 ml")}},
			yearly, someSizes,
			"fault ink: found ink and its upkeep, of a supply that is known by the year, wanted a quantity of 1 print, or an area; " +
				"what was spent in a year holds cleaning and upkeep already [year_holds_upkeep]",
		},
		"a cut of a size that is not given": {
			cost.BillLine{Cut: &cut.Cut{Of: cut.Mat}},
			paper,
			cost.Sizes{},
			"fault cut.of: found a product that does not give its mat, wanted that size of the product, or a size here [unknown_size]",
		},
		"a cut of ink": {
			cost.BillLine{Cut: &cut.Cut{Of: cut.Mat}},
			cost.Supply{ID: "ink"},
			someSizes,
			`fault cut: found a cut of "ink", which is neither sheet nor roll, wanted a supply that says what sheet, or what roll, one of it is [not_cut]`,
		},
		"what is larger than the sheet": {
			cost.BillLine{Cut: big},
			paper, someSizes,
			"fault cut.piece: found 2 x 3 m out of 500 x 700 mm that can be used, wanted a piece that fits; take a larger sheet, or a smaller border [nothing_fits]",
		},
		"what is wider than the roll": {
			cost.BillLine{Cut: big},
			roll, someSizes,
			"fault cut.piece: found 2 x 3 m out of a roll 610 mm wide, wanted a piece that fits; take a wider roll, or a smaller edge [nothing_fits]",
		},
		"ink of no image": {
			cost.BillLine{Ink: &ink.Use{PerM2: quantity("12 ml")}},
			cost.Supply{},
			cost.Sizes{},
			"fault ink.image: found no image, wanted the size of the image; give the product an image [missing_image]",
		},
		"moulding of no glass": {
			cost.BillLine{Moulding: &frame.Moulding{Width: quantity("20 mm")}},
			cost.Supply{},
			cost.Sizes{},
			"fault moulding.glass: found no size, wanted the size of the glass; give the product a frame [missing_glass]",
		},
		"moulding out of short sticks": {
			cost.BillLine{Moulding: &frame.Moulding{Width: quantity("20 mm")}},
			stick, someSizes,
			"fault moulding.length: found a rail of 497 mm out of 400 mm, wanted a rail that fits; take longer sticks [nothing_fits]",
		},
		"united inches of a size that is not given": {
			cost.BillLine{WidthPlusHeight: &frame.United{Of: cut.Glass}},
			cost.Supply{},
			cost.Sizes{},
			"fault width_plus_height.of: found a product that does not give its frame, wanted that size of the product, or a size here [unknown_size]",
		},
		"united inches of nothing": {
			cost.BillLine{WidthPlusHeight: &frame.United{}},
			cost.Supply{},
			someSizes,
			"fault width_plus_height.size: found nothing, wanted the field size or of [missing_field]",
		},
		"an area that is not given": {
			cost.BillLine{Area: cut.Image},
			cost.Supply{},
			cost.Sizes{Mat: quoin.MustSize("A4")},
			"fault area: found a product that does not give its image, wanted that size of the product [unknown_size]",
		},
	} {
		w, err := c.line.Work(c.supply, c.sizes)
		if got := problemtest.Full(err); got != c.want || !w.Quantity.IsZero() || w.Explain != nil {
			t.Errorf("%s: %s of\n%s\nwant\n%s", what, w.Quantity, got, c.want)
		}
	}
	// The year of a supply forbids ink alone, and ink a year alone.
	if w, err := (cost.BillLine{Area: cut.Image}).Work(yearly, someSizes); err != nil || w.Quantity.String() != "0.06 m2" {
		t.Errorf("an area of what is known by the year: %s, %v", w.Quantity, err)
	}
}

func TestSizesOf(t *testing.T) {
	for part, want := range map[cut.Part]string{
		cut.Image: "200 x 300 mm", cut.Paper: "210 x 297 mm", cut.Mat: "300 x 400 mm", cut.Glass: "305 x 457 mm", "": "", "mount": "",
	} {
		if got := someSizes.Of(part).String(); got != want {
			t.Errorf("%q is %s, want %s", part, got, want)
		}
	}
}
