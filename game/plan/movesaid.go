package plan

import (
	"math"
	"slices"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/route/steps"
)

// Stay is a run of moves in one place of a row, or all moves of a block: those from First
// up to, not including, After. Name is what the place is called, none of a block alone.
type Stay struct {
	Name         words.Msg
	First, After int
}

// Stays returns the stays of the route shown in order; moves that lead to a place belong to
// the stay before it.
func (k Desk) Stays() []Stay {
	n := len(k.Moves())
	if n == 0 {
		return nil
	}
	c := k.Choices[k.Pick]
	if len(c.Groups) < 2 || len(c.Names) != len(c.Groups) {
		return []Stay{{After: n}}
	}
	var out []Stay
	for i, first := range c.Groups {
		after := n
		if i+1 < len(c.Groups) {
			after = c.Groups[i+1]
		}
		out = append(out, Stay{c.Names[i], first, after})
	}
	out[0].First = 0
	return out
}

// StayOf returns the index of the stay that a move belongs to.
func (k Desk) StayOf(move int) int {
	stays := k.Stays()
	return max(0, slices.IndexFunc(stays, func(s Stay) bool { return move < s.After }))
}

// Numbered returns the number of a move as it is shown and said: within its stay, stops not
// counted; 0 of a stop.
func (k Desk) Numbered(move int) int {
	moves := k.Moves()
	if move < 0 || move >= len(moves) || moves[move].Kind == steps.StopMove {
		return 0
	}
	n := 0
	for _, m := range moves[k.Stays()[k.StayOf(move)].First : move+1] {
		if m.Kind != steps.StopMove {
			n++
		}
	}
	return n
}

// headings are the keys of directions by heading.
var headings = map[steps.Heading]string{
	steps.Right: "right", steps.DownRight: "lower-right", steps.Down: "down", steps.DownLeft: "lower-left",
	steps.Left: "left", steps.UpLeft: "upper-left", steps.Up: "up", steps.UpRight: "upper-right", steps.Nowhither: "round",
}

// Said tells each move of the route shown: its form, whither it leads and where it lies.
func (k Desk) Said() []words.Msg {
	moves := k.Moves()
	out := make([]words.Msg, len(moves))
	for _, s := range k.Stays() {
		p := placesOf(moves[s.First:s.After])
		for i := s.First; i < s.After; i++ {
			var before *steps.Move
			if i > s.First {
				before = &moves[i-1]
			}
			out[i] = p.said(moves[i], before)
		}
	}
	return out
}

// places knows the rows and columns in which the moves of a block lie: the heights of
// those that lead across it, the distances from the left of those that lead down or up.
type places struct{ rows, columns []float64 }

const (
	// flat is how high a move that leads across may be, as a share of how wide it is,
	// and the same for one that leads down.
	flat = 0.6
	// oneRow is how near in mm, and as a share of all rows, two moves lie in one row.
	oneRow, oneRowShare = 2.0, 0.04
	// mostRows is the number of rows up to which they are counted.
	mostRows = 9
)

// lie returns how a move lies: in a row at a height, in a column, or in neither.
func lie(m steps.Move) (at float64, row, column bool) {
	if m.Kind == steps.StopMove || m.Kind == steps.DitchMove || len(m.Path) < 2 {
		return 0, false, false
	}
	lo, hi := m.Path.Bounds()
	w, h := hi.X-lo.X, hi.Y-lo.Y
	switch {
	case (m.Heading == steps.Right || m.Heading == steps.Left) && h <= flat*w:
		return (lo.Y + hi.Y) / 2, true, false
	case (m.Heading == steps.Down || m.Heading == steps.Up) && w <= flat*h:
		return (lo.X + hi.X) / 2, false, true
	}
	return 0, false, false
}

func placesOf(moves []steps.Move) places {
	var p places
	for _, m := range moves {
		switch at, row, column := lie(m); {
		case row:
			p.rows = append(p.rows, at)
		case column:
			p.columns = append(p.columns, at)
		}
	}
	p.rows, p.columns = apart(p.rows), apart(p.columns)
	return p
}

// apart returns the different ones of some places, ascending.
func apart(at []float64) []float64 {
	slices.Sort(at)
	var out []float64
	for _, v := range at {
		if near := math.Max(oneRow, oneRowShare*(at[len(at)-1]-at[0])); len(out) == 0 || v > out[len(out)-1]+near {
			out = append(out, v)
		}
	}
	return out
}

