package route

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// ChangeKind names a single change to the drawing or the rules.
type ChangeKind string

// The changes that are tried.
const (
	StartElsewhere ChangeKind = "start"
	LeaveElsewhere ChangeKind = "leave"
	BothElsewhere  ChangeKind = "both"
	AddLine        ChangeKind = "add"
	DropLine       ChangeKind = "drop"
	AllowSeam      ChangeKind = "seam"
	AllowStop      ChangeKind = "stop"
)

// Change is a single change and what it saves, found by solving anew.
type Change struct {
	Kind ChangeKind
	// Start and Exit are the ends of the route after a change of ends; Nowhere
	// for a closed route.
	Start, Exit int
	// From and To are the junctions that a new straight line joins, or between
	// which the one stop leads.
	From, To int
	// Edge is the line dropped, Stroke names the seam allowed.
	Edge   int
	Stroke string
	// LengthMM is the length of the line added or dropped.
	LengthMM float64
	// Added is what the best route then adds, in mm; a stop that is allowed is not
	// counted in it. Saves is by how much that is less.
	Added, Saves float64
}

// mostOfAKind is how many changes of one kind are given.
const mostOfAKind = 3

// trialWork bounds how many changes of each kind to the drawing are solved anew,
// in lines: ten for a block of a hundred lines, one or two for a whole top. Most
// of what saves is known without.
const trialWork = 1 << 10

// changeWork bounds the search over loose pieces for each change.
const changeWork = searchWork / 64

// trial is a solver of changes to one drawing.
type trial struct {
	*finder
	demand
	rules   Rules
	reasons Reasons
	join    join // the least with the route's own ends
	proof   proof
	now     float64 // what the route adds as things are
	found   []Change
	untried int
}

// tryAll tries all single changes of route r and puts those that save into
// found, the best first.
func (t *trial) tryAll(r Route) error {
	if t.now <= costSlack {
		return nil
	}
	for _, try := range []func() error{
		func() error { return t.tryEnds(r) }, t.tryStop, t.trySeams, t.tryDrops, t.tryLines,
	} {
		if err := try(); err != nil {
			return err
		}
	}
	slices.SortStableFunc(t.found, func(a, b Change) int {
		return cmp.Or(cmp.Compare(b.Saves, a.Saves), cmp.Compare(a.LengthMM, b.LengthMM))
	})
	return nil
}

// solve returns what the best route for d adds, +Inf if there is none.
func (t *trial) solve(d demand) (join, float64, error) {
	j, _, _, err := t.leastConnected(d)
	if errors.Is(err, ErrApart) {
		return j, math.Inf(1), nil
	}
	if err != nil {
		return j, 0, err
	}
	return j, mm(j.cost), nil
}

// keep adds c if it saves.
func (t *trial) keep(c Change, added float64) {
	c.Added, c.Saves = added, t.now-added
	if c.Saves > costSlack {
		t.found = append(t.found, c)
	}
}

// ignoreApart returns err unless it says that there is no way across.
func ignoreApart(err error) error {
	if errors.Is(err, ErrApart) {
		return nil
	}
	return err
}

// blank returns a change that names nothing yet.
func blank(kind ChangeKind) Change {
	return Change{Kind: kind, Start: Nowhere, Exit: Nowhere, From: Nowhere, To: Nowhere, Edge: Nowhere}
}

// freed lists the rules for the ends that leave one end of route r, or both, open.
func freed(e Ends, r Route) map[ChangeKind]Ends {
	free := Ends{Rule: Free, Start: Nowhere, Exit: Nowhere}
	switch e.Rule {
	case Fixed:
		return map[ChangeKind]Ends{
			// Found backwards, from the exit that stays.
			StartElsewhere: {Rule: StartOnly, Start: r.Exit, Exit: Nowhere},
			LeaveElsewhere: {Rule: StartOnly, Start: r.Start, Exit: Nowhere},
			BothElsewhere:  free,
		}
	case StartOnly:
		return map[ChangeKind]Ends{StartElsewhere: free}
	case Closed:
		return map[ChangeKind]Ends{
			LeaveElsewhere: {Rule: StartOnly, Start: r.Start, Exit: Nowhere},
			BothElsewhere:  free,
		}
	}
	return nil
}

// tryEnds frees each end that the rules fix: one solution finds the best of all
// places for it.
func (t *trial) tryEnds(r Route) error {
	options := freed(t.rules.Ends, r)
	for _, kind := range []ChangeKind{StartElsewhere, LeaveElsewhere, BothElsewhere} {
		ends, is := options[kind]
		if !is {
			continue
		}
		d := t.demand
		d.ends = ends
		j, added, err := t.solve(d)
		if err != nil {
			return err
		}
		if last := len(t.found) - 1; kind == BothElsewhere && last >= 0 && added > t.found[last].Added-costSlack {
			continue // one end elsewhere does as well
		}
		c := blank(kind)
		c.Start, c.Exit = int(j.start), int(j.exit)
		if kind == StartElsewhere && ends.Rule == StartOnly {
			c.Start, c.Exit = c.Exit, c.Start
		}
		if c.Exit == Nowhere {
			c.Exit = c.Start
		}
		if c.Start == Nowhere {
			c.Start = c.Exit
		}
		t.keep(c, added)
	}
	return nil
}

// tryStop grants one stop-and-start where the rules allow none.
func (t *trial) tryStop() error {
	if !math.IsInf(t.rules.Costs.Jump, 1) {
		return nil
	}
	d := t.demand
	d.stops = 1
	j, _, err := t.leastJoin(d)
	if err != nil || !t.n.connected(d, j) || len(j.stops) != 2 {
		return ignoreApart(err)
	}
	c := blank(AllowStop)
	c.From, c.To = int(j.stops[0]), int(j.stops[1])
	t.keep(c, mm(j.cost))
	return nil
}

// trySeams opens each barred seam by itself, unless all of them together save
// nothing.
func (t *trial) trySeams() error {
	var strokes []string
	for _, e := range t.n.g.Edges {
		if !e.Kind.Must() && t.rules.bars(e.Stroke) && !slices.Contains(strokes, e.Stroke) {
			strokes = append(strokes, e.Stroke)
		}
	}
	if len(strokes) == 0 {
		return nil
	}
	opened := func(open func(stroke string) bool) (float64, error) {
		d := t.demand
		d.bans = slices.Clone(d.bans)
		for i, e := range t.n.g.Edges {
			d.bans[i] = d.bans[i] && !open(e.Stroke)
		}
		_, added, err := t.solve(d)
		return added, err
	}
	all, err := opened(func(string) bool { return true })
	if err != nil || all > t.now-costSlack {
		return err
	}
	for _, stroke := range strokes {
		added, err := opened(func(s string) bool { return s == stroke })
		if err != nil {
			return err
		}
		c := blank(AllowSeam)
		c.Stroke = stroke
		t.keep(c, added)
	}
	return nil
}
