package practice

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/scoring/progress"
)

// Lengths are the lengths of a warm-up in minutes.
var Lengths = []int{3, 5, 10}

// Item is one minute of a warm-up: an exercise, or the block that is sewn next.
type Item struct {
	// Movement is what the exercise trains, empty for the block.
	Movement progress.Movement `json:"movement,omitempty"`
	// SizeMM is the radius of a curve or a loop, the length of a straight or of the
	// legs of a corner, in mm.
	SizeMM float64 `json:"size_mm,omitempty"`
	// Tempo times the speed of her own needle is how fast to go.
	Tempo   float64 `json:"tempo"`
	Seconds float64 `json:"seconds"`
	// Block names what she is about to sew, in the last item only.
	Block string `json:"block,omitempty"`
}

// sizes of the exercises in mm, and the tempos. They are ours.
var (
	sizes = map[progress.Movement][]float64{
		progress.Corner:     {25, 40, 60},
		progress.Loop:       {8, 12, 18},
		progress.TightLeft:  {6, 8, 11},
		progress.TightRight: {6, 8, 11},
		progress.Left:       {20, 35, 60},
		progress.Right:      {20, 35, 60},
		progress.Straight:   {60, 100, 150},
	}
	tempos = []float64{0.75, 1, 1.25}
)

const (
	// itemSeconds is the length of an item.
	itemSeconds = 60
	// evenShare is the weight of a movement that goes as usual, against 1 of a weak
	// spot that is e times as bad.
	evenShare = 0.25
)

// WarmUp returns a warm-up of 3, 5 or 10 minutes, an item for each. The movements are
// drawn by chance, weak spots more often than others; no item is like another, and no
// movement comes twice in a row. A movement begins slow before it gets fast. The last
// minute is the block. It fails on another number of minutes, a block without a name,
// and a weak spot of an unknown movement or with a weight that is no number from 0 on.
// Traces of a warm-up are to be marked so: they are never scored (progress.Trace).
func WarmUp(minutes int, weak []WeakSpot, block string, seed Seed) ([]Item, error) {
	if !slices.Contains(Lengths, minutes) {
		return nil, fmt.Errorf("a warm-up of %d minutes: it takes one of %v", minutes, Lengths)
	}
	if block == "" {
		return nil, fmt.Errorf("a warm-up ends with the block that is sewn next, and none is named")
	}
	weights, err := weightsOf(weak)
	if err != nil {
		return nil, err
	}
	items := make([]Item, 0, minutes)
	last := -1
	times := make([]int, len(weights)) // that each movement has come
	for range minutes - 1 {
		open := slices.Clone(weights)
		if last >= 0 {
			open[last] = 0
		}
		last, seed = seed.draw(open)
		var it Item
		it, seed = exercise(items, progress.Movements[last], times[last], seed)
		times[last]++
		items = append(items, it)
	}
	return append(items, Item{Block: block, Tempo: 1, Seconds: itemSeconds}), nil
}

// weightsOf returns the weight of each of progress.Movements.
func weightsOf(weak []WeakSpot) ([]float64, error) {
	weights := make([]float64, len(progress.Movements))
	for k := range weights {
		weights[k] = evenShare
	}
	for i, w := range weak {
		k := slices.Index(progress.Movements, w.Movement)
		if k < 0 {
			return nil, fmt.Errorf("weak spot %d: no movement is called %q", i, w.Movement)
		}
		if !(w.Weight >= 0) || math.IsInf(w.Weight, 1) {
			return nil, fmt.Errorf("weak spot %d (%s): weight %v", i, w.Movement, w.Weight)
		}
		weights[k] = evenShare + min(w.Weight, mostWorse)
	}
	return weights, nil
}

// exercise returns an exercise for a movement that has come so many times: each time
// faster until the tempo is the last one, and of a size that it has not had at that
// tempo. In 9 items, none twice in a row, a movement comes 5 times at most, and 5
// exercises are there: one size at each of the first two tempos and three at the last.
func exercise(before []Item, m progress.Movement, times int, seed Seed) (Item, Seed) {
	it := Item{Movement: m, Tempo: tempos[min(times, len(tempos)-1)], Seconds: itemSeconds}
	free := make([]float64, len(sizes[m]))
	for k, size := range sizes[m] {
		it.SizeMM = size
		if !slices.Contains(before, it) {
			free[k] = 1
		}
	}
	k, seed := seed.draw(free)
	it.SizeMM = sizes[m][k]
	return it, seed
}
