package weeks

import (
	"strings"

	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// KeyMark is a kind of mark on the chart.
type KeyMark uint8

// The marks.
const (
	MarkSession KeyMark = iota // a session, or more of them, that can be judged
	MarkFew                    // one with too few traces for that
	MarkTrace                  // a trace that counts
	MarkWarmUp                 // one that only warmed up
	MarkUsual                  // where she began, give or take the usual variation
	MarkCurve                  // the learning curve
	MarkLevel                  // where it levels off
	MarkTrend                  // the trend
	MarkLimits                 // the steepest and the flattest it may be
	MarkSewn                   // a practice sample
)

// KeyEntry names a mark: its sample begins at X, Y CSS pixels, in the middle of its
// height, and is Sample wide; its Text begins at TextX.
type KeyEntry struct {
	Mark          KeyMark
	Text          string
	X, Y          float64
	Sample, TextX float64
}

// Sizes in CSS pixels of the key.
const (
	KeyLetters = 13.0 // of its letters
	keyLine    = 22.0
	keySide    = 16.0
	keyApart   = 16.0
	keyGap     = 6.0 // from a sample to its text
)

// wide returns about how wide a text of the key is, by three kinds of letters of Go
// Regular, rather more than less.
func wide(text string) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("ijltf:,. ", r):
			w += 0.34
		case strings.ContainsRune("mw", r):
			w += 0.86
		default:
			w += 0.58
		}
	}
	return KeyLetters * w
}

// keyNames are the codes of the marks, for their words.
var keyNames = map[KeyMark]string{
	MarkFew: "few", MarkTrace: "trace", MarkWarmUp: "warm-up",
	MarkUsual: "usual", MarkCurve: "curve", MarkLevel: "level", MarkTrend: "trend", MarkLimits: "limits", MarkSewn: "sewn",
}

// marked returns the marks there are, each with its long name and its short one.
func marked(f Found, c Chart, b words.Book) (marks []KeyMark, long, short map[KeyMark]string) {
	long, short = map[KeyMark]string{}, map[KeyMark]string{}
	for k, name := range keyNames {
		short[k] = b.Say("back.key." + name)
		long[k] = short[k]
	}
	for _, k := range []KeyMark{MarkFew, MarkCurve, MarkLimits} {
		long[k] = b.Say("back.key-long." + keyNames[k])
	}
	short[MarkSession], long[MarkSession] = b.Say("back.key-span", string(c.Span)), b.Say("back.key-span-long", string(c.Span))
	has := map[KeyMark]bool{}
	for _, g := range c.Groups {
		has[MarkSession] = has[MarkSession] || g.Sure
		has[MarkFew] = has[MarkFew] || !g.Sure
	}
	for _, m := range f.Marks {
		switch {
		case c.Span != EachSession: // single traces would run into one another
		case m.Counts:
			has[MarkTrace] = true
		default:
			has[MarkWarmUp] = true
		}
	}
	judged := f.Judged.Verdict != "" && f.Judged.Verdict != progress.TooEarly
	curve := f.NoCurve == nil && f.Curve != (progress.Curve{})
	has[MarkUsual], has[MarkCurve], has[MarkLevel] = judged, curve, curve
	has[MarkTrend], has[MarkLimits] = judged && !curve, judged && !curve
	has[MarkSewn] = len(c.Sewn) > 0
	for k := MarkSession; k <= MarkSewn; k++ {
		if has[k] {
			marks = append(marks, k)
		}
	}
	return marks, long, short
}

// keyOf lays the key out on a chart that is w CSS pixels wide, y being counted from the
// top of its first line: in one line with long names where there is room, else with short
// ones in as many lines as it takes.
func keyOf(f Found, c Chart, w float64, b words.Book) (key []KeyEntry, lines int) {
	marks, long, short := marked(f, c, b)
	if key, lines = laid(marks, long, w); lines > 1 {
		key, lines = laid(marks, short, w)
	}
	return key, lines
}

func laid(marks []KeyMark, names map[KeyMark]string, w float64) (key []KeyEntry, lines int) {
	x, y := keySide, keyLine/2
	for _, k := range marks {
		sample := 22.0
		if k == MarkTrace || k == MarkWarmUp {
			sample = 9
		}
		room := sample + keyGap + wide(names[k])
		if x > keySide && x+room > w-keySide/2 {
			x, y = keySide, y+keyLine
		}
		key = append(key, KeyEntry{k, names[k], x, y, sample, x + sample + keyGap})
		x += room + keyApart
		lines = int(y/keyLine) + 1
	}
	return key, lines
}
