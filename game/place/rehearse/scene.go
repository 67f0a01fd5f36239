package rehearse

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// drawn is what the drawer keeps from frame to frame to spare work.
type drawn struct {
	// ink holds the screen places of the trace being drawn.
	ink []geom.Point
	// sewn[k] counts the items of the thread layer once fall k of the needle is drawn.
	sewn []int
	// speed holds the live speeds of the trace of speedKey as places on the strip.
	speed    []geom.Point
	speedKey threadKey
	// over holds the thread laid over.
	over scene.Timed
}

// drawer draws one frame.
type drawer struct {
	Room
	*scene.Layers
	*drawn
	pal look.Palette
}

// Scene draws the place.
func (r Room) Scene(l *scene.Layers) scene.List {
	d := drawer{r, l, scene.Memo[drawn](l), r.Palette()}
	d.chalk()
	l.Renew(scene.StripLayer, r.stripKey(), func() []scene.Item { return append(r.sizeNote(d.pal), r.strip(d.pal)...) })
	d.sewOver()
	d.thread()
	l.Moving = append(l.Moving, d.overSewn()...)
	l.Moving = r.moving(l.Moving, d.pal)
	if r.UnderNeedle() {
		l.Moving = r.underNeedle(l.Moving, l.At(scene.ChalkLayer).Items, d.pal)
	}
	if r.Live != nil {
		l.Moving = r.helps(l.Moving, d.pal)
		d.liveSpeed()
	}
	return l.List(r.Screen, r.Shift())
}

type chalkKey struct {
	line    int
	stretch Stretch
	open    *replay.Sheet // whose worst places are marked
	more    bool          // all of them
	marks   scene.ChalkMarks
	view    screen.View
	// screen bounds where names can stand.
	screen screen.Cloth
	theme  look.Theme
}

// chalk brings the line and its worst places up to date.
func (d drawer) chalk() {
	k := chalkKey{stretch: d.Stretch, line: d.LineRev, view: d.View, screen: d.Screen, theme: d.Theme(), marks: d.marks(), more: d.more}
	if d.Live == nil {
		k.open = d.Unveiled()
	}
	d.Renew(scene.ChalkLayer, k, func() []scene.Item {
		ribbons, numbers := worst(k.open, k.more, d.View, d.Screen, d.pal)
		c := d.crowd(k.marks).With(numbers, geom.Point{})
		ribbons = append(d.stretchOn(), ribbons...)
		return append(append(ribbons, scene.Chalk(d.Line, k.marks, d.View, c, d.pal)...), numbers...)
	})
}

// marks are those to be seen now: after a trace all of them, so that she sees where it
// went.
func (r Room) marks() scene.ChalkMarks {
	k := scene.ChalkMarks{What: keep.WholeLine, Winding: r.Winding(), Tracing: r.Live != nil, Held: r.UnderNeedle()}
	if r.Live != nil || r.Open == nil {
		g := r.Guide()
		k.What, k.Unnumbered = g.Marks, g.Unnumbered
	}
	if sh := r.Unveiled(); r.Live == nil && sh != nil && sh.Unmeasured == nil {
		k.Sewn = sh
	}
	return k
}

// threadKey names what the thread layer shows: the trace in hand by the time it
// began, or the stitches of a sheet.
type threadKey struct {
	live    float64
	tracing bool
	veiled  bool
	sheet   *replay.Sheet
	stitch  float64
	dpr     float64
	view    screen.View
	theme   look.Theme
}

// thread brings the top layer up to date: the ink of the trace in hand, or the
// stitches sewn up to the replay's time.
func (d drawer) thread() {
	key := threadKey{sheet: d.Open, veiled: d.Guessing(), stitch: d.Settings.StitchMM, dpr: d.Screen.DPR, view: d.View, theme: d.Theme()}
	if d.Live != nil {
		key = threadKey{live: d.Live.Began(), tracing: true, view: d.View, theme: d.Theme()}
	}
	layer := d.At(scene.ThreadLayer)
	if layer.Key != key {
		*layer = scene.Layer{Key: key}
		d.ink, d.sewn = d.ink[:0], d.sewn[:0]
	}
	switch {
	case d.Live != nil:
		d.inkUp(layer)
	case d.Guessing():
		if len(layer.Items) == 0 {
			layer.Items = veiled(d.Open, d.View, d.pal)
		}
	case d.Open != nil:
		d.sew(layer)
	}
}

// veiled draws a trace as it was drawn, as ink: without stitches, which would tell how
// even it was before she has said so.
func veiled(sh *replay.Sheet, v screen.View, pal look.Palette) []scene.Item {
	samples := sh.Rec.Trace().Samples
	pts := make([]geom.Point, len(samples))
	for i, s := range samples {
		pts[i] = v.ToScreen(s.P)
	}
	return []scene.Item{scene.Line(scene.InkWidth, pal.Thread, pts...)}
}

// inkUp adds the samples that have come since the last list as one stroke.
func (d drawer) inkUp(layer *scene.Layer) {
	from := len(d.ink)
	for _, s := range d.Live.Samples[from:] {
		d.ink = append(d.ink, d.View.ToScreen(s.P))
	}
	if len(d.ink) == from {
		return
	}
	// The stroke begins at the last point drawn, so that the ink hangs together.
	part := d.ink[max(0, from-1):len(d.ink):len(d.ink)]
	layer.Items = append(layer.Items, scene.Item{Shape: scene.Stroke, Points: part, Width: scene.InkWidth, Colour: d.pal.Thread})
}

