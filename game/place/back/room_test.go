package back

import (
	"slices"
	"testing"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/replay"
)

// The clock of the two traces stands still once the place is left, and where it stood.
func TestTheClockStopsWhereThePlaceIsLeft(t *testing.T) {
	r := New()
	r.Pair.Clock = replay.Clock{Rate: 1, Length: 10, T: 3, Playing: true}
	if !r.Playing() {
		t.Fatal("it does not play")
	}
	left, effects := r.Leave()
	if after := left.(Room); after.Pair.Clock.Playing || after.Pair.Clock.T != 3 || len(effects) != 0 {
		t.Errorf("left, the clock is %+v", after.Pair.Clock)
	}
	moved, _ := left.Frame(1)
	if after := moved.(Room); after.Pair.Clock.T != 3 {
		t.Errorf("it runs on to %v s", after.Pair.Clock.T)
	}
}

// A summary that is measured anew stands in a list of its own: the room before has the old
// one, and so has whoever else holds that list.
func TestAMeasuredSummaryChangesNoListBefore(t *testing.T) {
	list := []keep.Summary{{ID: "b", Name: "second"}, {ID: "a", Name: "first"}}
	before := New().With(place.Shared{Library: place.Library{Records: list}}).(Room)
	after := before.resummed(keep.Summary{ID: "a", Name: "measured"})
	if list[1].Name != "first" || before.Records[1].Name != "first" || after.Records[1].Name != "measured" {
		t.Errorf("the list before says %q, the room before %q, after %q", list[1].Name, before.Records[1].Name, after.Records[1].Name)
	}
}

// A trace that is deleted is no longer one of the two, in whichever place that was done.
func TestADeletedTraceIsNoLongerCompared(t *testing.T) {
	sheet := func(id string) *replay.Sheet { return &replay.Sheet{Rec: keep.Record{ID: id}} }
	r := New()
	r.Pair.First, r.Pair.Second = sheet("a"), sheet("b")
	gone, _ := r.Hear(place.Gone{ID: "a"})
	if p := gone.(Room).Pair; p.First == nil || p.First.Rec.ID != "b" || p.Second != nil {
		t.Errorf("after deleting the first: %+v", p)
	}
	back, _ := r.Hear(place.Gone{ID: "a", Back: true})
	if p := back.(Room).Pair; p.First.Rec.ID != "a" {
		t.Error("one that is brought back is taken for deleted")
	}
}

// Undo of a deleted trace brings back that trace, and only that.
func TestUndoBringsTheLastDeletedBack(t *testing.T) {
	r := New().With(place.Shared{Library: place.Library{Records: []keep.Summary{{ID: "b"}, {ID: "a"}}}}).(Room)
	for _, id := range []string{"a", "b"} {
		var effects []place.Effect
		if r, effects = r.remove(id); !slices.Contains(effects, place.Effect(place.Delete{ID: id})) {
			t.Fatalf("deleting %s does %v", id, effects)
		}
	}
	for _, id := range []string{"b", "a"} {
		next, effects := r.Undo()
		if r = next.(Room); len(effects) != 1 || effects[0] != place.Effect(place.Restore{ID: id}) {
			t.Errorf("undo does %v, want to bring %s back", effects, id)
		}
	}
	if _, effects := r.Undo(); len(effects) != 0 {
		t.Errorf("with nothing left it does %v", effects)
	}
}
