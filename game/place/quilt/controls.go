package quilt

import (
	"strconv"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

type bound = control.Bound[place.Step[Room]]

// onTop binds a control to what it does with the quilt on the table; without one it does
// nothing. After it the top is laid out anew, and a change of it is noted.
func onTop(d control.Decl, do func(r Room, e control.Event) Room) bound {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) {
		if r.Top.Quilt.ID == "" {
			return r, nil
		}
		return do(r, e).laid().changed().ownThreads()
	})
}

// layout binds a control to a change of the layout; where that cannot be, it is said at the
// field.
func layout(d control.Decl, do func(r Room, e control.Event) (top.Top, error)) bound {
	return onTop(d, func(r Room, e control.Event) Room {
		t, err := do(r, e)
		if err != nil {
			r.Wrong = Wrong{d.Name, words.Why(err)}
			return r
		}
		r.Top = t
		return r
	})
}

// length binds a field for a length to what it changes. Nothing, "none" and 0 are no length
// at all.
func length(d control.Decl, do func(r Room, e control.Event, mm float64) (top.Top, error)) bound {
	return layout(d, func(r Room, e control.Event) (top.Top, error) {
		text := strings.ToLower(strings.TrimSpace(e.Text))
		if text == "" || text == "none" || text == "0" {
			return do(r, e, 0)
		}
		mm, err := words.ParseLength(e.Text, r.Inches())
		if err != nil {
			return r.Top, err
		}
		return do(r, e, mm)
	})
}

func choice[T ~string](name string, of ...T) control.Decl {
	d := control.Decl{Name: name, Kind: control.Choice}
	for _, c := range of {
		d.Choices = append(d.Choices, string(c))
	}
	return d
}

func text(name string) control.Decl { return control.Decl{Name: name, Kind: control.Text} }

func button(name string) control.Decl { return control.Decl{Name: name, Kind: control.Press} }

func toggle(name string) control.Decl { return control.Decl{Name: name, Kind: control.Toggle} }

func ofItem(d control.Decl) control.Decl {
	d.OfItem = true
	return d
}

// count is a number of rows or of blocks in a row.
func count(name string) control.Decl {
	return control.Decl{Name: name, Kind: control.Number, Min: 1, Max: quilt.MaxRows, Step: 1}
}

// act binds a button to what it does in the room.
func act(name string, do func(r Room) (Room, []place.Effect)) bound {
	return place.Bind(button(name), func(r Room, _ control.Event) (Room, []place.Effect) { return do(r) })
}

// letters is how long a name may be.
const letters = 80

