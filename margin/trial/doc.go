// Package trial says what a trial of prices has shown so far, and which price to try next.
//
// A print sold twelve times at 79.00 and nine times at 89.00, each to 640 visits. Which price
// earns more? The one that sells more need not: a sale at 89.00 leaves more. The one that is
// ahead need not either: with so few sales, chance alone can do that. So there are three
// answers: better, worse, and can't tell yet.
//
//	c, err := trial.Compare(at89, at79, trial.Options{})
//	c.Answer                     // trial.CannotTell
//	c.Needed                     // how many sales an answer takes
//
// # Comparing prices
//
// A Period is a stretch of time at one price. It says from when to when and in which channel the
// price stood, on what kind of occasion, how many were sold, and out of how many visits, visitors,
// stand days or days online: the exposure. Compare takes the periods at two prices and what a
// sale leaves at each. It compares like with like: fairs are not compared with the web, nor
// visits with days. What has nothing to compare with is left out, and the answer says why.
//
// Who checks every week, and stops at the first difference, will find one where there is none.
// With an ordinary 5% test, ten checks are wrong in 19 of 100 trials (Inflation). Compare answers
// only at a boundary that holds however often you check. Beside it stand the ordinary intervals,
// under Once, which hold for a single check.
//
// # Single figures
//
// RateOf and ShareOf say how uncertain one count is, and CompareRates compares two of them.
// Elasticity and SlopeOf say how much more or less sells at a higher price; neither assumes that it
// is less. SalesToTell, VisitorsToTell and ExposureToTell say how long a trial has to be. Next
// says which of the allowed prices is worth a trial.
//
// # What is assumed
//
// Sales come one by one and do not depend on each other. Their rate does not change while a price
// stands. A period does not end because of what was sold in it.
//
// Estimates are rounded to six significant digits, so that they are the same on every machine.
// They have at most 16 places after the point: figures below 10^−11 have fewer digits than six.
package trial
