// Package waste computes what is spoiled, and so how many pieces must be started for one good
// piece.
//
// A yield is the share of started pieces that come out good. Losing 15% is a yield of 85%. It
// takes 1 ÷ 0.85 = 1.17647 starts for a good piece. Adding 15% instead would cover a loss of only
// 13.04%. Yields of consecutive stages multiply. A supply that enters at a stage is lost with
// everything that fails there and later, and with nothing that failed before.
package waste
