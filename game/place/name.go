package place

// Name is the name of a place: a part of the job, one of which is on the screen.
type Name string

// The places, which the table of the program has in the order of the job.
const (
	QuiltPlan Name = "quilt"
	Draw      Name = "draw"
	RoutePlan Name = "route"
	Rehearse  Name = "rehearse"
	LookBack  Name = "back"
	Machine   Name = "machine"
)