var controls = control.NewTable(
	// whole quilts and files
	place.Bind(text("quilt"), func(r Room, e control.Event) (Room, []place.Effect) { return r.open(e.Text) }),
	act("new", Room.newQuilt), act("copy", Room.copied), act("delete", Room.deleted), act("save", Room.saved),
	place.Bind(control.Decl{Name: "open", Kind: control.File}, func(r Room, e control.Event) (Room, []place.Effect) { return r.imported(e.Text) }),

	// the place that is chosen
	onTop(choice("scope", top.AllOfKind, top.OnlyThis), func(r Room, e control.Event) Room {
		r.Top = r.Top.SetScope(top.Scope(e.Text))
		return r
	}),
	onTop(text("design"), func(r Room, e control.Event) Room {
		r.Top = r.Top.Give(e.Text)
		return r
	}),
	onTop(button("turn"), func(r Room, _ control.Event) Room {
		r.Top = r.Top.Turn()
		return r
	}),
	onTop(ofItem(button("choose")), func(r Room, e control.Event) Room { return r.chooseCell(e.Item) }),
	onTop(button("designs"), func(r Room, _ control.Event) Room { return r.chooseDesign() }),
	place.Bind(text("motif"), func(r Room, e control.Event) (Room, []place.Effect) { return r.laidMotif(e.Text) }),
	act("draw", Room.drawCell), act("row", Room.routeRow),

	// the order of the rows
	onTop(choice("rows-order", rowOrders...), func(r Room, e control.Event) Room { return r.orderedBy(machine.OrderKind(e.Text)) }),
	onTop(toggle("ditch-first"), func(r Room, e control.Event) Room {
		return r.decided(func(c *order.Choices) { c.NoDitch = !e.On })
	}),
	onTop(button("stages-usual"), func(r Room, _ control.Event) Room {
		return r.decided(func(c *order.Choices) { c.Stages = nil })
	}),
	onTop(ofItem(button("stage")), func(r Room, e control.Event) Room { return r.opened(e.Item) }),
	onTop(ofItem(control.Decl{Name: "stage-to", Kind: control.Number, Min: 1, Max: mostStages, Step: 1}), func(r Room, e control.Event) Room {
		return r.moved(e.Item, int(e.Number)-1)
	}),
	onTop(button("stage-earlier"), func(r Room, _ control.Event) Room { return r.shifted(-1) }),
	onTop(button("stage-later"), func(r Room, _ control.Event) Room { return r.shifted(1) }),
	onTop(ofItem(toggle("stage-sewn")), func(r Room, e control.Event) Room {
		return r.ticked(order.Tick{Kind: order.StageTick, Stage: e.Item}, e.On)
	}),
	onTop(ofItem(toggle("leg-sewn")), func(r Room, e control.Event) Room { return r.legTicked(e.Item, e.On) }),
	onTop(text("way"), func(r Room, e control.Event) Room { return r.sewnBy(e.Text) }),
	act("ways", Room.waysCompared),
	onTop(toggle("far-end"), func(r Room, e control.Event) Room { return r.fromFarEnd(e.On) }),
	act("stage-route", Room.routeStage), act("next-rehearse", Room.rehearseNext),
	onTop(toggle("gaps-seen"), func(r Room, e control.Event) Room {
		r.Stages.Gaps, r.Stages.Asked, r.Gap = e.On, true, -1
		if e.On {
			r.Stages.Open = ""
		}
		r.Top.Rev++
		return r
	}),

	// how the top is seen, and what is measured on it
	onTop(choice("zoom", "+", "-", "0"), func(r Room, e control.Event) Room { return r.zoomed(e.Text) }),
	onTop(control.Decl{Name: "wheel", Kind: control.Wheel}, func(r Room, e control.Event) Room { return r.turned(e.Turn) }),
	onTop(button("away"), func(r Room, _ control.Event) Room { return r.fromAway() }),
	onTop(toggle("back"), func(r Room, e control.Event) Room {
		r.Away.Back, r.pane.Zoom = e.On, 1
		return r
	}),
	onTop(choice("threads", "plan", "own", "best"), func(r Room, e control.Event) Room {
		r.Away.Best = e.Text == "best"
		r.Away.Own = r.Away.Best || e.Text == "own"
		return r
	}),
	onTop(ofItem(button("gap-show")), func(r Room, e control.Event) Room {
		if i, err := strconv.Atoi(e.Item); err == nil {
			return r.showGap(i - 1)
		}
		return r
	}),
	place.Bind(toggle("ditch"), ditch),

	// the layout
	onTop(control.Decl{Name: "name", Kind: control.Text, Max: letters}, func(r Room, e control.Event) Room {
		r.Top = r.Top.SetName(strings.TrimSpace(e.Text))
		return r
	}),
	layout(count("rows"), func(r Room, e control.Event) (top.Top, error) {
		return r.Top.SetRows(int(e.Number), r.Top.Quilt.Cols)
	}),
	layout(count("cols"), func(r Room, e control.Event) (top.Top, error) {
		return r.Top.SetRows(r.Top.Quilt.Rows, int(e.Number))
	}),
	layout(choice("setting", quilt.Straight, quilt.OnPoint), func(r Room, e control.Event) (top.Top, error) {
		return r.Top.SetSetting(quilt.Setting(e.Text))
	}),
	layout(choice("alternate", quilt.AllAlike, quilt.Checkerboard, quilt.ByRow), func(r Room, e control.Event) (top.Top, error) {
		return r.Top.SetAlternate(quilt.Alternation(e.Text))
	}),
	length(text("block"), func(r Room, _ control.Event, mm float64) (top.Top, error) { return r.Top.SetBlock(mm) }),
	length(text("sashing"), func(r Room, _ control.Event, mm float64) (top.Top, error) {
		return r.sashed(func(s *quilt.Sashing) { s.WidthMM = mm })
	}),
	layout(toggle("stones"), func(r Room, e control.Event) (top.Top, error) {
		return r.sashed(func(s *quilt.Sashing) { s.Cornerstones = e.On })
	}),
	layout(toggle("round"), func(r Room, e control.Event) (top.Top, error) {
		return r.sashed(func(s *quilt.Sashing) { s.Round = e.On })
	}),
	length(text("gap"), func(r Room, _ control.Event, mm float64) (top.Top, error) { return r.Top.SetGap(mm) }),
	layout(button("border-add"), func(r Room, _ control.Event) (top.Top, error) { return r.Top.AddBorder() }),
	length(ofItem(text("border-width")), func(r Room, e control.Event, mm float64) (top.Top, error) {
		return r.border(e.Item, func(b *quilt.Border) { b.WidthMM = mm })
	}),
	layout(ofItem(toggle("border-corners")), func(r Room, e control.Event) (top.Top, error) {
		return r.border(e.Item, func(b *quilt.Border) { b.Corners = e.On })
	}),
	layout(ofItem(text("border-line")), func(r Room, e control.Event) (top.Top, error) { return r.borderLine(e.Item, e.Text) }),
	layout(text("overall"), func(r Room, e control.Event) (top.Top, error) { return r.overall(e.Text) }),
	length(text("overall-size"), func(r Room, _ control.Event, mm float64) (top.Top, error) { return r.overallSize(mm) }),
	layout(toggle("overall-within"), func(r Room, e control.Event) (top.Top, error) { return r.overallWithin(e.On) }),
	layout(ofItem(button("border-drop")), func(r Room, e control.Event) (top.Top, error) {
		i, err := strconv.Atoi(e.Item)
		if err != nil {
			return r.Top, nil
		}
		return r.Top.DropBorder(i)
	}),
	length(text("want-width"), func(r Room, _ control.Event, mm float64) (top.Top, error) {
		return r.want(mm, func(s *quilt.Size) { s.W = mm })
	}),
	length(text("want-height"), func(r Room, _ control.Event, mm float64) (top.Top, error) {
		return r.want(mm, func(s *quilt.Size) { s.H = mm })
	}),
)

// say puts a length in mm into the words and units of the person.
func (r Room) say(mm float64) string { return r.Book().Amount(words.LengthMM(mm)) }

// sashed changes the sashing.
func (r Room) sashed(set func(*quilt.Sashing)) (top.Top, error) {
	s := r.Top.Quilt.Sashing
	set(&s)
	return r.Top.SetSashing(s)
}

// border changes the border of a row of the list.
func (r Room) border(item string, set func(*quilt.Border)) (top.Top, error) {
	i, err := strconv.Atoi(item)
	if err != nil || i < 0 || i >= len(r.Top.Quilt.Borders) {
		return r.Top, nil
	}
	b := r.Top.Quilt.Borders[i]
	set(&b)
	return r.Top.SetBorder(i, b)
}

// want changes the size in mind.
func (r Room) want(mm float64, set func(*quilt.Size)) (top.Top, error) {
	if mm > quilt.MaxTopMM {
		return r.Top, words.Refuse("quilt.takes.want", words.LengthMM(quilt.MaxTopMM))
	}
	s := r.Top.Want
	set(&s)
	return r.Top.SetWant(s), nil
}
