package order

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/machine"
	"unthreaded/path/quilt"
)

// Choices and ticks come back as they were written.
func TestDocumentsComeBack(t *testing.T) {
	c := Choices{Schema: Schema, Quilt: "q", NoDitch: true, Rows: machine.EdgesIn, Stages: []string{"row-2", "row-1"},
		Ways: map[string]Way{"row-1": LongLines}, Passes: map[string]Passes{"row-1": OutAndBack}, FarEnd: map[string]bool{"row-2": true}}
	doc, err := c.Encode()
	if err != nil {
		t.Fatal(err)
	}
	if back, err := DecodeChoices(doc); err != nil || !reflect.DeepEqual(back, c) {
		t.Errorf("choices came back as %+v (%v)", back, err)
	}
	s := Sewn{Schema: Schema, Quilt: "q"}.With(Tick{Kind: LegTick, Stage: "row-1", Cell: "block-1-1", Day: "2026-03-01"})
	if doc, err = s.Encode(); err != nil {
		t.Fatal(err)
	}
	if back, err := DecodeSewn(doc); err != nil || !reflect.DeepEqual(back, s) {
		t.Errorf("ticks came back as %+v (%v)", back, err)
	}
	for _, text := range []string{`{"schema":2}`, `{"schema":99,"more":1}`} {
		if _, err := DecodeChoices([]byte(text)); !errors.Is(err, quilt.ErrNewer) {
			t.Errorf("%s: %v", text, err)
		}
		if _, err := DecodeSewn([]byte(text)); !errors.Is(err, quilt.ErrNewer) {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{`{"schema":1,"ticks":[{"kind":"leg","day":"tomorrow"}]}`, `{"schema":1,"tocks":[]}`, `{"schema":1}{}`, `{}`, `x`} {
		if _, err := DecodeSewn([]byte(text)); err == nil {
			t.Errorf("%s: it is read", text)
		}
	}
	for _, text := range []string{`{"schema":1,"rows":"upwards"}`, `{"schema":1,"ways":{"row-1":"by-magic"}}`, `{"schema":1,"passes":{"row-1":"thrice"}}`} {
		if _, err := DecodeChoices([]byte(text)); err == nil {
			t.Errorf("%s: it is read", text)
		}
	}
}

// What is left shrinks leg by leg to nothing, in any order of ticks; sewn and left add
// up to the whole.
func TestWhatIsLeft(t *testing.T) {
	q, d := quilt.Demo()
	o, err := Plan(q, d, Choices{})
	if err != nil {
		t.Fatal(err)
	}
	a := machine.UsualAssumptions()
	whole, err := o.Job(a)
	if err != nil {
		t.Fatal(err)
	}
	type place struct{ stage, leg int }
	var all []place
	for i, s := range o.Stages {
		for k := range s.Legs {
			all = append(all, place{i, k})
		}
	}
	loads := o.Loads()
	rapid.Check(t, func(rt *rapid.T) {
		var s Sewn
		done := 0.0
		count := rapid.IntRange(0, len(all)).Draw(rt, "ticks")
		for _, p := range rapid.Permutation(all).Draw(rt, "order")[:count] {
			tick := o.TickOf(p.stage, p.leg)
			tick.Day = "2026-03-01"
			s = s.With(tick).With(tick)
			done += loads[p.stage].Legs[p.leg].Length
		}
		left, err := o.Left(s, a)
		if err != nil {
			rt.Fatal(err)
		}
		if left.Done != count || left.Of != len(all) || (left.Next.Stage < 0) != (count == len(all)) {
			rt.Fatalf("%d of %d are done, next %+v; want %d", left.Done, left.Of, left.Next, count)
		}
		if sum := left.Job.All.LengthMM + done; math.Abs(sum-whole.All.LengthMM) > 1e-6*sum {
			rt.Fatalf("%.3f mm are sewn and %.3f left of %.3f", done, left.Job.All.LengthMM, whole.All.LengthMM)
		}
		if left.Next.Stage >= 0 && s.Ticked(o.TickOf(left.Next.Stage, left.Next.Leg)) != "" {
			rt.Fatal("what comes next is ticked")
		}
	})
	one, err := o.Left(Sewn{}.With(Tick{Kind: StageTick, Stage: o.Stages[0].ID, Day: "2026-03-01"}), a)
	if err != nil || one.Done != len(o.Stages[0].Legs) || one.Next.Stage != 1 {
		t.Errorf("with the first stage ticked %d are done, next %+v (%v)", one.Done, one.Next, err)
	}
}

// A stage that is moved comes where she puts it, and all others keep their order.
func TestStagesMoved(t *testing.T) {
	q, d := quilt.Demo()
	o, err := Plan(q, d, Choices{})
	if err != nil {
		t.Fatal(err)
	}
	ids := func(o Order) []string {
		var out []string
		for _, s := range o.Stages {
			out = append(out, s.ID)
		}
		return out
	}
	c := Choices{}.Moved(o, "row-1", 0)
	moved, err := Plan(q, d, c)
	if err != nil {
		t.Fatal(err)
	}
	got := ids(moved)
	if got[0] != "row-1" || len(got) != len(o.Stages) {
		t.Fatalf("the stages are %v", got)
	}
	var rest []string
	for _, id := range ids(o) {
		if id != "row-1" {
			rest = append(rest, id)
		}
	}
	if !reflect.DeepEqual(got[1:], rest) {
		t.Errorf("the others are %v, want %v", got[1:], rest)
	}
	if moved.Fingerprint == o.Fingerprint {
		t.Error("the fingerprint is the same")
	}
}
