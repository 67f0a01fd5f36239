// Package plan holds the way round a drawing as it is planned: where it starts and
// leaves, what may be travelled, which of the possible routes is taken, and why
// something has to be sewn twice. It knows nothing of screens; places are in mm on
// the cloth.
package plan

import (
	"errors"
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Desk is a drawing with the route planned for it, as places share it. Make one with
// Open; a method returns the desk after it.
type Desk struct {
	Drawing Drawing
	// Graph is the drawing as junctions and lines, with a junction at the start
	// and the exit where they are set. Of a stage of a quilt, which has no lines but its
	// moves, each is a line.
	Graph plane.Graph
	// Joined and Doubled tell what was made of near misses and lines drawn twice.
	Joined  []plane.Snap
	Doubled []plane.Double

	Rule  route.EndRule
	Seams bool
	Stops bool
	// start and exit are the places asked for; Start and Exit their junctions,
	// route.Nowhere where the rule leaves them open.
	start, exit geom.Point
	Start, Exit int

	// Choices are the routes on offer, the best first; Pick is the one shown.
	Choices []Choice
	Pick    int
	// Given are the ways in which the drawing is sewn in a quilt; they come first. Fixed
	// tells that there are no others.
	Given []Choice
	Fixed bool
	// Trouble says why there is no route; none where there is one.
	Trouble words.Msg
	Reasons route.Reasons
	// Offers are the changes among the reasons, with what they come to, once Offered has
	// worked them out.
	Offers []Offer

	// Large tells that planning takes longer than a person waits, Waits that it is not done
	// for the desk as it is: what is shown is of before. Planned does it.
	Large, Waits bool

	base  plane.Graph
	built bool
	held  Handle
	// Rev grows with each change of what is drawn.
	Rev int
}

// Handle is what can be dragged on the cloth.
type Handle int

// The handles.
const (
	NoHandle Handle = iota
	StartHandle
	ExitHandle
)

// Snap is how near in mm a handle comes to a junction to take that.
const Snap = 4.0

// A drawing of more lines than largeLines, or whose lines make more pieces than largePieces
// where they cross, is planned beside the page: natively the ready drawings, of up to 64 lines
// and 134 pieces, take some 10 to 70 ms, and in a browser a few times as long.
const (
	largeLines  = 80
	largePieces = 200
)

// Open lays a drawing on the desk and plans it.
func Open(d Drawing) Desk { return Lay(d).Planned() }

// Lay lays a drawing on the desk; a large one waits to be planned.
func Lay(d Drawing) Desk { return lay(d).plan() }

func lay(d Drawing) Desk {
	k := Desk{Drawing: d, Rule: route.Free, Seams: true}
	strokes := d.Strokes()
	if k.Large = len(strokes) > largeLines; k.Large {
		return k
	}
	return k.onPlane(strokes)
}

// onPlane finds where the lines meet.
func (k Desk) onPlane(strokes []plane.Stroke) Desk {
	k.built = true
	res, err := plane.Build(strokes, plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		k.Trouble = trouble(err)
		return k
	}
	k.base, k.Joined, k.Doubled = res.Graph, res.Snapped, res.Doubled
	lo, hi := Bounds(res.Graph)
	k.start, k.exit = geom.Pt(lo.X, hi.Y), hi
	k.Large = k.Large || len(res.Graph.Edges) > largePieces
	return k
}

// Planned returns the desk with its routes and their reasons as its rules are.
func (k Desk) Planned() Desk {
	if !k.Waits {
		return k
	}
	k.Waits, k.Trouble = false, words.Msg{}
	if !k.built {
		k = k.onPlane(k.Drawing.Strokes())
	}
	return k.solved()
}

// Answered returns the desk as it was planned elsewhere, with the drawing that it is of, whose
// lines do not travel.
func (k Desk) Answered(planned Desk) Desk {
	planned.Drawing, planned.held = k.Drawing, k.held
	planned.Rev = k.Rev + 1
	return planned
}

// Bounds returns the corners of the smallest upright box round a graph.
func Bounds(g plane.Graph) (lo, hi geom.Point) {
	var all geom.Polyline
	for _, e := range g.Edges {
		all = append(all, e.Path...)
	}
	return all.Bounds()
}

// Terms returns the rules in force, with what a route may add priced in mm.
func (k Desk) Terms() route.Rules {
	r := route.Rules{
		Costs:   route.Costs{Retrace: 1, Seam: machine.DitchPrice, Jump: math.Inf(1)},
		Ends:    route.Ends{Rule: k.Rule, Start: k.Start, Exit: k.Exit},
		NoSeams: !k.Seams, FewestMoves: true,
	}
	if k.Stops {
		r.Costs.Jump = machine.StopPrice()
	}
	return r
}

// plan solves anew after a change of the rules; a large drawing waits for it.
func (k Desk) plan() Desk {
	k.Rev++
	if k.Large {
		k.Waits = true
		if len(k.Choices) == 0 {
			k.Trouble = words.Of("route.working")
		}
		return k
	}
	return k.solved()
}

func (k Desk) solved() Desk {
	if k.built && len(k.base.Edges) == 0 && !k.Trouble.None() {
		return k // the lines could not be laid out
	}
	k = k.placed()
	k.Choices, k.Trouble, k.Reasons, k.Offers = nil, words.Msg{}, route.Reasons{}, nil
	solve := k.choices
	if k.held != NoHandle {
		solve = k.bestOnly // a hand that drags wants an answer at once
	}
	choices, err := solve()
	if err != nil && len(k.Given)+len(choices) == 0 {
		k.Trouble = trouble(err)
		return k
	}
	if k.held == NoHandle {
		choices = append(k.Given[:len(k.Given):len(k.Given)], choices...)
	}
	k.Choices = choices
	k.Pick = max(0, min(k.Pick, len(choices)-1))
	return k.explained()
}

// explained finds the reasons of the route shown; not for a row, whose ends follow from
// its blocks, nor for whole lines, which add what they add to stay whole, nor while
// something is dragged.
func (k Desk) explained() Desk {
	k.Reasons, k.Offers = route.Reasons{}, nil
	if k.Drawing.Row || k.held != NoHandle || len(k.Choices) == 0 || k.Choices[k.Pick].Whole {
		return k
	}
	if reasons, err := route.Explain(k.Graph, k.Terms(), k.Route()); err == nil {
		k.Reasons = reasons
	}
	return k
}

// placed puts start and exit on the drawing as far as the rule asks for them.
func (k Desk) placed() Desk {
	k.Graph, k.Start, k.Exit = k.base, route.Nowhere, route.Nowhere
	if k.Rule != route.Free {
		k.Graph, k.Start = k.Graph.WithNode(k.start, Snap)
	}
	if k.Rule == route.Fixed {
		k.Graph, k.Exit = k.Graph.WithNode(k.exit, Snap)
	}
	return k
}

// trouble says why there is no route: the lines lie apart, or a drawing is none.
func trouble(err error) words.Msg {
	if errors.Is(err, route.ErrApart) {
		return words.Of("route.apart")
	}
	return words.Of("route.unplanned")
}

// Route returns the route shown; without choices it is empty. Its steps run over Graph;
// that of a quilt has none.
func (k Desk) Route() route.Route {
	if len(k.Choices) == 0 {
		return route.Route{Start: route.Nowhere, Exit: route.Nowhere}
	}
	return k.Choices[k.Pick].Route
}

// Moves returns the moves of the route shown, stops among them.
func (k Desk) Moves() []steps.Move {
	if len(k.Choices) == 0 {
		return nil
	}
	return k.Choices[k.Pick].Moves
}

// Pieces returns the paths of the route shown, one more than it has stops. Each of their
// stretches names the move that it is of, and tells whether that is sewn once more there.
func (k Desk) Pieces() []route.Piece {
	if len(k.Choices) == 0 {
		return nil
	}
	return k.Choices[k.Pick].Pieces
}

// Renewed returns the desk under a new revision, when it comes back by undo.
func (k Desk) Renewed(rev int) Desk {
	k.Rev, k.held = rev, NoHandle
	return k
}

// SetRule chooses where the route starts and leaves.
func (k Desk) SetRule(r route.EndRule) Desk {
	k.Rule = r
	return k.plan()
}

// SetSeams allows or bars travel in the ditch, SetStops stop-and-starts.
func (k Desk) SetSeams(on bool) Desk {
	k.Seams = on
	return k.plan()
}

// SetStops allows or bars stop-and-starts.
func (k Desk) SetStops(on bool) Desk {
	k.Stops = on
	return k.plan()
}

// Choose shows another of the routes on offer.
func (k Desk) Choose(i int) Desk {
	if i < 0 || i >= len(k.Choices) {
		return k
	}
	k.Pick = i
	k.Rev++
	if k.Large && !k.Drawing.Row && !k.Choices[i].Whole {
		k.Reasons, k.Offers = route.Reasons{}, nil
		return k.plan() // for the reasons
	}
	return k.explained()
}

// At returns the place of the needle after mm of the route shown.
func (k Desk) At(mm float64) geom.Point {
	var at geom.Point
	for _, p := range k.Pieces() {
		at = p.Line.At(mm)
		if mm <= p.Line.Length() {
			break
		}
		mm -= p.Line.Length()
	}
	return at
}

// Length returns how long the route shown is in mm, all that is sewn and travelled.
func (k Desk) Length() float64 {
	sum := 0.0
	for _, p := range k.Pieces() {
		sum += p.Line.Length()
	}
	return sum
}
