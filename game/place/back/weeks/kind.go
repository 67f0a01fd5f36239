// Package weeks looks back on the traces that are kept: it picks out those that can be
// compared, groups them into sessions, and works out, in small steps, what can be said
// of their progress. It knows no screen and no clock.
package weeks

import (
	"cmp"
	"fmt"
	"math"
	"strconv"

	"unthreaded/game/keep"
	"unthreaded/scoring/progress"
)

// Filter is something that has to be the same for traces to be compared.
type Filter string

// The filters, in the order in which they narrow the traces of a motif down.
const (
	Row    Filter = "row"    // repeats in the row
	Way    Filter = "way"    // keep.Pencil or keep.Cloth
	Device Filter = "device" // trace.Device
	Help   Filter = "help"   // progress.Guide
	Size   Filter = "size"   // share of true size in percent; "?" after a size that was guessed
)

// Filters lists them all.
var Filters = []Filter{Row, Way, Device, Help, Size}

// entry is a kept trace that has been measured.
type entry struct {
	progress.Trace
	motif, name string
	by          map[Filter]string
	spm, stitch float64
}

// Started is in milliseconds since 1970, as in the summaries.
func entryOf(s keep.Summary, m keep.Measured) *entry {
	e := &entry{motif: s.Motif, name: s.Name, spm: m.SPM, stitch: m.StitchMM}
	way := cmp.Or(s.Way, keep.Pencil)
	zoom := cmp.Or(s.Zoom, 1)
	help := guideOf(s.Guide)
	size := strconv.Itoa(int(math.Round(100 * zoom)))
	if !s.SizeKnown {
		size += "?"
	}
	e.by = map[Filter]string{
		Row: strconv.Itoa(s.Repeats), Way: way, Device: string(s.Device), Help: string(help), Size: size,
	}
	e.Trace = progress.Trace{
		ID: s.ID, At: float64(s.Started) / 1000, Seconds: m.Seconds, WarmUp: s.WarmUp,
		Figures: m.Figures, Places: m.Places,
		Like: progress.Like{
			// A size that was guessed may be another than the same share of one that
			// was measured on the screen.
			Line: fmt.Sprintf("%s/%d/%s/%s", s.Motif, s.Repeats, s.Print, size),
			Zoom: math.Round(100*zoom) / 100, Way: way, Device: s.Device, Guide: help,
		},
	}
	return e
}

// guideOf returns how much helped: what was marked of the line and, where nothing was,
// whether a needle that went ahead, a sound or a meter helped all the same. Beats before
// the start are no help on the way.
func guideOf(g *keep.Guide) progress.Guide {
	if g == nil {
		return progress.Whole // as all had before it was noted
	}
	switch known := g.Known(); {
	case known.Marks == keep.WholeLine:
		return progress.Whole
	case known.Marks == keep.DotsOnly, known.Lead != keep.NoLead:
		return progress.Dots
	case known.Marks == keep.EndsOnly, known.Ticks, known.SpeedStrip:
		return progress.Ends
	}
	return progress.None
}

// Option is one value of a filter and how many traces have it.
type Option struct {
	Value string
	Count int
}
