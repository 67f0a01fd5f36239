package progress

import (
	"math"
	"time"
)

// Day is one day on which was practised.
type Day struct {
	Year  int
	Month time.Month
	Day   int
	// Sessions began on it, with so many Traces. Minutes is the time from the first
	// trace to the end of the last of each, Moving that of the traces alone.
	Sessions, Traces int
	Minutes, Moving  float64
}

// Calendar returns the days practised at a place, the earliest first, from sessions
// in the order of their times. A session past midnight belongs to the day on which it
// began.
func Calendar(sessions []Session, place *time.Location) []Day {
	var out []Day
	for _, s := range sessions {
		sec, frac := math.Modf(s.From)
		y, m, d := time.Unix(int64(sec), int64(frac*1e9)).In(place).Date()
		if n := len(out); n == 0 || out[n-1].Year != y || out[n-1].Month != m || out[n-1].Day != d {
			out = append(out, Day{Year: y, Month: m, Day: d})
		}
		day := &out[len(out)-1]
		day.Sessions++
		day.Traces += len(s.Traces)
		day.Minutes += (s.To - s.From) / 60
		for _, t := range s.Traces {
			day.Moving += t.Seconds / 60
		}
	}
	return out
}
