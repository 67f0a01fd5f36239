package plan

import (
	"unthreaded/game/words"
	"unthreaded/path/route/steps"
)

// movesSaid tells the moves of the route shown: of a row each stay in a place with how many
// moves it has, of a block every move.
func (k Desk) movesSaid() []words.Msg {
	c := k.Choices[k.Pick]
	var out []words.Msg
	if len(c.Groups) > 1 && len(c.Names) == len(c.Groups) {
		for i, name := range c.Names {
			after := len(c.Moves)
			if i+1 < len(c.Groups) {
				after = c.Groups[i+1]
			}
			n := 0
			for _, m := range c.Moves[c.Groups[i]:after] {
				if m.Kind != steps.StopMove {
					n++
				}
			}
			out = append(out, words.Of("route.stay", name, n))
		}
		return out
	}
	for _, m := range c.Moves {
		out = append(out, MoveSaid(m))
	}
	return out
}

// headings are the keys of directions by heading.
var headings = map[steps.Heading]string{
	steps.Right: "right", steps.DownRight: "lower-right", steps.Down: "down", steps.DownLeft: "lower-left",
	steps.Left: "left", steps.UpLeft: "upper-left", steps.Up: "up", steps.UpRight: "upper-right", steps.Nowhither: "round",
}

// MoveSaid tells a move: its form and whither it leads.
func MoveSaid(m steps.Move) words.Msg {
	if m.Kind == steps.StopMove {
		return words.Of("route.step-stop")
	}
	said := words.Of("route.leg", words.Of("route.form."+string(m.Form)), words.Of("route.to."+headings[m.Heading]))
	switch m.Kind {
	case steps.AgainMove:
		return words.Of("route.step-again", said)
	case steps.DitchMove:
		return words.Of("route.step-hidden", said)
	}
	return said
}
