package work

import (
	"bytes"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func ask(n int, k Kind, in int) Ask { return Ask{N: n, Kind: k, In: in} }

// One job is in hand at a time. The newest wish of a kind wins: one that waits gives way, one
// in hand is ended a moment later; what was answered before is answered at once.
func TestTheNewestWishWins(t *testing.T) {
	var q Queue
	must := func(a Ask) Turn {
		turn, err := q.Ask(a)
		if err != nil {
			t.Fatal(err)
		}
		return turn
	}
	first := must(ask(1, Order, 10))
	if first.Start == nil || q.Current() != 1 {
		t.Fatalf("the first job is not begun: %+v", first)
	}
	if turn := must(ask(2, Gaps, 10)); turn.Start != nil || turn.Linger {
		t.Errorf("a job of another kind: %+v, want it to wait", turn)
	}
	for n := 3; n < 6; n++ {
		if turn := must(ask(n, Order, 10+n)); turn.Start != nil || !turn.Linger {
			t.Errorf("a newer wish: %+v, want that the one in hand may end", turn)
		}
	}
	turn := q.Overdue()
	if !turn.Restart || q.Current() != 2 || turn.Start == nil {
		t.Errorf("overdue: %+v with job %d, want the program begun anew with job 2", turn, q.Current())
	}
	if n, turn := q.Ended([]byte("gaps")); n != 2 || q.Current() != 5 || turn.Start == nil {
		t.Errorf("job %d ended and %d is next, want the newest wish, 5", n, q.Current())
	}
	q.Ended([]byte("order"))
	if turn := must(ask(6, Order, 15)); !bytes.Equal(turn.Answer, []byte("order")) || turn.N != 6 {
		t.Errorf("the same again: %+v, want the answer kept", turn)
	}
	if turn := must(ask(7, Order, 10)); turn.Start == nil {
		t.Error("what was never answered has an answer")
	}
	if turn := q.Stop(7); !turn.Restart || q.Current() != 0 || q.Stop(7).Restart {
		t.Error("stopping ends the program once")
	}
}

// When the program is lost, so are the jobs, each named once; the queue goes on.
func TestLostJobsAreNamed(t *testing.T) {
	var q Queue
	q.Ask(ask(1, Order, 1))
	q.Ask(ask(2, Gaps, 1))
	if lost := q.Lost(); !slices.Equal(lost, []int{1, 2}) || q.Lost() != nil {
		t.Errorf("lost %v", lost)
	}
	if turn, _ := q.Ask(ask(3, Order, 1)); turn.Start == nil {
		t.Error("after a loss nothing is begun")
	}
}

// Whatever is asked, stopped and answered: every job ends once at most, and what is begun is
// never begun while another is in hand, unless that one was ended.
func TestQueueKeepsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var q Queue
		busy := false
		ended := map[int]bool{}
		see := func(turn Turn) {
			if turn.Restart {
				busy = false
			}
			if turn.Start != nil {
				if busy {
					t.Fatal("two jobs in hand")
				}
				busy = true
			}
			if turn.Answer != nil {
				ended[turn.N] = true
			}
		}
		for n := 1; n < 40; n++ {
			switch rapid.IntRange(0, 3).Draw(t, "what") {
			case 0, 1:
				turn, err := q.Ask(ask(n, rapid.SampledFrom([]Kind{Order, Gaps, Ways}).Draw(t, "kind"), rapid.IntRange(0, 5).Draw(t, "in")))
				if err != nil {
					t.Fatal(err)
				}
				see(turn)
			case 2:
				if busy {
					busy = false
					k, turn := q.Ended([]byte{1})
					if ended[k] {
						t.Fatal("a job ended twice")
					}
					ended[k] = true
					see(turn)
				}
			case 3:
				see(q.Stop(rapid.IntRange(1, n).Draw(t, "stop")))
			}
			if busy != (q.Current() > 0) {
				t.Fatal("the queue does not know what is in hand")
			}
		}
	})
}

// The list of the model: a lost job is halted until it is asked for again, one that gave way
// is not waited for.
func TestListOfJobs(t *testing.T) {
	var l List
	l, first := l.Ask(Order, "a", 1, 0)
	l, second := l.Ask(Order, "b", 1, 1)
	if _, _, waited := l.Done(Done{N: first.N}); waited || !l.Open(Order, "a") || l.Open(Order, "b") {
		t.Error("what gave way is waited for")
	}
	lost, j, waited := l.Done(Done{N: second.N, Lost: true})
	again, asked := lost.Again(3)
	if h, halted := lost.Halted(); !waited || j.Of != "b" || !halted || !h.Lost || lost.Open(Order, "b") || !again.Open(Order, "b") || len(asked) > 0 {
		t.Errorf("lost: %+v", lost)
	}
	// What a press asked for is asked for anew; what nobody looks at is given up for good.
	l, press := l.Ask(Card, "pdf", 2, 2)
	pressed, _ := l.Stop()
	if pressed, asked = pressed.Again(4); len(asked) != 1 || asked[0].Kind != Card || asked[0].In != 2 || asked[0].N == press.N || !pressed.Busy(Card) {
		t.Errorf("asked for anew: %+v", asked)
	}
	l, left := l.Leave(Card)
	if len(left) != 1 || left[0].N != press.N || l.Busy(Card) || !l.Open(Card, "pdf") {
		t.Errorf("left: %+v", left)
	}
	stopped, stops := l.Stop()
	if len(stops) != 1 || stops[0].N != second.N || stopped.Open(Order, "b") || stopped.Busy(Order) {
		t.Errorf("stopped: %+v, %v", stopped, stops)
	}
	if anew, _ := stopped.Ask(Order, "b", 1, 2); !anew.Busy(Order) {
		t.Error("what was stopped cannot be asked for")
	}
	if _, any := l.Told(Told{second.N, 0.5}).Any(); !any {
		t.Error("a job is lost by telling of it")
	}
}
