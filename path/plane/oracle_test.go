package plane

import (
	"encoding/binary"
	"math"
	"math/rand"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"unthreaded/path/geom"
)

// fromLibrary counts the graph that the library's UnaryUnion makes of strokes:
// junctions (three line ends or more), dead ends, connected pieces and length. It
// puts nodes of two ends on lines here and there, which don't count.
func fromLibrary(t *testing.T, strokes []Stroke) (junctions, dead, pieces int, length float64) {
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
	seen := map[sf.XY]bool{}
	for start := range near {
		switch n := len(near[start]); {
		case n == 1:
			dead++
		case n > 2:
			junctions++
		}
		if seen[start] {
			continue
		}
		pieces++
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
	return junctions, dead, pieces, lines.Length() / perMM
}

// The same drawings noded by simplefeatures, a library of its own making, in
// floating point. Points on whole millimetres make many exact touches, overlaps
// and common crossings; anything nearly so is left out (blunt).
func TestAgainstLibrary(t *testing.T) {
	tried := 0
	for seed := range int64(300) {
		r := rand.New(rand.NewSource(seed))
		var s []Stroke
		for range 2 + r.Intn(10) {
			st := Stroke{Name: "line", Kind: Sewn}
			size := []int{6, 40, 250}[seed%3]
			for k := 2 + r.Intn(4); k > 0; k-- {
				st.Path = append(st.Path, geom.Pt(float64(r.Intn(size)), float64(r.Intn(size))))
			}
			if st.Path = st.Path.Compact(); len(st.Path) > 1 {
				s = append(s, st)
			}
		}
		if len(s) == 0 || blunt(s) {
			continue
		}
		tried++
		got := mustBuild(t, s, 0)
		if err := check(s, got); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		ends := make([]int, len(got.Nodes))
		for _, e := range got.Edges {
			ends[e.U]++
			ends[e.V]++
		}
		junctions, dead := 0, 0
		for _, n := range ends {
			switch {
			case n == 1:
				dead++
			case n > 2:
				junctions++
			}
		}
		c := got.counts()
		wantJ, wantDead, wantPieces, wantLength := fromLibrary(t, s)
		if junctions != wantJ || dead != wantDead || c.Pieces != wantPieces || math.Abs(c.Length-wantLength) > 1e-3*float64(len(got.Edges)+1) {
			t.Errorf("seed %d: %d junctions, %d dead ends, %d pieces, %.4f mm; the library has %d, %d, %d, %.4f: %s",
				seed, junctions, dead, c.Pieces, c.Length, wantJ, wantDead, wantPieces, wantLength, text(s))
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
