package practice

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/scoring/progress"
)

// Done returns the course after a trace of the step that Next gave, begun at a time in
// seconds since 1970 and so many seconds long. The last trace of a row is asked for again
// if it does not count, as when she comes back for it on another day. A clock that went
// back is taken for one that stood still. It fails on times that are not finite and on a
// trace that took less than no time.
func Done(c Course, at, seconds float64) (Course, error) {
	if err := during(at, seconds); err != nil {
		return c, err
	}
	c.Motifs = slices.Clone(c.Motifs)
	at = max(at, c.Sitting.To)
	step := Next(c, at)
	c.Before = Before{c.Current, c.Motifs[c.Current].Done, c.Mixed}
	c.Sitting = c.Sitting.after(at, seconds)
	c.Motifs[c.Current].Traces++
	if step.Mix {
		c.Sitting.Mixed++
	}
	if !step.Mix && step.Number == step.Of && !step.Counts {
		return c, nil
	}
	return c.advance(), nil
}

// Elsewhere returns the course after a trace that is none of its own, as one of a
// warm-up: it warms the hand and tires it. Fails as Done does.
func Elsewhere(c Course, at, seconds float64) (Course, error) {
	if err := during(at, seconds); err != nil {
		return c, err
	}
	c.Sitting = c.Sitting.after(max(at, c.Sitting.To), seconds)
	return c, nil
}

// Skip returns the course with its next step left out.
func Skip(c Course) Course {
	c.Motifs = slices.Clone(c.Motifs)
	return c.advance()
}

// Again returns the course with the step of the last trace as its next; before the first
// trace it changes nothing. What was skipped since then comes again too.
func Again(c Course) Course {
	if c.Before.Motif < 0 {
		return c
	}
	c.Motifs = slices.Clone(c.Motifs)
	c.Current, c.Mixed = c.Before.Motif, c.Before.Mixed
	c.Motifs[c.Current].Done = c.Before.Done
	return c
}

// Add returns the course with one more motif to learn, after all others. It fails on a
// name that is empty or there already.
func Add(c Course, name string) (Course, error) {
	u, seed := c.Seed.next()
	next := c
	next.Seed = seed
	next.Motifs = append(slices.Clone(c.Motifs), Motif{Name: name, Row: LeastRow + int(u*(MostRow-LeastRow+1))})
	if err := next.Validate(); err != nil {
		return c, err
	}
	return next, nil
}

func during(at, seconds float64) error {
	if math.IsNaN(at+seconds) || math.IsInf(at+seconds, 0) || seconds < 0 {
		return fmt.Errorf("a trace that began at %v s and took %v s", at, seconds)
	}
	return nil
}

// advance goes on by one step; the motifs are the course's own.
func (c Course) advance() Course {
	m := &c.Motifs[c.Current]
	if m.Known() {
		c.Mixed++
		return c.pick()
	}
	if m.Done++; m.Known() {
		c.Mixed, c.Sitting.Mixed = 0, 0
		return c.pick()
	}
	return c
}

// pick sets the motif that comes after one that is known: the next one to learn where
// there is nothing to mix or it was mixed enough, else one of the known ones by chance,
// those with few traces more often. It is neither the last one traced nor the one that
// was just skipped while there is another.
func (c Course) pick() Course {
	known, fresh := 0, -1
	fewest := math.MaxInt
	for i, m := range c.Motifs {
		if m.Known() {
			known++
			fewest = min(fewest, m.Traces)
		} else if fresh < 0 {
			fresh = i
		}
	}
	if fresh >= 0 && (known < 2 || c.Mixed >= min(2*known, MixRound)) {
		c.Current, c.Mixed = fresh, 0
		return c
	}
	for _, not := range [][]int{{c.Current, c.Before.Motif}, {c.Current}} {
		weights := make([]float64, len(c.Motifs))
		for i, m := range c.Motifs {
			if m.Known() && !slices.Contains(not, i) {
				weights[i] = 1 / float64(1+m.Traces-fewest)
			}
		}
		var next int
		if next, c.Seed = c.Seed.draw(weights); next >= 0 {
			c.Current = next
			return c
		}
	}
	return c
}

// after returns the sitting with one more trace.
func (s Sitting) after(at, seconds float64) Sitting {
	switch {
	case s.Traces == 0 || at-s.To > progress.Gap:
		s = Sitting{From: at, Rested: at}
	case at-s.To >= Rest:
		s.Rested = at
	}
	s.To = max(s.To, at+seconds)
	s.Traces++
	return s
}
