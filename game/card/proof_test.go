package card

import (
	"bytes"
	"testing"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
	"unthreaded/game/softdraw"
)

// A proof drawn in steps is the first page of the document that is printed, as that is
// drawn at once, and as wide as asked for.
func TestAProofIsTheFirstPage(t *testing.T) {
	m := outAndBack(t, string(bench.Letter))
	for _, what := range []sewing.Kind{sewing.RouteCard, sewing.PassesCard, sewing.TemplateCard} {
		pages, err := layOut(m, what, sewing.AsPDF)
		if err != nil {
			t.Fatal(err)
		}
		p, err := NewProof(m, what, 400)
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		steps := 1
		for p.Step() {
			steps++
		}
		want := softdraw.Draw(pages[0].List, 400/pages[0].List.W)
		if got := p.Image(); got.Bounds() != want.Bounds() || got.Bounds().Dx() != 400 || !bytes.Equal(got.Pix, want.Pix) {
			t.Errorf("%s: the proof of %v in %d steps is not the page of %v", what, got.Bounds(), steps, want.Bounds())
		}
	}
	m.ID = ""
	if _, err := NewProof(m, sewing.RouteCard, 400); err == nil {
		t.Error("without a route there is a proof")
	}
}
