package weeks

import (
	"math"
	"slices"
	"time"

	"unthreaded/scoring/progress"
)

// Chart maps times and values to a place of W x H CSS pixels: times go to the right,
// values up.
type Chart struct {
	Left, Right, Top, Bottom float64
	// From and To are the times at both ends in s since 1970, Low and High the values.
	From, To, Low, High float64
}

// The margins round a chart in CSS pixels: for the numbers, the dates and the title.
const (
	marginLeft   = 64.0
	marginRight  = 24.0
	marginTop    = 76.0
	marginBottom = 52.0
)

// ChartOf fits a chart to what was found. Values begin at 0, except those that can be
// below. Single traces far beyond the sessions do not stretch it.
func ChartOf(f Found, w, h float64) Chart {
	c := Chart{Left: marginLeft, Right: math.Max(w-marginRight, marginLeft+1), Top: marginTop, Bottom: math.Max(h-marginBottom, marginTop+1)}
	if w < 500 {
		c.Left -= 12
	}
	c.From, c.To = math.Inf(1), math.Inf(-1)
	low, high := math.Inf(1), math.Inf(-1)
	values := make([]float64, 0, len(f.Marks))
	for _, m := range f.Marks {
		c.From, c.To = math.Min(c.From, m.At), math.Max(c.To, m.At)
		values = append(values, m.Value)
	}
	for _, s := range f.Scores {
		low, high = math.Min(low, s.Q1), math.Max(high, s.Q3)
	}
	if len(values) > 0 {
		slices.Sort(values)
		at := func(p float64) float64 { return values[int(p*float64(len(values)-1))] }
		low, high = math.Min(low, at(0.02)), math.Max(high, at(0.98))
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
	room := math.Max(1e-6, high-low)
	c.High = high + 0.08*room
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

// Nearest returns the index among the scores of the one nearest to the place x, -1
// without any.
func (c Chart) Nearest(scores []progress.Score, x float64) int {
	best := -1
	for i, s := range scores {
		if best < 0 || math.Abs(c.X(s.At)-x) < math.Abs(c.X(scores[best].At)-x) {
			best = i
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

// Dates returns days, weeks, months or years along the axis, at least room CSS pixels apart,
// each at the beginning of its day where the person lives.
func (c Chart) Dates(z Zone, room float64) []Tick {
	days := (c.To - c.From) / 86400 * room / (c.Right - c.Left)
	first := z.Date(c.From)
	at := time.Date(first.Year(), first.Month(), first.Day(), 0, 0, 0, 0, time.UTC)
	form, step := "2 Jan", func(t time.Time) time.Time { return t.AddDate(0, 0, 1) }
	switch {
	case days > 180:
		form = "2006"
		at = time.Date(first.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
		years := int(math.Ceil(days / 365))
		step = func(t time.Time) time.Time { return t.AddDate(years, 0, 0) }
	case days > 14:
		form = "Jan 2006"
		at = time.Date(first.Year(), first.Month(), 1, 0, 0, 0, 0, time.UTC)
		months := 1
		for float64(months)*30 < days {
			months++
		}
		step = func(t time.Time) time.Time { return t.AddDate(0, months, 0) }
	case days > 1:
		n := 2
		if days > 2 {
			n = 7
		}
		if days > 7 {
			n = 14
		}
		step = func(t time.Time) time.Time { return t.AddDate(0, 0, n) }
	}
	var out []Tick
	for ; ; at = step(at) {
		t := float64(at.Unix())
		if t -= z.ahead(t); t > c.To {
			return out
		}
		if t >= c.From {
			out = append(out, Tick{t, at.Format(form)})
		}
	}
}
