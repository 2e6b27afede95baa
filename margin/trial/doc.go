// Package trial answers what a trial of prices has shown so far, and which
// price to try next.
//
// A print sold twelve times at 79 and nine times at 89, before as many visits.
// Which price earns more? Not the one that sells more: a sale at 89 keeps more.
// And not the one that is ahead: with so few sales, chance alone does that. The
// honest answer is one of three: better, worse, can't tell yet.
//
// A Period is so long at one price: from when to when, in which channel, before
// how many visits, visitors, stand days or days on line, on which kind of
// occasion, and how many sold. RateOf and ShareOf say what one count can carry,
// CompareRates puts two side by side. Compare takes the periods at two prices,
// weighs what a sale keeps, and answers. Fairs are not compared with the web, nor
// visits with days: what is unlike is marked and left out.
//
// Who looks after every week and stops at the first difference will find one
// where there is none: at 5% for one look, ten looks are wrong in about 19% of
// trials (Inflation). So Compare answers only where a boundary is passed that
// holds however often one looks. The intervals that hold for a single look stand
// beside it, marked as such.
//
// Elasticity and Slope say how much less, or more, sells at a higher price: that
// it is less is never assumed. SalesToTell, VisitorsToTell and ExposureToTell say
// how long a trial has to be, and Next which of the allowed prices is worth one.
//
// All of it assumes that sales come one by one, independently, at a rate that
// does not change while a price stands, and that a period does not end because
// of what was sold in it. What was estimated is rounded to six significant
// digits, the same on every machine. It has no zeros at its end, and at most 16
// places after the point: so 0.5 is written with one digit, what is below 10^−11
// with fewer than six, and what is not above half of 10^−16 is 0.
package trial