// overLayerKey tells whether the layer holds the whole thread laid over, or nothing while
// it grows among what moves.
type overLayerKey struct {
	scene.OverKey
	whole bool
}

// sewOver brings the layer of the thread laid over up to date. In a replay it grows, as
// the thread above it does; so that not all has to be drawn anew in each frame, it is then
// among what moves (see overSewn).
func (d drawer) sewOver() {
	if key := (scene.OverKey{Sheet: d.Over, View: d.View, Theme: d.Theme()}); d.over.Key != key {
		d.over = scene.Over(d.Over, d.View, d.pal)
		d.over.Key = key
	}
	key := overLayerKey{d.over.Key, d.whole()}
	d.Renew(scene.OverLayer, key, func() []scene.Item {
		if key.whole {
			return d.over.Items
		}
		return nil
	})
}

// overSewn returns what is sewn of the thread laid over at the replay's time: both traces
// begin together, and each goes at its own pace.
func (d drawer) overSewn() []scene.Item {
	if d.Over == nil || d.whole() {
		return nil
	}
	return d.over.Until(d.Replay.T)
}

// whole tells that the traces lie there whole.
func (r Room) whole() bool { return r.Replay.AtEnd() || r.Live != nil || r.ideals() }

// overNeedle is the needle of the trace laid over, a ring with a dot, while it moves.
func (r Room) overNeedle(items []scene.Item, pal look.Palette) []scene.Item {
	if r.Over == nil || len(r.Over.Prep.Points) == 0 {
		return items
	}
	at := scene.NeedleAt(r.Over, r.Replay.T, r.View)
	return append(items, scene.Ring(at, 7, 2.5, pal.Over), scene.Line(4, pal.Over, at))
}

// idealMoving is the ideal needle alone, once it has been set going. Where the cloth moves
// under a needle, that one is it.
func (r Room) idealMoving(items []scene.Item, pal look.Palette) []scene.Item {
	if r.Live != nil || r.UnderNeedle() || !r.underWay() {
		return items
	}
	at := r.View.ToScreen(r.Line.At(r.PlaceNow()))
	return leads(items, at, 0, r.Book().Say("rehearse.ideal-needle"), pal)
}

// moving are the needle of the replay and the ideal needle beside it.
func (r Room) moving(items []scene.Item, pal look.Palette) []scene.Item {
	if r.ideals() {
		return r.idealMoving(items, pal)
	}
	sh := r.Unveiled()
	if r.Live != nil || sh == nil || len(sh.Prep.Points) == 0 || r.sewing.on || (r.Replay.AtEnd() && !r.Replay.Playing) {
		return items
	}
	ideal := r.View.ToScreen(sh.Line.At(r.HandSpeed() * r.Replay.T))
	items = leads(items, ideal, r.Replay.T, r.Book().Say("rehearse.ideal-needle"), pal)
	items = r.overNeedle(items, pal)
	at := r.View.ToScreen(sh.Prep.At(sh.Prep.T0 + r.Replay.T))
	return append(items, scene.Needle(at, pal)...)
}

// crowd returns what names on the cloth have to keep clear of, seen from where the
// layers have the cloth.
func (r Room) crowd(k scene.ChalkMarks) scene.Crowd {
	var rest geom.Point // how far the cloth is pushed while the start is under the needle
	var c scene.Crowd
	if k.Held {
		rest = r2.Sub(r.Needle(), r.View.ToScreen(r.Line.At(0)))
		c.Footed = true
		c.Taken = []scene.Box{scene.Around(r2.Sub(r.Hold(), rest), 2*holdRadius+8, 2*holdRadius+8)}
	}
	c.Room = scene.InSight(r.Screen)
	c.Room = scene.Box{Lo: r2.Sub(c.Room.Lo, rest), Hi: r2.Sub(c.Room.Hi, rest)}
	if k.What == keep.WholeLine {
		c.Line = scene.LinePlaces(r.Line, r.View)
	}
	return c.With(r.sizeNote(look.Palette{}), r2.Scale(-1, rest))
}

// sizeNote says on the cloth, in a corner where the line is not, that the line is shown
// smaller than it is.
func (r Room) sizeNote(pal look.Palette) []scene.Item {
	if b := r.Book(); b.Amount(words.Share(r.View.Zoom)) == b.Amount(words.Share(1)) {
		return nil
	}
	text := r.Book().Say("rehearse.true-size", words.Share(r.View.Zoom), r.View.SizeKnown)
	s := r.Screen
	c := scene.Crowd{Book: r.Book(), Line: scene.LinePlaces(r.Line, r.View), Room: scene.InSight(s)}
	var best scene.Item
	least := math.Inf(1)
	for _, top := range []bool{false, true} {
		for _, align := range []scene.Align{scene.Left, scene.Right} {
			it := scene.Text(text, geom.Pt(12, s.H-s.Strip-14), pal.Mute)
			if it.Align = align; align == scene.Right {
				it.Points[0].X = s.W - 12
			}
			if top {
				it.Points[0].Y = 14
			}
			b, _ := scene.BoxOf(it)
			if cost := c.Cost(b); cost < least {
				best, least = it, cost
			}
		}
	}
	return []scene.Item{best}
}
