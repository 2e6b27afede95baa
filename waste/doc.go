// Package waste answers what is lost on the way, and so how many pieces have
// to be started for one good one.
//
// A yield is the share of what is started that comes out good. Losing 15% is a
// yield of 85%, and takes 1 ÷ 0.85 = 1.17647 starts for a good piece: dividing,
// not adding 15%, which would cover only 13.04% lost. Yields of stages in a row
// multiply; a supply that enters at a stage is lost with all that fails there
// and later, and with nothing that failed before.
package waste
