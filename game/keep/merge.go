package keep

import (
	"encoding/json"
	"errors"
	"io"
)

// CareKind is the kind of the one thing that tells when the last backup was made. It is
// of this browser and not of the work: no backup holds it, and none replaces it.
const CareKind = "backup"

func isCare(p Part, n Name) bool { return p == ThingsPart && n.Kind == CareKind }

// atOnce is how many records are read or staged at once.
const atOnce = 50

// Source is what a backup is made of.
type Source interface {
	// Names returns the names of all records of a part.
	Names(Part) ([]Name, error)
	// Get returns records by their names, in that order, without those that are gone.
	Get(Part, []Name) ([]Item, error)
}

// Items are a source of their own.
type Items []Item

// Names returns the names of those of a part.
func (s Items) Names(p Part) (names []Name, err error) {
	for _, it := range s {
		if it.Part == p {
			names = append(names, it.Name)
		}
	}
	return names, nil
}

// Get returns those of a part that have these names.
func (s Items) Get(p Part, names []Name) (out []Item, err error) {
	for _, n := range names {
		for _, it := range s {
			if it.Part == p && it.Name == n {
				out = append(out, it)
			}
		}
	}
	return out, nil
}

// Shelf is where everything is kept, as backups need it.
type Shelf interface {
	Source
	// Stage adds records to those that wait to be put in place, Unstage throws those away.
	Stage([]Item) error
	Unstage() error
	// Swap puts what waits in place and keeps what gives way for TakeBack, in one transaction:
	// all or nothing. With replace all else goes, but what is known of backups.
	Swap(replace bool) (Swapped, error)
}

// Swapped tells what came of a restore: whether all was here already, and whether
// one before it can be taken back too.
type Swapped struct{ Same, More bool }

// Standing tells how a record of a backup stands to the one that is kept.
type Standing string

// How it stands: there is none here, the same one, another one, or a damaged one where
// that of the backup is sound.
const (
	NewHere   Standing = "new"
	SameHere  Standing = "same"
	OtherHere Standing = "other"
	MendHere  Standing = "mend"
)

// wanted tells whether adding what is missing takes a record.
func (s Standing) wanted() bool { return s == NewHere || s == MendHere }

// Stands tells how a record of a backup stands to the one of the same name that is
// kept.
func Stands(kept, it Item) Standing {
	same := kept.Doc == it.Doc && kept.Type == it.Type && kept.Base64 == it.Base64
	switch {
	case same && (kept.Summary == it.Summary || sound(kept.Summary)):
		return SameHere
	case it.Part != PhotosPart && damaged(kept) && !damaged(it):
		return MendHere
	}
	return OtherHere
}

// damaged tells whether a record cannot be read. One of a newer version can, by that.
func damaged(it Item) bool {
	if it.Part != TracesPart {
		return !sound(it.Doc)
	}
	_, err := Decode([]byte(it.Doc))
	return err != nil && !errors.Is(err, ErrNewer) || !sound(it.Summary)
}

// sound tells whether a document is a JSON object.
func sound(doc string) bool {
	var o map[string]json.RawMessage
	return json.Unmarshal([]byte(doc), &o) == nil && o != nil
}

// Found is what a checked backup holds and how that stands to what is kept.
type Found struct {
	// Made is when it was made, in ms since 1970.
	Made                   int64
	Traces, Things, Photos int
	// Here is how many traces are kept here, Kept how those of the backup stand to them.
	Here int
	Kept struct{ New, Same, Other, Mend int }
	// Missing counts what else is not here, or damaged here.
	Missing struct{ Things, Photos int }
}

// Whole tells whether the backup holds every trace that is kept here.
func (f Found) Whole() bool { return f.Here == f.Kept.Same+f.Kept.Mend }

// CheckBackup reads a backup to its end and tells what it holds. Nothing is changed.
// Tell is told how many records are done. Errors are those of ReadBackup and of
// the shelf.
func CheckBackup(from io.Reader, s Shelf, tell func(done int)) (Found, error) {
	var f Found
	c, err := newComparer(s)
	if err != nil {
		return f, err
	}
	f.Here = len(c.here[TracesPart])
	done := 0
	h, err := ReadBackup(from, func(it Item) error {
		if done++; done%atOnce == 0 {
			tell(done)
		}
		if isCare(it.Part, it.Name) {
			return nil
		}
		st, err := c.stands(it)
		f.count(it.Part, st)
		return err
	})
	f.Made, f.Traces, f.Things, f.Photos = h.Made, h.Counts[TracesPart], h.Counts[ThingsPart], h.Counts[PhotosPart]
	return f, err
}

func (f *Found) count(p Part, s Standing) {
	add := func(n *int, yes bool) {
		if yes {
			*n++
		}
	}
	switch p {
	case TracesPart:
		add(&f.Kept.New, s == NewHere)
		add(&f.Kept.Same, s == SameHere)
		add(&f.Kept.Other, s == OtherHere)
		add(&f.Kept.Mend, s == MendHere)
	case ThingsPart:
		add(&f.Missing.Things, s.wanted())
	case PhotosPart:
		add(&f.Missing.Photos, s.wanted())
	}
}

// comparer sets records beside those that are kept.
type comparer struct {
	shelf Shelf
	here  map[Part]map[Name]bool
}

func newComparer(s Shelf) (comparer, error) {
	c := comparer{s, map[Part]map[Name]bool{}}
	for _, p := range Parts {
		names, err := s.Names(p)
		if err != nil {
			return c, err
		}
		c.here[p] = map[Name]bool{}
		for _, n := range names {
			c.here[p][n] = true
		}
	}
	return c, nil
}

func (c comparer) stands(it Item) (Standing, error) {
	if !c.here[it.Part][it.Name] {
		return NewHere, nil
	}
	kept, err := c.shelf.Get(it.Part, []Name{it.Name})
	if err != nil || len(kept) == 0 {
		return NewHere, err // it went in the meantime
	}
	return Stands(kept[0], it), nil
}

// TakeBackup takes a backup in: what is missing or damaged here or, with replace,
// everything in place of what is here. It stages all of it first; where anything fails,
// nothing is changed.
func TakeBackup(from io.Reader, s Shelf, replace bool, tell func(done int)) (Swapped, error) {
	swapped, err := takeBackup(from, s, replace, tell)
	if err != nil {
		if again := s.Unstage(); again != nil {
			err = errors.Join(err, again)
		}
	}
	return swapped, err
}

func takeBackup(from io.Reader, s Shelf, replace bool, tell func(done int)) (Swapped, error) {
	if err := s.Unstage(); err != nil {
		return Swapped{}, err
	}
	c, err := newComparer(s)
	if err != nil {
		return Swapped{}, err
	}
	var group []Item
	done := 0
	flush := func() error {
		err := s.Stage(group)
		done += len(group)
		group = nil
		tell(done)
		return err
	}
	_, err = ReadBackup(from, func(it Item) error {
		if isCare(it.Part, it.Name) {
			return nil
		}
		wanted := replace
		if !replace {
			st, err := c.stands(it)
			if err != nil {
				return err
			}
			wanted = st.wanted()
		}
		if wanted {
			group = append(group, it)
		}
		if len(group) < atOnce {
			return nil
		}
		return flush()
	})
	if err == nil {
		err = flush()
	}
	if err != nil {
		return Swapped{}, err
	}
	return s.Swap(replace)
}
