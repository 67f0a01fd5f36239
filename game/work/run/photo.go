package run

import (
	"unthreaded/game/work"
	"unthreaded/path/photo"
)

// squared takes a block out of its photo.
func squared(in work.SquareIn) work.SquareOut {
	img, err := photo.Square(in.Photo, in.Corners, in.W, in.H, in.PxPerMM)
	if err != nil {
		return work.SquareOut{}
	}
	return work.SquareOut{Image: img}
}
