package weeks

import (
	"cmp"
	"math"
	"slices"
	"time"
	"unthreaded/game/words"

	"unthreaded/scoring/progress"
)

// Chart maps times and values to a place of W x H CSS pixels: times go to the right,
// values up.
type Chart struct {
	Left, Right, Top, Bottom float64
	// From and To are the times at both ends in s since 1970, Low and High the values.
	From, To, Low, High float64
	// Groups are what is drawn for the sessions, each made of those of one Span.
	Groups []Group
	Span   Span
	// Sewn are the practice samples sewn, by time.
	Sewn []SewnAt
	// Key names all marks there are, in lines under the dates.
	Key []KeyEntry
}

// The margins round a chart in CSS pixels: for the numbers, the dates and the title.
const (
	marginLeft   = 64.0
	marginRight  = 24.0
	marginTop    = 76.0
	marginBottom = 38.0
)

// ChartOf fits a chart to what was found, its days being those of the zone. Values begin at
// 0, except those that can be below. Every trace and every practice sample has its place in
// it.
func ChartOf(f Found, sewn []Sewn, z Zone, w, h float64, b words.Book) Chart {
	c := Chart{Left: marginLeft, Right: math.Max(w-marginRight, marginLeft+1), Top: marginTop}
	if w < 500 {
		c.Left -= 12
	}
	for _, s := range sewn {
		if at, ok := s.noon(z); ok {
			c.Sewn = append(c.Sewn, SewnAt{at, s})
		}
	}
	slices.SortStableFunc(c.Sewn, func(a, b SewnAt) int { return cmp.Compare(a.At, b.At) })
	c = c.scaled(f)
	c.Groups, c.Span = grouped(f.Scores, z, c.Right-c.Left)
	var lines int
	c.Key, lines = keyOf(f, c, w, b)
	c.Bottom = math.Max(h-marginBottom-keyLine*float64(lines), marginTop+1)
	for i := range c.Key {
		c.Key[i].Y += c.Bottom + marginBottom
	}
	return c
}

// leastRoom is how much the values of a chart span at least, in the unit of the measure: one
// per cent, or a hundredth of a mm. What differs by less is alike.
const leastRoom = 0.01

// scaled sets the times and values at the ends.
func (c Chart) scaled(f Found) Chart {
	c.From, c.To = math.Inf(1), math.Inf(-1)
	low, high := math.Inf(1), math.Inf(-1)
	values := make([]float64, 0, len(f.Marks))
	for _, m := range f.Marks {
		c.From, c.To = math.Min(c.From, m.At), math.Max(c.To, m.At)
		values = append(values, m.Value)
	}
	for _, s := range c.Sewn {
		c.From, c.To = math.Min(c.From, s.At), math.Max(c.To, s.At)
	}
	for _, s := range f.Scores {
		low, high = math.Min(low, s.Q1), math.Max(high, s.Q3)
	}
	if len(values) > 0 {
		low, high = math.Min(low, slices.Min(values)), math.Max(high, slices.Max(values))
	} else {
		c.From, c.To, low, high = 0, 1, 0, 1
	}
	if low >= 0 {
		low = 0
	}
	const aDay = 86400.0
	if c.To-c.From < aDay {
		middle := (c.From + c.To) / 2
		c.From, c.To = middle-aDay/2, middle+aDay/2
	}
	pad := 0.02 * (c.To - c.From)
	c.From, c.To = c.From-pad, c.To+pad
	room := math.Max(leastRoom, high-low)
	c.High = math.Max(high, low+room) + 0.08*room
	if c.Low = low; low < 0 {
		c.Low = low - 0.08*room
	}
	return c
}

// X returns the place of a time, Y that of a value, kept inside the chart.
func (c Chart) X(t float64) float64 { return c.Left + (c.Right-c.Left)*(t-c.From)/(c.To-c.From) }

// Y returns the place of a value; what is beyond the chart stands at its edge.
func (c Chart) Y(v float64) float64 {
	y := c.Bottom - (c.Bottom-c.Top)*(v-c.Low)/(c.High-c.Low)
	return math.Max(c.Top, math.Min(c.Bottom, y))
}

// Beyond tells that a value does not fit in.
func (c Chart) Beyond(v float64) bool { return v > c.High || v < c.Low }

// Nearest returns the index among the scores of the one nearest to a place, -1 without
// any. Where sessions stand close together the height tells which is meant.
func (c Chart) Nearest(scores []progress.Score, x, y float64) int {
	const upDown = 0.2 // a pointer is set under or over a session, hardly beside it
	best, least := -1, math.Inf(1)
	for i, s := range scores {
		if d := math.Hypot(c.X(s.At)-x, upDown*(c.Y(s.Median)-y)); d < least {
			best, least = i, d
		}
	}
	return best
}

// Tick is a mark on an axis.
type Tick struct {
	At   float64
	Text string
}

// Values returns round values along the axis, at least room CSS pixels apart, and how many
// decimals tell them apart.
func (c Chart) Values(room float64) (ticks []float64, decimals int) {
	least := (c.High - c.Low) * room / (c.Bottom - c.Top)
	scale := math.Floor(math.Log10(least))
	step := math.Pow(10, scale)
	for _, f := range []float64{2, 2.5, 2} { // 1, 2, 5, 10
		if step >= least {
			break
		}
		step *= f
	}
	decimals = max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	for k := math.Ceil(c.Low/step - 1e-9); k*step <= c.High; k++ {
		ticks = append(ticks, k*step+0) // adding 0 makes a negative zero a plain one
	}
	return ticks, decimals
}

// Dates returns marks along the axis, at least room CSS pixels apart: where a day is wide
// enough to be seen, the days of sessions, each where its session stands; else months or
// years, each at its beginning where the person lives.
func (c Chart) Dates(f Found, z Zone, room float64, b words.Book) []Tick {
	days := (c.To - c.From) / 86400 * room / (c.Right - c.Left)
	if days <= 14 {
		return c.daysOf(f, z, room, b)
	}
	first := z.Date(c.From)
	years, months := false, int(math.Ceil(days/30))
	at := time.Date(first.Year(), first.Month(), 1, 0, 0, 0, 0, time.UTC)
	if days > 180 {
		years, months = true, 12*int(math.Ceil(days/365))
		at = time.Date(first.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	}
	var out []Tick
	for ; ; at = at.AddDate(0, months, 0) {
		t := float64(at.Unix())
		if t -= z.ahead(t); t > c.To {
			return out
		}
		if t >= c.From {
			text := b.Amount(words.MonthOf(at))
			if years {
				text = at.Format("2006")
			}
			out = append(out, Tick{t, text})
		}
	}
}

// daysOf returns the days of sessions, or of traces where there are none, the latest
// before all others.
func (c Chart) daysOf(f Found, z Zone, room float64, b words.Book) []Tick {
	var at []float64
	for _, s := range f.Scores {
		at = append(at, s.At)
	}
	for _, m := range f.Marks {
		if len(f.Scores) == 0 {
			at = append(at, m.At)
		}
	}
	var out []Tick
	for _, t := range slices.Backward(at) {
		text := b.Amount(words.DayOf(z.Date(t)))
		if n := len(out); n == 0 || out[n-1].Text != text && c.X(out[n-1].At)-c.X(t) >= room {
			out = append(out, Tick{t, text})
		}
	}
	slices.Reverse(out)
	return out
}
