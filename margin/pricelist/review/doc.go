// Package review goes over a price list after a year: what has changed, what that did
// to the least prices, and what to do about each price now.
//
// A price list is right on the day that it is made. A year later paper is dearer, a
// channel has raised its fee, postage has gone up twice, and the list is as it was.
// Going over it takes four looks:
//
//  1. What changed. Write the document anew with what things cost now, and lay it over
//     the last one. Entries of lists are matched by their ids, so that a supply put in
//     at the top shifts nothing (Review.Changes).
//  2. What each change did. Costs give a floor, the least price at which the rules still
//     hold that ask something of channels. If paper and a fee rose together, part of
//     what the floor moved belongs to neither: a dearer sheet bears the higher fee too.
//     Going through the changes one by one gives it to whichever comes last. Here each
//     change gets the mean over all orders, its Shapley value, which sums to the whole
//     and depends on no order (Review.Floors). Beside it stands which channel asked
//     for the floor before, and which does now. A floor is looked for to the cent, whatever
//     prices can be asked: on a grid of whole euros a change of 0.28 would be said to move
//     the price by 1.00, or not at all.
//  3. Which prices no longer hold. A price that breaks a rule loses what the rule was
//     there for with every sale (Review.Broken).
//  4. What to do. Where the price that the new document decides is near, go there now;
//     where it is further than buyers are to be asked for at once, take a first step, and
//     wait with the rest (Review.Moves). Each rise says how much of the volume may stay
//     away in each channel so that the shop is no worse off: a rise of the price that
//     raises what a sale keeps by half again may lose a third of the sales. What buyers
//     will do no document says; that is for a trial.
//
// Compare does all of it. Before asking suppliers again it pays to know which figures
// matter: Sensitivity moves each of them by a tenth, down and up, and sorts them by what
// that does to the floors. Three or four move a floor by more than a few cents, as a
// rule, and these are the ones to know well.
//
// All amounts are exact, up to the quotient of a mean. Nothing here looks at a clock;
// how long ago the last list was makes no difference. Package annual puts a review together
// with a history, trials and records of a market, and writes it as text and Markdown.
package review
