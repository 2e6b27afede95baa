// Package paper computes what paper weighs: its grammage, the mass of a sheet, and the basis
// weights in pounds that the paper trade uses.
package paper
