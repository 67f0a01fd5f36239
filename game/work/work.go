// Package work says what can be asked of the second program, the one that works while the
// page goes on: jobs as plain data in and plain data out. A place asks by an effect and the
// answer comes as a message; package run does the jobs, in that program and in tests.
package work

import "slices"

// Kind tells what is to be worked out.
type Kind string

// Ask is the effect that wants a job done. In is one of the types whose names end in In.
type Ask struct {
	N    int
	Kind Kind
	In   any
}

// Stop is the effect that gives a job up.
type Stop struct{ N int }

// Told is the message of how far a job has come: a share of 1.
type Told struct {
	N     int
	Share float64
}

// Done is the message that ends a job. Out is the type that belongs to its In; Lost tells
// that there is none since the program that worked on it ended, or could not be had; Other
// that it is the program of another version, which a second tab has taken meanwhile.
type Done struct {
	N     int
	Out   any
	Lost  bool
	Other bool
}

// Aside is the message that no program can work beside the page here: jobs are done by the
// page itself, a part between two frames.
type Aside struct{}

func (Ask) IsEffect()  {}
func (Stop) IsEffect() {}
func (Told) IsMsg()    {}
func (Done) IsMsg()    {}
func (Aside) IsMsg()   {}

// Job is a job that was asked for and is not done.
type Job struct {
	N    int
	Kind Kind
	// Of tells what it is of: the same kind of the same is not asked for twice.
	Of string
	// Since is when in s it was asked for, Share how much of it is done.
	Since, Share float64
	in           any
}

// Halt is a job that was stopped, or lost, and is not begun again by itself.
type Halt struct {
	Kind Kind
	Of   string
	Lost bool
	in   any
}

// once are the kinds that nobody begins by himself: a press asked for one.
var once = []Kind{Card, SVG, Save, Film}

// List is what is asked for. The zero List is empty; a method returns the list after it and
// leaves the one it is called on as it was.
type List struct {
	asked int
	jobs  []Job
	halts []Halt
	// Aside tells that the page does the jobs itself.
	Aside bool
}

// Any returns the job that was asked for last, if one is not done.
func (l List) Any() (Job, bool) {
	if len(l.jobs) == 0 {
		return Job{}, false
	}
	return l.jobs[len(l.jobs)-1], true
}

// Halted returns what was halted last, if it was not asked for again.
func (l List) Halted() (Halt, bool) {
	if len(l.halts) == 0 {
		return Halt{}, false
	}
	return l.halts[len(l.halts)-1], true
}

// Busy tells that a job of a kind is not done.
func (l List) Busy(k Kind) bool {
	return slices.ContainsFunc(l.jobs, func(j Job) bool { return j.Kind == k })
}

// Open tells that a job may be begun by itself: it is neither asked for nor halted.
func (l List) Open(k Kind, of string) bool {
	return !slices.ContainsFunc(l.jobs, func(j Job) bool { return j.Kind == k && j.Of == of }) &&
		!slices.ContainsFunc(l.halts, func(h Halt) bool { return h.Kind == k && h.Of == of })
}

// Ask asks for a job at a time in s; one of the same kind gives way to it.
func (l List) Ask(k Kind, of string, in any, now float64) (List, Ask) {
	l = l.without(k)
	l.asked++
	l.jobs = append(l.jobs, Job{N: l.asked, Kind: k, Of: of, Since: now, in: in})
	return l, Ask{N: l.asked, Kind: k, In: in}
}

// Stop halts every job, and returns what sees to it.
func (l List) Stop() (List, []Stop) {
	var out []Stop
	for _, j := range l.jobs {
		out = append(out, Stop{j.N})
		l = l.without(j.Kind)
		l.halts = append(l.halts, Halt{Kind: j.Kind, Of: j.Of, in: j.in})
	}
	return l, out
}

// Leave gives the jobs of a kind up that nobody looks at any more, and forgets those halted.
func (l List) Leave(k Kind) (List, []Stop) {
	var out []Stop
	for _, j := range l.jobs {
		if j.Kind == k {
			out = append(out, Stop{j.N})
		}
	}
	return l.without(k), out
}

// Again forgets what was halted at a time in s, so that it may be begun by itself; what nobody
// begins by himself is asked for anew.
func (l List) Again(now float64) (List, []Ask) {
	halts := l.halts
	l.halts = nil
	var out []Ask
	for _, h := range halts {
		if slices.Contains(once, h.Kind) {
			var a Ask
			l, a = l.Ask(h.Kind, h.Of, h.in, now)
			out = append(out, a)
		}
	}
	return l, out
}

// Told notes how far a job has come.
func (l List) Told(t Told) List {
	l.jobs = slices.Clone(l.jobs)
	for i := range l.jobs {
		if l.jobs[i].N == t.N {
			l.jobs[i].Share = t.Share
		}
	}
	return l
}

// Done ends a job and returns it; false for one that was stopped, or gave way, before. A
// lost one is halted.
func (l List) Done(d Done) (List, Job, bool) {
	i := slices.IndexFunc(l.jobs, func(j Job) bool { return j.N == d.N })
	if i < 0 {
		return l, Job{}, false
	}
	j := l.jobs[i]
	l = l.without(j.Kind)
	if d.Lost {
		l.halts = append(l.halts, Halt{j.Kind, j.Of, true, j.in})
	}
	return l, j, true
}

// without returns the list without what is asked for or halted of a kind, in slices of its
// own.
func (l List) without(k Kind) List {
	l.jobs = slices.DeleteFunc(slices.Clone(l.jobs), func(j Job) bool { return j.Kind == k })
	l.halts = slices.DeleteFunc(slices.Clone(l.halts), func(h Halt) bool { return h.Kind == k })
	return l
}
