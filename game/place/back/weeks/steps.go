package weeks

import (
	"cmp"
	"maps"
	"slices"

	"unthreaded/scoring/progress"
)

// stage is how far the book has been worked out.
type stage uint8

const (
	reading  stage = iota // the summaries
	sorting               // into sessions and days
	choosing              // what is alike
	scoring               // the sessions
	judging               // the progress
	curving               // the learning curve
	moving                // each movement
	done
)

// atOnce is how many summaries are read in a step: some 20 us each natively.
const atOnce = 150

// Busy tells whether there is something to work out.
func (b Book) Busy() bool { return b.stage < done }

// aFrame is how much is worked out in a step, in ms as they are natively; in a browser it
// takes some four times as long.
const aFrame = 4.0

// Step works out the next pieces, as many as a frame has time for, one at least. The longest
// are a verdict and a curve over hundreds of sessions, some 20 ms each natively.
func (b Book) Step() Book {
	for spent := 0.0; b.Busy(); {
		cost := b.cost()
		if spent > 0 && spent+cost > aFrame {
			break
		}
		spent += cost
		b = b.piece()
	}
	return b
}

// cost returns about how long the next piece takes, in ms as measured natively: see the
// benchmarks here and in progress.
func (b Book) cost() float64 {
	n := float64(len(b.work.Scores))
	switch b.stage {
	case reading:
		return 0.02 * float64(min(atOnce, len(b.kept)-b.next))
	case judging, moving:
		return 0.0003 * n * n
	case curving:
		return 0.12 * n
	}
	return 0.004 * float64(len(b.kept))
}

// piece works out the next piece.
func (b Book) piece() Book {
	switch b.stage {
	case reading:
		b = b.read()
	case sorting:
		b = b.sorted()
	case choosing:
		b = b.chosen()
	case scoring:
		b = b.scored()
	case judging:
		b.work.Judged, b.work.Trouble = progress.Judge(b.work.Scores, b.ask.Measure)
		b.stage++
	case curving:
		b.work.Curve, b.work.NoCurve = progress.LearningCurve(sure(b.work.Scores))
		b.stage++
		b.next = 0
	case moving:
		b = b.moved()
	}
	if b.stage == done {
		b.found = b.work
		b.Rev++
	}
	return b
}

// Done works everything out at once, for files and tests.
func (b Book) Done() Book {
	for b.Busy() {
		b = b.Step()
	}
	return b
}

// read reads the measures of some summaries.
func (b Book) read() Book {
	b.known, b.older = maps.Clone(b.known), slices.Clip(b.older)
	for n := 0; n < atOnce && b.next < len(b.kept); b.next++ {
		s := b.kept[b.next]
		if b.known[s.ID] != nil {
			continue
		}
		n++
		if m, err := s.ReadMeasured(); err == nil {
			b.known[s.ID] = entryOf(s, m)
		} else {
			b.older = append(b.older, s.ID)
		}
	}
	if b.next == len(b.kept) {
		b.stage++
	}
	return b
}

// sorted groups the traces into sessions and days.
func (b Book) sorted() Book {
	b.entries = nil
	var traces []progress.Trace
	for _, s := range b.kept {
		if e := b.known[s.ID]; e != nil {
			b.entries = append(b.entries, e)
			traces = append(traces, e.Trace)
		}
	}
	slices.SortStableFunc(b.entries, func(x, y *entry) int { return cmp.Compare(x.At, y.At) })
	sessions, err := progress.Sessions(traces)
	if err != nil {
		panic(err) // ReadMeasured has seen to it that all times are finite
	}
	b.sessions = sessions
	b.work.Days = b.zone.calendar(sessions)
	b.work.Motifs, b.work.Names = motifs(b.entries)
	b.stage++
	return b
}

// chosen picks out what is looked at.
func (b Book) chosen() Book {
	w := b.work
	b.work = Found{Motif: b.ask.Motif, Measure: b.ask.Measure, Days: w.Days, Motifs: w.Motifs, Names: w.Names}
	if b.ask.Motif != "" {
		b.chooseAlike()
	} else {
		b.chooseHelp()
	}
	b.seen, b.like = b.lens()
	b.stage++
	return b
}

// chooseAlike picks those of a motif that are alike: as asked, else those that can be
// judged best.
func (b *Book) chooseAlike() {
	asked := slices.DeleteFunc(slices.Clone(b.entries), func(e *entry) bool { return e.motif != b.ask.Motif })
	piles := b.piles(asked, Filters)
	taken, options := narrow(piles, b.ask.By)
	b.work.Options, b.work.By, b.work.Alike = options, taken.By, taken.Traces
	if len(piles) > 0 && !taken.Judged() && piles[0].Sessions > taken.Sessions {
		b.work.Better = piles[0]
	}
}

// chooseHelp picks, of all motifs, those with the same guide.
func (b *Book) chooseHelp() {
	piles := b.piles(b.entries, []Filter{Help})
	b.work.Options = map[Filter][]Option{Help: count(piles, Help)}
	if len(piles) == 0 {
		return
	}
	b.work.By = map[Filter]string{Help: piles[0].By[Help]}
	if v := b.ask.By[Help]; slices.ContainsFunc(piles, func(p Pile) bool { return p.By[Help] == v }) {
		b.work.By[Help] = v
	}
}

// moved judges the next movement and, after the last, makes the verdicts stricter for
// how many were looked at, as progress.Improving does.
func (b Book) moved() Book {
	m, ok := placeMeasure(b.ask.Measure)
	if !ok || b.next == len(progress.Movements) {
		b.work.Moves = strict(b.work.Moves)
		b.stage++
		return b
	}
	mv := progress.Movements[b.next]
	b.next++
	if scores := progress.HistoryOf(b.seen, b.like, mv, m); len(scores) > 0 {
		if j, err := progress.Judge(scores, m); err == nil {
			moves := map[progress.Movement]progress.Judgement{mv: j}
			for k, v := range b.work.Moves {
				moves[k] = v
			}
			b.work.Moves = moves
		}
	}
	return b
}

// strict applies Holm's rule to the evidence of the movements that could be judged.
func strict(moves map[progress.Movement]progress.Judgement) map[progress.Movement]progress.Judgement {
	var at []progress.Movement
	var p []float64
	for _, mv := range progress.Movements {
		if j, ok := moves[mv]; ok && j.Sessions >= progress.LeastSessions {
			at, p = append(at, mv), append(p, j.Evidence)
		}
	}
	moves = maps.Clone(moves)
	for i, adjusted := range progress.Holm(p) {
		j := moves[at[i]]
		if j.Evidence = adjusted; adjusted > progress.MostChance {
			j.Verdict = progress.Unchanged
		}
		moves[at[i]] = j
	}
	return moves
}

// sure returns the scores that enough traces stand behind.
func sure(scores []progress.Score) []float64 {
	var out []float64
	for _, s := range scores {
		if s.Sure() {
			out = append(out, s.Median)
		}
	}
	return out
}
