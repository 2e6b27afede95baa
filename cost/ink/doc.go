// Package ink computes how much ink a print takes. Nobody knows this exactly, so the answer is
// always a likely value with a range around it.
//
// Ink goes two ways: onto the paper, by the area of the image; and into keeping the printer going:
// cleaning, starting up, replacing dried ink. The first is commonly 8 to 16 ml for a square metre
// of image, with extremes of 3 and 22. The second is said to take 20% to 75% of all ink bought,
// more if one prints less. That share is divided out, not added: if half of the ink goes into
// cleaning, a print that takes 1 ml costs 2 ml.
//
// There are three ways to the ink of an image: a figure known of the printer; a log of jobs with
// their areas; or the ink bought in some periods ÷ the area printed in them. The third already
// contains the upkeep.
//
// Rated page yields are refused. They are measured on pages of mostly text (ISO/IEC 24712) and say
// nothing about an image that covers its sheet.
package ink
