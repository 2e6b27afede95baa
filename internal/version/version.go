// Package version says which version of the library this is.
package version

// Version is the version of the library, as its tags and CHANGELOG.md number it.
const Version = "0.1.0"

// Engine is what answers say that they were worked out by.
const Engine = "quoin " + Version
