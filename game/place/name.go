package place

import "slices"

// Name is the name of a place: a part of the job, one of which is on the screen.
type Name string

// The places there are, in the order of the job.
const (
	QuiltPlan Name = "quilt"
	Draw      Name = "draw"
	RoutePlan Name = "route"
	Rehearse  Name = "rehearse"
	LookBack  Name = "back"
	Machine   Name = "machine"
)

// Names are the places in the order of the job.
var Names = []Name{QuiltPlan, Draw, RoutePlan, Rehearse, LookBack, Machine}

// Known returns the place, or "" for one that this version does not have.
func (n Name) Known() Name {
	if slices.Contains(Names, n) {
		return n
	}
	return ""
}
