package card

import (
	"fmt"

	"unthreaded/game/sewing"
)

// File is a card as a file.
type File struct {
	Name, Type string
	Data       []byte
	// Pages is how many it has.
	Pages int
}

// Make makes a card. The error says what there is no such card of.
func Make(j sewing.Job, what sewing.Kind, as sewing.Form) (File, error) {
	pages, err := layOut(j, what, as)
	if err != nil {
		return File{}, err
	}
	title, part := j.Name, string(what)
	switch what {
	case sewing.JobCard, sewing.AllCards:
		title = j.Whole.Quilt.Name
	case sewing.StageCard:
		title, part = j.Whole.Quilt.Name, j.Whole.StageCode(j.Stage)
	}
	f := File{Name: fmt.Sprintf("%s-%s.%s", j.File, part, as), Pages: len(pages)}
	title += ": " + part
	switch as {
	case sewing.AsPDF:
		f.Type = "application/pdf"
		f.Data, err = PDF(title, pages)
	case sewing.AsPNG:
		f.Type = "image/png"
		f.Data, err = PNG(pages[0])
	case sewing.AsSVG:
		f.Type, f.Data = "image/svg+xml", SVG(title, pages[0])
	default:
		err = fmt.Errorf("no form of file is called %q", as)
	}
	return f, err
}

// layOut returns the pages of a card; a template that is no document for printing
// comes in one piece.
func layOut(j sewing.Job, what sewing.Kind, as sewing.Form) ([]Page, error) {
	switch what {
	case sewing.JobCard, sewing.StageCard, sewing.AllCards:
		return whole(j, what)
	}
	if j.ID == "" {
		return nil, fmt.Errorf("no route is planned")
	}
	switch what {
	case sewing.RouteCard:
		return []Page{Route(j)}, nil
	case sewing.PassesCard:
		pg, err := Passes(j)
		return []Page{pg}, err
	case sewing.TemplateCard:
		if as != sewing.AsPDF {
			return []Page{inOne(j)}, nil
		}
		return Template(j), nil
	}
	return nil, fmt.Errorf("no card is called %q", what)
}
