// Package frame computes what a frame around a print takes: moulding, mat and glass. Frames are
// sold by the size of their glass.
//
// Moulding is cut at 45°, so each of the four corners takes its width twice. Glass of W × H in a
// moulding of width w takes 2(W + H) + 8w, plus what the saw cuts lose. Mats and glass are cut out
// of sheets (package cut), or bought by the united inch: width + height. Fitting is working time
// on the bill. What breaks while fitting is a stage with its yield.
package frame
