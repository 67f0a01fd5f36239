// Package reel takes down what is to be seen in each frame of a replay, as display lists, so
// that the film can be drawn elsewhere.
package reel

import (
	"math"
	"slices"

	"unthreaded/game/look"
	"unthreaded/game/scene"
)

// Times are in hundredths of a second, as GIF counts them.
const (
	// frameTime makes 12.5 frames a second; browsers slow down what is below 2.
	frameTime = 8
	// shortest is the least time of a frame: a shorter rest goes to the one before.
	shortest = 4
	// Longest bounds a reel; a longer replay is shown faster.
	Longest = 2000
)

// Reel is a replay as display lists of W by H CSS pixels: plain data.
type Reel struct {
	W, H    float64
	Palette look.Palette
	// Speed is how many times as fast as the hand it runs.
	Speed float64
	// Times tell when each frame begins; the last is the still at the end.
	Times  []int
	Frames []Frame
}

// Frame is what a frame adds to the layers, which only grow, and what moves in it alone.
type Frame struct {
	New    [][]scene.Item
	Moving []scene.Item
}

// Recorder takes a reel down.
type Recorder struct {
	Reel
	list func(t float64) scene.List
	seen []int
}

// Record begins the reel of a replay that lasts length s at the rate, or faster so that it
// keeps within Longest. list returns the picture at a time of the replay, the last at
// infinity.
func Record(length, rate float64, p look.Palette, list func(t float64) scene.List) *Recorder {
	speed := math.Max(rate, length*100/Longest)
	return &Recorder{Reel: Reel{Palette: p, Speed: speed, Times: times(length / speed)}, list: list}
}

// times returns when the frames of some seconds begin, the last of them the still at their end.
func times(seconds float64) []int {
	end := int(math.Round(seconds * 100))
	var out []int
	for t := 0; t == 0 || end-t >= shortest; t += frameTime {
		out = append(out, t)
	}
	return append(out, max(end, shortest))
}

// Step takes one frame down, and tells whether there are more. Cost that of the picture.
func (r *Recorder) Step() bool {
	k := len(r.Frames)
	if k == len(r.Times) {
		return false
	}
	t := float64(r.Times[k]) / 100 * r.Speed
	if k == len(r.Times)-1 {
		t = math.Inf(1) // its time may have been rounded down
	}
	list := r.list(t)
	r.W, r.H = list.W, list.H
	if r.seen == nil {
		r.seen = make([]int, len(list.Layers))
	}
	f := Frame{New: make([][]scene.Item, len(list.Layers)), Moving: copied(list.Moving)}
	for i, l := range list.Layers {
		f.New[i] = copied(l.Items[r.seen[i]:])
		r.seen[i] = len(l.Items)
	}
	r.Frames = append(r.Frames, f)
	return true
}

// copied returns items that stay as they are when the picture goes on.
func copied(items []scene.Item) []scene.Item {
	out := slices.Clone(items)
	for i := range out {
		out[i].Points = slices.Clone(out[i].Points)
	}
	return out
}
