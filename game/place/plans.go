package place

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"unthreaded/game/words"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// KeptPlan is what is kept beside a quilt: what she decided about the order in which it
// is sewn, and what is sewn so far. Quilts of before there were such documents have the
// usual order and no ticks.
type KeptPlan struct {
	Choices order.Choices
	Sewn    order.Sewn
	// beside counts for each kind of document those that could not be read: they stay
	// as they are, and ours is kept beside them.
	beside map[string]int
}

// name returns the ID under which a document of the plan is kept.
func (k KeptPlan) name(kind, quilt string) string {
	if n := k.beside[kind]; n > 0 {
		return fmt.Sprintf("%s.%d", quilt, n)
	}
	return quilt
}

// with returns the plan with a kept document of either kind. A document that cannot be
// read is left where it is.
func (k KeptPlan) with(t Thing, number int) (KeptPlan, error) {
	var err error
	if t.Kind == ChoicesThing {
		var c order.Choices
		if c, err = order.DecodeChoices(t.Doc); err == nil {
			k.Choices = c
		}
	} else {
		var s order.Sewn
		if s, err = order.DecodeSewn(t.Doc); err == nil {
			k.Sewn = s
		}
	}
	if err != nil {
		number++
	}
	k.beside = maps.Clone(k.beside)
	if k.beside == nil {
		k.beside = map[string]int{}
	}
	k.beside[t.Kind] = max(k.beside[t.Kind], number)
	return k, err
}

// ReadPlans returns the library with the kept choices and ticks among some things, and
// what is to be said of those that could not be read.
func (l Library) ReadPlans(things []Thing) (Library, Notice) {
	things = slices.Clone(things)
	slices.SortStableFunc(things, func(a, b Thing) int { return strings.Compare(a.ID, b.ID) })
	said := Notice{}
	for _, t := range things {
		if t.Kind != ChoicesThing && t.Kind != SewnThing || IsPiece(t) {
			continue
		}
		id, number := t.ID, 0
		if name, after, found := strings.Cut(t.ID, "."); found {
			id = name
			_, _ = fmt.Sscanf(after, "%d", &number)
		}
		k, err := l.Plans[id].with(t, number)
		l = l.withPlan(id, k)
		switch {
		case errors.Is(err, quilt.ErrNewer):
			said.Said = words.Of("order.newer-kept")
		case err != nil:
			said.Said = words.Of("order.damaged")
		}
	}
	return l, said
}

// KeepPlan returns the library with the choices and ticks of a quilt, and what keeps
// those of them that have changed.
func (l Library) KeepPlan(id string, c order.Choices, s order.Sewn) (Library, []Effect) {
	k := l.Plans[id]
	var out []Effect
	keep := func(kind string, before, now []byte) {
		if now != nil && !bytes.Equal(before, now) {
			out = append(out, Keep{Thing: Thing{Kind: kind, ID: k.name(kind, id), Doc: now}})
		}
	}
	keep(ChoicesThing, choicesDoc(id, k.Choices), choicesDoc(id, c))
	keep(SewnThing, sewnDoc(id, k.Sewn), sewnDoc(id, s))
	k.Choices, k.Sewn = c, s
	return l.withPlan(id, k), out
}

func (l Library) withPlan(id string, k KeptPlan) Library {
	l.Plans = maps.Clone(l.Plans)
	if l.Plans == nil {
		l.Plans = map[string]KeptPlan{}
	}
	l.Plans[id] = k
	return l
}

// DiscardPlan returns the library without the choices and ticks of a quilt, and what takes
// them off the shelf.
func (l Library) DiscardPlan(id string) (Library, []Effect) {
	k := l.Plans[id]
	var out []Effect
	if !bytes.Equal(choicesDoc(id, k.Choices), choicesDoc(id, order.Choices{})) {
		out = append(out, Discard{Kind: ChoicesThing, ID: k.name(ChoicesThing, id)})
	}
	if len(k.Sewn.Ticks) > 0 {
		out = append(out, Discard{Kind: SewnThing, ID: k.name(SewnThing, id)})
	}
	k.Choices, k.Sewn = order.Choices{}, order.Sewn{}
	return l.withPlan(id, k), out
}

// choicesDoc and sewnDoc return the documents of a quilt's choices and ticks; nil for
// what is not in order, since changes are checked where they are made.
func choicesDoc(id string, c order.Choices) []byte {
	c.Quilt = id
	doc, err := c.Encode()
	if err != nil {
		return nil
	}
	return doc
}

func sewnDoc(id string, s order.Sewn) []byte {
	s.Quilt = id
	doc, err := s.Encode()
	if err != nil {
		return nil
	}
	return doc
}

// StageName names a stage of the order in which a quilt is sewn: row 2 is the same row in
// every place.
func StageName(s order.Stage) words.Msg {
	if s.Kind == order.Ditch {
		return words.Of("order.ditch." + strings.TrimPrefix(s.ID, "ditch-"))
	}
	return words.Of("order.stage."+string(s.Kind), s.Number)
}
