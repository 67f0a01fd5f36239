package run

import (
	"strings"
	"testing"

	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// A block written as SVG and read again has the same lines within 0.01 mm; files that hold
// nothing or are none give no lines, and say what they hold.
func TestSVGOutAndIn(t *testing.T) {
	path := geom.Straight(geom.MustParse("M 20 20 L 40 22 L 60 35 L 80 60 L 85 90"))
	d := quilt.Design{ID: "b", Name: "Block", Shape: motif.Shape{Kind: motif.Square, W: 150}, Lines: []quilt.Line{{Name: "a", Kind: "sewn", Path: path}}}
	file := Do(work.Save, work.SaveIn{Design: d, About: "one block"}, func(float64) {}).(work.SaveOut)
	back := Do(work.SVG, work.SVGIn{Doc: string(file.Doc)}, func(float64) {}).(work.SVGOut)
	var got *quilt.Line
	for i, l := range back.Lines {
		if l.Kind == "sewn" {
			got = &back.Lines[i]
		}
	}
	if got == nil || back.Unreadable {
		t.Fatalf("no sewn line came back of %s", file.Doc)
	}
	for i, p := range path {
		if off := geom.Dist(p, got.Path[i]); off > 0.01 {
			t.Errorf("point %d came back %.4f mm away", i, off)
		}
	}
	for doc, unreadable := range map[string]bool{"": true, "not a file": true, "<svg xmlns='http://www.w3.org/2000/svg'/>": false, "<svg xmlns='http://www.w3.org/2000/svg'><text>hm</text></svg>": false} {
		out := Do(work.SVG, work.SVGIn{Doc: doc}, func(float64) {}).(work.SVGOut)
		if len(out.Lines) > 0 || out.Unreadable != unreadable || strings.Contains(doc, "text") != strings.Contains(words.Book{}.Write(out.LeftOut), "text") {
			t.Errorf("the file %q: %+v", doc, out)
		}
	}
}
