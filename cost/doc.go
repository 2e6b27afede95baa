// Package cost answers what making one print costs, before anything is lost.
//
// A Supply is something as it is bought: 50 sheets for 62.00 with 6.90
// freight. Its unit cost is landed: what one sheet costs once it is here. A
// Bill lists how much of which supply goes into one print or one parcel, and
// a Run what starting the printer costs, shared by the good prints of the run.
//
// Nothing here is rounded: costs of single sheets are fractions of a cent, and
// rounding them would be multiplied by every print.
package cost
