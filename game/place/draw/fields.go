package draw

import (
	"math"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// length is a field for a length in mm: what it takes, and what it sets.
type length struct {
	name  string
	reach func(r Room) (lo, hi float64)
	set   func(r Room, mm float64) Room
}

var lengths = []length{
	{"width", sides, func(r Room, mm float64) Room {
		r.Board = r.Board.SetSize(mm, r.Board.Design.Shape.H)
		return r
	}},
	{"height", sides, func(r Room, mm float64) Room {
		r.Board = r.Board.SetSize(r.Board.Design.Shape.W, mm)
		return r
	}},
	{"margin", func(r Room) (lo, hi float64) {
		w, h := r.Board.Design.Shape.Box()
		return 0, math.Min(w, h)/2 - 1
	}, func(r Room, mm float64) Room {
		r.Board = r.Board.SetMargin(mm)
		return r
	}},
	{"pitch", func(Room) (lo, hi float64) { return 0, math.Inf(1) }, func(r Room, mm float64) Room {
		r.Copying.Pitch = mm
		return r
	}},
	{"foot", func(Room) (lo, hi float64) { return place.MinFoot, place.MaxFoot }, func(r Room, mm float64) Room {
		r.Settings.FootMM = mm
		return r
	}},
	{"photo-width", photoSides, func(r Room, mm float64) Room {
		r.Board = r.Board.SetPhoto(func(p *quilt.Photo) { p.WMM = mm }, "photo-size")
		return r
	}},
	{"photo-height", photoSides, func(r Room, mm float64) Room {
		r.Board = r.Board.SetPhoto(func(p *quilt.Photo) { p.HMM = mm }, "photo-size")
		return r
	}},
}

func sides(Room) (lo, hi float64) { return motif.MinShape, motif.MaxShape }

func photoSides(Room) (lo, hi float64) { return quilt.MinPhotoSide, quilt.MaxPhotoSide }

// lengthControls are the fields; a text that is no length, or out of range, changes
// nothing and says why.
var lengthControls = func() []bound {
	var out []bound
	for _, f := range lengths {
		out = append(out, place.Bind(text(f.name), func(r Room, e control.Event) (Room, []place.Effect) { return f.typed(r, e.Text) }))
	}
	return out
}()

func (f length) typed(r Room, text string) (Room, []place.Effect) {
	mm, err := words.ParseLength(text, r.Inches())
	if lo, hi := f.reach(r); err == nil && !(mm >= lo && mm <= hi) {
		err = words.Refuse("draw.takes", words.LengthMM(lo), words.LengthMM(hi))
	}
	if err != nil {
		r.Wrong = Wrong{f.name, words.Why(err)}
		return r, nil
	}
	before := r.Settings
	r, effects := f.set(r, mm).laid().changed()
	if r.Settings != before {
		effects = append(effects, place.SaveSettings{Doc: r.Settings.Encode()})
	}
	return r, effects
}
