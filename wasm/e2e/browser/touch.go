package browser

import (
	"context"

	"github.com/chromedp/cdproto/input"
)

// maxFingers is how many fingers an emulated screen feels at once.
const maxFingers = 5

// touchCall makes the command for one finger. It names the points that have
// changed: the one that comes, moves or goes. To cancel takes no points and ends
// all of them.
func (s *Stroke) touchCall(ph phase, at Sample, stamp input.TimeSinceEpoch) func(context.Context) error {
	s.page.tb.Helper()
	params := input.DispatchTouchEventParams{
		Timestamp: stamp,
		TouchPoints: []*input.TouchPoint{{
			X: at.X, Y: at.Y, Force: new(at.Pressure), ID: new(float64(s.finger)),
		}},
	}
	switch ph {
	case down:
		params.Type = input.DispatchTouchEventTypeTouchStart
	case move:
		params.Type = input.DispatchTouchEventTypeTouchMove
	case up:
		params.Type = input.DispatchTouchEventTypeTouchEnd
	case cancel:
		params.Type = input.DispatchTouchEventTypeTouchCancel
		params.TouchPoints = []*input.TouchPoint{}
	default:
		s.page.tb.Fatal("a finger cannot hover")
	}
	return func(ctx context.Context) error { return dispatch(ctx, input.DispatchTouchEvent, params) }
}
