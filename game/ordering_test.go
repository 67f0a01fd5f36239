package game_test

import (
	"reflect"
	"testing"

	"unthreaded/game"
)

// finding is the cot quilt with two rows, whose order is being found.
func finding(t *testing.T) *table {
	tb := newTable(t)
	tb.send(game.Shelf{}, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.rows", Value: "2"}, game.Control{Name: "quilt.order"})
	return tb
}

// Frame by frame the order is found that one search finds, every row once, and the page
// goes on meanwhile: what is tapped is chosen.
func TestTheOrderIsFoundInSteps(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of a short run: it takes long")
	}
	tb := finding(t)
	want := tb.m.Top.FindOrder().Order
	frames, last := 0, 0
	for ; onTable(tb.m).Finding != nil && frames < 1000; frames++ {
		done, of := onTable(tb.m).Finding.Progress()
		if done < last || done > of || !tb.m.Playing() {
			t.Fatalf("frame %d: %d rows of %d, before it %d", frames, done, of, last)
		}
		last = done
		if frames == 3 {
			tb.send(game.Control{Name: "quilt.choose", Item: "block-1-1"})
		}
		tb.send(game.Frame{Now: 10 + float64(frames)/60})
	}
	got := tb.m.Top.Order
	if !got.Done || len(got.Legs) != last || frames < 2*last || !reflect.DeepEqual(got, want) {
		t.Errorf("after %d frames %d rows: %+v; in one go %+v", frames, len(got.Legs), got, want)
	}
	if tb.m.Top.Chosen < 0 {
		t.Error("the block tapped meanwhile is not chosen")
	}
}

// Stop ends the search, and so does a change of the quilt; neither leaves an order, and
// another search can begin.
func TestTheSearchForAnOrderEnds(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of a short run: it takes long")
	}
	for name, c := range map[string]game.Control{
		"stopped": {Name: "quilt.order-stop"}, "changed": {Name: "quilt.block", Value: "6"},
		"another": {Name: "quilt.new"}, "undone": {Name: "undo"}, "deleted": {Name: "quilt.delete"},
	} {
		tb := finding(t)
		for i := range 4 {
			tb.send(game.Frame{Now: 10 + float64(i)/60})
		}
		tb.send(c, game.Frame{Now: 11})
		for i := range 60 {
			tb.send(game.Frame{Now: 11.5 + float64(i)/100})
		}
		if d := onTable(tb.m); d.Finding != nil || d.Top.Order.Done {
			t.Errorf("%s: the search goes on: %v, an order is there: %v", name, d.Finding != nil, d.Top.Order.Done)
		}
		tb.send(game.Control{Name: "quilt.order"})
		if again := onTable(tb.m).Finding != nil; again != (name != "deleted") {
			t.Errorf("%s: another search begins: %v", name, again)
		}
	}
}
