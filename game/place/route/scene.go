package route

import (
	"sort"
	"strconv"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/route/steps"
)

// seenKey names what is on the cloth.
type seenKey struct {
	drawing  string
	rev, own int
	view     screen.View
	screen   screen.Cloth
	theme    look.Theme
}

// layerKey tells the layers of the place apart from each other and from those of
// other places.
type layerKey struct {
	seen  seenKey
	layer string
}

// thread is the thread of the route of a key, the same pale, and the length sewn after each
// of its items.
type thread struct {
	key         seenKey
	items, pale []scene.Item
	ends        []float64
}

// paleShare is how much of the cloth is in the colour of what is not sewn yet in a play.
const paleShare = 0.72

// picture is the route as it is drawn.
func (r Room) picture() scene.Planned {
	return scene.Planned{
		Desk: r.Desk, View: r.view, Screen: r.Screen, Palette: r.Palette(), Book: r.Book(),
		Why: r.why, Advised: r.advised(), Open: r.inside, Near: r.pane.Larger(),
	}
}

// Scene is as place.Room has it. At rest the numbers lie on the whole route; while it is
// played the rest is pale and the thread grows behind the needle.
func (r Room) Scene(st *scene.Layers) scene.List {
	pal, picture := r.Palette(), r.picture()
	key := seenKey{r.Desk.Drawing.ID, r.Desk.Rev, r.rev, r.view, r.Screen, r.Theme()}
	sewn := scene.Memo[thread](st)
	if sewn.key != key {
		*sewn = thread{key: key}
		sewn.items, sewn.ends = picture.Thread()
		sewn.pale = faded(sewn.items, pal)
	}
	st.Renew(scene.ChalkLayer, layerKey{key, "drawing"}, picture.Lines)
	st.Renew(scene.StripLayer, layerKey{key, "strip"}, func() []scene.Item { return r.strip(pal) })
	switch {
	case r.own.Asked:
		st.Renew(scene.OverLayer, layerKey{key, "own-ends"}, func() []scene.Item { return nil })
		st.Renew(scene.ThreadLayer, layerKey{key, "own"}, func() []scene.Item { return r.ownLines(pal) })
		st.Moving = append(st.Moving, r.trail(pal)...)
	case r.clock.AtEnd() && !r.clock.Playing:
		st.Renew(scene.OverLayer, layerKey{key, "route"}, func() []scene.Item { return r.shaded(sewn.items, pal) })
		st.Renew(scene.ThreadLayer, layerKey{key, "marks"}, picture.Marks)
	default:
		reached := r.reached()
		st.Renew(scene.OverLayer, layerKey{key, "marks-below"}, func() []scene.Item { return append(sewn.pale[:len(sewn.pale):len(sewn.pale)], picture.Marks()...) })
		st.Renew(scene.ThreadLayer, layerKey{key, "played"}, func() []scene.Item { return nil })
		n := sort.Search(len(sewn.ends), func(i int) bool { return sewn.ends[i] > reached })
		st.At(scene.ThreadLayer).Items = sewn.items[:n:n]
		st.Moving = append(st.Moving, picture.Tail(sewn.ends, n, reached)...)
		st.Moving = append(st.Moving, scene.Needle(r.view.ToScreen(r.Desk.At(reached)), pal)...)
	}
	st.Moving = append(st.Moving, r.saidMove(picture)...)
	return st.List(r.Screen, geom.Point{})
}

// shaded is the thread of the route, pale outside the place that is opened.
func (r Room) shaded(items []scene.Item, pal look.Palette) []scene.Item {
	if r.inside < 0 {
		return items
	}
	s := r.Desk.Stays()[r.inside]
	return append(faded(items, pal), r.picture().Between(s.First, s.After)...)
}

// faded returns items in colours near that of the cloth.
func faded(items []scene.Item, pal look.Palette) []scene.Item {
	out := make([]scene.Item, len(items))
	for i, it := range items {
		it.Colour = scene.Mix(it.Colour, pal.Cloth, paleShare)
		out[i] = it
	}
	return out
}

// saidMove lights the move under the pointer, or the one that is played, and writes its number
// and what it is.
func (r Room) saidMove(picture scene.Planned) []scene.Item {
	i := r.shownMove()
	if i < 0 || i >= len(r.Desk.Moves()) {
		return nil
	}
	var items []scene.Item
	if i == r.lit && r.Desk.Moves()[i].Kind != steps.StopMove {
		items = picture.Lit(i)
	}
	if r.following() {
		return items // the page says it, larger
	}
	text := r.Book().Write(r.moveSaid(i))
	return append(items, scene.Caption(text, r.Screen, r.Palette())...)
}

// strip is the route pulled straight: its moves in order, those that are sewn twice or
// travelled hidden told apart, with the numbers that have room; of a row its places.
func (r Room) strip(pal look.Palette) []scene.Item {
	k, s, b := r.Desk, r.Screen, r.Book()
	top, total := s.H-s.Strip, k.Length()
	if s.Strip == 0 || total == 0 || r.own.Asked {
		return nil
	}
	head := scene.Text(b.Say("route.strip"), geom.Pt(scene.StripSide, top+13), pal.Mute)
	head.Align = scene.Left
	items := []scene.Item{head}
	if c := k.Choices[k.Pick]; c.Second > 0 {
		note := scene.Text(b.Say("route.strip-passes"), geom.Pt(s.W-scene.StripSide, top+13), pal.Mute)
		note.Align = scene.Right
		items = append(items, note)
	}
	a := scene.Axes{TextLeft: scene.StripSide, TextRight: s.W - scene.StripSide, Length: total}
	y := top + scene.StripTop + (s.Strip-scene.StripTop)*0.32
	done := 0.0
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			items = append(items, scene.StripStroke(a.X(done+st.From), a.X(done+st.To), y, st.Way, scene.Hue(pal, (done+st.To)/total), pal)...)
		}
		done += p.Line.Length()
	}
	return append(items, r.stripNumbers(a, y, pal)...)
}

// stripNumbers parts the strip into moves, or into the places of a row, and numbers them in
// one line, or a second one below it where they are too near, as far as there is room.
func (r Room) stripNumbers(a scene.Axes, y float64, pal look.Palette) []scene.Item {
	const first, second, apart = 20.0, 34.0, 5.0
	var items []scene.Item
	stays := r.Desk.Stays()
	from, right := a.TextLeft, map[float64]float64{}
	all := r.reaches()
	number := 0
	for i, m := range all {
		if len(stays) > 1 && i+1 < len(all) && r.Desk.StayOf(all[i+1].move) == r.Desk.StayOf(m.move) {
			continue
		}
		number++
		to := a.X(m.end)
		items = append(items, scene.Line(1, pal.Mute, geom.Pt(to, y-7), geom.Pt(to, y+7)))
		text, mid := strconv.Itoa(number), (from+to)/2
		half := scene.WidthOf(text, scene.NumberSize) / 2
		for _, down := range [2]float64{first, second} {
			if mid-half < right[down]+apart {
				continue
			}
			right[down] = mid + half
			l := scene.Text(text, geom.Pt(mid, y+down), pal.Ink)
			l.Width = scene.NumberSize
			items = append(items, l)
			break
		}
		from = to
	}
	return items
}
