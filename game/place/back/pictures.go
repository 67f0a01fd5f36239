package back

import (
	"math"

	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// pictures are the first trace and the best, for their pictures under the chart.
type pictures struct {
	asked string // the ID of the one that is fetched
	have  [2]picture
}

// picture is a trace by its ID; without a sheet it could not be read.
type picture struct {
	id    string
	sheet *replay.Sheet
}

// Sizes in CSS pixels: the share of the cloth's height that the pictures take, its bounds,
// and the height that the chart needs beside them; what is free round each, and above it
// for its name.
const (
	pictureShare                   = 0.3
	leastPictures, mostPictures    = 110.0, 230.0
	leastChart                     = 330.0
	pictureSide, pictureName       = 16.0, 24.0
	pictureStitch, smallestPicture = 3.78, 0.3 // px per mm at which stitches are full size; the share they shrink to
)

// wanted returns the two traces to be pictured.
func (r Room) wanted() (marks [2]weeks.Mark, ok bool) {
	f := r.Weeks.Found()
	marks[0], marks[1], ok = f.FirstAndBest()
	return marks, ok
}

// pictureNext asks for the next trace to be pictured, one at a time, once older traces are
// measured.
func (r Room) pictureNext() (Room, []place.Effect) {
	marks, ok := r.wanted()
	if !ok || r.Weeks.Busy() || r.left() > 0 || r.pictures.asked != "" {
		return r, nil
	}
	for i, m := range marks {
		if r.pictures.have[i].id != m.ID {
			r.pictures.asked = m.ID
			return r.fetch(m.ID, place.ToPicture)
		}
	}
	return r, nil
}

// pictured takes a trace that was fetched for its picture.
func (r Room) pictured(f place.Fetched) Room {
	if r.pictures.asked != f.ID {
		return r
	}
	r.pictures.asked = ""
	p := picture{id: f.ID}
	if f.Err == "" {
		if rec, err := keep.Decode(f.Doc); err == nil {
			if line, err := rec.GeomLine(); err == nil {
				p.sheet = replay.Lay(rec, line, r.Settings.SPM, r.Settings.StitchMM).Unadvised()
			}
		}
	}
	marks, _ := r.wanted()
	for i, m := range marks {
		if m.ID == f.ID {
			r.pictures.have[i] = p
		}
	}
	return r
}

// pictureHeight returns how much of the cloth's height the pictures take, in CSS pixels: none
// where there are none, or no room for them.
func (r Room) pictureHeight() float64 {
	h := r.Screen.H - r.Screen.Strip
	high := math.Max(leastPictures, math.Min(mostPictures, pictureShare*h))
	marks, ok := r.wanted()
	if !ok || h-high < leastChart {
		return 0
	}
	for i, p := range r.pictures.have {
		if p.id != marks[i].ID || p.sheet != nil {
			return high // they come, or one is there
		}
	}
	return 0
}

// firstAndBest draws both side by side under the chart, at one size, as thread on chalk.
func (r Room) firstAndBest(pal look.Palette) []scene.Item {
	high := r.pictureHeight()
	marks, _ := r.wanted()
	if high == 0 {
		return nil
	}
	f, top := r.Weeks.Found(), r.Screen.H-r.Screen.Strip-high
	wide := r.Screen.W / 2
	scale := math.Inf(1)
	for i, p := range r.pictures.have {
		if p.sheet != nil && p.id == marks[i].ID {
			lo, hi := pictureBox(p.sheet)
			scale = min(scale, (wide-2*pictureSide)/max(1, hi.X-lo.X), (high-pictureName-pictureSide)/max(1, hi.Y-lo.Y))
		}
	}
	var items []scene.Item
	for i, p := range r.pictures.have {
		x := wide * float64(i)
		name := r.Book().Say("back.scene.pictured", i, words.DayOf(r.Weeks.Zone().Date(marks[i].At)), score(marks[i].Value, f))
		items = append(items, scene.TextLeft(name, x+pictureSide, top+pictureName/2, scene.Fitting(name, scene.LabelSize, wide-2*pictureSide), pal))
		if p.sheet == nil || p.id != marks[i].ID {
			continue
		}
		lo, hi := pictureBox(p.sheet)
		v := screen.View{Scale: scale}
		v.Origin = geom.Pt(x+wide/2-scale*(lo.X+hi.X)/2, top+pictureName+(high-pictureName-pictureSide)/2-scale*(lo.Y+hi.Y)/2)
		items = append(items, scene.Line(1, pal.Line, scene.OnScreen(p.sheet.Line.Path(), v)...))
		items = append(items, scene.SmallStitches(p.sheet, v, math.Max(smallestPicture, math.Min(1, scale/pictureStitch)), pal)...)
	}
	return items
}

// pictureBox returns the corners in mm of what the trace and its line take.
func pictureBox(sh *replay.Sheet) (lo, hi geom.Point) {
	lo, hi = sh.Line.Path().Bounds()
	if len(sh.Prep.Points) > 0 {
		l, h := sh.Prep.Points.Bounds()
		lo, hi = geom.Pt(min(lo.X, l.X), min(lo.Y, l.Y)), geom.Pt(max(hi.X, h.X), max(hi.Y, h.Y))
	}
	return lo, hi
}
