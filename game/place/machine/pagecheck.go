package machine

import (
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
	"unthreaded/path/machine"
)

// check fills in the list, and returns the sentence.
func (w writer) check() string {
	o := w.out
	o.On.Check = true
	done, all := 0, 0
	at := map[machine.Group]int{}
	for _, i := range w.b.Items() {
		k, ok := at[i.Group]
		if !ok {
			k = len(o.Checks)
			at[i.Group] = k
			o.Checks = append(o.Checks, CheckGroup{ID: w.book.Say("machine.group." + string(i.Group))})
		}
		ticked := w.b.Job.Ticked(i.ID)
		o.Checks[k].Items = append(o.Checks[k].Items, CheckRow{i.ID, w.book.Say("machine.item." + i.ID), w.book.Say("machine.item-why." + i.ID), ticked, i.Caution})
		if all++; ticked {
			done++
		}
	}
	switch {
	case done == 0:
		return w.book.Say("machine.check-none", all)
	case done < all:
		return w.book.Say("machine.check-some", done, all)
	}
	return w.book.Say("machine.check-all", all)
}

// card fills in what can be printed, and returns the sentence.
func (w writer) card() string {
	o := w.out
	o.On.Card = true
	o.Papers = []Option{{ID: string(bench.A4), Name: w.book.Say("machine.paper.a4")}, {ID: string(bench.Letter), Name: w.book.Say("machine.paper.letter")}}
	o.Paper = string(w.b.Mine.Paper)
	seen, _ := w.r.proofWanted()
	add := func(k sewing.Kind, name, note, svg string) {
		o.Cards = append(o.Cards, CardRow{ID: string(k), Name: name, Note: note, PNG: svg != "" && k != sewing.TemplateCard, SVG: svg, Seen: k == seen.what})
	}
	svg := w.book.Say("machine.svg")
	if l, laid := w.b.Laid(); laid {
		add(sewing.JobCard, w.book.Say("machine.job-card"), w.book.Say("machine.job-card-note"), svg)
		add(sewing.StageCard, w.book.Say("machine.stage-card"), w.book.Say("machine.stage-card-note"), svg)
		row := &o.Cards[len(o.Cards)-1]
		for _, s := range l.Order.Stages {
			row.Picks = append(row.Picks, Option{ID: s.ID, Name: sewing.StageName(w.book, s)})
		}
		row.Picked = l.Order.Stages[w.r.stage].ID
		add(sewing.AllCards, w.book.Say("machine.all-cards"), w.book.Say("machine.all-cards-note", len(l.Order.Stages)), "")
	}
	if w.r.has(sewing.RouteCard) {
		add(sewing.RouteCard, w.book.Say("machine.route-card"), w.book.Say("machine.route-card-note", w.b.Plan.Title), svg)
		if w.b.Plan.OutAndBack {
			add(sewing.PassesCard, w.book.Say("machine.passes"), w.book.Say("machine.passes-note"), svg)
		}
		add(sewing.TemplateCard, w.book.Say("machine.template"), w.book.Say("machine.template-note", sewing.TemplatePages(w.r.Job())), w.book.Say("machine.svg-whole"))
	}
	return w.book.Say("machine.print")
}
