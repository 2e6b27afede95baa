package frame_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/internal/problemtest"
)

func q(s string) quoin.Quantity { return quoin.MustQuantity(s) }

func in(t *testing.T, l quoin.Quantity, err error, unit quoin.Unit) quoin.Factor {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	to, err := l.In(unit)
	if err != nil {
		t.Fatal(err)
	}
	return to.Number()
}

func TestPublishedMoulding(t *testing.T) {
	// A framing supplier's guide (address not kept): 305 × 407 mm, moulding 66
	// mm, tolerance 4: 1,424 + 4 + 528.
	l, err := frame.Moulding{Glass: quoin.MustSize("305 x 407 mm"), Width: q("66 mm"), Allowance: q("4 mm")}.Length()
	if got := in(t, l, err, "mm"); !got.Equal(quoin.FactorOf(1956)) {
		t.Errorf("%s mm, want 1956", got)
	}
	// A framing course (address not kept): 16 × 20 in, moulding 2 in, allowance
	// ¼ in: 72, 88, 88¼ in, 7.35 ft.
	m := frame.Moulding{Glass: quoin.MustSize("16 x 20 in"), Width: q("2 in")}
	l, err = m.Length()
	if got := in(t, l, err, "in"); !got.Equal(quoin.FactorOf(88)) {
		t.Errorf("%s in, want 88", got)
	}
	m.Allowance = q("0.25 in")
	l, err = m.Length()
	if got := in(t, l, err, "ft").Round(2, quoin.HalfUp).String(); got != "7.35" {
		t.Errorf("%s ft, want 7.35", got)
	}
	// The same: rails of 20 and 24 in on each 4-ft stick; two sticks.
	rails, err := m.Rails()
	if err != nil || !rails[0].Length.Equal(q("24 in")) || !rails[1].Length.Equal(q("20 in")) || rails[0].Count != 2 {
		t.Errorf("%v, %v", rails, err)
	}
	per, sticks, err := m.PerFrame(cut.Stick{Length: q("4 ft"), Kerf: q("0.125 in")})
	if err != nil || sticks.Sticks != 2 || !per.Equal(quoin.FactorOf(2)) {
		t.Errorf("%s of a stick, %+v, %v", per, sticks, err)
	}
}

// A framing footage chart (address not kept): united inches 18 and mouldings of
// ½ in and on, (2 × united inches + 8 × width + 4) ÷ 12 ft, at least 4.
func TestPublishedFootage(t *testing.T) {
	for i, want := range []string{"4.0", "4.0", "4.3", "4.7", "5.0", "5.3", "5.7", "6.0", "6.3", "6.7"} {
		width := q("0.5 in").Times(quoin.FactorOf(int64(i + 1)))
		l, err := frame.Moulding{Glass: quoin.MustSize("8 x 10 in"), Width: width, Allowance: q("4 in"), Least: q("4 ft")}.Length()
		if got := in(t, l, err, "ft").Round(1, quoin.HalfUp); !got.Equal(quoin.MustFactor(want)) {
			t.Errorf("moulding of %s: %s ft, want %s", width, got, want)
		}
	}
}

// Common practice: united inches are width + height.
func TestUnitedInches(t *testing.T) {
	for _, c := range []struct {
		u    frame.United
		want string
	}{
		{frame.United{Size: quoin.MustSize("8 x 10 in")}, "18 united_in"},
		{frame.United{Size: quoin.MustSize("11 x 14 in")}, "25 united_in"},
		{frame.United{Size: quoin.MustSize("16 x 20 in")}, "36 united_in"},
		{frame.United{Size: quoin.MustSize("24 x 36 in")}, "60 united_in"},
		{frame.United{Size: quoin.MustSize("300 x 400 mm"), WholeUp: true}, "28 united_in"}, // 27.56
		{frame.United{Size: quoin.MustSize("254 x 508 mm"), WholeUp: true}, "30 united_in"},
	} {
		got, err := c.u.Inches()
		if err != nil || !got.Equal(q(c.want)) {
			t.Errorf("%s: %s, %v, want %s", c.u.Size, got, err, c.want)
		}
	}
}

