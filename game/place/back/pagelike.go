package back

import (
	"fmt"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place/back/weeks"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

var filterNames = map[weeks.Filter]string{
	weeks.Row: "In the row", weeks.Way: "Way of moving", weeks.Device: "Drawn with",
	weeks.Help: "What was marked of the line", weeks.Size: "Size",
}

var valueNames = map[weeks.Filter]map[string]string{
	weeks.Way:    {keep.Pencil: "as with a pencil", keep.Cloth: "moving the cloth"},
	weeks.Device: {string(trace.Pen): "a pen", string(trace.Mouse): "a mouse", string(trace.Touch): "a finger"},
	weeks.Help: {
		string(progress.Whole): "the whole line", string(progress.Dots): "dots along it",
		string(progress.Ends): "a little help", string(progress.None): "no line, by heart",
	},
}

// valueName puts a value of a filter into words.
func valueName(k weeks.Filter, v string, m Room) string {
	switch {
	case k == weeks.Size:
		share, guessed := strings.CutSuffix(v, "?")
		text := share + " % of true size"
		if share == "100" {
			text = "true size"
		}
		if guessed {
			text += ", as far as the screen told"
		}
		return text
	case k == weeks.Row && v == "0":
		return "one line"
	case valueNames[k][v] != "":
		return valueNames[k][v]
	}
	return v
}

// like says what the traces that are compared have in common.
func like(f weeks.Found, m Room) string {
	if len(f.By) == 0 {
		return ""
	}
	help := valueName(weeks.Help, f.By[weeks.Help], m)
	if f.Motif == "" {
		return fmt.Sprintf("%s, each set against the usual for its own line, size, way of moving and device; marked: %s.", counted(f.Alike, "trace"), help)
	}
	row := f.By[weeks.Row] + " in the row"
	if f.By[weeks.Row] == "0" {
		row = "one line"
	}
	return fmt.Sprintf("%s, like with like: %s, %s, %s, %s; marked: %s.", counted(f.Alike, "trace"), row,
		valueName(weeks.Way, f.By[weeks.Way], m), valueName(weeks.Device, f.By[weeks.Device], m),
		valueName(weeks.Size, f.By[weeks.Size], m), help)
}

// guided says what traces with help can and cannot tell.
func guided(f weeks.Found) string {
	if h := f.By[weeks.Help]; h == "" || h == string(progress.None) {
		return ""
	}
	return "These traces had help. They tell how well you follow; what your hands know by heart, only traces without the line tell. End a practice with three of those."
}
