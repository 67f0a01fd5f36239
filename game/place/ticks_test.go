package place_test

import (
	"testing"

	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/path/quilt/order"
)

// A note of a piece and the ticks of a quilt, both kept under one kind, are told apart, also
// where they are damaged; the notes are read by no plan.
func TestPiecesAndTicksAreToldApart(t *testing.T) {
	ticks, err := order.Sewn{Quilt: "quilt-1"}.With(order.Tick{Kind: order.StageTick, Stage: "row-1", Day: "2026-02-03"}).Encode()
	if err != nil {
		t.Fatal(err)
	}
	piece, err := weeks.EncodeSewn(weeks.Sewn{
		Schema: weeks.SewnSchema, ID: weeks.SewnID(1.7e9), Day: "2026-02-03", Stitches: 50, LengthMM: 127, SPM: 600, RehearsedMM: 2.5, RehearsedSPM: 600,
	})
	if err != nil {
		t.Fatal(err)
	}
	things := []place.Thing{{Kind: place.SewnThing, ID: "quilt-1", Doc: ticks}, {Kind: place.SewnThing, ID: weeks.SewnID(1.7e9), Doc: piece}}
	for i, th := range things {
		broken := th
		broken.Doc = th.Doc[:20]
		for _, x := range []place.Thing{th, broken} {
			if place.IsPiece(x) != (i == 1) {
				t.Errorf("%s %s is taken for the other", x.ID, x.Doc)
			}
		}
	}
	l, said := place.Library{}.ReadPlans(things)
	if !said.None() || len(l.Plans) != 1 || len(l.Plans["quilt-1"].Sewn.Ticks) != 1 {
		t.Errorf("read as plans: %+v, said %v", l.Plans, said)
	}
}
