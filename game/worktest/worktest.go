// Package worktest runs the program as the page does, for tests: what is asked of the second
// program is done at once, and the answer heard.
package worktest

import (
	"sync"

	"unthreaded/game"
	"unthreaded/game/work"
	"unthreaded/game/work/run"
)

// Update is game.Update with all jobs done that are asked for on the way; what is to be done
// outside besides is returned. Jobs go the way of the page, as documents.
func Update(m game.Model, msg game.Msg) (game.Model, []game.Effect) {
	m, effects := game.Update(m, msg)
	var out []game.Effect
	for _, e := range effects {
		ask, ok := e.(work.Ask)
		if !ok {
			out = append(out, e)
			continue
		}
		var more []game.Effect
		m, more = Update(m, Answer(ask))
		out = append(out, more...)
	}
	return m, out
}

// answers are the answers so far by what was asked, as the page keeps them: tests of one
// program ask for the order of the same quilt again and again.
var answers sync.Map

// Answer does one job. What cannot go the way of the page panics: a mistake of the program.
func Answer(a work.Ask) work.Done {
	var q work.Queue
	turn, err := q.Ask(a)
	if err != nil {
		panic(err)
	}
	doc, known := answers.Load(string(turn.Start))
	if !known {
		doc = run.Doc(turn.Start, func(float64) {})
		answers.Store(string(turn.Start), doc)
	}
	out, err := work.Decode(doc.([]byte))
	if err != nil {
		panic(err)
	}
	return work.Done{N: a.N, Out: out}
}
