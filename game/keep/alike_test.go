package keep

import (
	"reflect"
	"testing"

	"unthreaded/scoring/trace"
)

// What is compared must have been done on the same line, in the same way, with the
// same device and guide, at the same size.
func TestUnlike(t *testing.T) {
	base := Summary{Motif: "m", Repeats: 4, Device: trace.Pen, Way: Pencil, Zoom: 1, SizeKnown: true, Guide: &Guide{Marks: WholeLine}}
	for name, c := range map[string]struct {
		change func(s *Summary)
		want   []string
	}{
		"nothing":             {func(*Summary) {}, nil},
		"another motif":       {func(s *Summary) { s.Motif = "n" }, []string{"line"}},
		"another number":      {func(s *Summary) { s.Repeats = 3 }, []string{"line"}},
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
