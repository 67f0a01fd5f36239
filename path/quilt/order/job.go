package order

import "unthreaded/path/machine"

// Loads returns what each stage takes, leg by leg, to be added up by machine.AddUp.
func (o Order) Loads() []machine.StageLoad {
	out := make([]machine.StageLoad, len(o.Stages))
	for i, s := range o.Stages {
		out[i].ID = s.ID
		if s.Turn {
			out[i].Turns = 1
		}
		for k := range s.Legs {
			w := o.legWork(i, k)
			out[i].Legs = append(out[i].Legs, machine.LegLoad{
				Length: w.Length(), Ditch: w.DitchMM, Ruler: w.RulerMM,
				Starts: w.Starts, Halts: w.Halts, RulerLines: w.RulerLines,
			})
		}
	}
	return out
}

// Job adds the whole top up.
func (o Order) Job(a machine.Assumptions) (machine.Job, error) { return machine.AddUp(o.Loads(), a) }

// legWork returns what a leg takes with the needle's way to it. Thread is begun at the
// first leg of all and after each stop; elsewhere the needle halts and turns.
func (o Order) legWork(stage, leg int) Work {
	l := o.Stages[stage].Legs[leg]
	w := o.Programs[l.Program].Work.scaled(l.Where.Scale)
	w.DitchMM += l.Come.DitchMM
	if l.Come.Stop || stage == 0 && leg == 0 {
		w.Starts++
	} else {
		w.Halts++
	}
	if len(l.Come.Path) > 1 {
		w.Moves++
	}
	return w
}

// measure adds a stage up from its legs.
func (o *Order) measure(stage int) {
	var sum Work
	for k := range o.Stages[stage].Legs {
		sum = sum.Plus(o.legWork(stage, k))
	}
	o.Stages[stage].Work = sum
}
