// Package sheet writes an answer for people to read. Writing is apart from
// deciding: everything printed here is data in the answer.
package sheet
