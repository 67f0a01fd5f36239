package machine

import (
	"fmt"
	"image"
	"math"
	"slices"

	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/game/work"
)

// Job returns what a card of the plan is made of.
func (r Room) Job() sewing.Job {
	j := sewing.Job{
		ID: r.bench.Plan.ID, Name: r.Book().Amount(r.bench.Plan.Title), Desk: r.Desk, Book: r.Book(), Stage: r.stage,
	}
	if j.ID != "" {
		j.File = place.FileName(j.Name, j.ID)
		j.Facts = r.bench.Facts(r.Settings.Triangle(), r.Desk.Route().RetraceMM)
	}
	j.Whole, _ = r.whole()
	j.W, j.H = r.bench.Mine.Paper.Size()
	for _, i := range r.bench.Items() {
		if i.Caution {
			j.Cautions = append(j.Cautions, r.Book().Say("machine.item."+i.ID))
		}
	}
	return j
}

// makeCard asks for a card. A printed template is to be measured before use, which
// goes on the list.
func (r Room) makeCard(what sewing.Kind, as sewing.Form) (Room, []place.Effect) {
	if !r.has(what) {
		return r, nil
	}
	j := r.Job()
	if ofWhole(what) {
		j.File = place.FileName(j.Whole.Quilt.Name, "quilt")
	}
	var out []place.Effect
	r.Shared, out = r.Asks(work.Card, string(what)+"."+string(as), work.CardIn{Job: j, What: what, As: as})
	if what != sewing.TemplateCard || r.bench.Job.Template {
		return r, out
	}
	r, kept := r.kept(r.bench.Made())
	return r, append(kept, out...)
}

// ofWhole tells the cards of a whole quilt from those of a plan.
func ofWhole(what sewing.Kind) bool {
	return what == sewing.JobCard || what == sewing.StageCard || what == sewing.AllCards
}

// has tells whether there is a card of the quilt, or of the plan.
func (r Room) has(what sewing.Kind) bool {
	if ofWhole(what) {
		_, laid := r.bench.Laid()
		return laid
	}
	return r.bench.Trouble == nil && r.bench.Plan.ID != "" &&
		slices.Contains([]sewing.Kind{sewing.RouteCard, sewing.TemplateCard, sewing.PassesCard}, what) &&
		(what != sewing.PassesCard || r.bench.Plan.OutAndBack)
}

// carded hands the person her file.
func (r Room) carded(c work.CardOut) (Room, []place.Effect) {
	if c.Name == "" {
		r.Notice = place.Say("machine.card-failed")
		return r, nil
	}
	r.Notice = place.Say("machine.card-saved", c.Name, c.Pages)
	return r, []place.Effect{place.Download{Name: c.Name, Type: c.Type, Data: c.Data}}
}

// proof is the first page of a card as it will be printed, to be looked at before that
// is done.
type proof struct {
	// what is the card that is looked at.
	what sewing.Kind
	// image is its page and of what that was made of; image is nil before the first.
	of    proofKey
	image *image.RGBA
}

// proofKey tells apart what a proof follows from, and how many pixels it is wide.
type proofKey struct {
	what        sewing.Kind
	width       int
	plan        string
	bench, desk int
	stage       int
	book        words.Book
	spm, stitch float64
}

// proofWidth bounds the width of a proof in CSS pixels, proofRoom is kept free round it.
const (
	proofWidth = 400.0
	proofRoom  = 20.0
)

// proofBox returns the size of a proof in whole CSS pixels: that of the paper, as large as the
// cloth has room for.
func (r Room) proofBox() (w, h float64) {
	pw, ph := r.bench.Mine.Paper.Size()
	scale := math.Min(proofWidth/pw, math.Min((r.Screen.W-2*proofRoom)/pw, (r.Screen.H-2*proofRoom)/ph))
	scale = math.Max(0.05, scale)
	return math.Round(pw * scale), math.Round(ph * scale) // sharp on whole pixels
}

// proofWanted returns what the proof on the cloth has to be made of; false where none
// is to be seen.
func (r Room) proofWanted() (proofKey, bool) {
	what := r.proof.what
	switch r.topic() {
	case bench.JobTopic:
		// The stage that she looks at, or the whole.
		if what != sewing.StageCard {
			what = sewing.JobCard
		}
	case bench.ThreadTopic:
		if _, from := r.bench.Quilt(); !from {
			return proofKey{}, false
		}
		what = sewing.JobCard // where the bobbins of the quilt are changed
	case bench.CardTopic:
	default:
		return proofKey{}, false
	}
	if !r.has(what) {
		what = sewing.JobCard
	}
	if !r.has(what) {
		what = sewing.RouteCard
	}
	if !r.has(what) || r.topic() != bench.CardTopic && !ofWhole(what) {
		return proofKey{}, false
	}
	// More than two pixels for one of CSS shows nothing more.
	w, _ := r.proofBox()
	return proofKey{
		what, int(math.Round(w * math.Min(2, math.Max(1, r.Screen.DPR)))),
		r.bench.Plan.ID, r.bench.Rev, r.Desk.Rev, r.stage, r.Book(), r.Settings.SPM, r.Settings.StitchMM,
	}, true
}

// name is the key as a text.
func (k proofKey) name() string { return fmt.Sprint(k) }

// proofAsked asks for the proof that is wanted, if it is another than before.
func (r Room) proofAsked() (Room, []place.Effect) {
	key, wanted := r.proofWanted()
	switch {
	case !wanted:
		return r.proofLeft()
	case key == r.proof.of || !r.Working.Open(work.Proof, key.name()):
		return r, nil
	}
	var out []place.Effect
	r.Shared, out = r.Asks(work.Proof, key.name(), work.ProofIn{Job: r.Job(), What: key.what, Width: key.width})
	return r, out
}

// proofLeft wants no proof any more.
func (r Room) proofLeft() (Room, []place.Effect) {
	var out []place.Effect
	r.Shared, out = r.Leaves(work.Proof)
	return r, out
}

// proofSeen returns the picture of the proof on the cloth; nil while it is made.
func (r Room) proofSeen() *image.RGBA {
	if key, wanted := r.proofWanted(); wanted && key == r.proof.of {
		return r.proof.image
	}
	return nil
}

// proofed takes a proof, unless another is wanted by now.
func (r Room) proofed(of string, p work.ProofOut) Room {
	if key, wanted := r.proofWanted(); wanted && key.name() == of {
		r.proof.of, r.proof.image = key, p.Image
	}
	return r
}
