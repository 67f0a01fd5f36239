package game

import (
	"slices"
	"strconv"
	"unthreaded/game/keep"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
)

// choosePair takes a trace as one of the two that are compared: as the first, else as the
// second, in place of the second one where there are two. Choosing it again takes it away.
func (m Model) choosePair(id string) (Model, []Effect) {
	if next, was := m.unpaired(id); was {
		return next, nil
	}
	return m, []Effect{Fetch{ID: id, For: ToCompare}}
}

// compared lays a trace that was chosen down.
func (m Model) compared(f Fetched) Model {
	if f.Err != "" {
		m.Notice = Notice{Text: "This trace could not be read: " + f.Err + ". It was left as it is."}
		return m
	}
	rec, err := keep.Decode(f.Doc)
	var line geom.Line
	if err == nil {
		line, err = rec.GeomLine()
	}
	if err != nil {
		return m.unread(err)
	}
	sh := replay.Lay(rec, line, m.Settings.SPM, m.Settings.StitchMM).Unadvised()
	if m.Back.First == nil {
		m.Back.First = sh
	} else {
		m.Back.Second = sh
		m.Back.View = TwoTraces
		// To watch them is what comes next.
		m = m.focusOn("play")
	}
	return m.paired()
}

// paired sets the clock to the longer of the two, at its end.
func (m Model) paired() Model {
	b := &m.Back
	b.pairRev++
	var length float64
	for _, sh := range []*Sheet{b.First, b.Second} {
		if sh != nil {
			length = max(length, sh.Duration())
		}
	}
	b.Clock.T, b.Clock.Length, b.Clock.Playing = length, length, false
	return m.relaid()
}

// Pair is two traces laid one over the other, Rev grows with each change.
type Pair struct {
	First, Second *Sheet
	Clock         replay.Clock
	Rev           int
}

// Pair returns the two traces; false where none was chosen.
func (m Model) Pair() (Pair, bool) {
	b := m.Back
	return Pair{b.First, b.Second, b.Clock, b.pairRev}, b.First != nil
}

// PairNames returns what each of the two is called, empty for one that was not chosen.
func (m Model) PairNames() (names [2]string) {
	for i, sh := range []*Sheet{m.Back.First, m.Back.Second} {
		if sh != nil {
			names[i] = [2]string{"First", "Second"}[i] + m.Back.Book.Zone().Date(float64(sh.Rec.Started)/1000).Format(": 2 Jan 2006, 15:04")
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
func (m Model) pairLaid() Model {
	b, r := m.Back, m.Screen
	if b.First == nil {
		return m
	}
	lo, hi := b.First.Line.Path().Bounds()
	for _, sh := range []*Sheet{b.First, b.Second} {
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
	w, h := r.W-2*pairSide, r.H-r.Strip-pairTop-pairBottom
	zoom := min(mostPairZoom, w/max(1, hi.X-lo.X)/r.TrueSize(), h/max(1, hi.Y-lo.Y)/r.TrueSize())
	if !(zoom > 0.05) {
		zoom = 0.05 // a cloth not laid out yet, or too small for anything
	}
	m.View = View{Scale: r.TrueSize() * zoom, Zoom: zoom, TrueSize: r.TrueSize(), SizeKnown: r.SizeKnown}
	m.View.Origin = geom.Pt(r.W/2-m.View.Scale*(lo.X+hi.X)/2, pairTop+h/2-m.View.Scale*(lo.Y+hi.Y)/2)
	return m
}

// backPlay plays, stops and sets the replay of the two.
func (m Model) backPlay(c Control) Model {
	b := &m.Back
	v, err := strconv.ParseFloat(c.Value, 64)
	switch {
	case b.First == nil:
	case c.Name == "play":
		b.Clock = b.Clock.Toggle()
	case c.Name == "scrub" && err == nil:
		b.Clock = b.Clock.Scrub(b.First, v)
	case c.Name == "rate" && slices.Contains(replay.Rates, v):
		b.Clock.Rate = v
	}
	return m
}

// unread says that a kept trace is damaged.
func (m Model) unread(err error) Model {
	m.Notice = Notice{Text: "This trace is damaged and was left as it is: " + err.Error()}
	return m
}
