package history

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// TrialsIn is the trials of a product in a channel, by their beginnings. None
// of them overlap.
type TrialsIn struct {
	Product string          `json:"product"`
	Channel string          `json:"channel"`
	Trials  []Placed[Trial] `json:"trials"`
}

// Trials returns all trials, by product and channel.
func (h History) Trials() []TrialsIn {
	var out []TrialsIn
	for _, at := range slices.SortedFunc(maps.Keys(h.trials), byName) {
		out = append(out, TrialsIn{at.product, at.channel, slices.Clone(h.trials[at])})
	}
	return out
}

// TrialsOf returns the trials of one product in one channel, by their
// beginnings; nil where there are none.
func (h History) TrialsOf(product, channel string) []Placed[Trial] {
	return slices.Clone(h.trials[place{product, channel}])
}

// checkTrials reports trials that overlap, and ids that are given twice.
func (b *builder) checkTrials() {
	var all []trialAt
	for _, at := range slices.SortedFunc(maps.Keys(b.trials), byName) {
		group := b.trials[at]
		slices.SortFunc(group, func(t, u trialAt) int {
			return cmp.Or(cmp.Compare(t.source.stated.from, u.source.stated.from), written(t.source, u.source))
		})
		sources := make([]source, len(group))
		for i, t := range group {
			sources[i] = t.source
		}
		b.overlaps(sources, at)
		all = append(all, group...)
	}
	slices.SortFunc(all, func(t, u trialAt) int { return written(t.source, u.source) })
	for _, t := range all {
		first, again := b.ids[t.Entry.ID]
		if !again {
			b.ids[t.Entry.ID] = t.source
			continue
		}
		b.fault(t.source.line, t.source.index, "id", quoin.Problem{
			Code: quoin.DuplicateID, Found: fmt.Sprintf("%s, %s, and that of %s", prose.Quoted(t.Entry.ID), t.source.stated.days(), first.name()), Wanted: "an id of its own for each trial",
			Args: append(periodArgs("", t.source), periodArgs("other_", first)...),
		})
	}
}

// written compares records by where they stand.
func written(a, b source) int {
	return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.index, b.index))
}
