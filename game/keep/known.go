package keep

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"unthreaded/path/quilt/order"
)

// KnownKind is the kind of the one thing that tells which earlier states of the others have
// been in a file. With it two devices that hand each other files tell what is later from what
// was changed on both: where the thing of the other side has come from the state here, that
// one is later.
const KnownKind = "known"

var knownName = Name{KnownKind, "things"}

// Known are the sums of the states that a thing has come from, and of its present one where a
// file holds that, by the name of the thing, the newest last.
type Known map[string][]string

// mostKnown states of a thing are remembered: one for each file that was written or taken in.
const mostKnown = 64

func (n Name) String() string { return n.Kind + "." + n.ID }

// sumOf tells states apart: 64 bits of SHA-256.
func sumOf(doc string) string {
	h := sha256.Sum256([]byte(doc))
	return hex.EncodeToString(h[:8])
}

func (k Known) has(n Name, doc string) bool { return slices.Contains(k[n.String()], sumOf(doc)) }

// adopt takes the state that a thing has in a file with those it has come from there.
func (k Known) adopt(theirs Known, it Item) {
	name := it.Name.String()
	k.with(name, append(slices.Clone(theirs[name]), sumOf(it.Doc))...)
}

// copied tells whether a thing of a file is the untouched copy of a state that the thing here
// has, or once had: each side keeps its own and has a copy of the other's.
func (k Known) copied(theirs Known, it Item, here func(Name) (string, bool)) bool {
	id, sum, ok := cutCopy(it.ID)
	first := theirs[it.Name.String()]
	if !ok || !copies[it.Kind] || len(first) == 0 || first[0] != sumOf(it.Doc) {
		return false
	}
	own := Name{it.Kind, id}
	doc, there := here(own)
	return there && slices.ContainsFunc(append(slices.Clone(k[own.String()]), sumOf(doc)), func(s string) bool { return strings.HasPrefix(s, sum) })
}

// copySum digits of the sum of a state end the ID of its copy.
const copySum = 8

func cutCopy(id string) (of, sum string, ok bool) {
	at := len(id) - copySum - 1
	if at < 1 || id[at] != '-' {
		return "", "", false
	}
	return id[:at], id[at+1:], true
}

// with adds states of a thing.
func (k Known) with(name string, sums ...string) {
	for _, s := range sums {
		if !slices.Contains(k[name], s) {
			k[name] = append(k[name], s)
		}
	}
	k[name] = k[name][max(0, len(k[name])-mostKnown):]
}

// readKnown reads what a shelf knows, or what stands in a file; a damaged document counts as
// nothing known.
func readKnown(doc string) Known {
	k := Known{}
	if json.Unmarshal([]byte(doc), &k) != nil || k == nil {
		return Known{}
	}
	return k
}

func (k Known) item() (Item, error) {
	doc, err := compact(k)
	return Item{Part: ThingsPart, Name: knownName, Doc: string(doc)}, err
}

func knownHere(s Source) (Known, error) {
	items, err := s.Get(ThingsPart, []Name{knownName})
	if err != nil || len(items) == 0 {
		return Known{}, err
	}
	return readKnown(items[0].Doc), nil
}

// Remember returns what a source knows with the present state of all its things, to be kept
// before a backup is written. Cost O(size of the things).
func Remember(s Source) (Item, error) {
	k, err := knownHere(s)
	if err != nil {
		return Item{}, err
	}
	names, err := s.Names(ThingsPart)
	if err != nil {
		return Item{}, err
	}
	for group := range slices.Chunk(names, atOnce) {
		items, err := s.Get(ThingsPart, group)
		if err != nil {
			return Item{}, err
		}
		for _, it := range items {
			if !isCare(it.Part, it.Name) && it.Name != knownName {
				k.with(it.Name.String(), sumOf(it.Doc))
			}
		}
	}
	return k.item()
}

// ticksKind is the kind of what is sewn so far of a quilt: what is ticked on either side is
// sewn.
const ticksKind = "sewn"

// joinedTicks returns what is sewn so far here with what the other side has beside it; where
// both have a tick the day is that of here.
func joinedTicks(here, it Item) (Item, error) {
	mine, err := order.DecodeSewn([]byte(here.Doc))
	if err != nil {
		return here, err
	}
	theirs, err := order.DecodeSewn([]byte(it.Doc))
	if err != nil {
		return here, err
	}
	before := len(mine.Ticks)
	for _, t := range theirs.Ticks {
		if mine.Ticked(t) == "" {
			mine = mine.With(t)
		}
	}
	if len(mine.Ticks) == before {
		return here, nil
	}
	doc, err := mine.Encode()
	here.Doc = string(doc)
	return here, err
}

// joinable tells that both are ticks that can be read: notes of pieces have the same kind.
func joinable(here, it Item) bool {
	_, err := joinedTicks(here, it)
	return err == nil
}

// copies are the kinds of thing of which a state that was changed on both sides comes as a
// copy; of the others the one here stays.
var copies = map[string]bool{"design": true, "quilt": true}

var errNoObject = errors.New("keep: a thing that is no JSON object")

// copyOf returns the thing as one of its own, named anew. The same state gives the same ID,
// so that a file taken in twice is not there twice.
func copyOf(it Item, rename func(name string) string) (Item, error) {
	var o map[string]json.RawMessage
	if err := json.Unmarshal([]byte(it.Doc), &o); err != nil {
		return it, err
	}
	if o == nil {
		return it, errNoObject
	}
	var name string
	if err := json.Unmarshal(o["name"], &name); err != nil {
		name = ""
	}
	it.ID += "-" + sumOf(it.Doc)[:copySum]
	for key, v := range map[string]string{"id": it.ID, "name": rename(name)} {
		doc, err := compact(v)
		if err != nil {
			return it, err
		}
		o[key] = doc
	}
	doc, err := compact(o)
	it.Doc = string(doc)
	return it, err
}
