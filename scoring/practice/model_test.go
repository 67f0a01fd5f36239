package practice

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/scoring/progress"
)

// machine drives a course at random and checks after each action what a course
// promises, against a plain record of what was done.
type machine struct {
	c     Course
	now   float64
	made  []Step // steps of the traces made, in order
	calm  bool   // nothing but traces since the last one
	again bool   // the last action asked for the last step again
	warm  int    // traces of this session
	turns int    // of them of the mix, since the last row
	last  float64
}

func (m *machine) init(t *rapid.T) {
	names := rapid.SliceOfNDistinct(rapid.StringN(1, 8, -1), 1, 6, rapid.ID[string]).Draw(t, "motifs")
	k := rapid.IntRange(1, len(names)).Draw(t, "to learn")
	c, err := Start(Seed(rapid.Uint64().Draw(t, "seed")), names[:k], names[k:])
	if err != nil {
		t.Fatal(err)
	}
	m.c, m.now = c, 1e9
}

func (m *machine) trace(t *rapid.T) {
	step, before := Next(m.c, m.now), m.c
	kept := fmt.Sprintf("%+v", before)
	m.count()
	if want := step.Guide == progress.None && m.warm >= progress.WarmUpTraces; step.Counts != want {
		t.Fatalf("trace %d of the session: %+v", m.warm+1, step)
	}
	if step.Mix && (step.Number != m.turns%MixRound+1 || step.Of != MixRound || step.Round != (m.turns > 0 && m.turns%MixRound == 0)) {
		t.Fatalf("after %d turns: %+v", m.turns, step)
	}
	if n := len(m.made); m.calm && step.Mix && len(m.c.known()) > 1 && m.made[n-1].Motif == step.Motif {
		t.Fatalf("%s twice in a row in a mix", step.Motif)
	}
	if n := len(m.made); m.calm && !step.Mix {
		// A row goes on step by step; a new one may have had steps skipped before.
		p := m.made[n-1]
		same := p.Motif == step.Motif
		if same && (p.Number != step.Number-1 && !(p.Number == p.Of && p.Number == step.Number && !p.Counts) ||
			slices.Index(guides, p.Guide) > slices.Index(guides, step.Guide)) || !same && !p.Mix && p.Number < p.Of {
			t.Fatalf("after %+v comes %+v", p, step)
		}
	}
	if p := m.made; m.again && !reflect.DeepEqual(stripped(p[len(p)-1]), stripped(step)) {
		t.Fatalf("asked for %+v again, got %+v", p[len(p)-1], step)
	}
	seconds := float64(rapid.IntRange(0, 120).Draw(t, "seconds"))
	var err error
	if m.c, err = Done(m.c, m.now, seconds); err != nil {
		t.Fatal(err)
	}
	if after := fmt.Sprintf("%+v", before); after != kept {
		t.Fatalf("Done changed the course it was given: %s, %s", kept, after)
	}
	m.warm++
	m.turned(step, step.Mix || step.Counts)
	m.now += seconds
	m.last = m.now
	m.made, m.calm, m.again = append(m.made, step), true, false
}

// count sets back the number of traces after a long pause.
func (m *machine) count() {
	if m.now-m.last > progress.Gap {
		m.warm, m.turns = 0, 0
	}
}

// turned counts the turns of the mix; they begin anew once a row is through.
func (m *machine) turned(step Step, done bool) {
	switch {
	case step.Mix:
		m.turns++
	case done && step.Number == step.Of:
		m.turns = 0
	}
}

// stripped is a step without what hangs on the time and the session.
func stripped(s Step) Step {
	s.Counts, s.Round, s.Rest, s.Enough = false, false, false, false
	if s.Mix {
		s.Number = 0
	}
	return s
}

func (c Course) known() []string {
	var out []string
	for _, m := range c.Motifs {
		if m.Known() {
			out = append(out, m.Name)
		}
	}
	return out
}

func (m *machine) warmUp(t *rapid.T) {
	m.count()
	var err error
	if m.c, err = Elsewhere(m.c, m.now, 60); err != nil {
		t.Fatal(err)
	}
	m.warm++
	m.now += 60
	m.last = m.now
}

// skip goes to another step, unless there is one motif only and its row is through.
func (m *machine) skip(t *rapid.T) {
	before, known := stripped(Next(m.c, m.now)), len(m.c.known())
	m.c = Skip(m.c)
	if !before.Mix {
		m.turned(before, true)
	}
	if s := Next(m.c, m.now); s.Mix && len(m.c.known()) > 2 && m.c.Before.Motif >= 0 && s.Motif == m.c.Motifs[m.c.Before.Motif].Name {
		t.Fatalf("after skipping %s comes the last one, %s, again", before.Motif, s.Motif)
	}
	if after := stripped(Next(m.c, m.now)); before == after && !(before.Mix && known == 1) {
		t.Fatalf("skipping %+v changed nothing", before)
	}
	m.calm, m.again = false, false
}

func (m *machine) repeat(*rapid.T) {
	m.c = Again(m.c)
	m.calm, m.again = false, len(m.made) > 0
}

func (m *machine) pause(t *rapid.T) { m.now += float64(rapid.IntRange(0, 4000).Draw(t, "pause")) }

func (m *machine) add(t *rapid.T) {
	if c, err := Add(m.c, rapid.StringN(1, 8, -1).Draw(t, "name")); err == nil {
		m.c = c
	}
}

// check holds after every action: the course is sound, and comes back whole from the
// document it is kept in.
func (m *machine) check(t *rapid.T) {
	doc, err := Encode(m.c)
	if err != nil {
		t.Fatal(err)
	}
	back, err := Decode(doc)
	if err != nil || !reflect.DeepEqual(back, m.c) {
		t.Fatalf("kept %+v, came back %+v, error %v", m.c, back, err)
	}
	var traces int
	for _, motif := range m.c.Motifs {
		traces += motif.Traces
	}
	if traces != len(m.made) {
		t.Fatalf("%d traces counted, %d made", traces, len(m.made))
	}
}

func TestCourseAgainstModel(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var m machine
		m.init(rt)
		rt.Repeat(map[string]func(*rapid.T){
			"": m.check, "trace": m.trace, "trace again": m.trace, "one more trace": m.trace, "warm up": m.warmUp, "skip": m.skip, "repeat": m.repeat, "pause": m.pause, "add": m.add,
		})
	})
}

// Whatever bytes are read as a course are refused, or are one with which one can go on
// for a while.
func FuzzDecode(f *testing.F) {
	c, err := Start(7, []string{"spiral", "loops"}, []string{"waves"})
	if err != nil {
		f.Fatal(err)
	}
	doc, err := Encode(c)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"schema":1,"seed":"0","motifs":[{"name":"a","row":5,"done":5}],"before":{"motif":-1}}`))
	f.Add([]byte(`{"schema":1,"seed":3}`))
	f.Add([]byte(`{"schema":2}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		c, err := Decode(doc)
		if err != nil {
			return
		}
		again, err := Encode(c)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Decode(again); err != nil || !reflect.DeepEqual(back, c) {
			t.Fatalf("%+v came back as %+v, error %v", c, back, err)
		}
		for range 20 {
			Next(c, c.Sitting.To+1)
			if c, err = Done(Skip(Again(c)), c.Sitting.To+1, 1); err != nil {
				t.Fatal(err)
			}
			if err := c.Validate(); err != nil {
				t.Fatal(err)
			}
		}
	})
}
