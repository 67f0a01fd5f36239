package quilt

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/quilt"
)

// topSentence says what to do next.
func topSentence(r Room) string {
	t, b := r.Top, r.Book()
	c, chosen := t.Cell()
	empty := r.emptyBlocks()
	switch {
	case t.Quilt.ID == "":
		return b.Say("quilt.next.begin")
	case r.Away.Back:
		return b.Write(awaySentence(r))
	case chosen && t.Choice().Design == "" && !t.Quilt.Covered(c):
		return b.Say("quilt.next.choose", top.SpotName(c.Spot))
	case chosen:
		return b.Say("quilt.next.chosen", chosenText(r))
	case empty > 0:
		return b.Say("quilt.next.empty", empty)
	case len(t.Measures.Wide) > 0:
		return b.Say("quilt.next.gaps", len(t.Measures.Wide))
	}
	return b.Say("quilt.next.all")
}

// chosenText tells what lies in the place chosen.
func chosenText(r Room) string {
	t := r.Top
	c, ok := t.Cell()
	if !ok {
		return ""
	}
	at := top.SpotName(c.Spot)
	if t.Quilt.Covered(c) {
		return capital(r.Book(), words.Of("quilt.chosen-under", at))
	}
	names := r.NamesOf([]string{t.Choice().Design})
	if len(names) == 0 {
		return capital(r.Book(), words.Of("quilt.chosen-empty", at))
	}
	return capital(r.Book(), words.Of("quilt.chosen", at, names[0], t.Choice().QuarterTurns))
}

// totals says in words what the top adds up to.
func totals(q quilt.Quilt, b words.Book) []place.Row {
	t := q.Totals()
	size := func(s quilt.Size) string { return b.Say("quilt.size.sides", words.SizeMM(s.W), words.SizeMM(s.H)) }
	rows := []place.Row{{ID: b.Say("quilt.total.top"), Value: size(t.Top)}}
	if len(q.Borders) > 0 {
		rows = append(rows, place.Row{ID: b.Say("quilt.total.inner"), Value: size(t.Inner)})
	}
	slices.SortStableFunc(t.Counts, func(a, b quilt.KindCount) int { return rank(a.Kind) - rank(b.Kind) })
	for _, k := range t.Counts {
		var sizes []string
		for _, s := range k.Shapes {
			sizes = append(sizes, b.Write(top.ShapeSize(s)))
		}
		rows = append(rows, place.Row{ID: capital(b, top.KindName(k.Kind)), Value: strconv.Itoa(k.Count), Note: strings.Join(sizes, "; ")})
	}
	if q.Setting == quilt.OnPoint {
		rows = append(rows,
			place.Row{ID: b.Say("quilt.total.diagonal"), Value: b.Amount(words.SizeMM(t.DiagonalMM))},
			place.Row{ID: b.Say("quilt.total.side"), Value: squares(t.Side, b), Note: b.Say("quilt.total.cut-twice")},
			place.Row{ID: b.Say("quilt.total.corner"), Value: squares(t.Corner, b), Note: b.Say("quilt.total.cut-once")})
	}
	return rows
}

// rank puts the blocks first, then what sets them, then what frames them.
func rank(k quilt.Kind) int {
	i := slices.Index([]quilt.Kind{quilt.Block, quilt.Alternate, quilt.SettingTriangle, quilt.CornerTriangle,
		quilt.Strip, quilt.Cornerstone, quilt.HalfCornerstone}, k)
	if i < 0 {
		return 100 // borders
	}
	return i
}

// squares tells which squares are cut for triangles, seams of 1/4 in included.
func squares(t quilt.Triangles, b words.Book) string {
	cut := words.CutMM(t.CutMM)
	up := b.Amount(cut) != b.Amount(words.SizeMM(t.CutMM))
	return b.Say("quilt.total.squares", t.Count, t.Squares, cut, up, words.SizeMM(t.CutMM))
}

// fitText says how the top compares with the size that is wanted, and what would make it
// so; nothing while none is wanted.
func fitText(t top.Top, b words.Book) string {
	if !(t.Want.W > 0 && t.Want.H > 0) {
		return ""
	}
	f := t.Quilt.FitTo(t.Want)
	if f.Fits() {
		return b.Say("quilt.fit.wanted", words.SizeMM(f.Have.W), words.SizeMM(f.Have.H))
	}
	var out []string
	direction := func(way string, have, want float64, fits bool) {
		if fits {
			out = append(out, b.Say("quilt.fit.right", way, words.SizeMM(have)))
			return
		}
		out = append(out, b.Say("quilt.fit.off", way, words.SizeMM(have), words.SizeMM(math.Abs(want-have)), have > want, words.SizeMM(want)))
	}
	if f.Have.W == f.Have.H && f.Want.W == f.Want.H {
		direction("both", f.Have.W, f.Want.W, f.FitsAcross())
	} else {
		direction("across", f.Have.W, f.Want.W, f.FitsAcross())
		direction("down", f.Have.H, f.Want.H, f.FitsDown())
	}
	for _, c := range f.Both {
		out = append(out, b.Say("quilt.fit.makes-both", changeText(c)))
	}
	for _, c := range f.Across {
		out = append(out, b.Say("quilt.fit.makes-width", changeText(c), words.SizeMM(c.After.H)))
	}
	for _, c := range f.Down {
		out = append(out, b.Say("quilt.fit.makes-height", changeText(c), words.SizeMM(c.After.W)))
	}
	if len(f.Both)+len(f.Across)+len(f.Down) == 0 {
		out = append(out, b.Say("quilt.fit.nothing"))
	}
	return strings.Join(out, " ")
}

// changeText names a change of the layout, at the start of a sentence.
func changeText(c quilt.Change) words.Msg {
	from, to := words.SizeMM(c.From), words.SizeMM(c.To)
	switch {
	case c.Part == quilt.AllBlocks:
		return words.Of("quilt.change.blocks", to, from)
	case c.Part == quilt.OuterBorder && c.Adds():
		return words.Of("quilt.change.new-border", to)
	case c.Part == quilt.OuterBorder && c.LeavesOff():
		return words.Of("quilt.change.no-border")
	case c.Part == quilt.OuterBorder:
		return words.Of("quilt.change.border", words.SizeMM(math.Abs(c.To-c.From)), c.To < c.From, to)
	case c.Adds():
		return words.Of("quilt.change.new-sashing", to)
	case c.LeavesOff():
		return words.Of("quilt.change.no-sashing")
	}
	return words.Of("quilt.change.sashing", to, from)
}

// capital writes a message at the start of a sentence.
func capital(b words.Book, m words.Msg) string { return words.Upper(b.Write(m)) }
