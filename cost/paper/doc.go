// Package paper answers what paper weighs: grammage, the mass of a sheet, and
// the basis weights of the trade in pounds.
package paper
