// Package schematest holds the JSON Schemas of the shop document, of the answer and of the lines
// of a history to what is read and written, by a validator of others, in its tests. It is a
// module of its own, so that the library needs no validator.
package schematest
