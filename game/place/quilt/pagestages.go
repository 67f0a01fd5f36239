package quilt

import (
	"errors"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
	"unthreaded/path/route/steps"
)

// OrderPart is about the order in which the quilt is sewn.
type OrderPart struct {
	// Any tells that there is an order, Busy that it is being planned.
	Any  bool   `json:"any"`
	Busy bool   `json:"busy"`
	Text string `json:"text"`
	// Left says what is sewn and what is left, Next what is sewn next.
	Left    string         `json:"left"`
	Next    string         `json:"next"`
	HasNext bool           `json:"hasNext"`
	Orders  []place.Option `json:"orders"`
	Order   string         `json:"order"`
	Ditch   bool           `json:"ditch"`
	// How tells in a line how the stages are ordered.
	How string `json:"how"`
	// Own tells that the stages are in an order of her own.
	Own    bool       `json:"own"`
	Stages []StageRow `json:"stages"`
	Stage  StagePart  `json:"stage"`
	Gaps   bool       `json:"gaps"`
}

// StageRow is a stage in the order sewn.
type StageRow struct {
	ID    string `json:"id"`
	Place string `json:"place"`
	Name  string `json:"name"`
	Note  string `json:"note"`
	Sewn  bool   `json:"sewn"`
	Day   string `json:"day"`
	Open  bool   `json:"open"`
}

// StagePart is about the stage that is looked at.
type StagePart struct {
	Open    bool   `json:"open"`
	Name    string `json:"name"`
	Text    string `json:"text"`
	Earlier bool   `json:"earlier"`
	Later   bool   `json:"later"`
	// HasWays tells that it can be sewn in more ways than one.
	HasWays bool     `json:"hasWays"`
	Ways    []WayRow `json:"ways"`
	FarEnd  bool     `json:"farEnd"`
	Legs    []LegRow `json:"legs"`
}

// WayRow is a way to sew a row, with what it takes.
type WayRow struct {
	ID     string `json:"id"`
	Way    string `json:"way"`
	Name   string `json:"name"`
	Note   string `json:"note"`
	Picked bool   `json:"picked"`
}

// LegRow is one stay in a place.
type LegRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Sewn bool   `json:"sewn"`
	Day  string `json:"day"`
}

func orderPart(r Room) OrderPart {
	b, plan := r.Book(), r.Top.Plan
	p := OrderPart{
		Any: len(plan.Order.Stages) > 0, Busy: !plan.Current, Ditch: !plan.Choices.NoDitch, Own: len(plan.Choices.Stages) > 0,
		Order: string(plan.Choices.Rows), Gaps: r.seesGaps(),
	}
	if p.Order == "" {
		p.Order = string(machine.MiddleOut)
	}
	for _, k := range rowOrders {
		p.Orders = append(p.Orders, place.Option{ID: string(k), Name: b.Say("order.rows." + string(k))})
	}
	p.How = b.Say("order.how", words.Of("order.rows."+p.Order), p.Ditch, p.Own)
	switch {
	case errors.Is(plan.Trouble, order.ErrNothing):
		p.Text = b.Say("order.nothing")
	case plan.Trouble != nil:
		p.Text = b.Say("order.failed")
	case !p.Any:
		p.Text = b.Say("order.planning")
	}
	if p.Any && plan.Trouble == nil {
		fillOrder(&p, r, b)
	}
	return p
}

// fillOrder tells the order with its figures.
func fillOrder(p *OrderPart, r Room, b words.Book) {
	o, sewn, a := r.Top.Plan.Order, r.Top.Plan.Sewn, r.Assumptions()
	job, err := o.Job(a)
	left, err2 := o.Left(sewn, a)
	if err != nil || err2 != nil {
		p.Text, p.Any = b.Say("order.failed"), false
		return
	}
	p.Text = b.Say("order.text", len(o.Stages), timeSpan(job.All), threadSpan(job.All))
	switch {
	case left.Done == 0:
		p.Left = b.Say("order.left-none")
	case left.Done == left.Of:
		p.Left = b.Say("order.left-done")
	default:
		p.Left = b.Say("order.left", left.Done, left.Of, timeSpan(left.Job.All), threadSpan(left.Job.All))
	}
	if n := left.Next; n.Stage >= 0 {
		p.HasNext = true
		p.Next = nextSaid(r, b, n.Stage, n.Leg, n.Program)
	}
	for i, s := range o.Stages {
		row := StageRow{
			ID: s.ID, Place: strconv.Itoa(i + 1), Name: capital(b, place.StageName(s)),
			Note: b.Say("order.note", noteOf(s), timeSpan(job.Stages[i])), Open: s.ID == r.Stages.Open,
		}
		row.Day, row.Sewn = sewnDay(o, sewn, i)
		p.Stages = append(p.Stages, row)
		if row.Open {
			p.Stage = stagePart(r, b, i)
		}
	}
}

