package back

import (
	"fmt"
	"math"
	"strings"

	"unthreaded/game/place/back/weeks"
	"unthreaded/scoring/progress"
)

// judged are the figures behind the verdict, in plain words.
func judged(f weeks.Found) []Figure {
	j := f.Judged
	if !hasVerdict(f) {
		return nil
	}
	usual := Figure{ID: "usual", Name: "From one session to the next you differ by", Value: about(j.Usual.Value, f),
		Note: fmt.Sprintf("Your change is %.1f times that. One good day can be chance.", math.Abs(j.InErrors))}
	if inPoints(f) {
		usual.Note += " A point is one in a hundred: 30 % is one point more than 29 %."
	}
	return []Figure{
		{ID: "now", Name: "Now", Value: ScoreText(j.Now, f), Note: "The middle of your newest sessions; at first it was " + ScoreText(j.Before, f) + "."},
		usual,
		{ID: "trend", Name: "Each week", Value: weekly(7*j.Slope, f), Note: between(7*j.SlopeInterval.Low, 7*j.SlopeInterval.High, f)},
	}
}

func hasVerdict(f weeks.Found) bool {
	return f.Trouble == nil && f.Judged.Verdict != progress.TooEarly && f.Judged.Sessions > 0
}

// directions are the words for more and for less of a measure.
var directions = map[progress.Measure][2]string{
	progress.Spacing: {"more uneven", "less uneven"}, progress.Beside: {"farther off", "nearer to the line"},
	progress.Corners: {"farther past", "less far past"}, progress.Flow: {"smoother", "less smooth"},
}

// weekly says by how much a measure changes in a week.
func weekly(v float64, f weeks.Found) string {
	amount := about(math.Abs(v), f)
	if amount == about(0, f) {
		return "no change"
	}
	word := directions[f.Measure][0]
	if v < 0 {
		word = directions[f.Measure][1]
	}
	return amount + " " + word
}

// between says between which changes in a week the true one lies.
func between(low, high float64, f weeks.Found) string {
	a, b := about(math.Abs(low), f), about(math.Abs(high), f)
	switch {
	case low < 0 && high > 0:
		return fmt.Sprintf("Somewhere between %s and %s.", weekly(low, f), weekly(high, f))
	case high <= 0:
		a, b = b, a
	}
	switch {
	case a == b && a == about(0, f):
		return "Your sessions stand level."
	case a == b:
		return "About " + a + ", as far as your sessions can tell."
	}
	return fmt.Sprintf("Somewhere between %s and %s.", strings.TrimSuffix(strings.TrimSuffix(a, " points"), " mm"), b)
}

// inPoints tells that differences are said in percentage points.
func inPoints(f weeks.Found) bool {
	return f.Measure == progress.Spacing || f.Motif == "" && f.Measure != progress.Flow
}

// about writes a difference of values as exactly as a person would say it.
func about(v float64, f weeks.Found) string {
	if !inPoints(f) {
		return spread(v, f)
	}
	text := fmt.Sprintf("%.1f points", 100*v)
	if 100*v >= 2.95 {
		text = fmt.Sprintf("%.0f points", 100*v)
	}
	if text == "1.0 points" {
		return "1 point"
	}
	return text
}

// spread writes a difference of values, signed one with its sign.
func spread(v float64, f weeks.Found) string {
	switch {
	case inPoints(f):
		return fmt.Sprintf("%.1f points", 100*v)
	case f.Measure == progress.Flow:
		return fmt.Sprintf("%.2f", v)
	}
	return fmt.Sprintf("%.2f mm", v)
}

func signed(v float64, f weeks.Found) string {
	if v >= 0 {
		return "+" + spread(v, f)
	}
	return "-" + spread(-v, f)
}

// exactly says the figures that the verdict stands on, with their names.
func exactly(f weeks.Found) Row {
	j := f.Judged
	text := fmt.Sprintf("The change is %s, %.1f times the typical error of %s (Hopkins; the limit is %.0f).", signed(j.Change, f), math.Abs(j.InErrors), spread(j.Usual.Value, f), progress.RealChange)
	if e := math.Abs(j.InErrors); e >= 1 {
		text += fmt.Sprintf(" Seen by itself such a change is real with odds of about %s to 1.", oddsText(progress.Odds(e)))
	}
	text += fmt.Sprintf(" The trend (Theil and Sen) is %s a week, from %s to %s in 95 of 100 cases. %s", signed(7*j.Slope, f),
		signed(7*j.SlopeInterval.Low, f), signed(7*j.SlopeInterval.High, f), chance(j.Evidence))
	if f.NoCurve == nil && f.Curve != (progress.Curve{}) {
		text += " The range in which the curve levels off holds it in 95 of 100 cases."
	}
	return Row{ID: "The figures.", Note: text}
}

// oddsText rounds odds as a person would say them.
func oddsText(v float64) string {
	if v > 1000 {
		return "over 1000"
	}
	if v >= 20 {
		v = 10 * math.Round(v/10)
	}
	return fmt.Sprintf("%.0f", v)
}

// chance says how often sessions would drift so by chance.
func chance(p float64) string {
	if p < 0.001 {
		return "Sessions drift so by chance less than once in 1000 times."
	}
	return fmt.Sprintf("Sessions drift so by chance %.1f times in 100; from %.2f on it is told.", 100*p, 100*progress.MostChance)
}

// method says how it is worked out, and how far it can be trusted.
func method(f weeks.Found) []Row {
	rows := []Row{
		{ID: "A single good day means nothing.", Note: "Everybody has one. That is why nothing is said before six sessions, and why two things have to agree: a change larger than you differ from day to day, and a drift over all sessions that is no chance."},
		{ID: "What counts.", Note: fmt.Sprintf("A session is practice without a break of half an hour. Its first %d traces only warm the hand up. It can be judged once %d more count; its score is their middle.", progress.WarmUpTraces, progress.LeastTraces)},
		{ID: "How often it is wrong.", Note: "With a look after each of 60 sessions, fewer than 5 in 100 people who do not change are ever told that they did, also where good and bad days come in spells. Of those who get better by a quarter over 30 sessions, about two in three are told by then."},
		{ID: "What it cannot know.", Note: "A screen is no quilt. Getting better here is a good sign and no proof; what you sew tells. The limits used are ours, those of practising are advice of moderate strength."},
	}
	if hasVerdict(f) {
		rows = append([]Row{exactly(f)}, rows...)
	}
	if f.Motif == "" {
		rows = append(rows, Row{ID: "All motifs together.", Note: "Each trace is set against the middle of all like it, 100 % being usual for you on that line. A line traced in one session only is left out."})
	}
	if f.Measure == progress.Flow {
		rows = append(rows, Row{ID: "Smoothness.", Note: "SPARC rewards a smooth start and stop and has no unit. Differences under 0.05 mean nothing; compare on the same line only."})
	}
	return rows
}
