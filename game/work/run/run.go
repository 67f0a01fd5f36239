// Package run does the jobs that package work names. The second program links it, and so do
// tests; the page does not.
package run

import (
	"errors"

	"unthreaded/game/guard"
	"unthreaded/game/top"
	"unthreaded/game/work"
	"unthreaded/path/plane"
	"unthreaded/path/quilt/order"
)

// Tell is called between slices of a job with the share of it that is done.
type Tell func(share float64)

// jobs are what is done for each kind. What a job fails at is a part of its Out.
var jobs = map[work.Kind]func(in any, tell Tell) any{
	work.Order:   func(in any, tell Tell) any { return ordered(in.(work.OrderIn), tell) },
	work.Ways:    func(in any, tell Tell) any { return compared(in.(work.WaysIn), tell) },
	work.Gaps:    func(in any, _ Tell) any { return measured(in.(work.GapsIn)) },
	work.Route:   func(in any, _ Tell) any { return routed(in.(work.RouteIn)) },
	work.Ink:     func(in any, tell Tell) any { return readInk(in.(work.InkIn), tell) },
	work.SVG:     func(in any, _ Tell) any { return readSVG(in.(work.SVGIn)) },
	work.Save:    func(in any, _ Tell) any { return saved(in.(work.SaveIn)) },
	work.Square:  func(in any, _ Tell) any { return squared(in.(work.SquareIn)) },
	work.Film:    func(in any, tell Tell) any { return filmed(in.(work.FilmIn), tell) },
	work.Card:    func(in any, _ Tell) any { return carded(in.(work.CardIn)) },
	work.Example: func(in any, tell Tell) any { return practised(in.(work.ExampleIn), tell) },
	work.Proof:   func(in any, tell Tell) any { return proofed(in.(work.ProofIn), tell) },
}

// Do does a job. A fault of the program on the way gives work.Broken.
func Do(k work.Kind, in any, tell Tell) (out any) {
	job, known := jobs[k]
	if !known {
		return work.Broken{Fault: string(k)}
	}
	if f := guard.Run("job "+string(k), func() { out = job(in, tell) }); f != nil {
		return work.Broken{Fault: f.Error()}
	}
	return out
}

// Doc does a job as the documents of package work have it.
func Doc(doc []byte, tell Tell) []byte {
	k, in, err := work.Read(doc)
	if err != nil {
		return broken(err)
	}
	out, err := work.Encode(Do(k, in, tell))
	if err != nil {
		return broken(err)
	}
	return out
}

func broken(err error) []byte {
	doc, err := work.Encode(work.Broken{Fault: err.Error()})
	if err != nil {
		panic(err) // it holds a text only
	}
	return doc
}

func ordered(in work.OrderIn, tell Tell) work.OrderOut {
	o, err := order.PlanTelling(in.Quilt, in.Designs, in.Choices, tell)
	return work.OrderOut{Order: o, Nothing: errors.Is(err, order.ErrNothing), Failed: err != nil}
}

func compared(in work.WaysIn, tell Tell) work.WaysOut {
	options, err := order.CompareTelling(in.Quilt, in.Designs, in.Choices, in.Stage, tell)
	if err != nil {
		return work.WaysOut{}
	}
	return work.WaysOut{Options: options}
}

func measured(in work.GapsIn) work.GapsOut {
	return work.GapsOut{Measures: top.Open(in.Quilt, in.Designs).Measure(in.Ditch).Measures}
}

func routed(in work.RouteIn) work.RouteOut {
	in.Desk.Drawing.Strokes = func() []plane.Stroke { return in.Strokes }
	return work.RouteOut{Desk: in.Desk.Planned().Offered()}
}
