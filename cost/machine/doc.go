// Package machine answers what a machine adds to each started print: a printer,
// a press, a mat cutter.
//
// What a machine loses in value is spread over the prints it is expected to
// make, by time, by use, or with what the money tied up in it would bring
// elsewhere. Each answer states the number of prints that it was spread over:
// it is an expectation, and the cost is as good as that.
package machine
