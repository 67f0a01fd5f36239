package back

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// Pair is two traces laid one over the other; First is nil where none was chosen. Clock
// plays both, Rev grows with each change of them.
type Pair struct {
	First, Second *replay.Sheet
	Clock         replay.Clock
	Rev           int
}

// stitched returns the pair with the stitches of other settings.
func (p Pair) stitched(s place.Settings) Pair {
	if p.First != nil {
		p.First = p.First.Stitched(s.SPM, s.StitchMM).Unadvised()
	}
	if p.Second != nil {
		p.Second = p.Second.Stitched(s.SPM, s.StitchMM).Unadvised()
	}
	return p
}

// choosePair takes a trace as one of the two that are compared: as the first, else as the
// second, in place of the second one where there are two. Choosing it again takes it away.
func (r Room) choosePair(id string) (Room, []place.Effect) {
	if next, was := r.unpaired(id); was {
		return next, nil
	}
	return r.fetch(id, place.ToCompare)
}

// compared lays a trace that was chosen down.
func (r Room) compared(f place.Fetched) Room {
	if f.Err != "" {
		r.Notice = place.Say("back.unread")
		return r
	}
	rec, err := keep.Decode(f.Doc)
	var line geom.Line
	if err == nil {
		line, err = rec.GeomLine()
	}
	if err != nil {
		r.Notice = place.Say("back.damaged")
		return r
	}
	sh := replay.Lay(rec, line, r.Settings.SPM, r.Settings.StitchMM).Unadvised()
	if r.Pair.First == nil {
		r.Pair.First = sh
	} else {
		r.Pair.Second = sh
		r.View = TwoTraces
		r = r.led("play") // to watch them is what comes next
	}
	return r.paired()
}

// unpaired takes a trace out of the two that are compared, if it is one of them.
func (r Room) unpaired(id string) (next Room, was bool) {
	p := &r.Pair
	switch {
	case p.First != nil && p.First.Rec.ID == id:
		p.First, p.Second = p.Second, nil
	case p.Second != nil && p.Second.Rec.ID == id:
		p.Second = nil
	default:
		return r, false
	}
	return r.paired(), true
}

// paired sets the clock to the longer of the two, at its end.
func (r Room) paired() Room {
	p := &r.Pair
	p.Rev++
	var length float64
	for _, sh := range []*replay.Sheet{p.First, p.Second} {
		if sh != nil {
			length = max(length, sh.Duration())
		}
	}
	p.Clock.T, p.Clock.Length, p.Clock.Playing = length, length, false
	return r.Fit().(Room)
}

// PairNames returns what each of the two is called, empty for one that was not chosen.
func (r Room) PairNames() (names [2]string) {
	for i, sh := range []*replay.Sheet{r.Pair.First, r.Pair.Second} {
		if sh != nil {
			names[i] = r.Book().Say("back.pair-name", i, words.Moment(r.Weeks.Zone().Date(float64(sh.Rec.Started)/1000)))
		}
	}
	return names
}

// Room in pixels round the two traces: above them for their names, below for that of the
// start, beside for the width of stitches and needles.
const (
	pairTop, pairBottom, pairSide = 60.0, 44.0, 28.0
	// mostPairZoom bounds how much larger than true they are shown.
	mostPairZoom = 6.0
)

// pairLaid shows the two traces as large as the cloth allows.
func (r Room) pairLaid() Room {
	p, c := r.Pair, r.Screen
	if p.First == nil {
		return r
	}
	lo, hi := p.First.Line.Path().Bounds()
	for _, sh := range []*replay.Sheet{p.First, p.Second} {
		if sh == nil {
			continue
		}
		for _, path := range []geom.Polyline{sh.Line.Path(), sh.Prep.Points} {
			if len(path) == 0 {
				continue
			}
			l, h := path.Bounds()
			lo = geom.Pt(min(lo.X, l.X), min(lo.Y, l.Y))
			hi = geom.Pt(max(hi.X, h.X), max(hi.Y, h.Y))
		}
	}
	w, h := c.W-2*pairSide, c.H-c.Strip-pairTop-pairBottom
	zoom := min(mostPairZoom, w/max(1, hi.X-lo.X)/c.TrueSize(), h/max(1, hi.Y-lo.Y)/c.TrueSize())
	if !(zoom > 0.05) {
		zoom = 0.05 // a cloth not laid out yet, or too small for anything
	}
	r.sight = screen.View{Scale: c.TrueSize() * zoom, Zoom: zoom, TrueSize: c.TrueSize(), SizeKnown: c.SizeKnown}
	r.sight.Origin = geom.Pt(c.W/2-r.sight.Scale*(lo.X+hi.X)/2, pairTop+h/2-r.sight.Scale*(lo.Y+hi.Y)/2)
	return r
}
