package plan

import (
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route/steps"
)

// Summary says in a sentence what the route shown adds; none where there is no route.
func (k Desk) Summary() words.Msg {
	if len(k.Moves()) == 0 {
		return words.Msg{}
	}
	r := k.Route()
	again := len(k.movesThat(sewsAgain))
	return words.Of("route.summary", again, words.LengthMM(r.RetraceMM), r.SeamMM > 0, words.LengthMM(r.SeamMM), r.Jumps)
}

func sewsAgain(m steps.Move) bool { return m.AgainMM() > 0 }

func hides(m steps.Move) bool { return m.Kind == steps.DitchMove }

// Because says in a few words why the route shown adds what it adds, and which of
// its moves that are. It is none where nothing is added.
func (k Desk) Because() words.Msg {
	r := k.Route()
	if r.Added < 0.5 {
		return words.Msg{}
	}
	why := words.Of("route.because-loose")
	switch {
	case k.Drawing.Row:
		why = words.Of("route.because-row")
	case len(k.Reasons.Odd) > 0:
		why = words.Of("route.because-odd", len(k.Reasons.Odd))
	}
	again, hidden := k.movesThat(sewsAgain), k.movesThat(hides)
	return words.Of("route.because", len(again), words.And(again), len(hidden), words.And(hidden), r.Jumps, why)
}

// movesThat returns the numbers of the moves that do something.
func (k Desk) movesThat(do func(steps.Move) bool) []any {
	var out []any
	for i, m := range k.Moves() {
		if do(m) {
			out = append(out, i+1)
		}
	}
	return out
}

// Leading names a line and the direction in which it leads from one end to the other.
func (k Desk) Leading(e plane.Edge, from, to geom.Point) words.Msg {
	name := words.Piece(e.Stroke)
	if e.Kind == plane.Seam && e.Stroke == "" {
		name = words.Of("route.seam")
	}
	return words.Of("route.leg", name, words.Of("route.to."+direction(from, to)))
}

// directions are the keys of the eight directions, from the right clockwise.
var directions = [8]string{"right", "lower-right", "down", "lower-left", "left", "upper-left", "up", "upper-right"}

func direction(from, to geom.Point) string {
	if geom.Dist(from, to) < 1e-6 {
		return "round"
	}
	turn := math.Atan2(to.Y-from.Y, to.X-from.X) / (2 * math.Pi) // y grows downwards
	return directions[((int(math.Round(turn*8))%8)+8)%8]
}

// Fact is a figure of a plan: its name, and its value as an argument of a message.
type Fact struct {
	Name  words.Msg
	Value any
}
