package svg

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/path/geom"
)

// sound reports what no drawing that was read may be, whatever the file.
func sound(d Drawing) error {
	curves, dots := 0, 0
	for i, l := range d.Lines {
		if err := l.Path.Validate(); err != nil {
			return fmt.Errorf("line %d: %w", i, err)
		}
		for k, p := range l.Path {
			if abs(p.X) > MaxPlace || abs(p.Y) > MaxPlace {
				return fmt.Errorf("line %d: point %d is out of bounds: %v", i, k, p)
			}
		}
		if l.Closed && l.Path[0] != l.Path[len(l.Path)-1] {
			return fmt.Errorf("line %d is closed and has ends", i)
		}
		if !hasLength(l.Path) || l.Kind != Sewn && l.Kind != Ruler && l.Kind != Seam || len([]rune(l.Name)) > MaxName+10 {
			return fmt.Errorf("line %d: %v %q %q", i, l.Path, l.Kind, l.Name)
		}
		if _, err := geom.NewLine(l.Path.Flatten()); err != nil {
			return fmt.Errorf("line %d: %w", i, err)
		}
		if at := descent(l.Dots); at > 0 || len(l.Dots) > 0 && l.Dots[0] < 0 {
			return fmt.Errorf("line %d: dots %v", i, l.Dots)
		}
		curves, dots = curves+l.Path.Pieces(), dots+len(l.Dots)
	}
	if curves > MaxCurves || dots > MaxDots || len(d.Lines) > MaxLines || len(d.Unread) > MaxUnread+1 {
		return fmt.Errorf("%d curves, %d dots, %d lines, %d unread", curves, dots, len(d.Lines), len(d.Unread))
	}
	if !(d.W >= 0 && d.W <= MaxPlace && d.H >= 0 && d.H <= MaxPlace) {
		return fmt.Errorf("a page of %v x %v mm", d.W, d.H)
	}
	return nil
}

func FuzzRead(f *testing.F) {
	files, err := filepath.Glob("../../testdata/svg/*.svg")
	if err != nil || len(files) == 0 {
		f.Fatalf("no files in testdata/svg (%v)", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Read(bytes.NewReader(data))
		if err != nil {
			return
		}
		if err := sound(d); err != nil {
			t.Fatal(err)
		}
		if d.Validate() != nil {
			return // no page, or a line shorter than the last decimal
		}
		var b bytes.Buffer
		if err := Write(&b, d); err != nil {
			t.Fatal(err)
		}
		again, err := Read(&b)
		d.Unread = nil
		for i := range d.Lines { // a name may have been numbered past its limit
			d.Lines[i].Name = clip(d.Lines[i].Name, MaxName)
		}
		if err == nil {
			err = differ(again, d)
		}
		if err != nil {
			t.Fatalf("written and read again: %v", err)
		}
	})
}

func FuzzPathData(f *testing.F) {
	for _, s := range []string{
		"M10-.5e1L1.5e1.5.5.5-3-4", "m1 1h2v3H4V5z", "M0 0C1 2 3 4 5 6S7 8 9 10", "M0 0q1 2 3 4t5 6T0 0z",
		"M0 0a10,5 30 0110 10A1 1 0 1 0 3 3zl1 1", "M1e5 0", "M0 0L1e12 0", "M0 0,1 1,", "M0 0z", "", "L1 1", "M0 0A1e-300 1 0 0 1 1 1",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, data string) {
		left := 10_000
		p := &pen{m: identity, curves: &left}
		p.moveTo(geom.Point{})
		p.drawPath(data)
		strokes, _ := p.end()
		for i, s := range strokes {
			if err := sound(Drawing{Lines: []Line{{Path: s.path, Closed: s.closed, Kind: Sewn}}}); err != nil {
				t.Fatalf("stroke %d: %v", i, err)
			}
			text := pathData(s.path, s.closed)
			enough := len(s.path) + 2
			q := &pen{m: identity, curves: &enough}
			q.drawPath(text)
			again, err := q.end()
			if err != nil && len(again) == 0 {
				continue // shorter than the last decimal, or at the very edge of all places
			}
			if len(again) != 1 || len(again[0].path) != len(s.path) || again[0].closed != s.closed {
				t.Fatalf("%s came back as %v", text, again)
			}
			for k := range s.path {
				if d := geom.Dist(again[0].path[k], s.path[k]); d > 1e-4 {
					t.Fatalf("%s: point %d is %v mm off", text, k, d)
				}
			}
		}
	})
}
