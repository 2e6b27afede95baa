// Package house holds the module to its own design, in its tests.
package house
