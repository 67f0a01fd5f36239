package quilt

import (
	"strings"

	"unthreaded/game/words"
)

// AwayPart is about the whole top seen from some way off.
type AwayPart struct {
	Back bool `json:"back"`
	Near bool `json:"near"`
	// Text says how far off it is as large to the eye.
	Text string `json:"text"`
	Own  bool   `json:"own"`
	// Newest and Best tell which of her traces.
	Newest bool `json:"newest"`
	Best   bool `json:"best"`
	Plan   bool `json:"plan"`
	// Threads says whose traces are seen.
	Threads string `json:"threads"`
	Two     string `json:"two"`
}

func awayPart(r Room) AwayPart {
	b := r.Book()
	p := AwayPart{Back: r.Away.Back, Near: !r.Away.Back, Own: r.Away.Back && r.Away.Own, Plan: r.Away.Back && !r.Away.Own, Two: b.Say("quilt.as-from", words.AwayMM(AwayMM))}
	p.Text = b.Say("quilt.scale", words.Share(r.View.Zoom))
	if r.Away.Back {
		p.Text = b.Say("quilt.scale-away", words.Share(r.View.Zoom), r.seenFrom(), words.AwayMM(ArmMM))
	}
	if p.Own {
		p.Newest, p.Best = !r.Away.Best, r.Away.Best
		p.Threads = threadsText(r)
	}
	return p
}

// seenFrom is from how far off the whole is as large to the eye.
func (r Room) seenFrom() words.AwayMM { return words.AwayMM(AwayOf(r.View.Zoom)) }

func awaySentence(r Room) words.Msg {
	switch {
	case r.Away.Own && len(r.Away.Threads) > 0:
		return words.Of("quilt.away-own", r.seenFrom())
	case r.Away.Own:
		return words.Of("quilt.away-no-trace")
	}
	return words.Of("quilt.away", r.seenFrom())
}

// threadsText says in which designs her own stitches are seen, and in which none
// are yet.
func threadsText(r Room) string {
	var with, without []string
	for _, id := range r.Top.OwnDesigns() {
		if _, ok := r.Away.Threads[id]; ok {
			with = append(with, id)
		} else {
			without = append(without, id)
		}
	}
	var parts []string
	if len(with) > 0 {
		parts = append(parts, tracesText(r, with))
	}
	if len(without) > 0 {
		parts = append(parts, r.Book().Say("quilt.in-chalk", names(r, without)))
	}
	if n := r.Top.Refitted(); len(n) > 0 {
		parts = append(parts, r.Book().Say("quilt.in-chalk-refitted", names(r, n)))
	}
	return strings.Join(parts, " ")
}

// tracesText says which traces are seen, of the most even ones how even.
func tracesText(r Room, with []string) string {
	b := r.Book()
	if !r.Away.Best {
		return b.Say("quilt.newest", names(r, with))
	}
	var each []string
	for _, id := range with {
		name := b.Amount(names(r, []string{id}))
		if s, ok := r.OwnTrace(id); ok && s.StitchCV != nil {
			name = b.Say("quilt.varies", name, words.Share(*s.StitchCV))
		}
		each = append(each, name)
	}
	return b.Say("quilt.most-even", strings.Join(each, "; "))
}

// names lists the names of designs.
func names(r Room, ids []string) (list words.And) {
	for _, n := range r.NamesOf(ids) {
		list = append(list, n)
	}
	return list
}
