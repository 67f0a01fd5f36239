package draw

import (
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

type bound = control.Bound[place.Step[Room]]

// onBoard binds a control to a change of the board, after which the block is laid out
// anew and kept.
func onBoard(d control.Decl, do func(r Room, e control.Event) board.Board) bound {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) {
		r.Board = do(r, e)
		return r.laid().changed()
	})
}

// press binds a button to a change of the board.
func press(name string, do func(r Room) board.Board) bound {
	return onBoard(control.Decl{Name: name, Kind: control.Press}, func(r Room, _ control.Event) board.Board { return do(r) })
}

// act binds a button to what it does in the room.
func act(name string, do func(r Room) (Room, []place.Effect)) bound {
	return place.Bind(control.Decl{Name: name, Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return do(r) })
}

// set binds a control to a value that the room holds.
func set(d control.Decl, do func(r *Room, e control.Event)) bound {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) {
		do(&r, e)
		return r, nil
	})
}

func choice[T ~string](name string, of ...T) control.Decl {
	d := control.Decl{Name: name, Kind: control.Choice}
	for _, c := range of {
		d.Choices = append(d.Choices, string(c))
	}
	return d
}

func text(name string) control.Decl { return control.Decl{Name: name, Kind: control.Text} }

func toggle(name string) control.Decl { return control.Decl{Name: name, Kind: control.Toggle} }

// maxDots is the most dots on one side or line, letters how long a name may be.
const (
	maxDots = 200
	letters = 80
)

var controls = control.NewTable(slices.Concat(wholeControls, blockControls, motifControls, lineControls, dotControls, photoControls, lengthControls)...)

// wholeControls are about whole designs, files and the view.
var wholeControls = []bound{
	place.Bind(text("design"), func(r Room, e control.Event) (Room, []place.Effect) { return r.open(e.Text) }),
	act("quilt", func(r Room) (Room, []place.Effect) { return r, []place.Effect{place.Open{Place: place.QuiltPlan}} }),
	act("new", Room.newDesign), act("copy", Room.copied), act("delete", Room.deleted),
	act("save-svg", Room.saveSVG), act("save-design", Room.saveDesign), act("rehearse", Room.rehearse),
	act("route", func(r Room) (Room, []place.Effect) { return r.route(place.Notice{}) }),
	place.Bind(control.Decl{Name: "open-design", Kind: control.File}, func(r Room, e control.Event) (Room, []place.Effect) { return r.imported(e.Text) }),
	place.Bind(control.Decl{Name: "open-svg", Kind: control.File}, func(r Room, e control.Event) (Room, []place.Effect) { return r.openSVG(e.Text) }),
	onBoard(control.Decl{Name: "name", Kind: control.Text, Max: letters}, func(r Room, e control.Event) board.Board {
		return r.Board.SetName(strings.TrimSpace(e.Text))
	}),
	place.Bind(choice("zoom", "+", "-", "0"), func(r Room, e control.Event) (Room, []place.Effect) { return r.zoomed(e.Text), nil }),
	place.Bind(control.Decl{Name: "wheel", Kind: control.Wheel}, wheeled),
}

var blockControls = []bound{
	onBoard(choice("tool", board.Pencil, board.Ruler, board.Change), func(r Room, e control.Event) board.Board { return r.Board.SetTool(board.Tool(e.Text)) }),
	onBoard(choice("shape", motif.Shapes()...), func(r Room, e control.Event) board.Board { return r.Board.SetShape(motif.ShapeKind(e.Text)) }),
	onBoard(text("seams"), func(r Room, e control.Event) board.Board { return r.Board.SetSeams(motif.SeamKind(e.Text)) }),
}

