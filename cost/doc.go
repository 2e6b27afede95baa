// Package cost computes what one print costs to make, before anything is spoiled.
//
// A Supply is something that is bought: 50 sheets for 62.00, with 6.90 freight. Its unit cost is
// landed: 68.90 ÷ 50 = 1.378 a sheet. A Bill lists how much of each supply goes into one print or
// one parcel. A Run is a print run; its set-up and test prints are shared by its good prints.
//
// The quantity of a line can be computed: from what is cut out of a sheet (package cut), from the
// ink of an image (ink), or from the frame around a glass (frame). BillLine.Work computes it. The
// cost of a supply can come from a seller's price list or from a stock (buy). A machine is counted
// like a supply (machine). Package source compares making prints with buying them.
//
// A line is counted by its Driver: each started or good print, each order, run, batch, design,
// listing or period.
//
// Nothing here is rounded. The cost of a sheet is a fraction of a cent, and a rounding error would
// be multiplied by every print.
package cost
