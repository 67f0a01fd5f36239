package plane

import (
	"math"
	"slices"
)

// join moves the noded chains so that what nearly meets within snap mm meets.
// It reports the spots and tells whether anything was changed.
func (w *work) join(snap float64) bool {
	index := newSegmentIndex(w.chains)
	sets := clusters(members(w.chains, index.touches(snap)), snap)
	w.chains = endsToLines(index, sets, snap)
	j := joiner{snap: snap, sets: sets, of: clusterOf(sets)}
	changed := false
	for i, c := range sets {
		if c.foot {
			j.of[c.at] = i
		}
		changed = changed || c.joined()
	}
	bent := make([]chain, len(w.chains))
	for i, c := range w.chains {
		bent[i] = j.bend(c)
		changed = changed || len(bent[i].pts) != len(c.pts)
	}
	if !changed {
		return false
	}
	w.reportSnaps(j)
	w.take(bent)
	return true
}

// take replaces the chains by the bent ones and reports what was left off.
func (w *work) take(bent []chain) {
	w.drawn = nil
	var kept []chain
	for i, c := range w.chains {
		d := bent[i]
		if len(d.pts) < 2 {
			w.trim(c, c.first(), c.length(), true)
			continue
		}
		if cut := d.at[0] - c.at[0]; cut > 0 {
			w.trim(c, d.first(), cut, false)
		}
		if cut := c.at[len(c.at)-1] - d.at[len(d.at)-1]; cut > 0 {
			w.trim(c, d.last(), cut, false)
		}
		kept = append(kept, d)
		w.drawn = append(w.drawn, c)
	}
	w.chains = kept
}

func (w *work) trim(c chain, at gridPoint, length float64, whole bool) {
	w.res.Trimmed = append(w.res.Trimmed, Trim{Stroke: w.lines[c.line].name, At: at.mm(), Length: length, Whole: whole})
}

func (w *work) reportSnaps(j joiner) {
	names := make([][]string, len(j.sets))
	for _, c := range w.chains {
		for _, p := range c.pts {
			if i, ok := j.of[p]; ok {
				names[i] = append(names[i], w.lines[c.line].name)
			}
		}
	}
	for i, c := range j.sets {
		if !c.joined() {
			continue
		}
		s := Snap{At: c.at.mm(), Joint: EndToEnd}
		ends := false
		for _, m := range c.members {
			s.From = append(s.From, m.p.mm())
			s.Moved = math.Max(s.Moved, m.p.gap(c.at))
			ends = ends || m.rank != junction
		}
		switch {
		case !ends:
			s.Joint = NearCrossing
		case c.foot || c.hasJunction():
			s.Joint = EndToLine
		}
		slices.Sort(names[i])
		s.Strokes = slices.Compact(names[i])
		w.res.Snapped = append(w.res.Snapped, s)
	}
}
