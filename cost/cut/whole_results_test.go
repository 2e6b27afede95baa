package cut_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/internal/problemtest"
)

// All that is said of what comes out of a roll.
func TestWholeRolls(t *testing.T) {
	mixed := cut.Roll{Width: length("60 cm"), Length: length("110 cm")}
	lossy := cut.Roll{Width: length("610 mm"), Length: length("10 m"), Leader: length("50 mm"), Tail: length("10 cm"), Edge: length("5 mm")}
	spaced := cut.Cut{Piece: size("200 x 300 mm"), Bleed: length("2 mm"), Gutter: length("3 mm"), Grip: length("1 cm")}
	withGrain := spaced
	withGrain.Grain = cut.Short
	for _, c := range []struct {
		what string
		roll cut.Roll
		cut  cut.Cut
		want string
	}{
		// 3 rows of 30 cm and one of 20 fill 110.
		{
			"rows of both kinds", mixed,
			cut.Cut{Piece: size("20 x 30 cm")},
			"11 of 60 cm x 110 cm: 3 rows of 3 of 200 x 300 mm by 200 x 300 mm, 1 rows of 2 of 300 x 200 mm by 300 x 200 mm; 0 mm left, 100% used",
		},
		{
			"a grid of those that lie", mixed,
			cut.Cut{Piece: size("20 x 30 cm"), Layout: cut.Grid},
			"10 of 60 cm x 110 cm: 5 rows of 2 of 300 x 200 mm by 300 x 200 mm; 100 mm left, 90.91% used",
		}, // 6000 ÷ 6600
		{
			"a grid of those that stand",
			cut.Roll{Width: length("60 cm"), Length: length("90 cm")},
			cut.Cut{Piece: size("20 x 30 cm"), Layout: cut.Grid},
			"9 of 60 cm x 90 cm: 3 rows of 3 of 200 x 300 mm by 200 x 300 mm; 0 mm left, 100% used",
		},
		{
			"of equal grids the one that stands",
			cut.Roll{Width: length("60 cm"), Length: length("60 cm")},
			cut.Cut{Piece: size("20 x 30 cm"), Layout: cut.Grid},
			"6 of 60 cm x 60 cm: 2 rows of 3 of 200 x 300 mm by 200 x 300 mm; 0 mm left, 100% used",
		},
		// Across 610 − 2 × 5 + 3 = 603 two of 200 + 2 × 2 + 3 = 207; along 10,000 − 50 − 100 − 10 + 3 = 9,843, 32 of 307 are 9,824;
		// 64 × 200 × 300 ÷ 6,100,000
		{
			"all that can be lost", lossy, spaced,
			"64 of 610 mm x 10 m: 32 rows of 2 of 204 x 304 mm by 207 x 307 mm; 19 mm left, 62.95% used",
		},
		// lying: one of 307 across, and 47 of 207 along are 9,729
		{
			"across the fibres", lossy, withGrain,
			"47 of 610 mm x 10 m: 47 rows of 1 of 304 x 204 mm by 307 x 207 mm; 114 mm left, 46.23% used",
		},
		{
			"one alone",
			cut.Roll{Width: length("20 cm"), Length: length("30 cm")},
			cut.Cut{Piece: size("20 x 30 cm")},
			"1 of 20 cm x 30 cm: 1 rows of 1 of 200 x 300 mm by 200 x 300 mm; 0 mm left, 100% used",
		},
		{
			"with room for a gutter and no more",
			cut.Roll{Width: length("20 cm"), Length: length("602 mm")},
			cut.Cut{Piece: size("20 x 30 cm"), Gutter: length("2 mm")},
			"2 of 20 cm x 602 mm: 2 rows of 1 of 200 x 300 mm by 202 x 302 mm; 0 mm left, 99.67% used",
		}, // 600 ÷ 602
	} {
		got, err := c.roll.Out(c.cut)
		said := fmt.Sprintf("%d of %s x %s: ", got.Pieces, got.Width, got.Length)
		for i, r := range got.Rows {
			if i > 0 {
				said += ", "
			}
			said += fmt.Sprintf("%d rows of %d of %s by %s", r.Rows, r.Lanes, r.Piece, r.Pitch)
		}
		said += fmt.Sprintf("; %s left, %s used", got.Left, got.Used.Round(2))
		if err != nil || said != c.want {
			t.Errorf("%s:\n%s, %v\nwant\n%s", c.what, said, err, c.want)
		}
	}
}

