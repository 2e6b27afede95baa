// Package source answers whether to make prints at home or have a print house
// make them, at which volumes that changes, and how many to have made.
//
// At home a run costs something to set up and something for each good print; a
// print house quotes prices that fall with the quantity, in steps. So the better
// source changes with the volume, often more than once: every volume where it
// does is found, from the lines between the steps, and not by trying each.
//
// How many to order when demand is uncertain is the newsvendor's question: so
// many that demand stays below them as often as one print short costs more than
// one left over.
package source
