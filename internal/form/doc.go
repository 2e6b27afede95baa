// Package form knows what the tags of structs say: how they stand in JSON, which numbers and words a
// field takes, and what has to be given. It reads documents, lots, answers and records, writes
// answers, checks values made in Go as it checks JSON, and copies them. It knows nothing of prices.
package form
