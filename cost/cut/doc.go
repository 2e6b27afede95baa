// Package cut answers how many pieces come out of a sheet, a roll or a stick.
// It is always a whole number, which is why dividing areas misleads: a sheet of
// 25 × 38 in has the area of 13 prints of 7 × 10 in and gives 12, and only 10
// where all lie the same way. What a piece costs is the price of the sheet
// divided by what comes out.
//
// Lengths of any unit are brought to whole numbers of one small unit, exactly,
// and all search is on these.
package cut
