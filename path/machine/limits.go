package machine

import "math/bits"

// test is one limit and what it means to keep or break it.
type test struct {
	figure       Figure
	unit         string
	value, limit float64
	// atMost is true where the value must not exceed the limit.
	atMost bool
	// kept and broken are the methods that it then speaks for.
	kept, broken []Method
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
			figure: Radius, unit: "mm", value: f.SmallestRadius, limit: GentleRadius,
			kept:   []Method{WalkingFoot},
			broken: []Method{FreeMotion, RulerFoot},
		},
		isSteady: {
			figure: Turns, unit: "per m", value: f.RotationsPerMetre, limit: MaxRotations, atMost: true,
			kept:   []Method{WalkingFoot},
			broken: []Method{FreeMotion, RulerFoot},
		},
		isRuled: {
			figure: RulerLineCount, value: float64(f.RulerLines), limit: MinRulerLines,
			kept:   []Method{RulerFoot},
			broken: []Method{WalkingFoot, FreeMotion},
		},
		isStraight: {
			figure: StraightPart, value: f.StraightShare, limit: MinStraightShare,
			kept:   []Method{WalkingFoot, RulerFoot},
			broken: []Method{FreeMotion},
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
		r.Favours = o
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
	return Need{Figure: t.figure, Unit: t.unit, Now: t.value, Limit: t.limit, Rise: t.holds() == t.atMost}
}
