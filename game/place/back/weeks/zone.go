package weeks

import (
	"sort"
	"time"

	"unthreaded/scoring/progress"
)

// Zone tells how far the person's clock is ahead of UTC: from each time From (s since
// 1970) on by Ahead seconds, the earliest first; before the first as at the first. The
// zero value is UTC.
type Zone []Shift

// Shift is one entry of a Zone.
type Shift struct{ From, Ahead float64 }

// ahead returns by how many seconds the clock is ahead at time t.
func (z Zone) ahead(t float64) float64 {
	if len(z) == 0 {
		return 0
	}
	i := sort.Search(len(z), func(i int) bool { return z[i].From > t })
	return z[max(0, i-1)].Ahead
}

// Date returns the day of a time in s since 1970.
func (z Zone) Date(t float64) time.Time {
	return time.UnixMilli(int64((t + z.ahead(t)) * 1000)).UTC()
}

// calendar returns the days of practice. The sessions are set to local time, so that
// UTC's days are hers.
func (z Zone) calendar(sessions []progress.Session) []progress.Day {
	local := make([]progress.Session, len(sessions))
	for i, s := range sessions {
		a := z.ahead(s.From)
		local[i] = progress.Session{From: s.From + a, To: s.To + a, Traces: s.Traces}
	}
	return progress.Calendar(local, time.UTC)
}