// nextSaid says what is sewn next.
func nextSaid(r Room, b words.Book, stage, leg, program int) string {
	o := r.Top.Plan.Order
	s, name := o.Stages[stage], r.ProgramName(o.Programs[program])
	if s.Line {
		return b.Say("order.next-line", place.StageName(s), name)
	}
	return b.Say("order.next", s.Kind == order.Ditch, place.StageName(s), r.Top.LegName(stage, leg), name)
}

// sewnDay tells whether a stage is sewn, and since which day.
func sewnDay(o order.Order, s order.Sewn, stage int) (day string, sewn bool) {
	if day = s.Ticked(order.Tick{Kind: order.StageTick, Stage: o.Stages[stage].ID}); day != "" {
		return day, true
	}
	for k := range o.Stages[stage].Legs {
		d := s.Ticked(o.TickOf(stage, k))
		if d == "" {
			return "", false
		}
		day = max(day, d)
	}
	return day, day != ""
}

func timeSpan(p machine.JobPart) words.Span {
	return words.Span{Low: words.RoughS(p.Machine.Low), High: words.RoughS(p.Machine.High)}
}

func threadSpan(p machine.JobPart) words.Span {
	return words.Span{Low: words.RoughThreadMM(p.Top.Low), High: words.RoughThreadMM(p.Top.High)}
}

// noteOf tells how a stage is sewn.
func noteOf(s order.Stage) words.Msg {
	if s.Kind == order.Ditch {
		return words.Of("order.note-ditch", len(s.Legs))
	}
	if s.Line {
		return words.Of("order.note-line", s.Turn)
	}
	return words.Of("order.note-row", wayName(s.Way, s.Passes), s.Work.Starts, s.Turn)
}

func wayName(w order.Way, p order.Passes) words.Msg {
	return words.Of("order.way", string(w), string(p))
}

func stagePart(r Room, b words.Book, i int) StagePart {
	plan := r.Top.Plan
	o := plan.Order
	s := o.Stages[i]
	p := StagePart{
		Open: true, Name: capital(b, place.StageName(s)), Earlier: i > 0, Later: i+1 < len(o.Stages),
		HasWays: s.Kind != order.Ditch && !s.Line, FarEnd: s.FarEnd,
		Text: b.Say("order.stage-text", words.LengthMM(s.Work.SewnMM), s.Work.AgainMM > 0.5, words.LengthMM(s.Work.AgainMM), s.Work.DitchMM > 0.5, words.LengthMM(s.Work.DitchMM), s.Work.Starts, movesOf(o, i)),
	}
	p.Ways = wayRows(r, b, s)
	for k, l := range s.Legs {
		row := LegRow{ID: strconv.Itoa(k), Name: capital(b, words.Of("order.leg-of", r.Top.LegName(i, k), r.ProgramName(o.Programs[l.Program])))}
		whole := plan.Sewn.Ticked(order.Tick{Kind: order.StageTick, Stage: s.ID})
		if row.Day = plan.Sewn.Ticked(o.TickOf(i, k)); row.Day == "" {
			row.Day = whole
		}
		row.Sewn = row.Day != ""
		p.Legs = append(p.Legs, row)
	}
	return p
}

// movesOf counts the moves of a stage without its stops, as Route numbers them.
func movesOf(o order.Order, stage int) int {
	n := 0
	for _, m := range o.Moves(stage) {
		if m.Kind != steps.StopMove {
			n++
		}
	}
	return n
}

// wayRows are the ways through a row, with what each takes once they were compared.
func wayRows(r Room, b words.Book, s order.Stage) []WayRow {
	if s.Kind == order.Ditch || s.Line {
		return nil
	}
	c, plan := r.Stages.compared, r.Top.Plan
	_, way := plan.Choices.Ways[s.ID]
	_, passes := plan.Choices.Passes[s.ID]
	out := []WayRow{{ID: "planner", Way: "planner", Name: b.Say("order.way-usual", wayName(s.Way, s.Passes)), Picked: !way && !passes}}
	if c.stage != s.ID || c.laid != r.Top.Laid {
		return out
	}
	for _, o := range c.options {
		id := wayID(o.Way, o.Passes)
		out = append(out, WayRow{
			ID: id, Way: id, Name: capital(b, wayName(o.Way, o.Passes)), Picked: (way || passes) && o.Way == s.Way && o.Passes == s.Passes,
			Note: b.Say("order.way-note", words.RoughS(o.MachineMM/machine.HandSpeed.Usual), o.Longer > 0.005, words.Share(o.Longer),
				o.Work.AgainMM > 0.5, words.LengthMM(o.Work.AgainMM), o.Work.Starts),
		})
	}
	return out
}
