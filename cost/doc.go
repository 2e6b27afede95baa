// Package cost answers what making one print costs, before anything is lost.
//
// A Supply is something as it is bought: 50 sheets for 62.00 with 6.90
// freight. Its unit cost is landed: what one sheet costs once it is here. A
// Bill lists how much of which supply goes into one print or one parcel, and
// a Run what starting the printer costs, shared by the good prints of the run.
//
// What a line takes may follow from something else: from what is cut out of a
// sheet (package cut), from the ink of an image (ink), from a frame around a
// glass (frame). BillLine.Work works it out. What a supply costs may follow from a
// seller's scale or from what is in stock (buy), and a machine is counted like a
// supply (machine). Whether to make prints or have them made, package source
// answers.
//
// A line is counted by its Driver: each started or good print, each order, run,
// batch, design, listing or period.
//
// Nothing here is rounded: costs of single sheets are fractions of a cent, and
// rounding them would be multiplied by every print.
package cost
