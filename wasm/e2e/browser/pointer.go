package browser

import (
	"context"
	"fmt"
	"sync"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Kind is the kind of a pointer, by the names of PointerEvent.pointerType.
type Kind string

const (
	Mouse Kind = "mouse"
	Pen   Kind = "pen"
	Touch Kind = "touch"
)

// Sample is one place of a pointer. Pressure runs from 0 to 1; browsers report
// 0.5 for a mouse with its button down, whatever is asked for here.
type Sample struct {
	T        float64 // s since the start of the stroke
	X, Y     float64 // CSS pixels from the corner of the page
	Pressure float64
}

// Stroke is one movement of one pointer, with a clock that starts with the stroke.
// Its events carry the times of their samples, to 0.01 ms where the page is
// isolated, and are sent at these times or as soon after as the machine can. They
// are sent without waiting for the page, as a hand does, so that several fall into
// one frame and the page sees them as coalesced events.
//
// On a loaded machine about one event in ten thousand was seen to come with a time
// up to 5 ms early. It fits a pause between the two readings of the clock by which
// Chromium converts the time of a command.
type Stroke struct {
	page   *Page
	kind   Kind
	finger int
	start  time.Time
	atOnce bool
}

// pointerState is what the page must remember between events.
type pointerState struct {
	touch  bool      // whether the screen feels fingers
	latest time.Time // no event may be earlier: the last one, or the load of the page
}

// Stroke begins a stroke of a mouse, a pen or the first finger.
func (p *Page) Stroke(k Kind) *Stroke { return p.stroke(k, 0) }

// Finger begins a stroke of one of several fingers, counted from 0.
func (p *Page) Finger(number int) *Stroke { return p.stroke(Touch, number) }

func (p *Page) stroke(k Kind, finger int) *Stroke {
	p.tb.Helper()
	if k == Touch && !p.pointer.touch {
		p.tb.Fatal("a stroke by touch needs a View with Touch")
	}
	return &Stroke{page: p, kind: k, finger: finger, start: p.pointer.next(time.Now())}
}

// next is the first time from t on that is free for an event: times never run
// backwards, also from stroke to stroke.
func (s pointerState) next(t time.Time) time.Time {
	if free := s.latest.Add(time.Millisecond); t.Before(free) {
		return free
	}
	return t
}

// Trace plays a whole stroke as a hand does: down at the first sample, along the
// others, up at the place of the last.
func (p *Page) Trace(k Kind, samples []Sample) {
	p.tb.Helper()
	p.Stroke(k).whole(samples)
}

// TraceAtOnce gives the same events with the same times between them as Trace, as
// fast as the page takes them: 8 s of samples in about a third of a second, in
// fewer and longer lists of coalesced events. The times lie in the past as far as
// there is room since the last event or the load of the page, beyond that in the
// future.
func (p *Page) TraceAtOnce(k Kind, samples []Sample) {
	p.tb.Helper()
	s := p.Stroke(k)
	length := time.Duration(samples[len(samples)-1].T * float64(time.Second))
	s.start, s.atOnce = p.pointer.next(time.Now().Add(-length)), true
	s.whole(samples)
}

func (s *Stroke) whole(samples []Sample) {
	s.page.tb.Helper()
	events := []event{s.event(down, samples[0])}
	for _, sample := range samples[1:] {
		events = append(events, s.event(move, sample))
	}
	s.send(append(events, s.event(up, samples[len(samples)-1]))...)
}

// Down puts the pointer down, or presses the button of a mouse.
func (s *Stroke) Down(at Sample) { s.page.tb.Helper(); s.send(s.event(down, at)) }

// Up lifts the pointer.
func (s *Stroke) Up(at Sample) { s.page.tb.Helper(); s.send(s.event(up, at)) }

// Hover moves a mouse or a pen that is not down.
func (s *Stroke) Hover(at Sample) { s.page.tb.Helper(); s.send(s.event(hover, at)) }

// Move moves the pointer that is down along the samples.
func (s *Stroke) Move(samples ...Sample) {
	s.page.tb.Helper()
	events := make([]event, len(samples))
	for i, sample := range samples {
		events[i] = s.event(move, sample)
	}
	s.send(events...)
}

// Cancel ends the touch of all fingers as the system does when it takes a gesture
// over. Chromium offers it for touch only.
func (s *Stroke) Cancel(t float64) {
	s.page.tb.Helper()
	if s.kind != Touch {
		s.page.tb.Fatalf("a stroke by %s cannot be cancelled from outside", s.kind)
	}
	s.send(s.event(cancel, Sample{T: t}))
}

// phase is what a pointer does in an event.
type phase int

const (
	down phase = iota
	move
	up
	hover
	cancel
)

// event is an event to send at its time.
type event struct {
	at   time.Time
	call func(context.Context) error
}

func (s *Stroke) event(ph phase, at Sample) event {
	when := s.start.Add(time.Duration(at.T * float64(time.Second)))
	stamp := input.TimeSinceEpoch(float64(when.UnixMicro()) / 1e6)
	if s.kind == Touch {
		return event{when, s.touchCall(ph, at, stamp)}
	}
	return event{when, s.mouseCall(ph, at, stamp)}
}

func (s *Stroke) mouseCall(ph phase, at Sample, stamp input.TimeSinceEpoch) func(context.Context) error {
	params := input.DispatchMouseEventParams{
		Type: chromedp.MouseMoved, X: at.X, Y: at.Y, Timestamp: stamp,
		PointerType: input.DispatchMouseEventPointerType(s.kind), Force: at.Pressure,
		Button: input.MouseButtonLeft, Buttons: 1,
	}
	switch ph {
	case down:
		params.Type, params.ClickCount = chromedp.MousePressed, 1
	case up:
		params.Type, params.ClickCount, params.Buttons, params.Force = chromedp.MouseReleased, 1, 0, 0
	case hover:
		params.Button, params.Buttons, params.Force = input.MouseButtonNone, 0, 0
	}
	return func(ctx context.Context) error { return dispatch(ctx, input.DispatchMouseEvent, params) }
}

func dispatch[P any](ctx context.Context, c cdp.Command[P, cdp.Empty], params P) error {
	_, err := chromedp.Call(ctx, c, params)
	return err
}

// send sends the events in order, each at its time, and returns when the page has
// handled all of them.
func (s *Stroke) send(events ...event) {
	p := s.page
	p.tb.Helper()
	ctx, stop := context.WithTimeout(p.ctx, patience+time.Until(events[len(events)-1].at))
	defer stop()
	written, unwatch := p.browser.wire.watch(chromedp.FromContext(p.ctx).Target.SessionID)
	defer unwatch()
	var pending sync.WaitGroup
	errs := make([]error, len(events))
	for i, e := range events {
		if !s.atOnce {
			time.Sleep(time.Until(e.at))
		}
		pending.Go(func() { errs[i] = e.call(ctx) })
		select {
		case <-written:
		case <-ctx.Done():
			p.tb.Fatalf("send event %d of %d: %v", i+1, len(events), ctx.Err())
		}
	}
	pending.Wait()
	p.pointer.latest = events[len(events)-1].at
	for i, err := range errs {
		p.must(fmt.Sprintf("%s event %d of %d", s.kind, i+1, len(events)), err)
	}
}
