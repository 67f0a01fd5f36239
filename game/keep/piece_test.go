package keep

import (
	"errors"
	"slices"
	"testing"

	"unthreaded/scoring/trace"
)

// piecesOf cuts a record's trace into pieces of n samples.
func piecesOf(t testing.TB, r Record, n int) [][]byte {
	t.Helper()
	tr := r.Trace()
	head := r
	head.Samples, head.Holds = Samples{}, nil
	var docs [][]byte
	for at := 0; at < len(tr.Samples); at += n {
		end := min(at+n, len(tr.Samples))
		var holds []trace.Hold
		for _, h := range tr.Holds {
			if h.T <= tr.Samples[end-1].T {
				holds = append(holds, h)
			}
		}
		p := Cut(tr.Samples[:end], at, holds)
		p.PixelMM = tr.PixelMM
		if at == 0 {
			p.Head = &head
		}
		doc, err := EncodePiece(p)
		if err != nil {
			t.Fatal(err)
		}
		docs = append(docs, doc)
	}
	return docs
}

// A trace that broke off is, piece by piece, the one that was in hand; where a piece is
// damaged it ends before that.
func TestPiecesMakeTheTrace(t *testing.T) {
	whole := hand(t)
	whole.Holds = []trace.Hold{{T: whole.Samples.T[100], Pause: 3}}
	docs := piecesOf(t, whole, 37)
	got, err := Join(docs)
	if err != nil {
		t.Fatal(err)
	}
	if got.Samples.Digest() != whole.Samples.Digest() || !slices.Equal(got.Holds, whole.Holds) || got.Motif != whole.Motif ||
		got.Ending != trace.Interrupted || got.ClockStep == 0 || got.Interval == 0 {
		t.Errorf("joined to %d samples with holds %v, ending %s", len(got.Samples.T), got.Holds, got.Ending)
	}
	docs[5] = docs[5][:len(docs[5])/2]
	if got, err := Join(docs); err != nil || len(got.Samples.T) != 5*37 {
		t.Errorf("with a damaged piece: %d samples, %v", len(got.Samples.T), err)
	}
	if _, err := Join(docs[1:]); err == nil {
		t.Error("pieces without a head make a trace")
	}
	if _, err := Join(piecesOf(t, sample(t), 1)); !errors.Is(err, ErrTap) {
		t.Errorf("a tap: %v", err)
	}
}

// FuzzJoin: whatever the journal holds, a record that comes of it can be kept.
func FuzzJoin(f *testing.F) {
	f.Add([]byte(`{"head":{"id":"a","spm":1,"stitch_mm":1,"zoom":1,"px_per_mm":1,"line":{"points_mm":[[0,0],[9,0]]}},"samples":{"t_s":[0,1],"x_mm":[0,9],"y_mm":[0,0],"pressure":[0,0]}}`), []byte(`{}`))
	f.Fuzz(func(t *testing.T, a, b []byte) {
		r, err := Join([][]byte{a, b})
		if err != nil {
			return
		}
		doc, err := Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Decode(doc); err != nil {
			t.Fatal(err)
		}
	})
}
