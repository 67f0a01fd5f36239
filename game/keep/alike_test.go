package keep

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
)

// What is compared must have been done on the same line, in the same way, with the
// same device and guide, at the same size.
func TestUnlike(t *testing.T) {
	base := Summary{Motif: "m", Print: "p", Repeats: 4, Device: trace.Pen, Way: Pencil, Zoom: 1, SizeKnown: true, Guide: &Guide{Marks: WholeLine}}
	for name, c := range map[string]struct {
		change func(s *Summary)
		want   []string
	}{
		"nothing":             {func(*Summary) {}, nil},
		"another motif":       {func(s *Summary) { s.Motif, s.Print = "n", "" }, []string{"line"}},
		"another number":      {func(s *Summary) { s.Repeats, s.Print = 3, "" }, []string{"line"}},
		"of an older form":    {func(s *Summary) { s.Print = "" }, nil},
		"drawn anew":          {func(s *Summary) { s.Print = "q" }, []string{"line"}},
		"renamed":             {func(s *Summary) { s.Motif, s.Print = "n", "p" }, nil},
		"the cloth":           {func(s *Summary) { s.Way = Cloth }, []string{"way"}},
		"a way not noted":     {func(s *Summary) { s.Way = "" }, nil},
		"a finger":            {func(s *Summary) { s.Device = trace.Touch }, []string{"device"}},
		"no pointer yet":      {func(s *Summary) { s.Device = "" }, nil},
		"two thirds":          {func(s *Summary) { s.Zoom = 0.67 }, []string{"size"}},
		"a hair smaller":      {func(s *Summary) { s.Zoom = 0.995 }, nil},
		"a size not noted":    {func(s *Summary) { s.Zoom = 0 }, []string{"size"}},
		"a guess of the size": {func(s *Summary) { s.SizeKnown = false }, []string{"size"}},
		"a guide not noted":   {func(s *Summary) { s.Guide = nil }, nil},
		"a guide of tomorrow": {func(s *Summary) { s.Guide = &Guide{Marks: "stars"} }, nil},
		"a count before":      {func(s *Summary) { s.Guide = &Guide{Marks: WholeLine, CountIn: true} }, nil},
		"a needle that waits": {func(s *Summary) { s.Guide = &Guide{Marks: WholeLine, Lead: LeadWaits} }, []string{"guide"}},
		"cloth and dots":      {func(s *Summary) { s.Way, s.Guide = Cloth, &Guide{Marks: DotsOnly} }, []string{"way", "guide"}},
	} {
		s := base
		c.change(&s)
		if got := Unlike(base, s); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: unlike in %v, want %v", name, got, c.want)
		}
		if got := Unlike(s, base); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s, the other way round: unlike in %v, want %v", name, got, c.want)
		}
	}
}

// The fingerprint of a line is that of its points: it outlives writing and reading, once
// and again, as well as noise far below what a hand can follow, and is another as soon as
// a point lies elsewhere, one is missing, or the line runs the other way. That the hash
// is FNV-1a is held by its test vector: of no bytes it is cbf29ce484222325 (RFC 9923).
func TestPrint(t *testing.T) {
	if got := (LineDoc{}).Print(); got != "cbf29ce484222325" {
		t.Errorf("no points give %s", got)
	}
	seen := map[string]string{}
	for _, m := range motif.Ready() {
		r := m.Rehearsal()
		for n := 1; n <= min(r.Max, 3); n++ {
			l, err := r.Line(n)
			if err != nil {
				t.Fatal(err)
			}
			rec := sample(t)
			rec.SetLine(l)
			want := rec.Line.Print()
			for range 3 {
				doc, err := Encode(rec)
				if err != nil {
					t.Fatal(err)
				}
				if rec, err = Decode(doc); err != nil {
					t.Fatal(err)
				}
				line, err := rec.GeomLine()
				if err != nil {
					t.Fatal(err)
				}
				rec.SetLine(line)
				if got := rec.Line.Print(); got != want || Summarise(rec).Print != want || PrintOf(l) != want {
					t.Fatalf("%s, %d: %s became %s", m.ID, n, want, got)
				}
			}
			name := fmt.Sprintf("%s, %d", m.ID, n)
			if other := seen[want]; other != "" {
				t.Errorf("%s has the fingerprint of %s", name, other)
			}
			seen[want] = name
			pts := rec.Line.Points
			changed := map[string][][2]float64{"moved": slices.Clone(pts), "shorter": pts[1:], "backwards": slices.Clone(pts)}
			changed["moved"][1][0] += 0.02
			slices.Reverse(changed["backwards"])
			for what, pts := range changed {
				// A row whose points lie the same way from both ends is its own reverse.
				if got := (LineDoc{Points: pts}).Print(); got == want && !slices.Equal(pts, rec.Line.Points) {
					t.Errorf("%s, %s, has the same fingerprint", name, what)
				}
			}
		}
	}
}
