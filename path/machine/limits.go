package machine

import "math/bits"

// test is one limit and what it means to keep or break it.
type test struct {
	figure, unit string
	value, limit float64
	// atMost is true where the value must not exceed the limit.
	atMost       bool
	kept, broken outcome
	// keep and breaks say how the design would have to change.
	keep, breaks string
}

type outcome struct {
	favours []Method
	text    string
}

func (t test) holds() bool {
	if t.atMost {
		return t.value <= t.limit
	}
	return t.value >= t.limit
}

// The places of the tests; decide reads them as bits.
const (
	isGentle = iota
	isSteady
	isRuled
	isStraight
)

// decide is the rule of Advise, on bits that tell which tests hold.
func decide(holds uint) Method {
	has := func(i uint) bool { return holds&(1<<i) != 0 }
	switch {
	case has(isGentle) && has(isSteady):
		return WalkingFoot
	case has(isRuled) || has(isStraight):
		return RulerFoot
	}
	return FreeMotion
}

func tests(f Figures) []test {
	return []test{
		isGentle: {
			figure: "smallest radius", unit: "mm", value: f.SmallestRadius, limit: GentleRadius,
			kept:   outcome{[]Method{WalkingFoot}, "No curve is too tight for cloth that is fed."},
			broken: outcome{[]Method{FreeMotion, RulerFoot}, "The tightest curve is tighter than fed cloth follows easily."},
			keep:   "no curve tighter than the limit", breaks: "a curve tighter than the limit",
		},
		isSteady: {
			figure: "turns of the quilt", unit: "per m", value: f.RotationsPerMetre, limit: MaxRotations, atMost: true,
			kept:   outcome{[]Method{WalkingFoot}, "Following the line turns the quilt under the machine seldom."},
			broken: outcome{[]Method{FreeMotion, RulerFoot}, "Fed, the whole quilt would have to be turned under the machine again and again."},
			keep:   "fewer turns for the length", breaks: "more turns for the length",
		},
		isRuled: {
			figure: "ruler lines", value: float64(f.RulerLines), limit: MinRulerLines,
			kept:   outcome{[]Method{RulerFoot}, "Lines are marked for a ruler, and a ruler is only safe against a ruler foot."},
			broken: outcome{[]Method{WalkingFoot, FreeMotion}, "No line is marked for a ruler."},
			keep:   "lines marked for a ruler", breaks: "no line marked for a ruler",
		},
		isStraight: {
			figure: "straight share", value: f.StraightShare, limit: MinStraightShare,
			kept:   outcome{[]Method{WalkingFoot, RulerFoot}, "Most of the line is straight, and straight lines waver without a guide."},
			broken: outcome{[]Method{FreeMotion}, "Much of the line is curved, and the hands lead curves best."},
			keep:   "more straight line", breaks: "more curved line",
		},
	}
}

func adviceFrom(list []test) Advice {
	var holds uint
	a := Advice{}
	for i, t := range list {
		r := Reason{Figure: t.figure, Unit: t.unit, Value: t.value, Limit: t.limit, Holds: t.holds()}
		o := t.broken
		if r.Holds {
			o = t.kept
			holds |= 1 << i
		}
		r.Favours, r.Text = o.favours, o.text
		a.Reasons = append(a.Reasons, r)
	}
	a.Method = decide(holds)
	for _, m := range Methods() {
		if m != a.Method {
			a.Changes = append(a.Changes, changesTo(m, holds, list)...)
		}
	}
	return a
}

// changesTo lists the smallest sets of tests that lead to method m when turned
// over. Each test can be turned over by itself, so there always is such a set.
func changesTo(m Method, holds uint, list []test) []Change {
	var out []Change
	fewest := len(list) + 1
	for flip := uint(1); flip < 1<<len(list); flip++ {
		n := bits.OnesCount(flip)
		if n > fewest || decide(holds^flip) != m {
			continue
		}
		if n < fewest {
			fewest, out = n, nil
		}
		c := Change{To: m}
		for i, t := range list {
			if flip&(1<<i) != 0 {
				c.Needs = append(c.Needs, t.need())
			}
		}
		out = append(out, c)
	}
	return out
}

// need says how the test would turn over.
func (t test) need() Need {
	n := Need{Figure: t.figure, Unit: t.unit, Now: t.value, Limit: t.limit, Rise: t.holds() == t.atMost, Text: t.keep}
	if t.holds() {
		n.Text = t.breaks
	}
	return n
}
