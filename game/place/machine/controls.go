package machine

import (
	"strconv"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
)

// controls are those of the place: what each is and takes, and what it does.
var controls = control.NewTable(
	shows(control.Decl{Name: "topic", Kind: control.Choice, Choices: names(bench.Topics())}, func(b bench.Bench, e control.Event) bench.Bench {
		return b.Show(bench.Topic(e.Text))
	}),
	place.Bind(control.Decl{Name: "set", Kind: control.Text, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.kept(r.bench.Type(e.Item, e.Text, r.Inches()))
	}),
	shows(control.Decl{Name: "find", Kind: control.Choice, Choices: names(parts)}, func(b bench.Bench, e control.Event) bench.Bench {
		return b.Find(machine.Part(e.Text))
	}),
	changes(control.Decl{Name: "method", Kind: control.Press, OfItem: true}, func(b bench.Bench, e control.Event) (bench.Bench, bench.Change) {
		return b.Choose(machine.Method(e.Item))
	}),
	changes(control.Decl{Name: "tick", Kind: control.Toggle, OfItem: true}, func(b bench.Bench, e control.Event) (bench.Bench, bench.Change) {
		return b.Tick(e.Item, e.On)
	}),
	changes(control.Decl{Name: "bobbin", Kind: control.Choice, Choices: bobbinIDs()}, pick),
	changes(control.Decl{Name: "paper", Kind: control.Choice, Choices: names(papers)}, pick),
	changes(control.Decl{Name: "side", Kind: control.Choice, Choices: []string{"right", "left"}}, pick),
	changes(control.Decl{Name: "quilt", Kind: control.Text}, pick),
	shows(control.Decl{Name: "row-on", Kind: control.Press}, func(b bench.Bench, _ control.Event) bench.Bench { return b.Step(1) }),
	shows(control.Decl{Name: "row-back", Kind: control.Press}, func(b bench.Bench, _ control.Event) bench.Bench { return b.Step(-1) }),
	shows(control.Decl{Name: "line-on", Kind: control.Press}, func(b bench.Bench, _ control.Event) bench.Bench { return b.StepLine(1) }),
	shows(control.Decl{Name: "line-back", Kind: control.Press}, func(b bench.Bench, _ control.Event) bench.Bench { return b.StepLine(-1) }),
	place.Bind(control.Decl{Name: "use-trio", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) {
		return r.sewAt(r.bench.Trio)
	}),
	place.Bind(control.Decl{Name: "use-pace", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) {
		if pedal, err := r.pedal(); err == nil {
			return r.sewAt(machine.Triangle{SPM: pedal.Set, Stitch: r.Settings.StitchMM})
		}
		return r, nil
	}),
	place.Bind(control.Decl{Name: "sewn", Kind: control.Toggle, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.tick(order.Tick{Kind: order.StageTick, Stage: e.Item}, e.On)
	}),
	place.Bind(control.Decl{Name: "changed", Kind: control.Toggle, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		n, _ := strconv.Atoi(e.Item)
		return r.tick(order.Tick{Kind: order.BobbinTick, Number: max(0, n)}, e.On)
	}),
	place.Bind(control.Decl{Name: "stage", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		if r.lookedAt(r.stageOf(e.Item)) {
			return r.lookAt(""), nil // pressed again, back to the whole
		}
		return r.lookAt(e.Item), nil
	}),
	place.Bind(control.Decl{Name: "stage-of", Kind: control.Text}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.lookAt(e.Text), nil
	}),
	place.Bind(control.Decl{Name: "sew-rows", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.sewRows(machine.OrderKind(e.Item))
	}),
	place.Bind(control.Decl{Name: "look", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		r.proof.what = sewing.Kind(e.Item)
		return r, nil
	}),
	place.Bind(control.Decl{Name: "card", Kind: control.Choice, Choices: names(forms), OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.makeCard(sewing.Kind(e.Item), sewing.Form(e.Text))
	}),
)

// What there is to choose from, in the order in which it is offered.
var (
	parts  = []machine.Part{machine.HandPart, machine.NeedlePart, machine.StitchPart}
	papers = []bench.Paper{bench.A4, bench.Letter}
	forms  = []sewing.Form{sewing.AsPDF, sewing.AsPNG, sewing.AsSVG}
)

func names[T ~string](all []T) []string {
	out := make([]string, len(all))
	for i, v := range all {
		out[i] = string(v)
	}
	return out
}

func bobbinIDs() []string {
	var out []string
	for _, c := range machine.BobbinClasses() {
		out = append(out, c.ID)
	}
	return out
}

// Controls and Control are as place.Room has them.
func (r Room) Controls() []control.Decl { return controls.Decls() }

func (r Room) Control(sent control.Sent) (place.Room, []place.Effect, error) {
	return place.Do(controls, r, sent)
}

// shows binds a control that changes only what is looked at.
func shows(d control.Decl, do func(bench.Bench, control.Event) bench.Bench) control.Bound[place.Step[Room]] {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) {
		r.bench = do(r.bench, e)
		return r, nil
	})
}

// changes binds a control whose change is kept and can be taken back.
func changes(d control.Decl, do func(bench.Bench, control.Event) (bench.Bench, bench.Change)) control.Bound[place.Step[Room]] {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) { return r.kept(do(r.bench, e)) })
}

// pick sets a choice that bears the name of its control.
func pick(b bench.Bench, e control.Event) (bench.Bench, bench.Change) { return b.Pick(e.Name, e.Text) }

// sewAt takes a needle speed and a stitch length over into the settings.
func (r Room) sewAt(t machine.Triangle) (Room, []place.Effect) {
	r.Settings = r.Settings.WithTriangle(t)
	r.bench.Rev++
	r.Notice = place.Say("machine.set", whole(t.SPM))
	return r, []place.Effect{place.SaveSettings{Doc: r.Settings.Encode()}}
}
