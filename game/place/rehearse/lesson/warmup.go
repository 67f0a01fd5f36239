package lesson

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/motif"
	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
)

// stitchSeconds is how much time each stitch of a warm-up's clock stands for.
const stitchSeconds = 5

// staleAfter is how many seconds without a trace or a look end a warm-up: after that
// the hand is cold again.
const staleAfter = progress.Gap

// WarmUp is a warm-up in hand. Its clock goes on while she is at it, so that its
// minutes add up to what she asked for; a minute that ends while she traces waits for
// the hand to lift.
type WarmUp struct {
	// On tells that she is at it.
	On    bool
	Items []practice.Item
	// Weak are the weak spots that the minutes were drawn from.
	Weak []practice.WeakSpot
	// Block is what she is about to sew, which comes last.
	Block Line
	// Elapsed is how many seconds of it are over, Item which minute is on the cloth.
	Elapsed float64
	Item    int
	// At is when she was last at it, in s since 1970.
	At float64
}

// Warm plans a warm-up of so many minutes that ends with a block.
func Warm(minutes int, weak []practice.WeakSpot, block Line, seed practice.Seed, now float64) (WarmUp, error) {
	items, err := practice.WarmUp(minutes, weak, block.Name, seed)
	if err != nil {
		return WarmUp{}, err
	}
	return WarmUp{On: true, Items: items, Weak: weak, Block: block, At: now}, nil
}

// starts returns when minute k starts, and the end of the last for k = len(Items).
func (w WarmUp) starts(k int) float64 {
	var t float64
	for _, it := range w.Items[:k] {
		t += it.Seconds
	}
	return t
}

// Length returns how many seconds it takes.
func (w WarmUp) Length() float64 { return w.starts(len(w.Items)) }

// Over tells that all its minutes are over.
func (w WarmUp) Over() bool { return w.Elapsed >= w.Length() }

// Advance goes on by dt seconds to the time now, in s since 1970. Under a hand that
// traces the minute on the cloth stays. No minute is passed over: one that the hand
// has used up is there for a moment.
func (w WarmUp) Advance(dt, now float64, tracing bool) WarmUp {
	w.Elapsed += max(0, dt)
	w.At = max(w.At, now)
	if !tracing && w.Item+1 < len(w.Items) && w.Elapsed >= w.starts(w.Item+1) {
		w.Item++
	}
	return w
}

// Skip goes on to the next minute, in the last one to the end.
func (w WarmUp) Skip() WarmUp {
	w.Elapsed = w.starts(w.Item + 1)
	w.Item = min(w.Item+1, len(w.Items)-1)
	return w
}

// Repeat begins the minute on the cloth again.
func (w WarmUp) Repeat() WarmUp {
	w.Elapsed = w.starts(w.Item)
	return w
}

// Stale tells that it was left for so long that it has to begin anew.
func (w WarmUp) Stale(now float64) bool { return now-w.At > staleAfter }

// Stitches returns how far its clock has come, one stitch for every 5 seconds, and how
// many stitches it has.
func (w WarmUp) Stitches() (sewn, of int) {
	of = int(math.Round(w.Length() / stitchSeconds))
	return max(0, min(of, int(w.Elapsed/stitchSeconds))), of
}

// Now returns the minute on the cloth.
func (w WarmUp) Now() practice.Item { return w.Items[w.Item] }

// Next returns the minute after it, false in the last one.
func (w WarmUp) Next() (practice.Item, bool) {
	if w.Item+1 >= len(w.Items) {
		return practice.Item{}, false
	}
	return w.Items[w.Item+1], true
}

// Drawn tells that the minute on the cloth trains a weak spot, and returns it.
func (w WarmUp) Drawn() (practice.WeakSpot, bool) {
	k := slices.IndexFunc(w.Weak, func(s practice.WeakSpot) bool { return s.Movement == w.Now().Movement && s.Weight > 0 })
	if k < 0 {
		return practice.WeakSpot{}, false
	}
	return w.Weak[k], true
}

// exercises names the exercise for each movement.
var exercises = map[progress.Movement]motif.Exercise{
	progress.Corner:     motif.Corners,
	progress.Loop:       motif.SingleLoops,
	progress.TightLeft:  motif.TurningLeft,
	progress.Left:       motif.TurningLeft,
	progress.TightRight: motif.TurningRight,
	progress.Right:      motif.TurningRight,
	progress.Straight:   motif.Straights,
}

// Motif returns what to trace in the minute on the cloth; false means that the block
// has to be fetched first.
func (w WarmUp) Motif() (motif.Rehearsal, bool) {
	it := w.Now()
	if it.Movement == "" {
		return w.Block.Motif()
	}
	r, err := exercises[it.Movement].Rehearsal(it.SizeMM)
	return named(r), err == nil
}

func (w WarmUp) validate() error {
	if len(w.Items) == 0 || w.Item < 0 || w.Item >= len(w.Items) {
		return fmt.Errorf("minute %d of %d", w.Item, len(w.Items))
	}
	for i, it := range w.Items {
		last := i == len(w.Items)-1
		if !(it.Seconds > 0 && it.Seconds <= 3600) || !(it.Tempo > 0 && it.Tempo <= 4) || (it.Movement == "") != last {
			return fmt.Errorf("minute %d: %q for %v s at tempo %v", i, it.Movement, it.Seconds, it.Tempo)
		}
		if last {
			break
		}
		if _, err := exercises[it.Movement].Rehearsal(it.SizeMM); err != nil {
			return fmt.Errorf("minute %d: %w", i, err)
		}
	}
	if !(w.Elapsed >= 0) || math.IsInf(w.Elapsed, 1) || math.IsNaN(w.At) || math.IsInf(w.At, 0) {
		return fmt.Errorf("%v s of it are over at %v s", w.Elapsed, w.At)
	}
	if err := w.Block.validate(); err != nil {
		return fmt.Errorf("the block: %w", err)
	}
	return nil
}
