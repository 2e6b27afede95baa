// Package cut computes how many pieces come out of a sheet, a roll or a stick.
//
// The number is always whole, so dividing areas is wrong. A sheet of 25 × 38 in has the area of 13
// prints of 7 × 10 in. It gives 12 of them, and only 10 if all lie the same way. A piece costs the
// price of the sheet ÷ the number of pieces.
//
// Lengths of any unit are converted to whole numbers of one small unit, exactly. The search for a
// layout uses these.
package cut