// All that is said of what comes out of a sheet.
func TestWholeSheets(t *testing.T) {
	spaced := cut.Cut{Piece: size("100 x 150 mm"), Bleed: length("2 mm"), Gutter: length("3 mm"), Grip: length("15 mm"), Layout: cut.Grid}
	for _, c := range []struct {
		what  string
		sheet cut.Sheet
		cut   cut.Cut
		want  string
	}{
		// 500 − 2 × 10 + 3 = 483 hold three of 150 + 2 × 2 + 3 = 157, and 700 − 2 × 10 − 15 + 3 = 668 six of 107. Standing there
		// would be 4 × 4. 18 × 15,000 ÷ 350,000. The bound: of 107 are left 55 × 26, and (483 × 668 − 1,430) ÷ (107 × 157) is 19.1.
		{
			"all that can be lost",
			cut.Sheet{Size: size("500 x 700 mm"), Border: length("1 cm")},
			spaced,
			"18 of at most 19, proven false, 77.14% used of 500 x 700 mm: 3 x 6 of 154 x 104 mm by 157 x 107 mm at 10 mm, 25 mm",
		},
		{
			"a sheet filled",
			cut.Sheet{Size: size("A3")},
			cut.Cut{Piece: size("A4")},
			"2 of at most 2, proven true, 100% used of 297 x 420 mm: 1 x 2 of 297 x 210 mm by 297 x 210 mm at 0 mm, 0 mm",
		},
		{
			"one way only",
			cut.Sheet{Size: size("500 x 700 mm"), Grain: cut.Long},
			cut.Cut{Piece: size("200 x 300 mm"), Grain: cut.Long},
			"4 of at most 5, proven true, 68.57% used of 500 x 700 mm: 2 x 2 of 200 x 300 mm by 200 x 300 mm at 0 mm, 0 mm",
		},
		{
			"the other way only",
			cut.Sheet{Size: size("500 x 700 mm"), Grain: cut.Long},
			cut.Cut{Piece: size("200 x 300 mm"), Grain: cut.Short},
			"3 of at most 5, proven true, 51.43% used of 500 x 700 mm: 1 x 3 of 300 x 200 mm by 300 x 200 mm at 0 mm, 0 mm",
		},
		// 2 of 200 × 300 stand beside 3 that lie: 200 + 300, and 600 of 700
		{
			"both ways",
			cut.Sheet{Size: size("500 x 700 mm")},
			cut.Cut{Piece: size("200 x 300 mm")},
			"5 of at most 5, proven true, 85.71% used of 500 x 700 mm: 1 x 2 of 200 x 300 mm by 200 x 300 mm at 0 mm, 0 mm, 1 x 3 of 300 x 200 mm by 300 x 200 mm at 200 mm, 0 mm",
		},
	} {
		got, searched, err := c.sheet.Search(c.cut)
		said := fmt.Sprintf("%d of at most %d, proven %t, %s used of %s:", got.Pieces, got.Bound, got.Proven, got.Used.Round(2), got.Whole)
		for i, b := range got.Blocks {
			if i > 0 {
				said += ","
			}
			said += fmt.Sprintf(" %d x %d of %s by %s at %s, %s", b.Across, b.Down, b.Piece, b.Pitch, b.X, b.Y)
		}
		if err != nil || said != c.want || c.cut.Layout == cut.Grid && searched != 0 {
			t.Errorf("%s:\n%s, %v\nwant\n%s", c.what, said, err, c.want)
		}
	}
}

