package quoin

// Version is the version of the library, as its tags and CHANGELOG.md number it. Answers say by
// which version they were worked out.
const Version = "0.1.0"