// motifControls are about the ready motif of the block.
var motifControls = []bound{
	place.Bind(text("pattern"), func(r Room, e control.Event) (Room, []place.Effect) {
		if r.Picking() {
			r.Shared = r.Lead(PickFocus) // the picture that was pressed is folded away
		}
		r.gallery.fold = asNeeded
		r.Board = r.Board.SetPattern(e.Text)
		return r.laid().changed()
	}),
	act("pick", func(r Room) (Room, []place.Effect) {
		open := r.Picking()
		if r.gallery.fold = opened; open {
			r.gallery.fold = folded
		}
		return r, nil
	}),
	onBoard(control.Decl{Name: "param", Kind: control.Number, OfItem: true}, func(r Room, e control.Event) board.Board {
		return r.Board.SetParam(e.Item, e.Number)
	}),
	press("loosen", func(r Room) board.Board { return r.Board.Loosen() }),
	press("anew", func(r Room) board.Board { return r.Board.Anew() }),
}

// lineControls are about the drawn lines.
var lineControls = []bound{
	onBoard(control.Decl{Name: "choose", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) board.Board {
		if n, err := strconv.Atoi(e.Item); err == nil && n >= 0 {
			return r.Board.ChooseLine(n)
		}
		return r.Board
	}),
	onBoard(choice("kind", kinds...), func(r Room, e control.Event) board.Board { return r.Board.SetKind(e.Text) }),
	set(toggle("copies"), func(r *Room, e control.Event) { r.Copying.Keep = e.On }),
	set(control.Decl{Name: "turned", Kind: control.Number, Min: -360, Max: 360, Step: 15, Unit: "deg"}, func(r *Room, e control.Event) { r.Copying.Turned = e.Number }),
	set(control.Decl{Name: "repeats", Kind: control.Number, Min: 2, Max: board.MaxRepeats, Step: 1}, func(r *Room, e control.Event) { r.Copying.Repeats = int(e.Number) }),
	set(choice("row-way", "across", "down"), func(r *Room, e control.Event) {
		r.Copying = r.Copying.lying(e.Text == "down", r.Board.Design.Shape)
	}),
	press("choose-all", func(r Room) board.Board { return r.Board.ChooseLine(board.All) }),
	press("delete-line", func(r Room) board.Board { return r.Board.Delete() }),
	press("add-point", func(r Room) board.Board { return r.Board.AddPoint() }),
	press("drop-point", func(r Room) board.Board { return r.Board.DropPoint() }),
	press("next-point", func(r Room) board.Board { return r.Board.NextNode(1) }),
	press("smooth-point", func(r Room) board.Board { return r.Board.Round() }),
	press("corner-point", func(r Room) board.Board { return r.Board.Sharp() }),
	press("split", func(r Room) board.Board { return r.Board.Split() }),
	press("join", func(r Room) board.Board { return r.Board.Join() }),
	press("close-up", func(r Room) board.Board { return r.Board.CloseUp() }),
	press("mirror-across", func(r Room) board.Board { return r.Board.MirrorAcross(r.Copying.Keep) }),
	press("mirror-down", func(r Room) board.Board { return r.Board.MirrorDown(r.Copying.Keep) }),
	press("turn", func(r Room) board.Board { return r.Board.Turn(r.Copying.Turned, r.Copying.Keep) }),
	press("repeat", func(r Room) board.Board { return r.Board.Repeat(r.Copying.Repeats, r.Copying.step()) }),
	press("smoother", func(r Room) board.Board { return r.Board.Refit(1) }),
	press("closer", func(r Room) board.Board { return r.Board.Refit(-1) }),
	press("fit", func(r Room) board.Board { return r.Board.FitToBlock() }),
}

// dotControls are about the dots that are marked, and the ruler.
var dotControls = []bound{
	set(text("mark-on"), func(r *Room, e control.Event) { r.Ruler.MarkOn = e.Text }),
	onBoard(control.Decl{Name: "mark-count", Kind: control.Number, Max: maxDots, Step: 1}, func(r Room, e control.Event) board.Board {
		return r.Board.SetMark(r.Ruler.MarkOn, int(e.Number), r.Board.MarkOn(r.Ruler.MarkOn).Spread)
	}),
	onBoard(choice("mark-spread", spreads...), func(r Room, e control.Event) board.Board {
		return r.Board.SetMark(r.Ruler.MarkOn, max(2, r.Board.MarkOn(r.Ruler.MarkOn).Count), sketch.Spread(e.Text))
	}),
	set(choice("graduation", append(graduations[place.Inches], graduations[place.Millimetres]...)...), func(r *Room, e control.Event) { r.Ruler.Graduation = sketch.Graduation(e.Text) }),
	set(toggle("edge"), func(r *Room, e control.Event) { r.Ruler.Edge = e.On }),
	set(choice("edge-side", "left", "right"), func(r *Room, e control.Event) {
		r.Ruler.Side = sketch.Left
		if e.Text == "right" {
			r.Ruler.Side = sketch.Right
		}
	}),
}

