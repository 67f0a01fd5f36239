package game

import (
	"fmt"
	"slices"

	"unthreaded/game/bench"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/game/top"
	"unthreaded/path/machine"
)

// MachineThing is the kind of the kept figures of a machine, and of the list of each
// plan.
const MachineThing = "machine"

// MakeCard asks for a card of the plan at the machine, as the model now has it, to
// be handed to the person as a file.
type MakeCard struct {
	What CardKind
	As   FileKind
}

// CardKind tells what is on a card.
type CardKind string

// FileKind is the form of a file.
type FileKind string

// The cards and their forms.
const (
	RouteCard    CardKind = "route"
	TemplateCard CardKind = "template"
	PassesCard   CardKind = "passes"

	PDF FileKind = "pdf"
	PNG FileKind = "png"
	SVG FileKind = "svg"
)

// CardMade tells how making a card went; Err is empty for well.
type CardMade struct {
	Name  string
	Pages int
	Err   string
}

func (MakeCard) IsEffect() {}
func (CardMade) IsMsg()    {}

// cardMade tells the person about her file.
func (m Model) cardMade(c CardMade) Model {
	switch {
	case c.Err != "":
		m.Notice = Notice{Text: "The card could not be made: " + c.Err + "."}
	case c.Pages == 1:
		m.Notice = Notice{Text: fmt.Sprintf("Saved as %s: 1 page.", c.Name)}
	default:
		m.Notice = Notice{Text: fmt.Sprintf("Saved as %s: %d pages. Print at 100 %%.", c.Name, c.Pages)}
	}
	return m
}

// machineEntered takes the plan on the desk to the machine; where none was opened
// yet, the first ready drawing.
func (m Model) machineEntered() (Model, []Effect) {
	if m.Desk.Drawing.ID == "" {
		m.Desk = plan.Open(plan.Drawings()[0])
	}
	p, err := bench.PlanOf(m.Desk)
	m.Bench = m.Bench.Among(m.quiltsOf(p.ID)).Sew(p, err, m.Settings.Triangle())
	return m, nil
}

// quiltsOf returns how the plan of a drawing lies in her quilts, the one on the table
// first.
func (m Model) quiltsOf(drawing string) []bench.Quilted {
	if drawing == "" {
		return nil
	}
	table := m.Quilting.Top
	var out []bench.Quilted
	for _, q := range m.Quilts {
		if !top.Mentions(q, drawing) {
			continue
		}
		laid := top.Open(q, m.DesignsByID())
		if on, ok := bench.QuiltOf(laid, drawing); !ok {
			continue
		} else if q.ID == table.Quilt.ID {
			out = append([]bench.Quilted{on}, out...)
		} else {
			out = append(out, on)
		}
	}
	return out
}

// machineControl does what a control of the place asks for.
func (m Model) machineControl(c Control) (Model, []Effect) {
	var changed bench.Change
	b := m.Bench
	switch c.Name {
	case "topic":
		b = b.Show(bench.Topic(c.Value))
	case "set":
		b, changed = b.Type(c.Item, c.Value, m.Settings.Units == Inches)
	case "find":
		b = b.Find(machine.Part(c.Value))
	case "method":
		b, changed = b.Choose(machine.Method(c.Item))
	case "tick":
		b, changed = b.Tick(c.Item, c.Value == "on")
	case "bobbin", "paper", "side", "quilt":
		b, changed = b.Pick(c.Name, c.Value)
	case "row-on", "row-back":
		b = b.Step(direction(c.Name == "row-on"))
	case "line-on", "line-back":
		b = b.StepLine(direction(c.Name == "line-on"))
	case "use-trio":
		return m.sewAt(b.Trio)
	case "use-pace":
		if pedal, err := m.Pedal(); err == nil {
			return m.sewAt(machine.Triangle{SPM: pedal.Set, Stitch: m.Settings.StitchMM})
		}
		return m, nil
	case "look":
		m.Proof.What = CardKind(c.Item)
		return m, nil
	case "card":
		return m.makeCard(CardKind(c.Item), FileKind(c.Value))
	}
	return m.benched(b, changed)
}

// benched puts the bench after a change in force and has it kept.
//
// Before the kept things have come nothing can be changed, or it would be kept over
// them.
func (m Model) benched(b bench.Bench, c bench.Change) (Model, []Effect) {
	if c != (bench.Change{}) && !b.Known && m.StorageWhy == "" {
		m.Notice = Notice{Text: "What you kept is still being read. Try again in a moment."}
		return m, nil
	}
	b, docs := b.Docs(c)
	m.Bench = b
	var out []Effect
	for _, d := range docs {
		out = append(out, Keep{Thing: Thing{Kind: MachineThing, ID: d.ID, Doc: d.Body}})
	}
	return m, out
}

// sewAt takes a needle speed and a stitch length over into the settings.
func (m Model) sewAt(t machine.Triangle) (Model, []Effect) {
	before := m.Settings
	m.Settings = m.Settings.WithTriangle(t)
	m.Bench.Rev++
	m.Notice = Notice{Text: fmt.Sprintf("Needle speed set to %.0f stitches a minute, for the rehearsal too.", t.SPM)}
	return m.remeasured(before), []Effect{SaveSettings{Doc: m.Settings.Encode()}}
}

// makeCard asks for a card. A printed template is to be measured before use, which
// goes on the list.
func (m Model) makeCard(what CardKind, as FileKind) (Model, []Effect) {
	if m.Bench.Trouble != "" || !slices.Contains([]CardKind{RouteCard, TemplateCard, PassesCard}, what) ||
		!slices.Contains([]FileKind{PDF, PNG, SVG}, as) || what == PassesCard && !m.Bench.Plan.OutAndBack {
		return m, nil
	}
	out := []Effect{MakeCard{What: what, As: as}}
	if what != TemplateCard || m.Bench.Job.Template {
		return m, out
	}
	b, changed := m.Bench.Made()
	m, kept := m.benched(b, changed)
	return m, append(kept, out...)
}

// Pace returns her own hand speed from her traces.
func (m Model) Pace() bench.OwnPace {
	traces := make([]bench.Trace, len(m.Records))
	for i, s := range m.Records {
		traces[i] = bench.Trace{Line: s.Motif}
		if s.CruiseMM != nil {
			traces[i].Cruise = *s.CruiseMM
		}
	}
	return m.Bench.Plan.Pace(traces)
}

// Pedal returns the needle speed that fits her own hand speed.
func (m Model) Pedal() (machine.Pedal, error) {
	return machine.PedalFor(m.Pace().Hand, m.Settings.StitchMM, m.Bench.Mine.Needle())
}

// machineKept takes a kept document of the place.
func (m Model) machineKept(t Thing) (Model, []Effect) {
	b, err := m.Bench.Load(t.ID, t.Doc)
	m.Bench = b
	if err != nil {
		m.Notice = Notice{Text: fmt.Sprintf("What was kept could not be read and was left as it is: %v.", err)}
	}
	return m, nil
}

// machineBack takes the last change back, machineAgain does it again.
func (m Model) machineBack() (Model, []Effect) { return m.benched(m.Bench.Back()) }

// machineAgain does again what was taken back last.
func (m Model) machineAgain() (Model, []Effect) { return m.benched(m.Bench.Again()) }

// machineLaid fits the place to the screen.
func (m Model) machineLaid() Model {
	lo, hi := plan.Bounds(m.Desk.Graph)
	m.View = screen.Fit(lo, hi, m.Screen)
	return m
}
