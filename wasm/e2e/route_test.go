package e2e

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

// planRoute opens the place Route.
func planRoute(t *testing.T, v browser.View) *table {
	t.Helper()
	d := &table{Page: open(t, v), t: t}
	d.Click(`[data-send=place][value=route]`)
	d.Until(`document.querySelectorAll('[data-list="route.choices"] li').length > 1`)
	d.measure()
	d.m, _ = game.Update(d.m, game.Control{Name: "place", Value: "route"})
	return d
}

// From the drawing to the rehearsal with the mouse: the start is dragged, the plan
// follows, the reasons are shown, and the route is put on the cloth to be traced.
func TestPlanAndRehearseARoute(t *testing.T) {
	t.Parallel()
	d := planRoute(t, desk)
	if s := d.sentence(); s != "One line, nothing sewn twice." {
		t.Errorf("the orange peel opens with %q", s)
	}
	d.choose("rule", "fixed")
	d.Until(`document.querySelector('.sentence').textContent.includes('is sewn twice, in 3 moves')`)
	d.m, _ = game.Update(d.m, game.Control{Name: "rule", Value: "fixed"})

	// The exit is dragged next to the start, one arc away.
	exit, _ := d.m.Desk.PlaceOf(plan.ExitHandle)
	from, to := d.at(exit), d.at(geom.Pt(41, 119))
	s := d.Stroke(browser.Mouse)
	s.Down(browser.Sample{X: from.X, Y: from.Y})
	s.Move(browser.Sample{T: 0.1, X: (from.X + to.X) / 2, Y: from.Y - 20}, browser.Sample{T: 0.2, X: to.X, Y: to.Y})
	s.Up(browser.Sample{T: 0.3, X: to.X, Y: to.Y})
	d.Until(`document.querySelector('.sentence').textContent.includes('is sewn twice, in one move')`)

	d.Click(`[data-send=why]`)
	d.Until(`document.querySelector('[data-text="route.proof"]').textContent.includes('no way with these ends adds less')`)
	d.Key("Control+z")
	d.Until(`document.querySelector('[data-text="route.whyText"]').textContent === 'Show me why'`)

	d.Click(`[data-send=rehearse-route]`)
	d.Until(`document.querySelector('[data-send=motif]').value.startsWith('route-orange-peel-')`)
	if s := d.sentence(); !strings.Contains(s, "start dot") {
		t.Errorf("after asking to rehearse the page says %q", s)
	}
}

// All of it by keyboard.
func TestRouteByKeyboard(t *testing.T) {
	t.Parallel()
	d := planRoute(t, desk)
	focus := func(selector string) { d.Do(`document.querySelector('` + selector + `').focus()`) }
	d.Do(`document.querySelector('[data-send=start-next]').closest('details').open = true`)
	focus(`[data-send=start-next]`)
	before := browser.Eval[string](d.Page, `document.querySelector('[data-send=rule]').value`)
	d.Key("Enter")
	d.Until(`document.querySelector('[data-send=rule]').value === 'start'`)
	if before != "free" {
		t.Errorf("the rule was %q, want free", before)
	}
	focus(`[data-list="route.choices"] li:last-of-type button`)
	d.Key("Enter")
	d.Until(`document.querySelector('[data-list="route.choices"] li:last-of-type button').getAttribute('aria-pressed') === 'true'`)
	focus(`#play`)
	d.Key("Enter")
	d.Until(`document.getElementById('play').textContent === 'Pause'`)
	d.Key("Enter")
	focus(`#scrub`)
	d.Key("End")
	if got := browser.Eval[[]float64](d.Page, `(e => [+e.value, +e.max])(document.getElementById('scrub'))`); math.Abs(got[0]-got[1]) > 0.2 {
		t.Errorf("End leads to %v of %v mm", got[0], got[1])
	}

	// Beside the machine the cloth gets the keyboard, so that a foot switch is heard.
	focus(`[data-send=follow]`)
	d.Key(" ")
	said := `document.querySelector('.beside p').textContent`
	d.Until(said + ` !== '' && !!document.activeElement.closest('#cloth')`)
	first := browser.Eval[string](d.Page, said)
	d.Key("PageDown")
	d.Key("PageDown")
	d.Until(said + ` !== ` + strconv.Quote(first))
	d.Key("PageUp")
	d.Until(said + ` === ` + strconv.Quote(first))
}

// Two fingers, the wheel and keys show the drawing larger, and her own order of a crosshatch
// takes at most 12 taps.
func TestLargerAndOwnOrderByFinger(t *testing.T) {
	t.Parallel()
	d := planRoute(t, browser.View{Width: 820, Height: 1180, Touch: true})
	larger := `!document.querySelector('.whole').hidden`
	whole := func() {
		t.Helper()
		d.Until(larger)
		d.Click(`.whole`)
		d.Until(`!(` + larger + `)`)
	}
	mid := d.at(geom.Pt(60, 60))
	place := func(dx float64) browser.Sample { return browser.Sample{X: mid.X + dx, Y: mid.Y, Pressure: 0.5} }
	first, second := d.Finger(1), d.Finger(2)
	first.Down(place(-20))
	second.Down(place(20))
	first.Move(place(-40), place(-80))
	second.Move(place(40), place(80))
	second.Up(place(80))
	first.Up(place(-80))
	whole()
	d.Do(`(() => {
		const c = document.querySelector('#cloth canvas'), r = c.getBoundingClientRect();
		c.dispatchEvent(new WheelEvent('wheel', { deltaY: -200, ctrlKey: true, clientX: r.left + 100, clientY: r.top + 100, bubbles: true, cancelable: true }));
	})()`)
	whole()
	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("Plus")
	d.Until(larger)
	d.Key("0")
	d.Until(`!(` + larger + `)`)

	d.choose("drawing", "crosshatch")
	d.Until(`document.querySelector('[data-send=drawing]').value === 'crosshatch' && document.querySelectorAll('[data-list="route.choices"] li').length > 0`)
	d.m, _ = game.Update(d.m, game.Control{Name: "drawing", Value: "crosshatch"})
	d.Do(`document.querySelector('[data-send=own]').click()`)
	d.Until(`document.querySelector('[data-send=own]').getAttribute('aria-pressed') === 'true'`)
	lines := map[string][]geom.Point{} // the middles of the pieces of each
	for _, e := range d.m.Desk.Graph.Edges {
		if l, err := geom.NewLine(e.Path); err == nil && e.Kind.Must() {
			lines[e.Stroke] = append(lines[e.Stroke], l.At(l.Length()/2))
		}
	}
	if len(lines) < 4 || len(lines) > 12 {
		t.Fatalf("the crosshatch has %d lines", len(lines))
	}
	for _, pieces := range lines {
		at := d.at(pieces[len(pieces)/2])
		s := d.Stroke(browser.Touch)
		s.Down(browser.Sample{X: at.X, Y: at.Y, Pressure: 0.5})
		s.Up(browser.Sample{T: 0.05, X: at.X, Y: at.Y})
	}
	d.Until(`document.querySelector('[data-text="route.ownText"]').textContent.includes('All lines are sewn') || document.querySelector('.sentence').textContent.includes('All lines are sewn')`)
}
