package channel_test

import (
	"testing"

	"example.com/quoin/channel"
	"example.com/quoin/internal/zerotest"
)

// Terms that no channel made bring nothing, and have no kind of order to be asked for.
func TestZeroTerms(t *testing.T) { zerotest.Calls(t, channel.Terms{}) }
