package machine

import (
	"image"
	"math"
	"slices"

	"unthreaded/game/card"
	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
)

// MakeCard asks for a card to be made and handed to the person as a file.
type MakeCard struct {
	Job  card.Job
	What card.Kind
	As   card.Form
}

// CardMade tells how making a card went.
type CardMade struct {
	Name   string
	Pages  int
	Failed bool
}

// MakeProof asks for the picture of the first page of a card; StopProof tells that none
// is wanted any more.
type MakeProof struct {
	Of  ProofKey
	Job card.Job
}

// StopProof ends the making of a proof.
type StopProof struct{}

// Proofed brings the picture of a proof.
type Proofed struct {
	Of    ProofKey
	Image *image.RGBA
}

func (MakeCard) IsEffect()  {}
func (MakeProof) IsEffect() {}
func (StopProof) IsEffect() {}
func (CardMade) IsMsg()     {}
func (Proofed) IsMsg()      {}

// Job returns what a card of the plan is made of.
func (r Room) Job() card.Job {
	j := card.Job{
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
func (r Room) makeCard(what card.Kind, as card.Form) (Room, []place.Effect) {
	if !r.has(what) {
		return r, nil
	}
	j := r.Job()
	if ofWhole(what) {
		j.File = place.FileName(j.Whole.Quilt.Name, "quilt")
	}
	out := []place.Effect{MakeCard{Job: j, What: what, As: as}}
	if what != card.TemplateCard || r.bench.Job.Template {
		return r, out
	}
	r, kept := r.kept(r.bench.Made())
	return r, append(kept, out...)
}

// ofWhole tells the cards of a whole quilt from those of a plan.
func ofWhole(what card.Kind) bool {
	return what == card.JobCard || what == card.StageCard || what == card.AllCards
}

// has tells whether there is a card of the quilt, or of the plan.
func (r Room) has(what card.Kind) bool {
	if ofWhole(what) {
		_, laid := r.bench.Laid()
		return laid
	}
	return r.bench.Trouble == nil && r.bench.Plan.ID != "" &&
		slices.Contains([]card.Kind{card.RouteCard, card.TemplateCard, card.PassesCard}, what) &&
		(what != card.PassesCard || r.bench.Plan.OutAndBack)
}

// cardMade tells the person about her file.
func (r Room) cardMade(c CardMade) Room {
	r.Notice = place.Say("machine.card-saved", c.Name, c.Pages)
	if c.Failed {
		r.Notice = place.Say("machine.card-failed")
	}
	return r
}

// proof is the first page of a card as it will be printed, to be looked at before that
// is done.
type proof struct {
	// what is the card that is looked at.
	what card.Kind
	// asked is what was asked for last.
	asked ProofKey
	// image is its page and of what that was made of; image is nil before the first.
	of    ProofKey
	image *image.RGBA
}

// ProofKey tells apart what a proof follows from, and how many pixels it is wide.
type ProofKey struct {
	What        card.Kind
	Width       int
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
func (r Room) proofWanted() (ProofKey, bool) {
	what := r.proof.what
	switch r.topic() {
	case bench.JobTopic:
		// The stage that she looks at, or the whole.
		if what != card.StageCard {
			what = card.JobCard
		}
	case bench.ThreadTopic:
		if _, from := r.bench.Quilt(); !from {
			return ProofKey{}, false
		}
		what = card.JobCard // where the bobbins of the quilt are changed
	case bench.CardTopic:
	default:
		return ProofKey{}, false
	}
	if !r.has(what) {
		what = card.JobCard
	}
	if !r.has(what) {
		what = card.RouteCard
	}
	if !r.has(what) || r.topic() != bench.CardTopic && !ofWhole(what) {
		return ProofKey{}, false
	}
	// More than two pixels for one of CSS shows nothing more.
	w, _ := r.proofBox()
	return ProofKey{
		what, int(math.Round(w * math.Min(2, math.Max(1, r.Screen.DPR)))),
		r.bench.Plan.ID, r.bench.Rev, r.Desk.Rev, r.stage, r.Book(), r.Settings.SPM, r.Settings.StitchMM,
	}, true
}

// proofAsked asks for the proof that is wanted, if it is another than before.
func (r Room) proofAsked() (Room, []place.Effect) {
	key, wanted := r.proofWanted()
	switch {
	case !wanted:
		return r.proofLeft()
	case key == r.proof.asked:
		return r, nil
	}
	r.proof.asked = key
	return r, []place.Effect{MakeProof{Of: key, Job: r.Job()}}
}

// proofLeft wants no proof any more.
func (r Room) proofLeft() (Room, []place.Effect) {
	if r.proof.asked == (ProofKey{}) {
		return r, nil
	}
	r.proof.asked = ProofKey{}
	return r, []place.Effect{StopProof{}}
}

// proofSeen returns the picture of the proof on the cloth; nil while it is made.
func (r Room) proofSeen() *image.RGBA {
	if key, wanted := r.proofWanted(); wanted && key == r.proof.of {
		return r.proof.image
	}
	return nil
}

// proofed takes a proof, unless another is wanted by now.
func (r Room) proofed(p Proofed) Room {
	if key, wanted := r.proofWanted(); wanted && key == p.Of {
		r.proof.of, r.proof.image = p.Of, p.Image
	}
	return r
}
