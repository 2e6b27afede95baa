// Package history keeps what happened as plain records: what was asked and
// from when, what was reduced, which numbers of an edition were sold, which
// prices were tried.
//
// What a shop document says holds today. To answer what held last spring, the
// past has to be written down as it happens, and never be written over. So a
// history is a file to which lines are added, one JSON object each, with a word
// that says what kind of record it is:
//
//	{"record":"price","product":"bittern-a3","price":"79.00","from":"2026-01-10"}
//	{"record":"reduction","product":"bittern-a3","channel":"web","price":"65.00","from":"2026-05-24","until":"2026-06-01"}
//	{"record":"sale","edition":"bittern","number":7,"date":"2026-04-12"}
//	{"record":"trial","id":"heron-15","product":"heron-a5", …,"exposure":"412","exposure_unit":"visits","sold":9}
//
// Days are half-open: a price from 1 March until 1 April holds on 31 March and
// not on 1 April. So one period may begin on the day on which another ends, and
// nothing is counted twice or left out. A price without an end holds until the
// next one of the same product and channel begins. Where two records cannot
// both be true, neither is guessed away: New refuses them and names both.
//
// Read and ReadAll read lines, strictly; Append makes a line of an entry. The
// package reads what it is handed and writes nothing. New puts records together,
// in whatever order they stand, and the History answers: Timeline, which price
// was in force on a day, when it changed and where there are gaps;
// LowestBefore, the lowest price of the days before a reduction; Sold, the
// numbers of an edition, by month, and what is left; Trials. Warnings says what
// looks wrong. Each answer carries the lines that it was found from.
//
// There is no clock here: every question about a day is given that day.
// format.md describes the lines, line.schema.json says the same to programs.
package history
