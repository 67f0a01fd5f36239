package plan

import (
	"testing"

	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/route"
)

// Every ready motif in a square, its seams to be travelled, has a route: its lines
// hang together where the block's seams join them, or stops join them. A motif that
// is one line has a route that sews next to nothing twice: only where it runs closer
// to itself than plane.DefaultSnap (the tips of a paisley) are two lines taken for one.
// (In every shape motifs are planned where Route's labels are tested.)
func TestReadyMotifsHaveRoutes(t *testing.T) {
	for _, p := range motif.Ready() {
		s := motif.Shape{Kind: motif.Square, W: 150}
		if p.Lack(s) != "" {
			continue
		}
		pieces, err := p.Fit(s, 6, p.Usual(s))
		if err != nil {
			t.Errorf("%s in a square: %v", p.ID, err)
			continue
		}
		pieces = append(s.OutlinePieces(), pieces...)
		k := Open(DrawingOf(p.ID, p.ID, words.Msg{}, func() []motif.Piece { return pieces }))
		if len(k.Choices) == 0 {
			k = k.SetStops(true)
		}
		if len(k.Choices) == 0 {
			t.Errorf("%s in a square: no route: %s", p.ID, k.Trouble)
			continue
		}
		if r := k.Route(); p.Continuous && k.Rule == route.Free && r.RetraceMM > 0.03*r.SewnMM {
			t.Errorf("%s in a square is one line, and %.1f of its %.0f mm are sewn twice", p.ID, r.RetraceMM, r.SewnMM)
		}
	}
}
