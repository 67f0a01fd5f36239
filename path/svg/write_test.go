package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"

	"pgregory.net/rapid"
)

func page(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">` + body + `</svg>`
}

func read(t testing.TB, text string) Drawing {
	t.Helper()
	d, err := Read(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%.200s: %v", text, err)
	}
	return d
}

// drawings generates drawings of all kinds of lines.
func drawings() *rapid.Generator[Drawing] {
	return rapid.Custom(func(rt *rapid.T) Drawing {
		word := rapid.StringOfN(rapid.RuneFrom([]rune("ab <>&\"'é漢{}\n")), 0, 12, -1)
		d := Drawing{
			W: rapid.Float64Range(1, 3000).Draw(rt, "w"), H: rapid.Float64Range(1, 3000).Draw(rt, "h"),
			Title: clip(word.Draw(rt, "title"), MaxText), Desc: clip(word.Draw(rt, "desc"), MaxText),
		}
		for i := range rapid.IntRange(0, 4).Draw(rt, "lines") {
			d.Lines = append(d.Lines, drawLineOf(rt, clip(word.Draw(rt, "name"), MaxName), i))
		}
		return d
	})
}

func drawLineOf(rt *rapid.T, name string, i int) Line {
	place := rapid.Custom(func(rt *rapid.T) geom.Point {
		c := rapid.Float64Range(-200, 3000)
		return geom.Pt(c.Draw(rt, "x"), c.Draw(rt, "y"))
	})
	start := place.Draw(rt, "start")
	l := Line{Name: name, Kind: rapid.SampledFrom([]string{Sewn, Ruler, Seam}).Draw(rt, "kind"), Path: geom.Spline{start}}
	l.Path = l.Path.LineTo(geom.Pt(start.X+1, start.Y+float64(i)))
	for range rapid.IntRange(0, 6).Draw(rt, "pieces") {
		if rapid.Bool().Draw(rt, "straight") {
			l.Path = l.Path.LineTo(place.Draw(rt, "to"))
		} else {
			l.Path = append(l.Path, place.Draw(rt, "b"), place.Draw(rt, "c"), place.Draw(rt, "d"))
		}
	}
	if rapid.Bool().Draw(rt, "closed") {
		l.Closed = true
		l.Path = l.Path.LineTo(start)
	}
	length := l.Path.Flatten().Length()
	for k := range rapid.IntRange(0, 4).Draw(rt, "dots") {
		l.Dots = append(l.Dots, length*(float64(k)+rapid.Float64Range(0.1, 0.9).Draw(rt, "dot"))/4)
	}
	return l
}

// TestRoundTrip: what is written comes back, places within the last decimal and the
// number of curves exact; written again it is the same file.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := drawings().Draw(rt, "drawing")
		var first, second bytes.Buffer
		if err := Write(&first, d); err != nil {
			rt.Fatal(err)
		}
		got, err := Read(bytes.NewReader(first.Bytes()))
		if err != nil {
			rt.Fatalf("%v in\n%s", err, first.String())
		}
		if err := differ(got, d); err != nil {
			rt.Fatalf("%v in\n%s", err, first.String())
		}
		if err := Write(&second, got); err != nil {
			rt.Fatal(err)
		}
		again, err := Read(&second)
		if err != nil {
			rt.Fatal(err)
		}
		if err := differ(again, got); err != nil {
			rt.Fatalf("the second time: %v", err)
		}
	})
}

