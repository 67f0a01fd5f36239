// Package draw is the place where the lines of one block are drawn: a ready motif
// fitted to the block, strokes of the hand, ruler lines, lines from a file.
package draw

import (
	"fmt"
	"image"
	"math"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// Room is the place. Make one with New.
type Room struct {
	place.Shared
	// Board is the block that is drawn on; boards holds those of the other designs of
	// this visit, with their steps for undo, by the design's ID. The map is never
	// written into.
	Board  board.Board
	boards map[string]board.Board

	// View is how the block is shown, as pane asks for on the screen fitted.
	View   screen.View
	pane   screen.Pane
	fitted screen.Cloth
	// grip holds the pointers that are down, hand is the one that draws, nil for none.
	grip screen.Grip
	hand *int

	Ruler   Ruler
	Copying Copying
	gallery gallery
	Wrong   Wrong
	saving  saving
	jot     jot
}

// Ruler is how dots are marked and ruler lines shown.
type Ruler struct {
	// MarkOn is where dots are marked, Graduation the ruler's finest mark, "" for the
	// usual one.
	MarkOn     string
	Graduation sketch.Graduation
	// Edge shows the ruler's edge beside ruler lines, on a side of them.
	Edge bool
	Side sketch.Side
}

// Copying is how lines are turned, mirrored and repeated.
type Copying struct {
	// Keep leaves the old lines when lines are mirrored or turned.
	Keep bool
	// Turned is an angle in degrees, Repeats and Pitch are the row asked for, its
	// distance in mm; Down lays it downwards.
	Turned  float64
	Repeats int
	Pitch   float64
	Down    bool
}

// Wrong is what is wrong with what was typed into a field; it is gone with the next
// control.
type Wrong struct {
	Field string
	Said  words.Msg
}

// saving tells which state of the board was noted last, and since when in s a change
// waits to be kept, 0 for none.
type saving struct {
	steps, rev int
	since      float64
}

// keepAfter is how long in s a changed design waits to be kept, so that a slider or a
// drag is kept once.
const keepAfter = 0.4

// New returns the place before it is entered.
func New() Room {
	return Room{
		pane: screen.Pane{Zoom: 1, Most: MaxZoom}, Ruler: Ruler{MarkOn: quilt.OnSides, Side: sketch.Right},
		Copying: Copying{Turned: 90, Repeats: 3},
	}
}

// With returns the room with what is shared.
func (r Room) With(s place.Shared) place.Room {
	r.Shared = s
	r.Board.Book = s.Book()
	return r
}

// Enter lays a block on the board.
func (r Room) Enter() (place.Room, []place.Effect) {
	r = r.letGo() // fingers that went down before are lifted elsewhere
	if r.Board.Design.ID == "" {
		if len(r.Designs) == 0 {
			return r.newDesign()
		}
		return r.open(r.Designs[0].ID)
	}
	return r, r.wantPhoto()
}

// Leave ends the stroke in hand where it has come to, finishes the ruler line and keeps
// the block.
func (r Room) Leave() (place.Room, []place.Effect) {
	if r.hand != nil && r.Board.Tool == board.Pencil && !r.Board.Cornering() {
		if r.Board = r.Board.Up(); r.Board.Said.None() {
			r.Board.Said = words.Of("draw.out-of-sight")
		}
		r = r.letGo()
	}
	return r.done()
}

func (r Room) done() (Room, []place.Effect) {
	r.Board = r.Board.Finish()
	r, effects := r.changed()
	r, more := r.keep()
	r, last := r.jotted()
	return r, append(append(effects, more...), last...)
}

// Hear takes the picture of a photo, other units, and the wish to draw on a block.
func (r Room) Hear(msg place.Msg) (place.Room, []place.Effect) {
	switch msg := msg.(type) {
	case place.Photo:
		if msg.Err == "" {
			return r.photo(msg)
		}
	case place.Edit:
		return r.open(msg.Design)
	case place.Worked:
		return r.worked(msg)
	case place.Ink:
		r.Board = r.Board.ImportInk(msg.Lines)
		return r.laid().changed()
	case place.Clashed:
		if msg.Kind == place.DesignThing {
			return r.clashed(msg)
		}
	case place.Changed:
		if g := r.Ruler.Graduation; g != "" && msg.Before.Units != r.Settings.Units {
			r.Ruler.Graduation = graduationIn(r.Settings.Units, g)
		}
	}
	return r, nil
}

// Frame makes the next picture of a motif, writes down the stroke in hand, and keeps a
// block that has rested for a while.
func (r Room) Frame(float64) (place.Room, []place.Effect) {
	r.gallery = r.gallery.step()
	r, effects := r.jotted()
	if q, wanted := r.Board.Squares(); wanted && r.Working.Open(work.Square, fmt.Sprint(q)) {
		var asked []place.Effect
		r.Shared, asked = r.Asks(work.Square, fmt.Sprint(q), work.SquareIn{
			Photo: r.Board.Photo.Source, Corners: q.Corners, W: q.W, H: q.H, PxPerMM: q.PxPerMM(),
		})
		effects = append(effects, asked...)
	}
	if since := r.saving.since; since > 0 && r.Now()-since > keepAfter {
		r, more := r.keep()
		return r, append(effects, more...)
	}
	return r, effects
}

// Playing tells whether pictures are still to be made.
func (r Room) Playing() bool { return r.gallery.next() >= 0 }

// Undo takes the last change back: a deleted block, or a change of the block.
func (r Room) Undo() (place.Room, []place.Effect) {
	if n := len(r.Binned); n > 0 && r.Notice.Action == "undo" {
		d := r.Binned[n-1]
		r.Binned = r.Binned[:n-1]
		r.Library = r.WithDesign(d)
		r.Notice = place.Notice{}
		next, effects := r.open(d.ID)
		return next, append(effects, place.KeepDesign(d)...)
	}
	r.Board = r.Board.Undo()
	return r.laid().changed()
}

// Redo does again what was taken back last.
func (r Room) Redo() (place.Room, []place.Effect) {
	r.Board = r.Board.Redo()
	return r.laid().changed()
}

// Keys are the keys that the board takes.
func (r Room) Keys() []string {
	return []string{"ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Enter", "Delete", "Backspace", "+", "-", "0"}
}

// Key takes a key pressed on the cloth.
func (r Room) Key(k place.Key) (place.Room, []place.Effect) {
	switch k.Name {
	case "Escape":
		r.Board = r.Board.Escape()
		return r.letGo().changed()
	case "+", "-", "0":
		return r.zoomed(k.Name), nil
	}
	r.Board = r.Board.Key(k.Name, k.Shift)
	return r.changed()
}

// Controls are what the controls of the place take.
func (r Room) Controls() []control.Decl { return controls.Decls() }

// Control does what a control of the place asks for.
func (r Room) Control(sent control.Sent) (place.Room, []place.Effect, error) {
	r.Wrong = Wrong{}
	return place.Do(controls, r, sent)
}

// worked takes what a job came to.
func (r Room) worked(w place.Worked) (place.Room, []place.Effect) {
	switch out := w.Out.(type) {
	case work.SVGOut:
		if out.Unreadable {
			r.Board = r.Board.NoSVG()
			return r, nil
		}
		r.Board = r.Board.ImportLines(out.Lines, out.LeftOut)
		return r.laid().changed()
	case work.SaveOut:
		if out.Doc == nil {
			r.Notice = place.Say("draw.not-saved")
			return r, nil
		}
		return r, []place.Effect{place.Download{Name: w.Of, Type: "image/svg+xml", Data: out.Doc}}
	case work.SquareOut:
		if q, wanted := r.Board.Squares(); wanted && fmt.Sprint(q) == w.Of {
			r.Board = r.Board.GiveSquared(q, out.Image)
		}
	}
	return r, nil
}

// photo takes a photo to draw over, chosen or fetched.
func (r Room) photo(p place.Photo) (place.Room, []place.Effect) {
	src := &image.RGBA{Pix: p.Pix, Stride: 4 * p.W, Rect: image.Rect(0, 0, p.W, p.H)}
	switch p.Name {
	case "draw.photo":
		r.Board = r.Board.TakePhoto(p.ID, src)
		return r.changed()
	case "":
		r.Board = r.Board.GivePhoto(p.ID, src)
	}
	return r, nil
}

// boardMargin is the room in mm round the block on the screen, largest the share of true
// size at which a whole block is shown at most, MaxZoom how much larger than whole it can
// be shown.
const (
	boardMargin = 12.0
	largest     = 3.0
	smallest    = 0.02
	MaxZoom     = 8.0
)

// Fit lays the block out for the screen. A bar of the browser that slides away leaves the
// view alone under a hand that draws; a change that moves the block ends what the hand has
// begun, since its way would go astray.
func (r Room) Fit() place.Room {
	if r.Screen != r.fitted {
		before := r.fitted
		bar := r.Screen.W == before.W && r.Screen.DPR == before.DPR && math.Abs(r.Screen.H-before.H) <= before.H/4
		if r.hand != nil && bar {
			return r
		}
		if r.hand != nil {
			r.Board = interrupted(r.Board, r.Book())
			r, _ = r.changed()
		}
		r = r.letGo()
	}
	return r.laid()
}

// laid fits the block to the screen.
func (r Room) laid() Room {
	w, h := r.Board.Design.Shape.Box()
	if w == 0 {
		return r
	}
	s := r.Screen
	whole := math.Min(s.W/((w+2*boardMargin)*s.TrueSize()), s.H/((h+2*boardMargin)*s.TrueSize()))
	r.pane.Size, r.pane.Whole = geom.Pt(w, h), math.Max(smallest, math.Min(largest, whole))
	r.View, r.fitted = r.pane.View(s), s
	r.Board.Pixel = 1 / r.View.Scale
	r.gallery = r.gallery.of(r.Board.Design.Shape, r.Board.Design.Margin)
	return r
}

// zoomed shows the block larger about the place touched last, smaller, or whole.
func (r Room) zoomed(how string) Room {
	about := r.Board.At
	if about == (geom.Point{}) {
		w, h := r.Board.Design.Shape.Box()
		about = geom.Pt(w/2, h/2)
	}
	r.pane = r.pane.Stepped(how, about)
	return r.laid()
}

// Zoomed tells whether a part of the block is shown larger.
func (r Room) Zoomed() bool { return r.pane.Larger() }

// Picking tells whether the pictures of the ready motifs are open.
func (r Room) Picking() bool {
	if r.gallery.fold == asNeeded {
		return r.Board.Design.Recipe == nil && len(r.Board.Design.Lines) == 0
	}
	return r.gallery.fold == opened
}

// Sight returns how the block lies on the screen.
func (r Room) Sight() screen.View { return r.View }
