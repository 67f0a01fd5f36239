package card

import (
	"fmt"
	"image"

	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/softdraw"
)

// proofItems is how many shapes one step draws; some 10 ms in a browser.
const proofItems = 40

// Proof is the picture of the first page of a card, drawn in small steps so that the
// page on the screen stays usable meanwhile.
type Proof struct {
	items []scene.Item
	all   int
	img   *image.RGBA
	pen   *softdraw.Pen
}

// NewProof begins the picture of a card of the plan at the machine, so many pixels wide.
// Cost that of laying the page out.
func NewProof(j sewing.Job, what sewing.Kind, width int) (*Proof, error) {
	pg, err := firstPage(j, what)
	if err != nil {
		return nil, err
	}
	scale := float64(width) / pg.List.W
	p := &Proof{items: pg.Items(), all: len(pg.Items()), img: image.NewRGBA(softdraw.Size(pg.List, scale))}
	p.pen = softdraw.NewPen(p.img, scale)
	return p, nil
}

// firstPage lays out the page of a card that is printed first.
func firstPage(j sewing.Job, what sewing.Kind) (Page, error) {
	switch what {
	case sewing.JobCard, sewing.StageCard, sewing.AllCards:
		if what == sewing.AllCards {
			what = sewing.JobCard
		}
		pages, err := whole(j, what)
		if err != nil {
			return Page{}, err
		}
		return pages[0], nil
	}
	if j.ID == "" {
		return Page{}, fmt.Errorf("no route is planned")
	}
	switch what {
	case sewing.PassesCard:
		return Passes(j)
	case sewing.TemplateCard:
		return first(j, j.Tiling()), nil
	}
	return Route(j), nil
}

// Step draws some shapes and tells whether there are more.
func (p *Proof) Step() bool {
	n := min(proofItems, len(p.items))
	p.pen.Draw(p.items[:n])
	p.items = p.items[n:]
	return len(p.items) > 0
}

// Done returns the share of the shapes that are drawn.
func (p *Proof) Done() float64 { return 1 - float64(len(p.items))/float64(max(1, p.all)) }

// Image returns the picture as far as it is drawn.
func (p *Proof) Image() *image.RGBA { return p.img }
