package svg

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"

	"pgregory.net/rapid"
)

// TestNumbers: the number of SVG 1.1, 8.3.9, and what ends it; the examples "M
// 0.6.5" and "M 100-200" are the Recommendation's own.
func TestNumbers(t *testing.T) {
	for text, want := range map[string][]float64{
		"0.6.5":           {0.6, 0.5},
		"100-200":         {100, -200},
		"1.-2":            {1, -2},
		"+1e2,.5E-1":      {100, 0.05},
		"007 1e0":         {7, 1},
		" \t1\r\n,\n2 ":   {1, 2},
		"1e1e":            {10},
		"1,":              {1},
		"1,,2":            {1},
		"1e2.5":           {100, 0.5},
		"--1":             {},
		".":               {},
		"1e400":           {},
		"0x10":            {0},
		"1_0":             {1},
		"nan":             {},
		"1e-400":          {0},
		"0.1234567890123": {0.1234567890123},
	} {
		got, err := numbers(text, 10)
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%q: %v (%v), want %v", text, got, err, want)
		}
		fault := strings.ContainsAny(text, "x_n") || text == "1e1e" || text == "1," || text == "1,,2" || len(want) == 0
		if (err != nil) != fault {
			t.Errorf("%q: error %v", text, err)
		}
	}
}

// TestQuadratics: raised to cubics they are the same curves, to rounding.
func TestQuadratics(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := rapid.SliceOfN(rapid.Float64Range(-100, 100), 6, 6).Draw(rt, "places")
		a, b, c := geom.Pt(v[0], v[1]), geom.Pt(v[2], v[3]), geom.Pt(v[4], v[5])
		left := 1
		p := &pen{m: identity, curves: &left}
		p.moveTo(a)
		p.quadTo(b, c)
		for k, q := range sampled(p.strokes[0].path, 0) {
			u := float64(k) / chords
			want := geom.Lerp(geom.Lerp(a, b, u), geom.Lerp(b, c, u), u)
			if geom.Dist(q, want) > 1e-12 {
				rt.Fatalf("at %v: %v, want %v", u, q, want)
			}
		}
	})
}

// TestRelativeCommands: small letters draw what capital ones do, moved.
func TestRelativeCommands(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		num := rapid.IntRange(-40, 40)
		var rel, abs strings.Builder
		at := geom.Pt(50, 60)
		rel.WriteString("M50 60")
		abs.WriteString("M50 60")
		for range rapid.IntRange(1, 6).Draw(rt, "commands") {
			op := rapid.SampledFrom([]byte("LHVCSQT")).Draw(rt, "command")
			fmt.Fprintf(&rel, "%c", op|0x20)
			fmt.Fprintf(&abs, "%c", op)
			end := at
			for i := range operands[op] {
				d := float64(num.Draw(rt, "number"))
				from, into := at.X, &end.X
				if op == 'V' || op != 'H' && i%2 == 1 {
					from, into = at.Y, &end.Y
				}
				*into = from + d
				fmt.Fprintf(&rel, " %v", d)
				fmt.Fprintf(&abs, " %v", *into)
			}
			at = end
		}
		a, b := read(t, page(`<path d="`+rel.String()+`"/>`)), read(t, page(`<path d="`+abs.String()+`"/>`))
		if fmt.Sprint(a.Lines) != fmt.Sprint(b.Lines) {
			rt.Fatalf("%s is not %s", rel.String(), abs.String())
		}
	})
}

// TestGroupsMove: lines in a group with a transform are those of the bare shapes,
// mapped; lines that use draws are those of the shape, moved. Arcs are left to
// TestArcs, as their curves follow from their size.
func TestGroupsMove(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := rapid.SliceOfN(rapid.Float64Range(-4, 4), 6, 6).Draw(rt, "matrix")
		m := matrix{v[0], v[1], v[2], v[3], v[4], v[5]}
		if math.Abs(m.a*m.d-m.b*m.c) < 1e-3 {
			rt.Skip("a matrix that flattens")
		}
		body := `<path id="p" d="M10 20C30 40 50-10 60 20zq3-4 20 10"/><polygon points="1 2 3 4 9 1"/><rect x="2" y="3" width="40" height="5"/>`
		plain := read(t, page(body))
		group := fmt.Sprintf(`<g transform="matrix(%v %v %v %v %v %v)">%s</g>`, m.a, m.b, m.c, m.d, m.e, m.f, body)
		within := fmt.Sprintf(`<defs><g id="d">%s</g></defs><use href="#d" x="%v" y="%v" transform="matrix(%v %v %v %v 0 0)"/>`,
			body, 3, 4, m.a, m.b, m.c, m.d)
		moved := matrix{m.a, m.b, m.c, m.d, 0, 0}.times(translation(3, 4))
		for _, c := range []struct {
			text string
			m    matrix
		}{{group, m}, {within, moved}} {
			got := read(t, page(c.text))
			if len(got.Lines) != len(plain.Lines) {
				rt.Fatalf("%d lines, want %d", len(got.Lines), len(plain.Lines))
			}
			for i, l := range plain.Lines {
				for k, p := range l.Path {
					if d := geom.Dist(got.Lines[i].Path[k], c.m.apply(p)); d > 1e-9 {
						rt.Fatalf("line %d, point %d is %v mm off", i, k, d)
					}
				}
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	text := page(lots(`<path class="sewn" d="M10 20C30 40 50-10 60 20l5 5a10 10 0 0 1 20 0"/>`+"\n", 1000))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read(strings.NewReader(text)); err != nil {
			b.Fatal(err)
		}
	}
}