func TestMats(t *testing.T) {
	// An A4 image, 5 mm shown around it, borders of 50, 50 and 60 mm.
	m := frame.Mat{Image: quoin.MustSize("A4"), Reveal: q("5 mm"), Top: q("50 mm"), Sides: q("50 mm"), Bottom: q("60 mm")}
	opening, err := m.Opening()
	outside, err2 := m.Outside()
	if err != nil || err2 != nil || !opening.Equal(quoin.MustSize("220 x 307 mm")) || !outside.Equal(quoin.MustSize("320 x 417 mm")) {
		t.Errorf("%s in %s, %v, %v", opening, outside, err, err2)
	}
	m.Reveal, m.Overlap = quoin.Quantity{}, q("3 mm")
	if opening, err = m.Opening(); err != nil || !opening.Equal(quoin.MustSize("204 x 291 mm")) {
		t.Errorf("overlapped, %s, %v", opening, err)
	}
	m.Overlap = q("200 mm")
	if _, err := m.Outside(); err == nil {
		t.Error("a mat that covers all of its image")
	}
}

func TestFramesRefused(t *testing.T) {
	a4 := quoin.MustSize("A4")
	for what, c := range map[string]struct {
		m    frame.Moulding
		code quoin.Code
	}{
		"no glass":         {frame.Moulding{Width: q("20 mm")}, frame.MissingGlass},
		"all rabbet":       {frame.Moulding{Glass: a4, Width: q("20 mm"), Rabbet: q("2 cm")}, frame.RabbetTooBig},
		"a heavy moulding": {frame.Moulding{Glass: a4, Width: q("20 g")}, quoin.UnitMismatch},
		"short sticks":     {frame.Moulding{Glass: a4, Width: q("20 mm")}, cut.NothingFits},
	} {
		_, _, err := c.m.PerFrame(cut.Stick{Length: q("30 cm")})
		if p := problemtest.Only(err); p.Code != c.code {
			t.Errorf("%s: %v, want %s", what, err, c.code)
		}
		if _, err := c.m.Outside(); (err == nil) != (c.code == cut.NothingFits) {
			t.Errorf("%s has an outside: %v", what, err)
		}
	}
	if _, err := (frame.Mat{Image: a4, Reveal: q("5 g")}).Outside(); err == nil {
		t.Error("a reveal of grams")
	}
	if _, err := (frame.United{}).Inches(); err == nil {
		t.Error("united inches of nothing")
	}
}

// The rails together are the length without its allowance; what is explained
// is what is computed; more frames together never take more of a stick each.
func TestMouldingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, from, to int) quoin.Quantity {
			return q(fmt.Sprintf("%d mm", rapid.IntRange(from, to).Draw(t, name)))
		}
		glass, err := quoin.NewSize(mm("w", 100, 700), mm("h", 100, 700))
		if err != nil {
			t.Fatal(err)
		}
		m := frame.Moulding{Glass: glass, Width: mm("width", 10, 60), Rabbet: mm("rabbet", 0, 9)}
		if rapid.Bool().Draw(t, "least") {
			m.Least = q("1 m")
		}
		length, err := m.Length()
		rails, err2 := m.Rails()
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		var sum quoin.Factor
		for _, r := range rails {
			sum = sum.Add(r.Length.Number().Times(quoin.FactorOf(r.Count)))
		}
		if sum.Cmp(length.Number()) > 0 || m.Least.IsZero() && !sum.Equal(length.Number()) {
			t.Fatalf("rails of %s in %s", sum, length)
		}
		trail := quoin.NewTrail(4)
		if got := m.Explain(trail, quoin.InField("moulding"), quoin.InField("frame")); !got.Value.Factor().Equal(length.Number()) {
			t.Fatalf("explained as %s, computed as %s", got.Value, length)
		}
		u := frame.United{Size: glass, WholeUp: rapid.Bool().Draw(t, "whole")}
		inches, _ := u.Inches()
		if got := u.Explain(trail, quoin.InField("united"), quoin.InField("frame")); !got.Value.Factor().Equal(inches.Number()) {
			t.Fatalf("explained as %s, computed as %s", got.Value, inches)
		}
		stick := cut.Stick{Length: q("3 m"), Kerf: q("3 mm")}
		one, sticks, err := m.PerFrame(stick)
		m.Together = 8
		eight, _, err2 := m.PerFrame(stick)
		if err != nil || err2 != nil || eight.Cmp(one) > 0 {
			t.Fatalf("%s of a stick alone, %s together, %v, %v", one, eight, err, err2)
		}
		m.Together = 0
		if got := m.ExplainSticks(trail, quoin.InField("moulding"), sticks); !got.Value.Factor().Equal(one) {
			t.Fatalf("explained as %s, computed as %s", got.Value, one)
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}
