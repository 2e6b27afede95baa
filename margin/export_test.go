package margin

// RoundPart is n ÷ by of a figure that may be off by so much, rounded, and whether that is known;
// both by the fast way and by dividing.
func RoundPart(n, by uint64, figure, off int64) (fast, divided int64, sure bool) {
	p := partOf(n, by)
	sure, also := true, true
	fast = p.round(fixed{figure, off}, &sure)
	divided = p.divided(fixed{figure, off}, &also)
	return fast, divided, sure && also
}