// All that is said of how sticks are cut.
func TestWholeSticks(t *testing.T) {
	rail := func(l string, n int64) cut.Rail { return cut.Rail{Length: length(l), Count: n} }
	for _, c := range []struct {
		what  string
		stick cut.Stick
		rails []cut.Rail
		want  string
	}{
		// 1000 − 2 × 10 leave 980: two of 450 and a cut, and 75 with a last one.
		{
			"one length",
			cut.Stick{Length: length("1 m"), Kerf: length("5 mm"), Trim: length("1 cm")},
			[]cut.Rail{rail("450 mm", 5)},
			"3 of at least 3, proven true: 2 times 2 of 450 mm, 70 mm left; 1 times 1 of 450 mm, 525 mm left",
		},
		{
			"the same length twice",
			cut.Stick{Length: length("1 m")},
			[]cut.Rail{rail("45 cm", 1), rail("200 mm", 0), rail("450 mm", 3)},
			"2 of at least 2, proven true: 2 times 2 of 45 cm, 100 mm left",
		},
		{
			"the longest first, in whatever order",
			cut.Stick{Length: length("1 m")},
			[]cut.Rail{rail("300 mm", 2), rail("700 mm", 1), rail("400 mm", 1)},
			"2 of at least 2, proven true: 1 times 1 of 700 mm, 1 of 300 mm, 0 mm left; 1 times 1 of 400 mm, 1 of 300 mm, 300 mm left",
		},
		// Longest first would be 50 + 40, 40 + 30, 30 + 20 and so three; 50 + 30 + 20 and 40 + 40 + … are two.
		{
			"all ways tried",
			cut.Stick{Length: length("100 mm")},
			[]cut.Rail{rail("50 mm", 1), rail("40 mm", 2), rail("30 mm", 1), rail("20 mm", 2)},
			"2 of at least 2, proven true: 1 times 1 of 50 mm, 1 of 30 mm, 1 of 20 mm, 0 mm left; 1 times 2 of 40 mm, 1 of 20 mm, 0 mm left",
		},
		{
			"nothing left for a last cut",
			cut.Stick{Length: length("905 mm"), Kerf: length("5 mm")},
			[]cut.Rail{rail("450 mm", 2)},
			"1 of at least 1, proven true: 1 times 2 of 450 mm, 0 mm left",
		},
	} {
		got, err := c.stick.Out(c.rails...)
		said := fmt.Sprintf("%d of at least %d, proven %t:", got.Sticks, got.Bound, got.Proven)
		for i, s := range got.Saws {
			if i > 0 {
				said += ";"
			}
			said += fmt.Sprintf(" %d times", s.Times)
			for _, r := range s.Rails {
				said += fmt.Sprintf(" %d of %s,", r.Count, r.Length)
			}
			said += fmt.Sprintf(" %s left", s.Left)
		}
		if err != nil || said != c.want {
			t.Errorf("%s:\n%s, %v\nwant\n%s", c.what, said, err, c.want)
		}
	}
}

// What is said of what cannot be cut.
func TestProblems(t *testing.T) {
	a4 := cut.Sheet{Size: size("A4"), Border: length("5 mm")}
	roll := cut.Roll{Width: length("61 cm"), Length: length("10 m")}
	stick := cut.Stick{Length: length("1 m"), Kerf: length("5 mm"), Trim: length("1 cm")}
	of := func(_ any, err error) string { return problemtest.Full(err) }
	for what, c := range map[string]struct{ got, want string }{
		"too large a piece": {
			of(a4.Out(cut.Cut{Piece: size("A4"), Gutter: length("2 mm")})),
			"fault piece: found 210 x 297 mm out of 200 x 287 mm that can be used, wanted a piece that fits; take a larger sheet, or a smaller border [nothing_fits]",
		},
		"a border of all": {
			of(cut.Sheet{Size: size("A4"), Border: length("20 cm")}.Out(cut.Cut{Piece: size("A6")})),
			"fault piece: found 105 x 148 mm out of 1 x 1 mm that can be used, wanted a piece that fits; take a larger sheet, or a smaller border [nothing_fits]",
		},
		"no piece": {of(a4.Out(cut.Cut{})), "fault piece: found nothing, wanted the field piece; give the size of a piece [missing_field]"},
		"no grain": {
			of(a4.Out(cut.Cut{Piece: size("A6"), Grain: cut.Short})),
			"fault grain: found short grain asked of a sheet whose grain is unknown, wanted the grain of the sheet; look which way a torn strip bends [unknown_grain]",
		},
		"too fine": {
			of(a4.Out(cut.Cut{Piece: size("A6"), Gutter: length("0.0000001 mm")})),
			"fault found 210 mm among lengths of very different fineness, wanted lengths that share a coarser measure; round them to a tenth of a millimetre, or a sixteenth of an inch [lengths_too_fine]",
		},
		"grams": {of(a4.Out(cut.Cut{Piece: size("A6"), Gutter: quoin.MustQuantity("2 g")})), `fault found "2 g", wanted a length, such as one in mm [unit_mismatch]`},
		"a narrow roll": {
			of(roll.Out(cut.Cut{Piece: size("70 x 80 cm")})),
			"fault piece: found 70 x 80 cm out of a roll 61 cm wide, wanted a piece that fits; take a wider roll, or a smaller edge [nothing_fits]",
		},
		"edges of all": {
			of(cut.Roll{Width: length("61 cm"), Length: length("10 m"), Edge: length("40 cm")}.Out(cut.Cut{Piece: size("5 x 6 cm")})),
			"fault piece: found 5 x 6 cm out of a roll 61 cm wide, wanted a piece that fits; take a wider roll, or a smaller edge [nothing_fits]",
		},
		"a roll that is all leader": {
			of(cut.Roll{Width: length("61 cm"), Length: length("1 m"), Leader: length("1 m")}.Out(cut.Cut{Piece: size("5 x 6 cm")})),
			"fault piece: found 5 x 6 cm out of a roll 61 cm wide, wanted a piece that fits; take a wider roll, or a smaller edge [nothing_fits]",
		},
		"no piece of a roll":       {of(roll.Out(cut.Cut{})), "fault piece: found nothing, wanted the field piece; give the size of a piece [missing_field]"},
		"as long a roll as can be": {of(cut.Roll{Width: length("60 cm"), Length: length("1000000 m")}.Out(cut.Cut{Piece: size("20 x 30 cm")})), ""},
		"a longer one": {
			of(cut.Roll{Width: length("60 cm"), Length: length("1000001 m")}.Out(cut.Cut{Piece: size("20 x 30 cm")})),
			"fault found 1000001 m among lengths of very different fineness, wanted lengths that share a coarser measure; round them to a tenth of a millimetre, or a sixteenth of an inch [lengths_too_fine]",
		},
		"a long rail": {
			of(stick.Out(cut.Rail{Length: length("980 mm"), Count: 1}, cut.Rail{Length: length("981 mm")})),
			"fault length: found a rail of 981 mm out of 1 m, wanted a rail that fits; take longer sticks [nothing_fits]",
		},
		"a rail of nothing": {of(stick.Out(cut.Rail{Length: length("0 mm"), Count: 1})), "fault length: found a rail of 0 mm out of 1 m, wanted a rail that fits; take longer sticks [nothing_fits]"},
		"fewer than none":   {of(stick.Out(cut.Rail{Length: length("1 mm"), Count: -1})), "fault count: found -1, wanted a value of at least 0 [out_of_range]"},
		"too many":          {of(stick.Out(cut.Rail{Length: length("1 mm"), Count: 60_000}, cut.Rail{Length: length("2 mm"), Count: 40_001})), "fault count: found more than 100000 rails, wanted at most 100000; lay out a smaller batch [too_many]"},
		"as many as can be": {of(stick.Out(cut.Rail{Length: length("900 mm"), Count: 60_000}, cut.Rail{Length: length("910 mm"), Count: 40_000})), ""},
		"a metre too precise": {
			of(stick.Out(cut.Rail{Length: length("0.00000001 mm"), Count: 1})),
			"fault found 1 m among lengths of very different fineness, wanted lengths that share a coarser measure; round them to a tenth of a millimetre, or a sixteenth of an inch [lengths_too_fine]",
		},
	} {
		if c.got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", what, c.got, c.want)
		}
	}
}

