// Package review goes over a price list after a year: what has changed, what that did to the
// lowest possible prices, and what to do about each price now.
//
// A price list is right on the day it is made. A year later paper costs more, a channel has
// raised its fee, and the list is still the same. Write the document anew with what things cost
// now, and let Compare look at both:
//
//	r, err := review.Compare(last, prices, now, quoin.MustRate("10%"))
//
// The review then has four parts.
//
//  1. What changed (Review.Changes). Entries of lists are matched by their ids, so a supply that
//     is added at the top does not count as a change of those below it.
//  2. What each change did (Review.Floors). The floor of a product is the lowest price at which
//     its cost multiples, margins and contributions hold. Say that it rose from 16.96 to 18.36.
//     Then 0.64 of the 1.40 come from a fee, 0.38 from paper and 0.38 from mailers. Where paper
//     and a fee rise together, part of the rise belongs to both, since dearer paper also bears the
//     higher fee. Each change gets its Shapley value: the mean of its effect over all orders in
//     which the changes could have come. The parts add up to the whole, whatever the order.
//     Floors are exact to the cent, whatever price step the document has. Review.Floors also says
//     which channel needed the highest price before, and which does now.
//  3. Which prices no longer hold (Review.Broken): those that break a rule of the new document.
//  4. What to do (Review.Moves). If the new price is near, go there now. If it is further than
//     buyers should bear at once, take a first step and wait with the rest. Each rise says how
//     much of its sales each channel may lose before the shop earns less. If a sale leaves 4.00
//     before and 6.00 after, a third of the sales may stay away. Whether they will, only a trial
//     can tell (package trial).
//
// Sensitivity says which figures matter, before you ask suppliers again. It moves each figure
// down and up by a tenth and sorts figures by how far that moves the floors. Usually three or
// four of them move a floor by more than a few cents. Know these well.
//
// All amounts are exact, but for the mean in a Shapley value, a quotient of 34 digits. There is
// no clock here: how old the last list is makes no difference. Package annual adds a history,
// trials and a market to a review, and writes it as text and Markdown.
package review
