package keep

import (
	"encoding/json"
	"errors"
	"io"
	"maps"
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
// that of the backup is sound. Of another thing it may be known that the one here is an
// earlier state of it, or a later one, or that both were changed since they were the same; what
// is sewn so far is then joined.
const (
	NewHere     Standing = "new"
	SameHere    Standing = "same"
	OtherHere   Standing = "other"
	MendHere    Standing = "mend"
	EarlierHere Standing = "earlier"
	LaterHere   Standing = "later"
	BothChanged Standing = "both"
	JoinedHere  Standing = "joined"
)

// wanted tells whether adding what is missing takes a record as it is.
func (s Standing) wanted() bool { return s == NewHere || s == MendHere || s == EarlierHere }

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
	// Later counts the things of which the backup has a later state, Both those that were
	// changed here and there.
	Later, Both int
	// Known is what the backup knows of earlier states; nil where it is older than that.
	Known Known
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
	var things []Item // what the file knows of them may come after them
	h, err := ReadBackup(from, func(it Item) error {
		if done++; done%atOnce == 0 {
			tell(done)
		}
		if isCare(it.Part, it.Name) {
			return nil
		}
		if it.Part == ThingsPart && it.Name == knownName {
			f.Known = readKnown(it.Doc)
			return nil
		}
		if it.Part == ThingsPart {
			things = append(things, it)
			return nil
		}
		_, st, err := c.stands(it)
		f.count(it.Part, st)
		return err
	})
	for _, it := range things {
		if err == nil {
			var st Standing
			st, err = c.standsAs(f.Known, it)
			f.count(ThingsPart, st)
		}
	}
	f.Made, f.Traces, f.Things, f.Photos = h.Made, h.Counts[TracesPart], h.Counts[ThingsPart], h.Counts[PhotosPart]
	if f.Known != nil {
		f.Things--
	}
	return f, err
}

// between tells how another state of a thing, in a file that knows theirs, stands to the one
// here. A damaged one is later than none.
func (k Known) between(theirs Known, here, it Item) Standing {
	switch {
	case damaged(it):
		return OtherHere
	case theirs.has(it.Name, here.Doc):
		return EarlierHere
	case k.has(it.Name, it.Doc):
		return LaterHere
	case copies[it.Kind]:
		return BothChanged
	case it.Kind == ticksKind && joinable(here, it):
		return JoinedHere
	}
	return OtherHere
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
		add(&f.Missing.Things, s == NewHere || s == MendHere)
		add(&f.Later, s == EarlierHere || s == JoinedHere)
		add(&f.Both, s == BothChanged)
	case PhotosPart:
		add(&f.Missing.Photos, s.wanted())
	}
}

// comparer sets records beside those that are kept.
type comparer struct {
	shelf Shelf
	here  map[Part]map[Name]bool
	known Known
}

func newComparer(s Shelf) (comparer, error) {
	known, err := knownHere(s)
	c := comparer{s, map[Part]map[Name]bool{}, known}
	if err != nil {
		return c, err
	}
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

// stands also returns the one that is kept, if there is one.
func (c comparer) stands(it Item) (Item, Standing, error) {
	if !c.here[it.Part][it.Name] {
		return Item{}, NewHere, nil
	}
	kept, err := c.shelf.Get(it.Part, []Name{it.Name})
	if err != nil || len(kept) == 0 {
		return Item{}, NewHere, err // it went in the meantime
	}
	return kept[0], Stands(kept[0], it), nil
}

// standsAs is stands with what the file knows of things.
func (c comparer) standsAs(theirs Known, it Item) (Standing, error) {
	here, st, err := c.stands(it)
	if it.Part != ThingsPart || theirs == nil || err != nil {
		return st, err
	}
	switch {
	case st == OtherHere:
		st = c.known.between(theirs, here, it)
	case st == NewHere && c.known.copied(theirs, it, func(n Name) (string, bool) {
		kept, err := c.shelf.Get(ThingsPart, []Name{n})
		if err != nil || len(kept) == 0 {
			return "", false // it is taken then, and nothing is lost
		}
		return kept[0].Doc, true
	}):
		st = LaterHere
	}
	return st, nil
}

// Taking is how a backup is taken in: with Replace everything in place of what is here, else
// what is missing or damaged here, and what Found says is later there. What was changed on
// both sides comes as a copy under the name that Rename gives it.
type Taking struct {
	Replace bool
	Found   Found
	Rename  func(name string) string
}

// wanted returns a record as it is to be taken, or false; known takes what is learnt by it.
func (t Taking) wanted(c comparer, it Item, known Known) (Item, bool, error) {
	if t.Replace {
		return it, true, nil
	}
	st, err := c.standsAs(t.Found.Known, it)
	if err != nil || it.Part != ThingsPart {
		return it, err == nil && st.wanted(), err
	}
	if st == BothChanged {
		made, err := copyOf(it, t.Rename)
		if err != nil || c.here[it.Part][made.Name] {
			return it, false, nil // it has come already, or is no document, and stays in the file
		}
		known.adopt(nil, made)
		return made, true, nil
	}
	if st == JoinedHere {
		here, _, err := c.stands(it)
		if err != nil {
			return it, false, err
		}
		joined, err := joinedTicks(here, it)
		if err != nil {
			return it, false, err
		}
		known.adopt(t.Found.Known, it)
		known.adopt(nil, joined)
		return joined, joined.Doc != here.Doc, nil
	}
	if st.wanted() || st == SameHere {
		known.adopt(t.Found.Known, it)
	}
	return it, st.wanted(), nil
}

// TakeBackup takes a backup in. It stages all of it first; where anything fails, nothing is
// changed.
func TakeBackup(from io.Reader, s Shelf, t Taking, tell func(done int)) (Swapped, error) {
	swapped, err := t.take(from, s, tell)
	if err != nil {
		if again := s.Unstage(); again != nil {
			err = errors.Join(err, again)
		}
	}
	return swapped, err
}

func (t Taking) take(from io.Reader, s Shelf, tell func(done int)) (Swapped, error) {
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
	known := maps.Clone(c.known)
	_, err = ReadBackup(from, func(it Item) error {
		isKnown := it.Part == ThingsPart && it.Name == knownName
		if isCare(it.Part, it.Name) || isKnown && !t.Replace {
			return nil
		}
		made, wanted, err := t.wanted(c, it, known)
		if err != nil {
			return err
		}
		if wanted {
			group = append(group, made)
		}
		if len(group) < atOnce {
			return nil
		}
		return flush()
	})
	if more := done + len(group); err == nil && more > 0 && !t.Replace && t.Found.Known != nil {
		var it Item
		if it, err = known.item(); err == nil {
			group = append(group, it)
		}
	}
	if err == nil {
		err = flush()
	}
	if err != nil {
		return Swapped{}, err
	}
	return s.Swap(t.Replace)
}
