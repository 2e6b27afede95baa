// Package history keeps what happened as plain records: which prices were asked and from when,
// what was reduced, which numbers of an edition were sold, and which prices were tried.
//
// A shop document says what holds today. To know what held last spring, write things down as
// they happen, and never write over them. A history is therefore a file to which lines are
// added, each a JSON object. The word in "record" says what kind of line it is:
//
//	{"record":"price","product":"bittern-a3","price":"79.00","from":"2026-01-10"}
//	{"record":"reduction","product":"bittern-a3","channel":"web","price":"65.00","from":"2026-05-24","until":"2026-06-01"}
//	{"record":"sale","edition":"bittern","number":7,"date":"2026-04-12"}
//	{"record":"trial","id":"heron-15","product":"heron-a5", …,"exposure":"412","exposure_unit":"visits","sold":9}
//
// A period does not include the day in "until". A price from 1 March until 1 April holds on 31
// March, and not on 1 April. The next period can begin on the day on which this one ends, and no
// day is counted twice. A price without an end holds until the next price of the same product in
// the same channel begins.
//
// If two records contradict each other, New returns an error that names both.
//
// # Reading and asking
//
// Read and ReadAll read lines and report everything that is wrong with them. Append makes a line
// of an entry. The package itself opens and writes no file. New takes records in any order and
// returns a History, which answers:
//
//   - Timeline: which price was in force on a day, when it changed, and on which days there was
//     none.
//   - LowestBefore: the lowest price of the days before a reduction.
//   - Sold: which numbers of an edition were sold, in which month, and which are left.
//   - Trials: the prices that were tried.
//   - Warnings: what looks wrong.
//
// Each answer names the lines that it comes from.
//
// There is no clock here. Every question about a day is given that day. The file format.md
// describes the lines, and line.schema.json does so for programs.
package history
