package quilt

import (
	"fmt"
	"strconv"
	"strings"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/sketch"
)

// Mark is a number of evenly spaced dots to be marked on the block, for the ruler.
type Mark struct {
	// On says where: OnSides, "side 1" for the first side clockwise to the eye from
	// the upper left, or "line " and the name of a drawn line.
	On     string        `json:"on"`
	Count  int           `json:"count"`
	Spread sketch.Spread `json:"spread"`
}

// OnSides is every side of the block.
const OnSides = "sides"

const (
	onSide = "side "
	onLine = "line "
	// MaxMarks bounds the marks of a design.
	MaxMarks = 100
	// sameMark in mm is the distance below which two dots are one.
	sameMark = 0.05
)

// MarkPlaces returns the places that dots can be marked on, sides before lines.
func (d Design) MarkPlaces() []string {
	out := []string{OnSides}
	if d.Shape.Kind != motif.Circle {
		for i := range d.Shape.OutlinePieces() {
			out = append(out, onSide+strconv.Itoa(i+1))
		}
	}
	for _, l := range d.Lines {
		out = append(out, onLine+l.Name)
	}
	return out
}

// MarkPlace tells what a place of dots is: the number of a side, from 1, or the name of a
// line; 0 and "" for every side.
func MarkPlace(on string) (side int, line string) {
	if name, ok := strings.CutPrefix(on, onLine); ok {
		return 0, name
	}
	side, _ = strconv.Atoi(strings.TrimPrefix(on, onSide))
	return side, ""
}

// HasMarkPlace tells whether dots can be marked there.
func (d Design) HasMarkPlace(on string) bool {
	for _, place := range d.MarkPlaces() {
		if place == on {
			return true
		}
	}
	return false
}

// MarkedLines returns the lines that the dots of a place lie on: one, or all sides.
func (d Design) MarkedLines(on string) ([]geom.Line, error) {
	var paths []geom.Polyline
	for i, p := range d.Shape.OutlinePieces() {
		if on == OnSides || on == onSide+strconv.Itoa(i+1) {
			paths = append(paths, p.Path)
		}
	}
	if name, ok := strings.CutPrefix(on, onLine); ok {
		for _, l := range d.Lines {
			if l.Name == name {
				paths = append(paths, l.Path.Flatten())
				break
			}
		}
	}
	if len(paths) == 0 {
		return nil, fmt.Errorf("there is no place %q to mark dots on", on)
	}
	out := make([]geom.Line, len(paths))
	for i, p := range paths {
		l, err := geom.NewLine(p)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", on, err)
		}
		out[i] = l
	}
	return out, nil
}

// WithMark returns the design with the mark on its place in the stead of the one
// there was; a count of 0 takes that away. It fails where the dots cannot be made.
func (d Design) WithMark(m Mark) (Design, error) {
	if m.Count != 0 {
		if err := d.checkMark(m); err != nil {
			return d, err
		}
	}
	var marks []Mark
	for _, old := range d.Marks {
		if old.On != m.On {
			marks = append(marks, old)
		}
	}
	if m.Count != 0 {
		marks = append(marks, m)
	}
	d.Marks = marks
	return d, nil
}

func (d Design) checkMark(m Mark) error {
	lines, err := d.MarkedLines(m.On)
	if err != nil {
		return err
	}
	for _, l := range lines {
		if _, err := sketch.EvenDots(l.Length(), m.Count, m.Spread); err != nil {
			return err
		}
	}
	return nil
}

// DotPlaces returns the places of all marked dots, each once. Marks of a line that
// is gone are passed over.
func (d Design) DotPlaces() []geom.Point {
	var out []geom.Point
	for _, m := range d.Marks {
		lines, err := d.MarkedLines(m.On)
		if err != nil {
			continue
		}
		for _, l := range lines {
			dots, err := sketch.DotsOn(l, m.Count, m.Spread)
			if err != nil {
				continue
			}
			for _, p := range dots {
				if _, near := sketch.NearestDot(out, p); len(out) == 0 || near > sameMark {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

func (d Design) validateMarks() error {
	if len(d.Marks) > MaxMarks {
		return fmt.Errorf("marks: %d, at most %d", len(d.Marks), MaxMarks)
	}
	for i, m := range d.Marks {
		if m.Count < 1 || m.Count > sketch.MaxDots {
			return fmt.Errorf("marks[%d].count: %d, from 1 to %d are possible", i, m.Count, sketch.MaxDots)
		}
		if _, err := sketch.EvenDots(1, max(2, m.Count), m.Spread); err != nil {
			return fmt.Errorf("marks[%d].spread: %w", i, err)
		}
		if len(m.On) > MaxName+len(onLine) {
			return fmt.Errorf("marks[%d].on: %d bytes, at most %d", i, len(m.On), MaxName)
		}
	}
	return nil
}
