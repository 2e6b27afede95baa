// Package schematest holds the JSON Schemas of the shop document and of the
// answer to the Go types and to the decoder, in its tests. It is a module of
// its own, so that the library needs no validator.
package schematest
