package quoin

import (
	"database/sql/driver"
	"fmt"
	"strconv"
	"strings"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// Size is a width and a height: of an image, a sheet, a mat, a frame, the face of a parcel.
// Width comes first, as the trade writes it: 297 x 420 mm is upright. The zero value means that
// none is given. Compare sizes with Equal: A4 and 21 x 29.7 cm are the same size. == would tell
// them apart, so it does not compile.
type Size struct{ width, height Quantity }

// NewSize returns width × height. The error is a Problem, if one of them is not a length above
// zero.
func NewSize(width, height Quantity) (Size, error) {
	for _, q := range []Quantity{width, height} {
		if q.Sign() <= 0 || q.unit.Dimension() != "length" {
			return Size{}, Problem{Code: BadSize, Severity: Fault, Found: prose.Quoted(q.String()), Wanted: "a length above zero, such as 297 mm"}
		}
	}
	return Size{width, height}, nil
}

const sizeForm = "a size such as \"297 x 420 mm\", \"24 in x 50 ft\" or \"A3\""

// ParseSize reads a size in one of two forms. Two lengths have an x or × between them; the
// first may omit its unit if it is that of the second ("297 x 420 mm", "24 in x 50 ft"). Or it
// is the name of a paper size, upright: the A and B series of ISO 216 ("A4", "2A0"), C of ISO
// 269, RA and SRA of ISO 217, and "ANSI A" to "ANSI F" of ASME Y14.1. The error is a Problem.
func ParseSize(s string) (Size, error) { return quantityForm.readSize(s, longestSize) }

func (f *form) readSize(s string, longest int) (Size, error) {
	p := Problem{Code: BadSize, Severity: Fault, Found: prose.Quoted(s), Wanted: sizeForm}
	if len(s) > longest {
		return Size{}, p
	}
	if size, ok := paperSize(s); ok {
		return size, nil
	}
	before, after, ok := strings.Cut(strings.ReplaceAll(s, "×", "x"), "x")
	if !ok {
		p.Near = prose.Near(s, paperNames())
		return Size{}, p
	}
	height, err := f.readQuantity(strings.TrimSpace(after))
	if err != nil {
		return Size{}, p
	}
	before = strings.TrimSpace(before)
	if !strings.Contains(before, " ") {
		before += " " + string(height.unit)
	}
	width, err := f.readQuantity(before)
	if err != nil {
		return Size{}, p
	}
	size, err := NewSize(width, height)
	return size, refound(err, s)
}

const longestSize = 96

// MustSize is ParseSize for literals in programs and tests; it panics where
// ParseSize errs.
func MustSize(s string) Size { return must("MustSize", ParseSize, s) }

// Width returns the horizontal side, or zero if no size was given.
func (s Size) Width() Quantity { return s.width }

// Height returns the vertical side, or zero if no size was given.
func (s Size) Height() Quantity { return s.height }

// Turned returns the size turned by a quarter: height × width.
func (s Size) Turned() Size { return Size{s.height, s.width} }

// Area returns width × height in square centimetres, exactly.
func (s Size) Area() Quantity { return Quantity{s.width.mm().Mul(s.height.mm()).Mul(percent), "cm2"} }

// Grown returns the size with a length added to every side; a negative length is subtracted.
// 210 x 297 mm grown by 3 mm is 216 x 303 mm. The error is a Problem, if nothing is left or by
// is not a length.
func (s Size) Grown(by Quantity) (Size, error) {
	if by.unit.Dimension() != "length" {
		return Size{}, mismatch(by, "mm")
	}
	twice := by.mm().Add(by.mm())
	return NewSize(Quantity{s.width.mm().Add(twice), "mm"}, Quantity{s.height.mm().Add(twice), "mm"})
}

// Fits reports whether s fits into t without being turned.
func (s Size) Fits(t Size) bool {
	return s.width.mm().Cmp(t.width.mm()) <= 0 && s.height.mm().Cmp(t.height.mm()) <= 0
}

// Equal reports whether s and t are the same size: 8.5 x 11 in equals 215.9 x
// 279.4 mm.
func (s Size) Equal(t Size) bool { return s.width.Equal(t.width) && s.height.Equal(t.height) }

// IsGiven reports whether a size was given. It is the opposite of IsZero, with the name that
// numbers use.
func (s Size) IsGiven() bool { return !s.IsZero() }

// IsZero reports whether no size was given.
func (s Size) IsZero() bool { return s.width.IsZero() && s.height.IsZero() }

// String returns the size as ParseSize reads it: "297 x 420 mm", "24 in x 50 ft". It is empty
// if no size is given.
func (s Size) String() string { return string(s.append(nil)) }

// MarshalText returns String.
func (s Size) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// AppendText writes String behind b.
func (s Size) AppendText(b []byte) ([]byte, error) { return s.append(b), nil }

func (s Size) append(b []byte) []byte {
	if s.IsZero() {
		return b
	}
	if s.width.unit == s.height.unit {
		b = s.width.d.Append(b)
	} else {
		b = s.width.append(b)
	}
	return s.height.append(append(b, " x "...))
}

// UnmarshalText reads back what MarshalText wrote, with any number of digits. Empty text is no
// size. For what a person wrote, use ParseSize, which has closer bounds. The error is a
// Problem.
func (s *Size) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = Size{}
		return nil
	}
	stored := quantityForm.stored()
	read := func(text string) (Size, error) { return stored.readSize(text, 2*stored.longest()) }
	return set(s, read, string(text))
}