// photoControls are about the photo under the drawing.
var photoControls = []bound{
	set(control.Decl{Name: "photo", Kind: control.Photo}, func(*Room, control.Event) {}), // the picture comes by itself
	press("photo-square", func(r Room) board.Board { return r.Board.SetPhoto(func(p *quilt.Photo) { p.Squared = true }, "") }),
	press("photo-corners", func(r Room) board.Board { return r.Board.SetPhoto(func(p *quilt.Photo) { p.Squared = false }, "") }),
	press("photo-drop", func(r Room) board.Board { return r.Board.DropPhoto() }),
	onBoard(toggle("photo-shown"), func(r Room, e control.Event) board.Board {
		return r.Board.SetPhoto(func(p *quilt.Photo) { p.Shown = e.On }, "")
	}),
	onBoard(control.Decl{Name: "photo-strength", Kind: control.Number, Min: 5, Max: 100, Step: 5}, func(r Room, e control.Event) board.Board {
		return r.Board.SetPhoto(func(p *quilt.Photo) { p.Strength = e.Number / 100 }, "photo-strength")
	}),
	onBoard(choice("photo-nudge", nudges()...), func(r Room, e control.Event) board.Board {
		corner, way, _ := strings.Cut(e.Text, " ")
		i, _ := strconv.Atoi(corner)
		return r.Board.NudgeCorner(i-1, nudgeBy[way])
	}),
}

var nudgeBy = map[string]geom.Point{"left": {X: -4}, "right": {X: 4}, "up": {Y: -4}, "down": {Y: 4}}

// nudges are the moves of the photo's corners by four of its pixels: "2 left" moves
// corner 2, counted from the upper left, to the left.
func nudges() []string {
	var out []string
	for corner := range 4 {
		for way := range nudgeBy {
			out = append(out, strconv.Itoa(corner+1)+" "+way)
		}
	}
	return out
}

// PickFocus is the button by which the pictures of the motifs are opened.
const PickFocus control.Focus = "draw-pick"

// kinds are the kinds of drawn line.
var kinds = []string{string(plane.Sewn), string(plane.Ruler), string(plane.Seam)}

var spreads = []sketch.Spread{sketch.WithEnds, sketch.BetweenEnds, sketch.HalfSpace, sketch.FromStart}

// graduations are the finest marks of rulers by their unit, the usual one first.
var graduations = map[place.Units][]sketch.Graduation{
	place.Inches:      {sketch.EighthInch, sketch.SixteenthInch},
	place.Millimetres: {sketch.Millimetre, sketch.HalfMillimetre},
}

// graduationIn returns the ruler's mark of the same fineness in a unit.
func graduationIn(u place.Units, g sketch.Graduation) sketch.Graduation {
	if g == sketch.SixteenthInch || g == sketch.HalfMillimetre {
		return graduations[u][1]
	}
	return graduations[u][0]
}

// Graduation returns the ruler's finest mark.
func (r Room) Graduation() sketch.Graduation {
	if r.Ruler.Graduation == "" {
		return graduationIn(r.Settings.Units, "")
	}
	return r.Ruler.Graduation
}

// step is the step from one copy in a row to the next.
func (c Copying) step() geom.Point {
	if c.Down {
		return geom.Pt(0, c.Pitch)
	}
	return geom.Pt(c.Pitch, 0)
}

// lying lays the row down or sideways; a distance of the whole block goes with it.
func (c Copying) lying(down bool, s motif.Shape) Copying {
	w, h := s.Box()
	from, to := w, h
	if !down {
		from, to = h, w
	}
	if c.Pitch == from && down != c.Down {
		c.Pitch = to
	}
	c.Down = down
	return c
}