// said tells a move that comes after another, nil for none.
func (p places) said(m steps.Move, before *steps.Move) words.Msg {
	form := words.Of("route.form." + string(m.Form))
	to := words.Of("route.to." + headings[m.Heading])
	switch m.Kind {
	case steps.StopMove:
		return words.Of("route.step-stop")
	case steps.DitchMove:
		return words.Of("route.ditch", headings[m.Heading])
	}
	said := words.Of("route.leg", form, to)
	if back := backFrom(m, before); back != "" {
		same := before.Form == m.Form
		said = words.Of("route.back", same, form, back)
	} else if where := p.where(m); !where.None() {
		said = words.Of("route.leg-at", form, to, where)
	}
	switch {
	case m.Kind == steps.AgainMove:
		return words.Of("route.step-again", said)
	case len(m.Again) > 0:
		return words.Of("route.partly-again", said)
	}
	return said
}

// where tells the row or the column that a move lies in; none where it lies in neither or
// there are too many or one alone.
func (p places) where(m steps.Move) words.Msg {
	at, row, column := lie(m)
	all := p.rows
	if column {
		all = p.columns
	}
	if !row && !column || len(all) < 2 || len(all) > mostRows {
		return words.Msg{}
	}
	n := 0
	for i, v := range all {
		if math.Abs(v-at) < math.Abs(all[n]-at) {
			n = i
		}
	}
	place := []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}[n]
	switch {
	case n == len(all)-1:
		place = "last"
	case 2*n == len(all)-1 && len(all) == 3:
		place = "middle"
	}
	if column {
		return words.Of("route.in-column", place)
	}
	return words.Of("route.in-row", place)
}

// backFrom tells on which side a move comes back along the one before it: "below",
// "above", "right", "left", "over" it, or crossing it, "through"; "" where it does not.
func backFrom(m steps.Move, before *steps.Move) string {
	if before == nil || before.Kind == steps.StopMove || before.Kind == steps.DitchMove || m.Form == steps.Ring {
		return ""
	}
	at, row, column := lie(m)
	was, wasRow, wasColumn := lie(*before)
	if row != wasRow || column != wasColumn || !row && !column || m.Heading == before.Heading {
		return ""
	}
	// It comes back as far as the other went.
	if d := geom.Dist(m.Path[len(m.Path)-1], before.Path[0]); d > 0.3*before.Length {
		return ""
	}
	switch {
	case m.Kind == steps.AgainMove:
		return "over"
	case math.Abs(at-was) <= oneRow:
		return "through"
	case row && at > was:
		return "below"
	case row:
		return "above"
	case at > was:
		return "right"
	}
	return "left"
}

// Told is a line of the order in words: a move, or a stay in a place of a row.
type Told struct {
	// Number is that on the cloth, 0 of a stop.
	Number int
	Text   words.Msg
}

// Order tells the route shown: of a row each stay in a place with how many moves it has,
// of a block every move.
func (k Desk) Order() []Told {
	stays := k.Stays()
	if len(stays) < 2 {
		return k.Inside(0)
	}
	var out []Told
	moves := k.Moves()
	for i, s := range stays {
		n := 0
		for _, m := range moves[s.First:s.After] {
			if m.Kind != steps.StopMove {
				n++
			}
		}
		out = append(out, Told{i + 1, words.Of("route.stay", s.Name, n)})
	}
	return out
}

// Inside tells the moves of a stay, by its index.
func (k Desk) Inside(stay int) []Told {
	stays := k.Stays()
	if stay < 0 || stay >= len(stays) {
		return nil
	}
	said, n := k.Said(), 0
	var out []Told
	for i := stays[stay].First; i < stays[stay].After; i++ {
		t := Told{Text: said[i]}
		if k.Moves()[i].Kind != steps.StopMove {
			n++
			t.Number = n
		}
		out = append(out, t)
	}
	return out
}

// Blocks returns the number of blocks that the route shown sews, at least 1.
func (k Desk) Blocks() int {
	seen := map[string]bool{}
	for _, e := range k.Graph.Edges {
		if e.Kind.Must() {
			seen[e.Block] = true
		}
	}
	return max(1, len(seen))
}
