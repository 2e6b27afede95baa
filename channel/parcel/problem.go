package parcel

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Codes of parcels that cannot be sent, and of packings.
const (
	NothingFits quoin.Code = "nothing_fits_parcel" // the sheet goes into no packing, or not into this one
	NoStep      quoin.Code = "no_tariff_step"      // no step of the zone takes the parcel
	UnknownZone quoin.Code = "unknown_zone"        // a zone that the tariff does not have
	Dearer      quoin.Code = "dearer_packing"      // a warning: it would do, for more
	StrayDepth  quoin.Code = "stray_depth"         // a tube with a depth
)

func fault(code quoin.Code, at, found, wanted string) quoin.Problem {
	return quoin.Problem{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted}
}

func noPacking(wanted string) quoin.Problem {
	return fault(NothingFits, "packings", "no packing", wanted)
}

// refusal says why no step of the zone takes a parcel: what stands in the way
// at the step that comes closest, which is the one that was looked at longest,
// and of those the one with the highest limit.
func (z Zone) refusal(w weighed) quoin.Problem {
	var nearest PriceBand
	reason := nothing
	for _, s := range z.Steps {
		o := s.obstacle(w)
		if o > reason || o == reason && s.limit(o).Cmp(nearest.limit(o)) > 0 {
			nearest, reason = s, o
		}
	}
	found, wanted, remedy := nearest.say(reason, w)
	return quoin.Problem{Code: NoStep, Severity: quoin.Fault, Found: found, Wanted: wanted, Remedy: remedy}
}

// limit is how much a step takes of what an obstacle is about.
func (s PriceBand) limit(o obstacle) quoin.Factor {
	switch o {
	case byLongest:
		return mm(s.LongestSide)
	case byGirth:
		return mm(s.LengthAndGirth)
	case byBox:
		return volume(*s.Within)
	case byMass:
		return grams(s.Mass)
	}
	return quoin.Factor{}
}

// say puts an obstacle into words.
func (s PriceBand) say(o obstacle, w weighed) (found, wanted, remedy string) {
	switch o {
	case byClass:
		found = "a parcel of class " + prose.Quoted(w.class)
		if w.class == "" {
			found = "a parcel of no class"
		}
		return found, "one of class " + listed(s.Classes), "give the packing one of these classes, if it is so stiff"
	case byLongest:
		return "a parcel " + short(w.sides[0]) + " mm long", "one of at most " + s.LongestSide.String(), ""
	case byGirth:
		return "a parcel of " + short(around(w.sides)) + " mm length and girth", "one of at most " + s.LengthAndGirth.String(), ""
	case byBox:
		return fmt.Sprintf("a parcel of %s × %s × %s mm", short(w.sides[0]), short(w.sides[1]), short(w.sides[2])),
			fmt.Sprintf("one within %s × %s × %s", s.Within.Length, s.Within.Width, s.Within.Height), ""
	case byMass:
		return "a parcel charged as " + short(w.grams) + " g", "one of at most " + s.Mass.String(), ""
	}
	return "no steps", "the prices of the zone", ""
}

// mostListed is how many names a problem lists.
const mostListed = 12

// listed writes names for a person, the first of many, shortened where they are long.
func listed(names []string) string {
	out := make([]string, 0, mostListed)
	for _, name := range names[:min(len(names), mostListed)] {
		if quoted := prose.Quoted(name); quoted != `"`+name+`"` {
			name = quoted
		}
		out = append(out, name)
	}
	text := strings.Join(out, ", ")
	if more := len(names) - mostListed; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// short writes a number for a person, with few places.
func short(f quoin.Factor) string { return f.Figure().Round(2) }
