package plane

import (
	"testing"

	"unthreaded/path/motif"
)

// readyDrawings are the ready drawings as graphs, counted by hand from their construction: nodes,
// edges, bounded faces, connected pieces and odd junctions. Each is drawn exactly,
// so nothing may need snapping.
//
// orange peel: the (m+1)(n+1) corners of the grid, 4 arcs to a square.
// crosshatch: a grid of 7 x 7 with the four corners. diagonal: 4 dots to a side, 9
// crossings on the lattice of the dots and 16 in the middles of its cells; only the
// corners, where one line ends, are odd. clamshell: 8 rows of 8 quarter circles, 5
// and 4 places on the base lines in turn, 4 tops on the upper seam, 4 corners.
// stars: 16 crossings each (star polygon {8/3}: n(d-1)) and 3 shared points.
// echo: 4 squares that two seams cross in 16 places and each other in one.
var readyDrawings = map[string]counts{
	"orange-peel":         {Nodes: 16, Edges: 36, Faces: 21, Pieces: 1},
	"orange-peel-row":     {Nodes: 27, Edges: 64, Faces: 38, Pieces: 1},
	"crosshatch":          {Nodes: 49, Edges: 84, Faces: 36, Pieces: 1, Odd: 20},
	"diagonal-crosshatch": {Nodes: 41, Edges: 80, Faces: 40, Pieces: 1, Odd: 4},
	"clamshell":           {Nodes: 44, Edges: 84, Faces: 41, Pieces: 1},
	"diamonds":            {Nodes: 6, Edges: 10, Faces: 5, Pieces: 1},
	"star-chain":          {Nodes: 67, Edges: 134, Faces: 68, Pieces: 1},
	"echo-square":         {Nodes: 21, Edges: 36, Faces: 16, Pieces: 1},
}

func strokesOf(w motif.Work) []Stroke {
	var out []Stroke
	for _, p := range w.Pieces() {
		st := Stroke{Name: p.Name, Kind: Sewn, Block: p.Block, Path: p.Path, Length: p.Length}
		switch {
		case p.Seam:
			st.Kind = Seam
		case p.Ruler:
			st.Kind = Ruler
		}
		out = append(out, st)
	}
	return out
}

func TestReadyDrawings(t *testing.T) {
	seen := 0
	for _, w := range motif.Works() {
		want, ok := readyDrawings[w.ID]
		if !ok {
			continue
		}
		seen++
		s := strokesOf(w)
		r := mustBuild(t, s, DefaultSnap)
		if err := check(s, r); err != nil {
			t.Errorf("%s: %v", w.ID, err)
		}
		got := r.counts()
		got.Length = 0
		if got != want {
			t.Errorf("%s: got %+v, want %+v", w.ID, got, want)
		}
		if len(r.Snapped)+len(r.Doubled)+len(r.Trimmed) > 0 {
			t.Errorf("%s: %d spots snapped, %d doubled, %d trimmed", w.ID, len(r.Snapped), len(r.Doubled), len(r.Trimmed))
		}
	}
	if seen != len(readyDrawings) {
		t.Errorf("%d of %d drawings are there", seen, len(readyDrawings))
	}
}
