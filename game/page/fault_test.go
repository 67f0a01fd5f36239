package page

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/place"
)

// falls is a place that cannot say what it shows.
type falls struct{ place.Room }

// A fault of what a place shows is said and costs that alone: the other places can still be
// gone to.
func TestAFaultOfAPlaceLeavesThePage(t *testing.T) {
	m := game.New(game.DefaultSettings(), 0)
	p := of(m, falls{})
	if !p.HasNotice || p.Notice != m.Book().Say("page.fault-page") || !p.At[m.Place] {
		t.Errorf("the page says %q", p.Notice)
	}
}
