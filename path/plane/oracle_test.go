package plane

import (
	"encoding/binary"
	"math"
	"math/rand"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"unthreaded/path/geom"
)

// census counts a graph: junctions (three line ends or more), dead ends, connected
// pieces and length in mm.
type census struct {
	junctions, dead, pieces int
	length                  float64
}

// add counts a node at which n line ends meet.
func (c *census) add(n int) {
	switch {
	case n == 1:
		c.dead++
	case n > 2:
		c.junctions++
	}
}

// fromLibrary counts what the library's UnaryUnion makes of strokes. It puts
// nodes of two ends on lines here and there, which don't count.
func fromLibrary(t *testing.T, strokes []Stroke) census {
	union, err := unaryUnion(strokes)
	if err != nil {
		t.Fatal(err)
	}
	lines, ok := union.AsMultiLineString()
	if line, single := union.AsLineString(); single {
		lines, ok = line.AsMultiLineString(), true
	}
	if !ok {
		t.Fatalf("the union is a %v", union.Type())
	}
	near := map[sf.XY]map[sf.XY]bool{}
	link := func(a, b sf.XY) {
		if near[a] == nil {
			near[a] = map[sf.XY]bool{}
		}
		near[a][b] = true
	}
	for i := range lines.NumLineStrings() {
		pts := lines.LineStringN(i).Coordinates()
		for k := 1; k < pts.Length(); k++ {
			link(pts.GetXY(k-1), pts.GetXY(k))
			link(pts.GetXY(k), pts.GetXY(k-1))
		}
	}
	c := census{length: lines.Length() / perMM}
	seen := map[sf.XY]bool{}
	for start := range near {
		c.add(len(near[start]))
		if !seen[start] {
			c.pieces++
			spread(start, near, seen)
		}
	}
	return c
}

// spread marks all that hangs together with a place.
func spread(start sf.XY, near map[sf.XY]map[sf.XY]bool, seen map[sf.XY]bool) {
	seen[start] = true
	for stack := []sf.XY{start}; len(stack) > 0; {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for q := range near[p] {
			if !seen[q] {
				seen[q] = true
				stack = append(stack, q)
			}
		}
	}
}

func (r Result) census() census {
	var c census
	ends := make([]int, len(r.Nodes))
	for _, e := range r.Edges {
		ends[e.U]++
		ends[e.V]++
	}
	for _, n := range ends {
		c.add(n)
	}
	_, c.pieces = r.Components()
	c.length = length(r.Graph)
	return c
}

// wholeStrokes draws strokes between points on whole millimetres.
func wholeStrokes(r *rand.Rand, size int) []Stroke {
	var out []Stroke
	for range 2 + r.Intn(10) {
		st := Stroke{Name: "line", Kind: Sewn}
		for k := 2 + r.Intn(4); k > 0; k-- {
			st.Path = append(st.Path, geom.Pt(float64(r.Intn(size)), float64(r.Intn(size))))
		}
		if st.Path = st.Path.Compact(); len(st.Path) > 1 {
			out = append(out, st)
		}
	}
	return out
}

// The same drawings noded by simplefeatures, in floating point and by another
// method. Points on whole millimetres make many exact touches, overlaps and
// common crossings; what is nearly so is left out (blunt).
func TestAgainstLibrary(t *testing.T) {
	tried := 0
	for seed := range int64(300) {
		s := wholeStrokes(rand.New(rand.NewSource(seed)), []int{6, 40, 250}[seed%3])
		if len(s) == 0 || blunt(s) {
			continue
		}
		tried++
		r := mustBuild(t, s, 0)
		if err := check(s, r); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		got, want := r.census(), fromLibrary(t, s)
		if math.Abs(got.length-want.length) < 1e-3*float64(len(r.Edges)+1) {
			got.length = want.length
		}
		if got != want {
			t.Errorf("seed %d: %+v; the library has %+v: %s", seed, got, want, text(s))
		}
	}
	if tried < 200 {
		t.Errorf("only %d drawings were clear enough to compare", tried)
	}
}

// FuzzBuild reads strokes from bytes: a byte for the snap distance, then for each
// stroke one for kind and name, one for the number of points, and two whole
// numbers or two floating point numbers for each. No panic, no lost length, and
// always a plane graph or an error.
func FuzzBuild(f *testing.F) {
	f.Add([]byte{0, 0, 2, 0, 0, 0, 0, 10, 0, 0, 0, 1, 2, 5, 0, 0, 0, 5, 0, 9, 0})
	f.Add([]byte{5, 0, 3, 0, 0, 0, 0, 10, 0, 1, 0, 0, 0, 0, 0, 9, 2, 0, 0, 1, 0, 10, 0, 0, 0})
	f.Add(append([]byte{1, 128, 2}, make([]byte, 32)...))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) == 0 || len(data) > 600 {
			return
		}
		snap := float64(data[0]%16) / 8
		strokes := strokesFrom(data[1:])
		r, err := Build(strokes, Options{SnapMM: snap})
		if err != nil {
			return
		}
		if err := check(strokes, r); err != nil {
			t.Fatalf("snap %v: %v: %s", snap, err, text(strokes))
		}
	})
}

func strokesFrom(data []byte) []Stroke {
	var out []Stroke
	for len(data) > 2 {
		s := Stroke{Name: string(rune('a' + data[0]%3)), Kind: []Kind{Sewn, Ruler, Seam}[data[0]/3%3]}
		floats, n := data[0] >= 128, int(data[1]%8)
		data = data[2:]
		for ; n > 0; n-- {
			size := 4
			if floats {
				size = 16
			}
			if len(data) < size {
				break
			}
			if floats {
				s.Path = append(s.Path, geom.Pt(
					math.Float64frombits(binary.LittleEndian.Uint64(data)), math.Float64frombits(binary.LittleEndian.Uint64(data[8:]))))
			} else {
				s.Path = append(s.Path, geom.Pt(
					float64(int16(binary.LittleEndian.Uint16(data)))/32, float64(int16(binary.LittleEndian.Uint16(data[2:])))/32))
			}
			data = data[size:]
		}
		out = append(out, s)
	}
	return out
}