func TestStepsOfCuts(t *testing.T) {
	at := quoin.InList("bill", 1)
	for want, explain := range map[string]func(*quoin.Trail) quoin.Operand{
		"pieces bill[1]: weighted across 1x, down 2x, across 1x, down 3x = 5x\nper_piece bill[1]: quotient one 1x, pieces 5x #1 = 0.2x\n": func(t *quoin.Trail) quoin.Operand {
			return cut.SheetCut{Blocks: []cut.Block{{Across: 1, Down: 2}, {Across: 1, Down: 3}}}.Explain(t, at)
		},
		"pieces bill[1]: weighted lanes 3x, rows 2x, lanes 2x, rows 1x = 8x\nper_piece bill[1]: quotient one 1x, pieces 8x #1 = 0.125x\n": func(t *quoin.Trail) quoin.Operand {
			return cut.RollCut{Rows: []cut.Rows{{Lanes: 3, Rows: 2}, {Lanes: 2, Rows: 1}}}.Explain(t, at)
		},
		"per_frame bill[1]: quotient sticks 6x, frames 8x = 0.75x\n": func(t *quoin.Trail) quoin.Operand {
			return cut.Sticks{Sticks: 6}.Explain(t, at, quoin.FactorOf(8).Named("frames"))
		},
	} {
		trail := quoin.NewTrail(2)
		explain(trail)
		if got := problemtest.Steps(trail.Steps()); got != want {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
	}
}

// The words of documents, each read as itself.
func TestWords(t *testing.T) {
	var p cut.Part
	for _, word := range []cut.Part{cut.Image, cut.Paper, cut.Mat, cut.Glass} {
		if err := p.UnmarshalText([]byte(word)); err != nil || p != word {
			t.Errorf("%s is read as %s, %v", word, p, err)
		}
	}
	var g cut.Grain
	for _, word := range []cut.Grain{cut.Long, cut.Short} {
		if err := g.UnmarshalText([]byte(word)); err != nil || g != word {
			t.Errorf("%s is read as %s, %v", word, g, err)
		}
	}
	var l cut.Layout
	for _, word := range []cut.Layout{cut.Guillotine, cut.Grid} {
		if err := l.UnmarshalText([]byte(word)); err != nil || l != word {
			t.Errorf("%s is read as %s, %v", word, l, err)
		}
	}
}
