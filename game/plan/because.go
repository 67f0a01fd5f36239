package plan

import (
	"fmt"
	"strconv"
	"strings"

	"unthreaded/path/route"
)

// Because says in a few words why the route shown adds what it adds, and which of
// its steps that are. It is empty where nothing is added.
func (k Desk) Because() string {
	r := k.Route()
	if r.Added < 0.5 {
		return ""
	}
	var parts []string
	for _, w := range []struct {
		way  route.Way
		text string
	}{{route.Again, "sewn once more"}, {route.Hidden, "hidden in the ditch"}} {
		if steps := k.stepsOf(w.way); steps != "" {
			parts = append(parts, steps+" "+w.text+".")
		}
	}
	if r.Jumps > 0 {
		parts = append(parts, fmt.Sprintf("%s: tie off, cut and begin again.", count(r.Jumps, "stop", "stops")))
	}
	switch {
	case k.Drawing.Row:
		parts = append(parts, "Each pass has to come through every block, so lines that lead on are needed.")
	case len(k.Reasons.Odd) > 0:
		parts = append(parts, fmt.Sprintf("An odd number of lines meets at %s, ringed. You come in and go out in twos, so one is left over at each, and a way has to be added.", count(len(k.Reasons.Odd), "junction", "junctions")))
	default:
		parts = append(parts, "The lines lie in loose pieces; the way from one to the next has to be added.")
	}
	if r.Exact && !k.Drawing.Row {
		parts = append(parts, "With these ends no route adds less.")
	}
	return strings.Join(parts, " ")
}

// stepsOf names the steps of one way: "Step 4" or "Steps 4, 9 and 12".
func (k Desk) stepsOf(w route.Way) string {
	var steps []string
	for i, s := range k.Route().Steps {
		if s.Way == w {
			steps = append(steps, strconv.Itoa(i+1))
		}
	}
	switch n := len(steps); n {
	case 0:
		return ""
	case 1:
		return "Step " + steps[0]
	default:
		return "Steps " + strings.Join(steps[:n-1], ", ") + " and " + steps[n-1]
	}
}
