package rehearse

import (
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// offer is a line of the quilt on the table to be rehearsed.
type offer struct {
	name string
	line motif.Rehearsal
}

// offered are the offers of an order, in a language.
type offered struct {
	print string
	lang  words.Book
	list  []offer
}

// offering works out what of the quilt on the table is offered, once for each order.
func (r Room) offering() Room {
	p := r.Top.Plan
	if b := r.Book(); r.offered.print != p.Order.Fingerprint || r.offered.lang != b || len(p.Order.Stages) == 0 {
		r.offered = offered{p.Order.Fingerprint, b, r.offers()}
	}
	return r
}

// offers are the different blocks of the quilt on the table, each whole, under the stage in
// which it is sewn first, in the order sewn. Seams in the ditch are no rehearsal.
func (r Room) offers() []offer {
	p := r.Top.Plan
	if len(p.Order.Stages) == 0 {
		return nil
	}
	b := r.Book()
	var out []offer
	seen := map[int]bool{}
	ids := map[string]bool{}
	for _, s := range p.Order.Stages {
		for _, l := range s.Legs {
			if seen[l.Program] || p.Order.Programs[l.Program].Work.SewnMM == 0 {
				continue
			}
			seen[l.Program] = true
			for _, line := range r.Rehearsals(l.Program) {
				if !ids[line.ID] {
					ids[line.ID] = true
					out = append(out, offer{b.Say("rehearse.of-stage", words.Upper(b.Write(place.StageName(s))), line.Name), line})
				}
			}
		}
	}
	return out
}
