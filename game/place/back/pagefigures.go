package back

import (
	"math"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// judged are the figures behind the verdict, in plain words.
func judged(f weeks.Found, b words.Book) []Figure {
	j := f.Judged
	if !hasVerdict(f) {
		return nil
	}
	times := words.Decimal{Value: math.Abs(j.InErrors), Digits: 1}
	return []Figure{
		{ID: "now", Name: b.Say("back.now"), Value: ScoreText(j.Now, f, b), Note: b.Say("back.now-note", score(j.Before, f))},
		{ID: "usual", Name: b.Say("back.usual"), Value: b.Write(about(j.Usual.Value, f)), Note: b.Say("back.usual-note", times, inPoints(f))},
		{ID: "trend", Name: b.Say("back.each-week"), Value: b.Write(weekly(7*j.Slope, f, b)), Note: b.Write(between(7*j.SlopeInterval.Low, 7*j.SlopeInterval.High, f, b))},
	}
}

func hasVerdict(f weeks.Found) bool {
	return f.Trouble == nil && f.Judged.Verdict != progress.TooEarly && f.Judged.Sessions > 0
}

// weekly says by how much a measure changes in a week.
func weekly(v float64, f weeks.Found, b words.Book) words.Msg {
	amount := about(math.Abs(v), f)
	if alike(amount, about(0, f), b) {
		return words.Of("back.no-change")
	}
	return words.Of("back.weekly."+string(f.Measure), amount, v < 0)
}

// alike tells whether two messages read the same.
func alike(x, y words.Msg, b words.Book) bool { return b.Write(x) == b.Write(y) }

// between says between which changes in a week the true one lies.
func between(low, high float64, f weeks.Found, b words.Book) words.Msg {
	if low < 0 && high > 0 {
		return words.Of("back.between", weekly(low, f, b), weekly(high, f, b))
	}
	least, most := math.Min(math.Abs(low), math.Abs(high)), math.Max(math.Abs(low), math.Abs(high))
	switch same := alike(about(least, f), about(most, f), b); {
	case same && alike(about(least, f), about(0, f), b):
		return words.Of("back.level")
	case same:
		return words.Of("back.about", about(least, f))
	}
	return words.Of("back.between", aboutNumber(least, f), about(most, f))
}

// inPoints tells that differences are said in percentage points.
func inPoints(f weeks.Found) bool {
	return f.Measure == progress.Spacing || f.Motif == "" && f.Measure != progress.Flow
}

// about is a difference of values as exactly as a person would say it.
func about(v float64, f weeks.Found) words.Msg { return withUnit(aboutNumber(v, f), f) }

// aboutNumber is the number of about.
func aboutNumber(v float64, f weeks.Found) any {
	switch points := 100 * v; {
	case !inPoints(f):
		return words.Decimal{Value: v, Digits: 2}
	case points >= 2.95:
		return words.Decimal{Value: points, Digits: 0}
	case math.Abs(points-1) < 0.05:
		return 1
	default:
		return words.Decimal{Value: points, Digits: 1}
	}
}

// withUnit puts the unit of a difference behind its number.
func withUnit(number any, f weeks.Found) words.Msg {
	switch {
	case inPoints(f):
		return words.Of("back.points", number)
	case f.Measure == progress.Flow:
		return words.Of("back.bare", number)
	}
	return words.Of("unit.length-mm", number)
}

// spread is a difference of values to its last digit, signed one with its sign.
func spread(v float64, f weeks.Found) words.Msg {
	if inPoints(f) {
		return withUnit(words.Decimal{Value: 100 * v, Digits: 1}, f)
	}
	return withUnit(words.Decimal{Value: v, Digits: 2}, f)
}

func signed(v float64, f weeks.Found) words.Msg {
	return words.Of("back.signed", v < 0, spread(math.Abs(v), f))
}

// exactly says the figures that the verdict stands on, with their names.
func exactly(f weeks.Found, b words.Book) Row {
	j := f.Judged
	e := math.Abs(j.InErrors)
	text := b.Say("back.exactly.change", signed(j.Change, f), words.Decimal{Value: e, Digits: 1}, spread(j.Usual.Value, f), words.Decimal{Value: progress.RealChange})
	if e >= 1 {
		odds := progress.Odds(e)
		text += " " + b.Say("back.exactly.odds", odds > 1000, oddsRounded(odds))
	}
	text += " " + b.Say("back.exactly.trend", signed(7*j.Slope, f), signed(7*j.SlopeInterval.Low, f), signed(7*j.SlopeInterval.High, f))
	text += " " + b.Say("back.exactly.chance", j.Evidence < 0.001, words.Decimal{Value: 100 * j.Evidence, Digits: 1}, words.Decimal{Value: 100 * progress.MostChance, Digits: 2})
	if f.NoCurve == nil && f.Curve != (progress.Curve{}) {
		text += " " + b.Say("back.exactly.curve")
	}
	return Row{ID: b.Say("back.exactly"), Note: text}
}

// oddsRounded rounds odds as a person would say them.
func oddsRounded(v float64) int {
	if v >= 20 {
		return int(10 * math.Round(v/10))
	}
	return int(math.Round(v))
}

// method says how it is worked out, and how far it can be trusted.
func method(f weeks.Found, b words.Book) (rows []Row) {
	add := func(title, note string) { rows = append(rows, Row{ID: title, Note: note}) }
	if hasVerdict(f) {
		rows = append(rows, exactly(f, b))
	}
	add(b.Say("back.method.one-day"), b.Say("back.method.one-day-note"))
	add(b.Say("back.method.counts"), b.Say("back.method.counts-note", progress.WarmUpTraces, progress.LeastTraces))
	add(b.Say("back.method.wrong"), b.Say("back.method.wrong-note"))
	add(b.Say("back.method.cannot"), b.Say("back.method.cannot-note"))
	if f.Motif == "" {
		add(b.Say("back.method.all"), b.Say("back.method.all-note"))
	}
	if f.Measure == progress.Flow {
		add(b.Say("back.method.flow"), b.Say("back.method.flow-note"))
	}
	return rows
}
