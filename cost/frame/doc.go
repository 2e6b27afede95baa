// Package frame answers what a frame around a print takes: moulding, mat,
// glass. Frames are sold by the size of their glass.
//
// Moulding is cut at 45°, so each of the four corners takes its width twice:
// glass of W × H in a moulding of width w takes 2(W + H) + 8w, and what the
// cuts themselves lose. Mats and glass are cut out of sheets (package cut), or
// bought by the united inch, width + height. Fitting is working time on the
// bill, and what breaks while fitting a stage with its yield.
package frame
