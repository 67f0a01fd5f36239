package motif

import (
	"flag"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// outside is how far in mm a line may lie beyond the inset outline: the rim of a
// circle is itself flattened, and the ends of lines are rounded.
const outside = 1e-6

func anyValues(t *rapid.T, p Motif) Values {
	v := Values{}
	for _, q := range p.Params {
		steps := int(math.Round((q.Max - q.Min) / q.Step))
		v[q.ID] = q.Min + q.Step*float64(rapid.IntRange(0, steps).Draw(t, q.ID))
	}
	return v
}

func TestTheLibraryIsInOrder(t *testing.T) {
	if len(Ready()) < 24 {
		t.Errorf("%d motifs, want at least 24", len(Ready()))
	}
	seen := map[string]bool{}
	for _, p := range Ready() {
		if seen[p.ID] || p.Group == "" || len(p.Params) == 0 {
			t.Errorf("%q: no group or parameter, or an ID that stands twice", p.ID)
		}
		seen[p.ID] = true
		ids := map[string]bool{}
		for _, q := range p.Params {
			whole := math.Abs(math.Mod((q.Max-q.Min)/q.Step+0.5, 1)-0.5) < 1e-9
			if ids[q.ID] || q.Min >= q.Max || q.Usual < q.Min || q.Usual > q.Max || !whole {
				t.Errorf("%s: parameter %q is out of order: %+v", p.ID, q.ID, q)
			}
			if q.Choices != nil && (q.Min != 0 || q.Max != float64(len(q.Choices)-1) || q.Step != 1) {
				t.Errorf("%s: the choice %q has %d words for %g to %g", p.ID, q.ID, len(q.Choices), q.Min, q.Max)
			}
			ids[q.ID] = true
		}
		for _, id := range append(p.Former, p.ID) {
			if found, ok := Find(id); !ok || found.ID != p.ID {
				t.Errorf("%s is not found as %s", p.ID, id)
			}
		}
	}
}

// checkPieces tells what is wrong with the lines of a motif, "" when nothing is.
func checkPieces(t interface{ Fatalf(string, ...any) }, p Motif, s Shape, margin float64, pieces []Piece) {
	in := newField(s, margin)
	if len(pieces) == 0 || p.Continuous && len(pieces) != 1 {
		t.Fatalf("%s in %v: %d pieces, continuous %v", p.ID, s, len(pieces), p.Continuous)
	}
	points, names := 0, map[string]bool{}
	for i, q := range pieces {
		if err := q.Path.Validate(); err != nil {
			t.Fatalf("%s in %v, piece %d: %v", p.ID, s, i, err)
		}
		if names[q.Name] || q.Name == "" {
			t.Fatalf("%s in %v, piece %d: the name %q is empty or stands twice", p.ID, s, i, q.Name)
		}
		names[q.Name] = true
		points += len(q.Path)
		if d := in.deepest(q.Path); d < -outside {
			t.Fatalf("%s in %v with margin %v: %s lies %v mm outside", p.ID, s, margin, q.Name, -d)
		}
		if p.Closed && geom.Dist(q.Path[0], q.Path[len(q.Path)-1]) > 1e-6 {
			t.Fatalf("%s in %v: %s is not closed", p.ID, s, q.Name)
		}
		if c := q.Curvature(); p.Smooth && c.Corners > 0 {
			t.Fatalf("%s in %v: %s has %d corners", p.ID, s, q.Name, c.Corners)
		}
	}
	if points > MaxPoints {
		t.Fatalf("%s in %v: %d points", p.ID, s, points)
	}
}

// usualShapes returns every kind of block in three sizes: small, usual and large.
func usualShapes() (out []Shape) {
	widths := []float64{60, 150, 600}
	if testing.Short() {
		widths = widths[1:2]
	}
	for _, k := range Shapes() {
		for _, w := range widths {
			s := Shape{Kind: k, W: w, H: w / 1.5}
			if k == Hexagon {
				s.W = w / 2
			}
			out = append(out, s)
		}
	}
	return out
}

// usualFit returns a motif in a shape with its usual values, and the margin, made once for
// all tests: a margin of a fiftieth of the width, as high as a rectangle of it is.
func usualFit(m Motif, s Shape) ([]Piece, float64, error) {
	w, _ := s.Box()
	margin := w / 50
	if s.Kind == OnPoint {
		margin = s.W / 50
	}
	key := fmt.Sprint(m.ID, s)
	if _, made := usualFits[key]; !made {
		pieces, err := m.Fit(s, margin, nil)
		usualFits[key] = madeFit{pieces, err}
	}
	return usualFits[key].pieces, margin, usualFits[key].err
}

type madeFit struct {
	pieces []Piece
	err    error
}

var usualFits = map[string]madeFit{}

// Every motif suits every shape of the usual sizes with its usual values.
func TestUsualValuesFit(t *testing.T) {
	for _, p := range Ready() {
		for _, s := range usualShapes() {
			if p.Lack(s) != "" {
				if _, err := p.Fit(s, 0, nil); err == nil {
					t.Errorf("%s is not offered for %s, but fits", p.ID, s.Kind)
				}
				continue
			}
			pieces, margin, err := usualFit(p, s)
			if err != nil {
				t.Errorf("%v: %v", s, err)
				continue
			}
			checkPieces(t, p, s, margin, pieces)
		}
	}
}

// Any values within their limits give lines that keep to the inset, or an error
// that says what to change. That the usual values fit is the test above.
func TestAnyValuesFitOrSay(t *testing.T) {
	for _, p := range Ready() {
		t.Run(p.ID, func(t *testing.T) {
			if strings.HasPrefix(p.ID, "meander") || p.ID == "stipple" {
				fewerDraws(t, 5) // one motif with three figures, and each fit takes long
			}
			rapid.Check(t, func(rt *rapid.T) {
				s := anyShape(rt)
				margin := s.inradius() * rapid.Float64Range(0, 0.6).Draw(rt, "margin")
				v := anyValues(rt, p)
				pieces, err := p.Fit(s, margin, v)
				if err != nil {
					if !strings.Contains(err.Error(), "take ") {
						rt.Fatalf("%v, %v: the error does not say what to change: %v", s, v, err)
					}
					return
				}
				checkPieces(rt, p, s, margin, pieces)
				if rapid.IntRange(0, 3).Draw(rt, "again") > 0 {
					return
				}
				if again, _ := p.Fit(s, margin, v); !reflect.DeepEqual(pieces, again) {
					rt.Fatalf("%s in %v: a second time another line", p.ID, s)
				}
			})
		})
	}
}

// fewerDraws lets the rest of a test draw only so many times fewer than was asked for.
func fewerDraws(t *testing.T, times int) {
	t.Helper()
	draws := flag.Lookup("rapid.checks").Value
	before := draws.String()
	n, err := strconv.Atoi(before)
	if err != nil {
		t.Fatal(err)
	}
	if err := draws.Set(strconv.Itoa(max(1, n/times))); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = draws.Set(before) })
}

