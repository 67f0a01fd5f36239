package game

import (
	"image"
	"math"

	"unthreaded/game/bench"
)

// Proof is the first page of a card as it will be printed, to be looked at before that
// is done.
type Proof struct {
	// What is the card that is looked at.
	What CardKind
	// Image is its page and Of what that was made of; Image is nil before the first.
	Of    ProofKey
	Image *image.RGBA
}

// ProofKey tells apart what a proof follows from, and how many pixels it is wide.
type ProofKey struct {
	What        CardKind
	Width       int
	plan        string
	bench, desk int
	inches      bool
	spm, stitch float64
}

// Proofed brings the picture of a proof.
type Proofed struct {
	Of    ProofKey
	Image *image.RGBA
}

func (Proofed) IsMsg() {}

// proofWidth bounds the width of a proof in CSS pixels, proofRoom is kept free round it.
const (
	proofWidth = 400.0
	proofRoom  = 20.0
)

// ProofBox returns the size of a proof in whole CSS pixels: that of the paper, as large as the
// cloth has room for.
func (m Model) ProofBox() (w, h float64) {
	pw, ph := m.Bench.Mine.Paper.Size()
	scale := math.Min(proofWidth/pw, math.Min((m.Screen.W-2*proofRoom)/pw, (m.Screen.H-2*proofRoom)/ph))
	scale = math.Max(0.05, scale)
	return math.Round(pw * scale), math.Round(ph * scale) // sharp on whole pixels
}

// ProofWanted returns what the proof on the cloth has to be made of; false where none
// is to be seen.
func (m Model) ProofWanted() (ProofKey, bool) {
	if m.Place != Machine || m.Bench.Topic != bench.CardTopic || m.Bench.Trouble != "" || m.Bench.Plan.ID == "" {
		return ProofKey{}, false
	}
	what := m.Proof.What
	if what == "" || what == PassesCard && !m.Bench.Plan.OutAndBack {
		what = RouteCard
	}
	// More than two pixels for one of CSS shows nothing more.
	w, _ := m.ProofBox()
	return ProofKey{
		what, int(math.Round(w * math.Min(2, math.Max(1, m.Screen.DPR)))),
		m.Bench.Plan.ID, m.Bench.Rev, m.Desk.Rev, m.Settings.Units == Inches, m.Settings.SPM, m.Settings.StitchMM,
	}, true
}

// ProofSeen returns the picture of the proof on the cloth; nil while it is made.
func (m Model) ProofSeen() *image.RGBA {
	if key, wanted := m.ProofWanted(); wanted && key == m.Proof.Of {
		return m.Proof.Image
	}
	return nil
}

// printed takes news of what is printed.
func (m Model) printed(msg Msg) Model {
	switch msg := msg.(type) {
	case CardMade:
		return m.cardMade(msg)
	case Proofed:
		return m.proofed(msg)
	}
	return m
}

// proofed takes a proof, unless another is wanted by now.
func (m Model) proofed(p Proofed) Model {
	if key, wanted := m.ProofWanted(); wanted && key == p.Of {
		m.Proof.Of, m.Proof.Image = p.Of, p.Image
	}
	return m
}
