package source

// Beyond returns what money does not say about where prints are made, to be
// weighed beside the cost: each with a stable word and a sentence.
func Beyond() []Consideration {
	return []Consideration{
		{"colour", "Who sees and corrects the colour before the run, and what a second proof takes."},
		{"waiting", "How long a reprint takes when one size sells out."},
		{"commitment", "How much is bound in prints that may not sell, and where they are kept."},
		{"faults", "Who finds a fault, when, and who pays for the reprint."},
		{"edition", "Whether each sheet can be signed, numbered and accounted for."},
		{"hours", "What the hours at home would otherwise be used for."},
		{"dependence", "What happens when the machine, or the house, is not there."},
	}
}

// Consideration is one thing to weigh.
type Consideration struct {
	Code     string `json:"code"`
	Sentence string `json:"sentence"`
}
