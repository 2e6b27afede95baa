package annual

// Reduced is for tests of what is said of reductions alone.
var Reduced = Year.reduced
