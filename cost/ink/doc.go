// Package ink answers how much ink a print takes, which nobody knows exactly,
// so always as a range around what is likely.
//
// Ink goes two ways: onto the paper, by the area of the image, and into keeping
// the printer going: cleaning, starting up, replacing what has dried. The first
// is common practice at 8 to 16 ml for a square metre of image, with extremes
// of 3 and 22. The second is said to take 20% to 75% of all ink bought, the
// more the less one prints. A share of all ink bought is divided by what is
// left of it, not added: where half of the ink goes into cleaning, a print that
// takes 1 ml costs 2 ml.
//
// Three ways lead to the first number: what is known of the printer, a log of
// jobs with their areas, or the ink bought in some periods over the area
// printed in them, which then holds the upkeep already.
//
// Rated page yields are refused. They are measured on pages of mostly text
// (ISO/IEC 24712) and say nothing of an image that covers its sheet.
package ink