func TestFitSaysWhatIsWrong(t *testing.T) {
	block := Shape{Kind: Square, W: 30}
	for _, c := range []struct {
		id     string
		s      Shape
		margin float64
		v      Values
		says   string
	}{
		{"straight-lines", block, 0, Values{"spacing": 40}, "the spacing of 40 mm leaves no room in the square of 30 mm with a margin of 0 mm: take at most 29.8 mm"},
		{"stipple", block, 0, Values{"spacing": 40}, "leaves no room"},
		{"pebbles", block, 2, Values{"size": 60}, "take at most 26 mm"},
		{"stipple", Shape{Kind: Circle, W: 2000}, 0, Values{"spacing": 3}, "too fine for the circle of 2000 mm: take at least"},
		{"loops", block, 0, Values{"spacing": 4}, `no parameter "spacing"`},
		{"loops", block, 0, Values{"size": 4000}, `"size" is 4000 mm: it takes 6 to 400`},
		{"loops", block, 0, Values{"size": math.NaN()}, "it takes 6 to 400"},
		{"ruler-zigzag", block, 0, Values{"count": 3.5}, "it takes a whole number"},
		{"ruler-zigzag", block, 0, Values{"count": 40}, "take at most 15"},
		{"waves", block, 15, nil, "the margin of 15 mm leaves nothing of the square of 30 mm: take less than 15 mm"},
		{"waves", block, -1, nil, "take 0 mm or more"},
		{"waves", Shape{Kind: Square, W: 3}, 0, nil, "it takes 10 to 3000 mm"},
	} {
		p, _ := Find(c.id)
		if _, err := p.Fit(c.s, c.margin, c.v); err == nil || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), c.id) {
			t.Errorf("%s with %v: %v, want an error that says %q", c.id, c.v, err, c.says)
		}
	}
}

// samePlaces tells that two sets of lines cover the same places: each point of one
// lies on the other.
func samePlaces(a, b []Piece) bool {
	on := func(p geom.Point, pieces []Piece) bool {
		for _, q := range pieces {
			for k := range q.Path[1:] {
				if _, at := geom.NearestOnSegment(p, q.Path[k], q.Path[k+1]); geom.Dist(p, at) < 3*geom.Sagitta {
					return true
				}
			}
		}
		return false
	}
	for _, pair := range [][2][]Piece{{a, b}, {b, a}} {
		for _, q := range pair[0] {
			for k := 0; k < len(q.Path); k += 7 {
				if !on(q.Path[k], pair[1]) {
					return false
				}
			}
		}
	}
	return true
}

// In a block that is its own mirror image (of row motifs: a strip with one row),
// mirroring the motif mirrors the lines: top to bottom or left to right.
func TestMirrored(t *testing.T) {
	for _, p := range Ready() {
		s := Shape{Kind: Square, W: 120, H: 120}
		if p.rows {
			s = Shape{Kind: Rectangle, W: 240, H: 50}
		}
		upDown := func(p geom.Point) geom.Point { return geom.Pt(p.X, s.H-p.Y) }
		leftRight := func(p geom.Point) geom.Point { return geom.Pt(s.W-p.X, p.Y) }
		if !slices.ContainsFunc(p.Params, func(q Param) bool { return q.ID == "mirror" }) {
			continue
		}
		plain, err := p.Fit(s, 5, Values{"mirror": 0})
		if err != nil {
			t.Fatal(err)
		}
		mirrored, err := p.Fit(s, 5, Values{"mirror": 1})
		if err != nil {
			t.Fatal(err)
		}
		if reflect.DeepEqual(plain, mirrored) {
			t.Errorf("%s: mirrored it is the same", p.ID)
		}
		mirror := false
		for _, f := range []func(geom.Point) geom.Point{upDown, leftRight} {
			turned := make([]Piece, len(plain))
			for k, q := range plain {
				turned[k] = Piece{Path: q.Path.Map(f)}
			}
			mirror = mirror || samePlaces(turned, mirrored)
		}
		if !mirror {
			t.Errorf("%s: mirrored it is no mirror image", p.ID)
		}
	}
}

func BenchmarkFit(b *testing.B) {
	s := Shape{Kind: Square, W: 150}
	for _, p := range Ready() {
		b.Run(p.ID, func(b *testing.B) {
			for b.Loop() {
				if _, err := p.Fit(s, 6, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
