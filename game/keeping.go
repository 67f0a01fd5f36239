package game

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
)

// arrived takes the list of kept traces, and says when some could not be read.
func (m Model) arrived(msg Listed) Model {
	if msg.Damaged > 0 {
		m.damaged += msg.Damaged
		m.Notice = m.Notice.Instead(place.Say("page.unread-traces", m.damaged))
	}
	m.Library = m.WithRecords(msg.Past...)
	return m
}

// Kept returns the summaries of all kept traces, newest first; do not change them.
func (m Model) Kept() []keep.Summary { return m.Records }

// Unrestored tells that a deleted trace was asked for and is there no more.
type Unrestored struct{ ID string }

// Stuck tells that so many traces of an earlier visit wait to be kept, and why they cannot
// be; none any more where N is 0.
type Stuck struct {
	N   int
	Why place.Why
}

func (Unrestored) IsMsg() {}
func (Stuck) IsMsg()      {}

// SaveStuck hands them to the person as a file. MakeRoom gives up what could be taken
// back, and tries again to keep them.
type SaveStuck struct{ Name string }

// MakeRoom gives up what could be taken back.
type MakeRoom struct{}

func (SaveStuck) IsEffect() {}
func (MakeRoom) IsEffect()  {}

// saved tells the person when a trace could not be kept.
func (m Model) saved(s Saved) Model {
	if s.Err == "" {
		return m
	}
	m.Notice = place.Say("page.trace-not-kept", s.Err.Said()).Offer("download")
	return m
}
