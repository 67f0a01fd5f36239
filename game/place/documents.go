package place

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// FreeName returns a name that no block has: the one given, or that with a number.
func (l Library) FreeName(name string) string {
	free := name
	for n := 2; slices.ContainsFunc(l.Designs, func(d quilt.Design) bool { return d.Name == free }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// FreshID makes an ID of the time of the visit's clock that no document has.
func (s Shared) FreshID(word string) string {
	for t := s.NowMS(); ; t++ {
		id := fmt.Sprintf("%s-%d", word, t)
		if !slices.ContainsFunc(s.Designs, func(d quilt.Design) bool { return d.ID == id }) &&
			!slices.ContainsFunc(s.Quilts, func(q quilt.Quilt) bool { return q.ID == id }) {
			return id
		}
	}
}

// WithDesign returns the library with a block in the place of that of the same ID, or
// before all others.
func (l Library) WithDesign(d quilt.Design) Library {
	if i := slices.IndexFunc(l.Designs, func(x quilt.Design) bool { return x.ID == d.ID }); i >= 0 {
		l.Designs = slices.Clone(l.Designs)
		l.Designs[i] = d
		return l
	}
	l.Designs = append([]quilt.Design{d}, l.Designs...)
	return l
}

// WithoutDesign returns the library without a block.
func (l Library) WithoutDesign(id string) Library {
	l.Designs = slices.DeleteFunc(slices.Clone(l.Designs), func(d quilt.Design) bool { return d.ID == id })
	return l
}

// KeepDesign returns what keeps a block; nothing for one that is not in order, since
// changes are checked where they are made.
func KeepDesign(d quilt.Design) []Effect {
	doc, err := quilt.EncodeDesign(d)
	if err != nil {
		return nil
	}
	return []Effect{Keep{Thing: Thing{Kind: DesignThing, ID: d.ID, Doc: doc}}}
}

// FileName makes a name that every system takes: small letters and digits with hyphens
// between; without any, other.
func FileName(name, other string) string {
	safe := func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}
	parts := strings.FieldsFunc(strings.Map(safe, strings.ToLower(name)), func(r rune) bool { return r == '-' })
	if len(parts) == 0 {
		return other
	}
	return strings.Join(parts, "-")
}

// NewDesign returns an empty block of a shape.
func NewDesign(s motif.Shape, name string) quilt.Design {
	w, h := s.Box()
	return quilt.Design{
		Schema: quilt.DesignSchema, Name: name, Shape: s,
		Margin: math.Min(MMPerInch/4, math.Min(w, h)/8), Seams: motif.NoSeams,
	}
}

// KeepQuilt returns what keeps a quilt; nothing for one that is not in order, since changes
// are checked where they are made.
func KeepQuilt(q quilt.Quilt) []Effect {
	doc, err := quilt.EncodeQuilt(q)
	if err != nil {
		return nil
	}
	return []Effect{Keep{Thing: Thing{Kind: QuiltThing, ID: q.ID, Doc: doc}}}
}

// WithQuilt returns the library with a quilt in the place of that of the same ID, or after
// all others.
func (l Library) WithQuilt(q quilt.Quilt) Library {
	l.Quilts = slices.Clone(l.Quilts)
	if i := slices.IndexFunc(l.Quilts, func(x quilt.Quilt) bool { return x.ID == q.ID }); i >= 0 {
		l.Quilts[i] = q
		return l
	}
	l.Quilts = append(l.Quilts, q)
	return l
}

// NamesOf returns the names of designs, without those that are not there.
func (l Library) NamesOf(ids []string) []string {
	var out []string
	for _, id := range ids {
		if d, ok := l.Design(id); ok {
			out = append(out, d.Name)
		}
	}
	return out
}

// InOrder returns the designs of the quilt on the table in the order sewn, each as often as
// it is sewn; none where there is no order.
func (l Library) InOrder() (out []string) {
	o := l.Top.Plan.Order
	for _, s := range o.Stages {
		for _, leg := range s.Legs {
			if d := o.Programs[leg.Program].Design; d != "" {
				out = append(out, d)
			}
		}
	}
	return out
}
