//go:build js

package main

import (
	"errors"
	"time"

	"unthreaded/game/work"
	"unthreaded/wasm/dom"
)

// linger is how long a job goes on that nobody waits for any more: some as long as it takes
// to begin the second program anew.
const linger = 300 * time.Millisecond

// ask has a job done by the second program.
func (a *app) ask(e work.Ask) {
	turn, err := a.queue.Ask(e)
	if err != nil {
		a.step(work.Done{N: e.N, Out: work.Broken{Fault: err.Error()}})
		return
	}
	a.turn(turn)
}

// turn does what the queue wants done.
func (a *app) turn(t work.Turn) {
	if t.Restart {
		dom.EndWork()
	}
	if t.Answer != nil {
		a.answered(t.N, t.Answer)
	}
	if t.Start != nil {
		dom.Work(t.Start)
	}
	if t.Linger {
		time.AfterFunc(linger, func() { a.turn(a.queue.Overdue()) })
	}
}

func (a *app) answered(n int, doc []byte) {
	out, err := work.Decode(doc)
	if errors.Is(err, work.ErrVersion) {
		a.step(work.Done{N: n, Lost: true, Other: true})
		return
	}
	if err != nil {
		out = work.Broken{Fault: err.Error()}
	}
	if b, broken := out.(work.Broken); broken {
		dom.Note(b.Fault)
	}
	a.step(work.Done{N: n, Out: out})
}

func (a *app) workTold(share float64) {
	a.step(work.Told{N: a.queue.Current(), Share: share})
}

func (a *app) workDone(doc []byte) {
	n, turn := a.queue.Ended(doc)
	a.turn(turn)
	a.answered(n, doc)
}

func (a *app) workLost() {
	for _, n := range a.queue.Lost() {
		a.step(work.Done{N: n, Lost: true})
	}
}
