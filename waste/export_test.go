package waste

// Stepwise is the definition that StartsFor is held against, Fast what is faster.
var (
	Stepwise = stepwise
	Fast     = fast
)
