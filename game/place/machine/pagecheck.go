package machine

import (
	"fmt"

	"unthreaded/game/card"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

var groupNames = map[machine.Group]string{
	machine.Safety: "Care", machine.Setup: "The machine", machine.Supply: "Thread", machine.Room: "The place",
	machine.Body: "Yourself", machine.Printed: "The template", machine.TryOut: "Try it out",
}

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
			o.Checks = append(o.Checks, CheckGroup{ID: groupNames[i.Group]})
		}
		ticked := w.b.Job.Ticked(i.ID)
		o.Checks[k].Items = append(o.Checks[k].Items, CheckRow{i.ID, i.Text, i.Reason, ticked, i.Caution})
		if all++; ticked {
			done++
		}
	}
	switch {
	case done == 0:
		return fmt.Sprintf("%d things to see to before the first stitch. The manual of your machine has the last word.", all)
	case done < all:
		return fmt.Sprintf("%d of %d done. The manual of your machine has the last word.", done, all)
	}
	return fmt.Sprintf("All %d done. Sew it.", all)
}

// card fills in what can be printed, and returns the sentence.
func (w writer) card() string {
	o := w.out
	o.On.Card = true
	o.Papers = []Option{{ID: string(bench.A4), Name: "A4, 210 x 297 mm"}, {ID: string(bench.Letter), Name: "Letter, 8 1/2 x 11 in"}}
	o.Paper = string(w.b.Mine.Paper)
	seen, _ := w.r.proofWanted()
	add := func(k card.Kind, name, note, svg string) {
		o.Cards = append(o.Cards, CardRow{string(k), name, note, k != card.TemplateCard, svg, k == seen.What})
	}
	add(card.RouteCard, "Route card", "One page to pin beside the machine: the order, the speeds, the thread, and why something is sewn twice.", "SVG")
	if w.b.Plan.OutAndBack {
		add(card.PassesCard, "Both passes", "The way out and the way home, one under the other.", "SVG")
	}
	pages := words.Count(card.TemplatePages(w.r.Job()), "page", "pages")
	add(card.TemplateCard, "Template", fmt.Sprintf("The lines at full size on %s, the first of them to measure. Print at 100 %%, not fitted to the page.", pages), "SVG in one piece")
	return "Print the card and pin it beside the machine. Print the template to mark the cloth."
}
