package board

import (
	"math"
	"slices"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/sketch"
)

// handLine is the last stroke of the pencil with the lines that were made of it: it
// can be fitted anew, closer to the hand or smoother.
type handLine struct {
	stroke geom.Polyline
	name   string
	pixel  float64
	// level counts the fits from the closest to the hand on; fits are those made.
	level int
	fits  [fits]fit
}

type fit struct {
	path geom.Spline
	told sketch.Fitted
}

// There are two fits closer to the hand than the usual one and two smoother, each
// with half or twice the lengths of the one before: bends of 3 mm, which the usual
// fit may take for corners, are bends to the closest.
const (
	fits     = 5
	usualFit = 2
)

// fitted fits a stroke at its level; the ends of an open line go to what is near.
func (b Board) fitted(hand handLine) (geom.Spline, sketch.Fitted, error) {
	o := sketch.Usual(hand.pixel)
	by := math.Pow(2, float64(hand.level-usualFit))
	o.Tolerance, o.Scale, o.Straight = o.Tolerance*by, o.Scale*by, o.Straight*by
	path, told, err := sketch.Fit(hand.stroke, o)
	if err != nil || told.Closed {
		return path, told, err
	}
	if snapped, _, _, err := sketch.SnapEnds(path, b.targets(), Reach*hand.pixel); err == nil {
		path = snapped
	}
	return path, told, nil
}

// handIndex returns the number of the line of the last stroke, None where it has
// been changed since or is gone.
func (b Board) handIndex() int {
	for i, l := range b.Design.Lines {
		if l.Name == b.hand.name && slices.Equal(l.Path, b.hand.fits[b.hand.level].path) {
			return i
		}
	}
	return None
}

// CanRefit tells whether the line of the last stroke can be made smoother (by is 1)
// or closer to the hand (-1).
func (b Board) CanRefit(by int) bool {
	to := b.hand.level + by
	return to >= 0 && to < fits && b.handIndex() != None
}

// Refit makes the line of the last stroke smoother (by is 1) or closer to the hand
// (-1). The dots it is given stay where they were along it.
func (b Board) Refit(by int) Board {
	if !b.CanRefit(by) {
		return b
	}
	i, hand := b.handIndex(), b.hand
	hand.level += by
	path, told, err := b.fitted(hand)
	if err != nil {
		b.Said = words.Of("draw.no-fit")
		return b
	}
	hand.fits[hand.level] = fit{path, told}
	b.hand, b.Fitted, b.HasFitted, b.Said, b.Node = hand, told, true, words.Msg{}, None
	return b.withPath(i, path, "")
}

// refound finds at which level the line of the last stroke is after a step back or
// forward.
func (b Board) refound() Board {
	for level, f := range b.hand.fits {
		at := b
		at.hand.level = level
		if f.path != nil && at.handIndex() != None {
			at.Fitted, at.HasFitted = f.told, true
			return at
		}
	}
	return b
}
