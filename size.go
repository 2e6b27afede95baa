package quoin

import (
	"database/sql/driver"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

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

const sizeForm = "a size such as \"297 x 420 mm\", \"8 1/2 x 11 in\" or \"A3\""

// ParseSize reads a size in one of two forms. Two lengths have an x or × between them; the
// first may omit its unit if it is that of the second ("297 x 420 mm", "8 1/2 x 11 in",
// "24in x 50ft"). Or it is the name of a paper size, upright, in capitals or not: the A and B
// series of ISO 216 ("A4", "2A0"), C of ISO 269, RA and SRA of ISO 217, "ANSI A" to "ANSI F" of
// ASME Y14.1, Letter and Legal (8.5 x 11 in and 8.5 x 14 in), and A3+ (329 x 483 mm, common
// practice). The error is a Problem.
func ParseSize(s string) (Size, error) { return quantityForm.readSize(s, longestSize) }

func (f *form) readSize(s string, longest int) (Size, error) {
	p := Problem{Code: BadSize, Severity: Fault, Found: prose.Quoted(s), Wanted: sizeForm}
	if len(s) > longest {
		return Size{}, p
	}
	if size, ok := paperSize(strings.ToUpper(strings.TrimSpace(s))); ok {
		return size, nil
	}
	before, after, ok := cutAtTimes(s)
	if !ok {
		p.Near, p.Remedy = nearPaper(s), f.betweenSides(s)
		return Size{}, p
	}
	height, err := f.readQuantity(strings.TrimSpace(after))
	if err != nil {
		return Size{}, sideProblem(p, err)
	}
	number, unit, err := f.readMixed(strings.TrimSpace(before))
	if err != nil {
		return Size{}, sideProblem(p, err)
	}
	width := Quantity{number, height.unit}
	if unit = strings.TrimSpace(unit); unit != "" {
		if width.unit, err = readUnit(unit); err != nil {
			return Size{}, p
		}
	}
	size, err := NewSize(width, height)
	return size, refound(err, s)
}

// cutAtTimes cuts a size into what stands before and after its x or ×.
func cutAtTimes(s string) (before, after string, ok bool) {
	at := strings.IndexAny(s, "xX×")
	if at < 0 {
		return s, "", false
	}
	_, width := utf8.DecodeRuneInString(s[at:])
	return s[:at], s[at+width:], true
}

// sideProblem adds to a problem what keeps a side of it from being read.
func sideProblem(p Problem, err error) Problem {
	switch of := err.(Problem); of.Code {
	case NotANumber, Ambiguous:
		p.Remedy = of.Remedy
	case MissingUnit:
		p.Remedy = "put the unit behind the height: 8 1/2 x 11 in"
	}
	return p
}

// betweenSides tells how to write two numbers that have nothing between them.
func (f *form) betweenSides(s string) string {
	s = strings.TrimSpace(s)
	_, rest, err := f.readMixed(s)
	if err != nil {
		return ""
	}
	height := strings.TrimSpace(rest)
	if _, err := f.readQuantity(height); err != nil {
		return ""
	}
	return fmt.Sprintf("put an x between width and height: %s x %s", strings.TrimSpace(s[:len(s)-len(rest)]), height)
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
func (s Size) Area() Quantity { return quantityOf(s.width.mm().Mul(s.height.mm()).Mul(percent), "cm2") }

// Grown returns the size with a length added to every side; a negative length is subtracted.
// 210 x 297 mm grown by 3 mm is 216 x 303 mm. The error is a Problem, if nothing is left or by
// is not a length.
func (s Size) Grown(by Quantity) (Size, error) {
	if by.unit.Dimension() != "length" {
		return Size{}, mismatch(by, "mm")
	}
	twice := by.mm().Add(by.mm())
	return NewSize(quantityOf(s.width.mm().Add(twice), "mm"), quantityOf(s.height.mm().Add(twice), "mm"))
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
		b = s.width.mixed.append(b)
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

// paperSize returns a paper size by its name in capitals, upright, from the rule that
// defines its series. All series of ISO 216, 217 and 269 have sides in the
// ratio of 1 to √2, and each next size is the one before, halved across its
// longer side, fractions of a millimetre dropped. Letter is ANSI A, of ASME Y14.1; Legal and A3+
// are common practice.
func paperSize(name string) (Size, bool) {
	if letter, ok := strings.CutPrefix(name, "ANSI "); ok {
		return ansiSize(letter)
	}
	switch name {
	case "LETTER":
		return ansiSize("A")
	case "LEGAL":
		return inches(85, 140), true
	case "A3+":
		return millimetres(329, 483), true
	case "2A0", "4A0":
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
	return Size{quantityOf(decimal.New(w, 0), "mm"), quantityOf(decimal.New(h, 0), "mm")}
}

func inches(tenthsWide, tenthsHigh int64) Size {
	return Size{quantityOf(decimal.New(tenthsWide, -1), "in"), quantityOf(decimal.New(tenthsHigh, -1), "in")}
}

// nearPaper is the name of a paper size that a text most likely means.
func nearPaper(s string) string {
	names := []string{"2A0", "4A0", "A3+", "Letter", "Legal"}
	for _, series := range []string{"A", "B", "C", "RA", "SRA"} {
		for n := range lastOf(series) + 1 {
			names = append(names, fmt.Sprint(series, n))
		}
	}
	for _, letter := range "ABCDEF" {
		names = append(names, "ANSI "+string(letter))
	}
	capitals := make([]string, len(names))
	for i, n := range names {
		capitals[i] = strings.ToUpper(n)
	}
	i := slices.Index(capitals, prose.Near(strings.ToUpper(s), capitals))
	if i < 0 {
		return ""
	}
	return names[i]
}
