package frame_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
)

// Glass of 300 × 400 mm in a moulding 20 mm wide that reaches 5 mm over it.
func ExampleMoulding_Length() {
	m := frame.Moulding{Glass: quoin.MustSize("300 x 400 mm"), Width: quoin.MustQuantity("20 mm"), Rabbet: quoin.MustQuantity("5 mm"), Allowance: quoin.MustQuantity("6 mm")}
	length, err := m.Length()
	outside, _ := m.Outside()
	fmt.Println(length, err, "outside", outside)
	// Output: 1526 mm <nil> outside 330 x 430 mm
}

// One frame takes a stick of 3 m, and wastes nearly half of it; ten cut together
// take six.
func ExampleMoulding_PerFrame() {
	m := frame.Moulding{Glass: quoin.MustSize("300 x 400 mm"), Width: quoin.MustQuantity("20 mm")}
	for _, m.Together = range []int64{1, 10} {
		per, sticks, err := m.PerFrame(cut.Stick{Length: quoin.MustQuantity("3 m"), Kerf: quoin.MustQuantity("3 mm")})
		fmt.Println(m.Together, "frames:", sticks.Sticks, "sticks,", per, "each", err)
	}
	// Output:
	// 1 frames: 1 sticks, 1 each <nil>
	// 10 frames: 6 sticks, 0.6 each <nil>
}

func ExampleMoulding_Rails() {
	rails, err := frame.Moulding{Glass: quoin.MustSize("16 x 20 in"), Width: quoin.MustQuantity("2 in")}.Rails()
	for _, r := range rails {
		in, _ := r.Length.In("in")
		fmt.Println(r.Count, "of", in)
	}
	fmt.Println(err)
	// Output:
	// 2 of 24 in
	// 2 of 20 in
	// <nil>
}

func ExampleUnited_Inches() {
	u, err := frame.United{Size: quoin.MustSize("300 x 400 mm"), WholeUp: true}.Inches()
	fmt.Println(u, err)
	// Output: 28 united_in <nil>
}

func ExampleMat() {
	m := frame.Mat{
		Image: quoin.MustSize("A4"), Reveal: quoin.MustQuantity("5 mm"),
		Top: quoin.MustQuantity("50 mm"), Sides: quoin.MustQuantity("50 mm"), Bottom: quoin.MustQuantity("60 mm"),
	}
	opening, _ := m.Opening()
	outside, err := m.Outside()
	fmt.Println(opening, "in", outside, err)
	// Output: 220 x 307 mm in 320 x 417 mm <nil>
}