// Value stores s as text: "297 x 420 mm".
func (s Size) Value() (driver.Value, error) { return s.String(), nil }

// Scan reads back what Value stored, from text columns. NULL is refused: an Optional
// takes it.
func (s *Size) Scan(src any) error { return scanText(src, sizeForm, s.UnmarshalText) }

// paperSize returns a paper size by its name, upright, from the rule that
// defines its series. All series of ISO 216, 217 and 269 have sides in the
// ratio of 1 to √2, and each next size is the one before, halved across its
// longer side, fractions of a millimetre dropped.
func paperSize(name string) (Size, bool) {
	if letter, ok := strings.CutPrefix(name, "ANSI "); ok {
		return ansiSize(letter)
	}
	if name == "2A0" || name == "4A0" {
		w, h := seriesHead("A")
		if w, h = h, 2*w; name == "4A0" {
			w, h = h, 2*w
		}
		return millimetres(w, h), true
	}
	letters := strings.TrimRight(name, "0123456789")
	n, err := strconv.Atoi(name[len(letters):])
	w, h := seriesHead(letters)
	if w == 0 || err != nil || n > lastOf(letters) || strconv.Itoa(n) != name[len(letters):] {
		return Size{}, false
	}
	for range n {
		w, h = h/2, w
	}
	return millimetres(w, h), true
}

// seriesHead returns the size that a series begins with, in millimetres; 0 where there is no
// such series. A0 has 1 m² (ISO 216), RA0 1.05 and SRA0 1.15 m², in whole centimetres (ISO 217);
// B0 is 1 m wide (ISO 216); C0 is the geometric mean of A0 and B0 (ISO 269).
func seriesHead(letters string) (w, h int64) {
	switch letters {
	case "A":
		return 841, 1189
	case "B":
		return 1000, 1414
	case "C":
		return 917, 1297
	case "RA":
		return 860, 1220
	case "SRA":
		return 900, 1280
	}
	return 0, 0
}

// lastOf returns the number of the smallest size of a series.
func lastOf(letters string) int {
	if strings.HasSuffix(letters, "RA") {
		return 4
	}
	return 10
}

// ansiSize is a size of ASME Y14.1: A is 8½ × 11 in, each next to E two of the
// one before side by side, and F 28 × 40 in.
func ansiSize(letter string) (Size, bool) {
	if letter == "F" {
		return inches(280, 400), true
	}
	w, h := int64(85), int64(110)
	for _, l := range []string{"A", "B", "C", "D", "E"} {
		if l == letter {
			return inches(w, h), true
		}
		w, h = h, 2*w
	}
	return Size{}, false
}

func millimetres(w, h int64) Size {
	return Size{Quantity{decimal.New(w, 0), "mm"}, Quantity{decimal.New(h, 0), "mm"}}
}

func inches(tenthsWide, tenthsHigh int64) Size {
	return Size{Quantity{decimal.New(tenthsWide, -1), "in"}, Quantity{decimal.New(tenthsHigh, -1), "in"}}
}

// paperNames returns the names of all paper sizes.
func paperNames() []string {
	names := []string{"2A0", "4A0"}
	for _, series := range []string{"A", "B", "C", "RA", "SRA"} {
		for n := range lastOf(series) + 1 {
			names = append(names, fmt.Sprint(series, n))
		}
	}
	for _, letter := range "ABCDEF" {
		names = append(names, "ANSI "+string(letter))
	}
	return names
}
