package practice

import (
	"fmt"
	"slices"

	"unthreaded/scoring/progress"
)

// The numbers of a course. Five to eight traces in a row, then mixing, is advice of
// moderate strength; the times are ours.
const (
	LeastRow = 5
	MostRow  = 8
	// RestAfter is how many seconds of practice call for a rest, Rest how many without
	// a trace make one.
	RestAfter = 10 * 60
	Rest      = 2 * 60
	// EnoughAfter is how many seconds of a session are enough for a day: short sessions
	// over several days hold better than a long one.
	EnoughAfter = 25 * 60
	// MixRound is how many traces of the mix make a good practice, and the most before
	// the next new motif.
	MixRound = 6
)

// Course is where a person is in a course: a plain value that Encode keeps and Decode
// gives back. Start makes it; Next, Done, Skip and Again go on with it and leave the one
// they are given as it is.
type Course struct {
	Schema int  `json:"schema"`
	Seed   Seed `json:"seed,string"`
	// Motifs are learnt in this order; those that are known come into the mix.
	Motifs []Motif `json:"motifs"`
	// Current is the index of the motif that comes next; Mixed is how many traces of
	// the mix there were since the last row.
	Current int `json:"current"`
	Mixed   int `json:"mixed"`
	// Before is where the course was when its last trace was made.
	Before Before `json:"before"`
	// Sitting is the session that the last trace belongs to.
	Sitting Sitting `json:"sitting"`
}

// Before is a place in the course: a motif, -1 before the first trace, how many of its
// row were made, and how many traces of the mix.
type Before struct {
	Motif int `json:"motif"`
	Done  int `json:"done"`
	Mixed int `json:"mixed"`
}

// Sitting is a session of practice as far as the course has to know it, in seconds
// since 1970.
type Sitting struct {
	// From and To bound its traces, on any line; Rested is when the last rest ended.
	From   float64 `json:"from_s"`
	Rested float64 `json:"rested_s"`
	To     float64 `json:"to_s"`
	Traces int     `json:"traces"`
	// Mixed is how many of them were of the mix, since the last row.
	Mixed int `json:"mixed,omitempty"`
}

// Motif is one motif of a course.
type Motif struct {
	Name string `json:"name"`
	// Row is how many traces it gets in a row, Done how many of them are made or
	// skipped.
	Row  int `json:"row"`
	Done int `json:"done"`
	// Traces counts all that were ever made in this course.
	Traces int `json:"traces"`
}

// Known tells that the row of the motif is through.
func (m Motif) Known() bool { return m.Done >= m.Row }

// Start begins a course that teaches some motifs, in this order, and mixes them with
// those that are known. It fails without a motif to learn, and on a name that is empty or
// comes twice.
func Start(seed Seed, learn, known []string) (Course, error) {
	if len(learn) == 0 {
		return Course{}, fmt.Errorf("a course needs a motif to learn")
	}
	c := Course{Schema: Schema, Seed: seed, Before: Before{Motif: -1}}
	for _, name := range slices.Concat(learn, known) {
		var u float64
		u, c.Seed = c.Seed.next()
		c.Motifs = append(c.Motifs, Motif{Name: name, Row: LeastRow + int(u*(MostRow-LeastRow+1))})
	}
	for k := len(learn); k < len(c.Motifs); k++ {
		c.Motifs[k].Done = c.Motifs[k].Row
	}
	return c, c.Validate()
}

// Step is what to do next.
type Step struct {
	Motif string
	// Mix tells that known motifs take turns. This is trace Number, from 1, of Of in a
	// row or, in the mix, of a round.
	Mix        bool
	Number, Of int
	Guide      progress.Guide
	// Meter shows the speed while she traces; Guess asks her how even it was before
	// the figures are shown.
	Meter, Guess bool
	// Counts tells that the trace will be scored.
	Counts bool
	// Round tells that a round of the mix has just been made. Rest suggests a pause
	// first, Enough to leave it for today. Nothing of this is forced.
	Round, Rest, Enough bool
}

// guides in the order in which they fade.
var guides = []progress.Guide{progress.Whole, progress.Dots, progress.Ends, progress.None}

// Next returns what to do at a time in seconds since 1970. In a row the guide fades in
// four stages of about the same length, the last of which has none; in the mix there is
// none. The first traces of a session do not count (progress.WarmUpTraces).
func Next(c Course, now float64) Step {
	m := c.Motifs[c.Current]
	sitting, pause := c.Sitting, now-c.Sitting.To
	if pause > progress.Gap {
		sitting = Sitting{}
	}
	s := Step{Motif: m.Name, Mix: m.Known(), Guide: progress.None}
	if s.Mix {
		s.Number, s.Of = sitting.Mixed%MixRound+1, MixRound
		s.Round = sitting.Mixed > 0 && s.Number == 1
	} else {
		s.Number, s.Of, s.Guide = m.Done+1, m.Row, guides[m.Done*len(guides)/m.Row]
	}
	s.Meter, s.Guess = s.Guide == progress.Whole, s.Guide != progress.Whole
	s.Counts = s.Guide == progress.None && sitting.Traces >= progress.WarmUpTraces
	if sitting.Traces > 0 {
		s.Rest = pause < Rest && now-sitting.Rested >= RestAfter
		s.Enough = now-sitting.From >= EnoughAfter
	}
	return s
}
