// Package machine computes what a machine adds to each started print: a printer, a press, a mat
// cutter.
//
// The loss in value of a machine is spread over the prints that it is expected to make: by time,
// by use, or with interest on the money in it. A machine of 1200.00 that brings 200.00 after 2,000
// prints adds 0.50 to a print. Each answer states the number of prints. That number is an
// expectation, and the cost is only as good as it.
package machine
