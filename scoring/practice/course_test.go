package practice

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"unthreaded/scoring/progress"
)

func start(t *testing.T, seed Seed, learn, known []string) Course {
	t.Helper()
	c, err := Start(seed, learn, known)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func done(t *testing.T, c Course, at float64) Course {
	t.Helper()
	next, err := Done(c, at, 30)
	if err != nil {
		t.Fatal(err)
	}
	return next
}

// A row begins with the whole line, takes every guide, none of them after one with less
// help, and ends with one that counts, as all without a guide do.
func TestRowFadesTheGuide(t *testing.T) {
	lengths := map[int]bool{}
	for seed := range Seed(40) {
		c := start(t, seed, []string{"spiral"}, nil)
		of := c.Motifs[0].Row
		lengths[of] = true
		var shown []int
		for i := range of {
			now := 1000 + 60*float64(i)
			s := Next(c, now)
			last := i == of-1
			if s.Mix || s.Number != i+1 || s.Of != of || s.Counts != (s.Guide == progress.None) || last && !s.Counts ||
				s.Guess != (s.Guide != progress.Whole) || s.Meter != (s.Guide == progress.Whole) {
				t.Fatalf("trace %d of %d: %+v", i+1, of, s)
			}
			shown = append(shown, slices.Index(guides, s.Guide))
			c = done(t, c, now)
		}
		if shown[0] != 0 || shown[of-1] != 3 || !slices.IsSorted(shown) || len(slices.Compact(slices.Clone(shown))) != 4 {
			t.Errorf("a row of %d shows the guides %v", of, shown)
		}
		if s := Next(c, 2000); !s.Mix || !s.Counts || s.Guide != progress.None {
			t.Errorf("after the row %+v", s)
		}
	}
	if len(lengths) != MostRow-LeastRow+1 || !lengths[LeastRow] || !lengths[MostRow] {
		t.Errorf("rows of %v traces, want all from %d to %d", lengths, LeastRow, MostRow)
	}
}

// One who comes back on another day for the last trace of a row makes two more to get
// warm, as progress does not score the first two.
func TestLastTraceOfARowCounts(t *testing.T) {
	c := start(t, 1, []string{"spiral"}, []string{"loops"})
	for i := range c.Motifs[0].Row - 1 {
		c = done(t, c, 1000+60*float64(i))
	}
	day := 100000.0
	for i, counts := range []bool{false, false, true} {
		now := day + 60*float64(i)
		if s := Next(c, now); s.Mix || s.Number != s.Of || s.Guide != progress.None || s.Counts != counts {
			t.Fatalf("trace %d of the day: %+v", i+1, s)
		}
		c = done(t, c, now)
	}
	if s := Next(c, day+200); !s.Mix || s.Motif != "loops" {
		t.Errorf("after the row %+v", s)
	}
	// A warm-up does the same.
	for i := range 2 {
		var err error
		if c, err = Elsewhere(c, 2*day+60*float64(i), 60); err != nil {
			t.Fatal(err)
		}
	}
	if s := Next(c, 2*day+120); !s.Counts {
		t.Errorf("after a warm-up %+v", s)
	}
}

func TestRestsAreSuggested(t *testing.T) {
	c := start(t, 1, []string{"spiral"}, nil)
	if s := Next(c, 1e9); s.Rest || s.Enough {
		t.Errorf("at the start %+v", s)
	}
	const from = 1e9
	for at := 0.0; at < RestAfter; at += 60 {
		if s := Next(c, from+at); s.Rest {
			t.Errorf("after %v s: %+v", at, s)
		}
		c = done(t, c, from+at)
	}
	end := c.Sitting.To
	for _, q := range []struct {
		at           float64
		rest, enough bool
	}{
		{from + RestAfter, true, false}, {end + Rest - 1, true, false}, {end + Rest, false, false},
		{from + EnoughAfter, false, true}, {end + progress.Gap + 1, false, false},
	} {
		if s := Next(c, q.at); s.Rest != q.rest || s.Enough != q.enough {
			t.Errorf("%v s after the start: rest %t, enough %t, want %t, %t", q.at-from, s.Rest, s.Enough, q.rest, q.enough)
		}
	}
	// She goes on without a rest, and then after one.
	if s := Next(done(t, c, from+RestAfter), from+RestAfter+31); !s.Rest {
		t.Errorf("without a rest: %+v", s)
	}
	if s := Next(done(t, c, end+Rest), end+Rest+31); s.Rest {
		t.Errorf("after a rest: %+v", s)
	}
}

// Rows of new motifs are parted by mixing those that are known, and each of these gets
// its share.
func TestRowsAndMixesTakeTurns(t *testing.T) {
	c := start(t, 5, []string{"a", "b", "c"}, nil)
	var order []string
	for i := range 200 {
		s := Next(c, 60*float64(i))
		mark := s.Motif
		if s.Mix {
			mark = "mix"
		}
		if len(order) == 0 || order[len(order)-1] != mark {
			order = append(order, mark)
		}
		c = done(t, c, 60*float64(i))
	}
	if got, want := strings.Join(order, " "), "a b mix c mix"; got != want {
		t.Errorf("order %q, want %q", got, want)
	}
	for _, m := range c.Motifs {
		if m.Traces < 55 || m.Traces > 80 {
			t.Errorf("%s got %d of 200 traces", m.Name, m.Traces)
		}
	}
}

func TestCoursesThatCannotBe(t *testing.T) {
	for _, c := range []struct{ learn, known []string }{
		{nil, []string{"a"}}, {[]string{"a", "a"}, nil}, {[]string{"a"}, []string{"a"}}, {[]string{""}, nil}, {[]string{"\xff"}, nil},
	} {
		if _, err := Start(1, c.learn, c.known); err == nil {
			t.Errorf("no error for %q and %q", c.learn, c.known)
		}
	}
	c := start(t, 1, []string{"a"}, nil)
	if _, err := Done(c, 1, -1); err == nil {
		t.Error("no error for a trace of less than no time")
	}
	if next, err := Add(c, "a"); err == nil || !reflect.DeepEqual(next, c) {
		t.Error("a motif was added twice")
	}
}

// A course kept before turns were counted has made none.
func TestACourseFromBeforeTurnsWereCounted(t *testing.T) {
	c, err := Decode([]byte(`{"schema":1,"seed":"5","motifs":[{"name":"a","row":5,"done":5,"traces":9},{"name":"b","row":6,"done":6,"traces":2}],
		"current":1,"mixed":4,"before":{"motif":0,"done":5,"mixed":3},"sitting":{"from_s":100,"rested_s":100,"to_s":400,"traces":7}}`))
	if err != nil {
		t.Fatal(err)
	}
	if s := Next(c, 410); !s.Mix || s.Number != 1 || s.Round {
		t.Errorf("next comes %+v, want the first turn", s)
	}
	if c.Sitting.Mixed = 8; c.Validate() == nil {
		t.Error("8 turns among 7 traces are taken")
	}
}