// differ tells in what a drawing that was written and read differs.
func differ(got, want Drawing) error {
	if math.Abs(got.W-want.W) > 1e-4 || math.Abs(got.H-want.H) > 1e-4 || got.Title != want.Title || got.Desc != want.Desc {
		return fmt.Errorf("page %v x %v %q %q, want %v x %v %q %q", got.W, got.H, got.Title, got.Desc, want.W, want.H, want.Title, want.Desc)
	}
	if len(got.Unread) > 0 || len(got.Lines) != len(want.Lines) {
		return fmt.Errorf("%d lines, unread %v; want %d and none", len(got.Lines), got.Unread, len(want.Lines))
	}
	for i, w := range want.Lines {
		g := got.Lines[i]
		if g.Name != w.Name || g.Kind != w.Kind || g.Closed != w.Closed || len(g.Path) != len(w.Path) || len(g.Dots) != len(w.Dots) {
			return fmt.Errorf("line %d: %q %s closed %v, %d points, %d dots; want %q %s %v, %d, %d",
				i, g.Name, g.Kind, g.Closed, len(g.Path), len(g.Dots), w.Name, w.Kind, w.Closed, len(w.Path), len(w.Dots))
		}
		for k := range w.Path {
			if d := geom.Dist(g.Path[k], w.Path[k]); d > 1e-4 {
				return fmt.Errorf("line %d: point %d is %v mm off", i, k, d)
			}
		}
		for k := range w.Dots {
			if d := math.Abs(g.Dots[k] - w.Dots[k]); d > 0.01 {
				return fmt.Errorf("line %d: dot %d is %v mm off", i, k, d)
			}
		}
	}
	return nil
}

// TestWrittenFile looks at a written file as any other program would: well-formed,
// the page twice, nothing but lines, their titles and the picture of the dots.
func TestWrittenFile(t *testing.T) {
	d := Drawing{W: 150, H: 99.95, Title: "Rose & leaf", Lines: []Line{
		{Name: "stem", Kind: Ruler, Path: geom.Straight(geom.MustParse("M 10 20 L 40.00004 60")), Dots: []float64{0, 25}},
		{Kind: Seam, Path: geom.Straight(geom.MustParse("M 0 0 L 10 0 L 10 10 L 0 0")), Closed: true},
		{Kind: Sewn, Path: geom.Spline{geom.Pt(0, 0), geom.Pt(1, -2), geom.Pt(3.33333, 4), geom.Pt(5, 6)}},
	}}
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, want := range []string{
		`width="150mm" height="99.95mm" viewBox="0 0 150 99.95"`, "<title>Rose &amp; leaf</title>", "<title>stem</title>",
		`d="M10 20 L40 60"`, `data-dots="0 25"`, `class="ruler"`, `<circle class="dot" cx="25" cy="40"`,
		`d="M0 0 L10 0 L10 10 Z"`, `d="M0 0 C1 -2 3.3333 4 5 6"`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("there is no %s in\n%s", want, text)
		}
	}
	names := map[string]int{}
	for dec := xml.NewDecoder(&b); ; {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			names[e.Name.Local]++
		}
	}
	if want := "map[circle:2 g:2 path:3 svg:1 title:2]"; fmt.Sprint(names) != want {
		t.Errorf("elements %v, want %s", names, want)
	}
}

func TestWriteRefuses(t *testing.T) {
	good := geom.Straight(geom.MustParse("M 0 0 L 10 0"))
	for want, d := range map[string]Drawing{
		"a page of 0 x 5 mm":               {W: 0, H: 5},
		"a page of NaN":                    {W: math.NaN(), H: 5},
		"line 1 (a): a spline of 2 points": {W: 5, H: 5, Lines: []Line{{Name: "a", Kind: Sewn, Path: geom.Spline{{}, {}}}}},
		"point 3 is not finite":            {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: geom.Spline{{}, {}, {}, geom.Pt(0, math.Inf(1))}}}},
		"point 3 lies farther":             {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: geom.Spline{{}, {}, {}, geom.Pt(0, 1e9)}}}},
		`line 2 (): there is no kind "x"`:  {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: good}, {Kind: "x", Path: good}}},
		"the line has no length":           {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: make(geom.Spline, 4)}}},
		"dot 2 at 11 mm lies off":          {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: good, Dots: []float64{1, 11}}}},
		"dot 2 at 1 mm does not come":      {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: good, Dots: []float64{1, 1}}}},
		"does not end where it starts":     {W: 5, H: 5, Lines: []Line{{Kind: Sewn, Path: good, Closed: true}}},
		"20001 lines are more than":        {W: 5, H: 5, Lines: make([]Line, MaxLines+1)},
	} {
		var b bytes.Buffer
		if err := Write(&b, d); err == nil || !strings.Contains(err.Error(), want) || b.Len() > 0 {
			t.Errorf("error %v and %d bytes, want %q", err, b.Len(), want)
		}
	}
}
