package card

import (
	"fmt"
	"image"

	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
)

// proofItems is how many shapes one step draws; some 10 ms in a browser.
const proofItems = 40

// Proof is the picture of the first page of a card, drawn in small steps so that the
// page on the screen stays usable meanwhile.
type Proof struct {
	items []scene.Item
	img   *image.RGBA
	pen   *softdraw.Pen
}

// NewProof begins the picture of a card of the plan at the machine, so many pixels wide.
// Cost that of laying the page out.
func NewProof(j Job, what Kind, width int) (*Proof, error) {
	pg, err := firstPage(j, what)
	if err != nil {
		return nil, err
	}
	scale := float64(width) / pg.List.W
	p := &Proof{items: pg.Items(), img: image.NewRGBA(softdraw.Size(pg.List, scale))}
	p.pen = softdraw.NewPen(p.img, scale)
	return p, nil
}

// firstPage lays out the page of a card that is printed first.
func firstPage(j Job, what Kind) (Page, error) {
	switch what {
	case JobCard, StageCard, AllCards:
		if what == AllCards {
			what = JobCard
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
	case PassesCard:
		return Passes(j)
	case TemplateCard:
		return first(j, j.tiling()), nil
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

// Image returns the picture as far as it is drawn.
func (p *Proof) Image() *image.RGBA { return p.img }
