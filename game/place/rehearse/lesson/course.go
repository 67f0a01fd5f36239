package lesson

import (
	"fmt"
	"slices"

	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
)

// leastShare is the share of a line that a trace must follow to be the one that was
// asked for.
const leastShare = 0.5

// Course is where she is in learning lines. Its methods leave the one they are called
// on as it is.
type Course struct {
	// On tells that she is at it, and has not left for tracing freely.
	On   bool
	Plan practice.Course
	// Lines are those of the plan, in its order.
	Lines []Line
	// Guessed counts how often she said how even a trace was, Right how often so it
	// was.
	Guessed, Right int
	// Asked is the ID of the trace whose evenness she has yet to say.
	Asked string
}

// ladder is the guide by how often a line was traced that comes into the mix: what she
// has hardly seen cannot be sewn from memory.
var ladder = []progress.Guide{progress.Whole, progress.Dots, progress.Ends}

// Begin starts a course for a line and mixes it with others, which she may have traced
// before. Lines that stand twice are left out.
func Begin(seed practice.Seed, line Line, others []Line) (Course, error) {
	line.Taught = true
	c := Course{On: true, Lines: []Line{line}}
	var known []string
	for _, o := range others {
		if c.find(o.ID) < 0 {
			c.Lines = append(c.Lines, o)
			known = append(known, o.ID)
		}
	}
	var err error
	c.Plan, err = practice.Start(seed, []string{line.ID}, known)
	return c, err
}

// Learn goes on with a line as it lies on the cloth: it comes next, where she was with
// it. One that is not in the course yet, or only to be mixed in, is learnt from its
// beginning.
func (c Course) Learn(line Line) (Course, error) {
	c.On, line.Taught = true, true
	k := c.find(line.ID)
	if k < 0 {
		plan, err := practice.Add(c.Plan, line.ID)
		if err != nil {
			return c, err
		}
		c.Plan, k = plan, len(c.Lines)
		c.Lines = append(slices.Clone(c.Lines), line)
	}
	if c.Plan.Current != k {
		c.Plan.Current, c.Plan.Mixed = k, 0
	}
	before := c.Line()
	line.Seen = before.Seen
	c = c.Lay(line)
	if !before.Taught {
		return c.Anew(), nil
	}
	return c, nil
}

func (c Course) find(id string) int {
	return slices.IndexFunc(c.Lines, func(l Line) bool { return l.ID == id })
}

// Line returns the line that comes next.
func (c Course) Line() Line { return c.Lines[c.Plan.Current] }

// Lay notes the line that comes next as it was laid on the cloth, or that it cannot
// be.
func (c Course) Lay(line Line) Course {
	c.Lines = slices.Clone(c.Lines)
	c.Lines[c.Plan.Current] = line
	return c
}

// Step returns what to do at a time in s since 1970. A line of the mix that she has
// hardly traced has the guide that its number of traces asks for.
func (c Course) Step(now float64) practice.Step {
	s := practice.Next(c.Plan, now)
	if !s.Mix {
		return s
	}
	n := c.Lines[c.Plan.Current].Seen + c.Plan.Motifs[c.Plan.Current].Traces
	if n < len(ladder) {
		s.Guide = ladder[n]
		s.Meter, s.Guess, s.Counts = n == 0, n > 0, false
	}
	return s
}

// After returns what will be next once the step at a time now is done.
func (c Course) After(now float64) practice.Step {
	plan, err := practice.Done(c.Plan, now, 0)
	if err != nil {
		return c.Step(now)
	}
	c.Plan = plan
	return c.Step(now)
}

// Made returns the course after a trace of the line that comes next, begun at a time in
// s since 1970, so many seconds long, which followed a share of the line. A trace of
// less than half of it is none of the course, but tires all the same.
func (c Course) Made(at, seconds, share float64) (next Course, done bool, err error) {
	if share < leastShare {
		next, err = c.Elsewhere(at, seconds)
		return next, false, err
	}
	plan, err := practice.Done(c.Plan, at, seconds)
	if err != nil {
		return c, false, fmt.Errorf("this trace: %w", err)
	}
	c.Plan = plan
	return c, true, nil
}

// Elsewhere returns the course after a trace that is none of its own.
func (c Course) Elsewhere(at, seconds float64) (Course, error) {
	plan, err := practice.Elsewhere(c.Plan, at, seconds)
	if err != nil {
		return c, fmt.Errorf("this trace: %w", err)
	}
	c.Plan = plan
	return c, nil
}

// Skip leaves the next step out.
func (c Course) Skip() Course { c.Plan = practice.Skip(c.Plan); return c }

// Again asks for the step of the last trace once more.
func (c Course) Again() Course { c.Plan = practice.Again(c.Plan); return c }

// Anew begins the row of the line that comes next from its first trace.
func (c Course) Anew() Course {
	c.Plan.Motifs = slices.Clone(c.Plan.Motifs)
	c.Plan.Motifs[c.Plan.Current].Done = 0
	return c
}

// Said counts a guess of how even a trace was, and what it was.
func (c Course) Said(guess, was practice.Band) Course {
	c.Asked = ""
	c.Guessed++
	if guess == was {
		c.Right++
	}
	return c
}

// Ask notes the trace whose evenness she is asked for; "" for none.
func (c Course) Ask(id string) Course { c.Asked = id; return c }
