package rehearse

import (
	"unthreaded/game/film/reel"
	"unthreaded/game/scene"
)

// Film begins to take down the replay of the trace on the cloth, at the replay's rate; nil
// where there is nothing to play.
func (r Room) Film() *reel.Recorder {
	if r.Open == nil || !(r.Replay.Length > 0) {
		return nil
	}
	r.Live, r.Replay.Playing = nil, false
	layers := new(scene.Layers)
	return reel.Record(r.Replay.Length, r.Replay.Rate, r.Palette(), func(t float64) scene.List {
		r.Replay = r.Replay.At(t)
		layers.Begin(r.Screen, 0, r.Theme())
		return r.Scene(layers)
	})
}
