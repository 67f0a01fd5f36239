package card

import (
	"fmt"

	"unthreaded/game/plan"
	"unthreaded/game/words"
)

// Job is what a card is made of: plain data, all that is said of the plan in it.
type Job struct {
	// ID and Name are those of the plan; a job without an ID has no route to print.
	ID, Name string
	// Desk holds the route.
	Desk plan.Desk
	// W and H are the size in mm of the paper held upright.
	W, H float64
	Book words.Book
	// Facts are how the machine is set and what the plan takes, Cautions what is said
	// about hurting someone.
	Facts    []plan.Fact
	Cautions []string
	// Whole is the quilt as a whole, without stages where there is none; Stage is the
	// stage that a card is of.
	Whole Whole
	Stage int
	// File is what files are named after.
	File string
}

// OutAndBack tells that the plan is sewn in two passes.
func (j Job) OutAndBack() bool {
	return len(j.Desk.Choices) > 0 && j.Desk.Choices[j.Desk.Pick].Second > 0
}

// Kind tells what is on a card.
type Kind string

// Form is the form of a file.
type Form string

// The cards and their forms.
const (
	RouteCard    Kind = "route"
	TemplateCard Kind = "template"
	PassesCard   Kind = "passes"
	// JobCard is the whole job on one page, StageCard one stage of it, AllCards the job
	// with all its stages.
	JobCard   Kind = "job"
	StageCard Kind = "stage"
	AllCards  Kind = "all"

	AsPDF Form = "pdf"
	AsPNG Form = "png"
	AsSVG Form = "svg"
)

// File is a card as a file.
type File struct {
	Name, Type string
	Data       []byte
	// Pages is how many it has.
	Pages int
}

// Make makes a card. The error says what there is no such card of.
func Make(j Job, what Kind, as Form) (File, error) {
	pages, err := layOut(j, what, as)
	if err != nil {
		return File{}, err
	}
	title, part := j.Name, string(what)
	switch what {
	case JobCard, AllCards:
		title = j.Whole.Quilt.Name
	case StageCard:
		title, part = j.Whole.Quilt.Name, j.Whole.StageCode(j.Stage)
	}
	f := File{Name: fmt.Sprintf("%s-%s.%s", j.File, part, as), Pages: len(pages)}
	title += ": " + part
	switch as {
	case AsPDF:
		f.Type = "application/pdf"
		f.Data, err = PDF(title, pages)
	case AsPNG:
		f.Type = "image/png"
		f.Data, err = PNG(pages[0])
	case AsSVG:
		f.Type, f.Data = "image/svg+xml", SVG(title, pages[0])
	default:
		err = fmt.Errorf("no form of file is called %q", as)
	}
	return f, err
}

// layOut returns the pages of a card; a template that is no document for printing
// comes in one piece.
func layOut(j Job, what Kind, as Form) ([]Page, error) {
	switch what {
	case JobCard, StageCard, AllCards:
		return whole(j, what)
	}
	if j.ID == "" {
		return nil, fmt.Errorf("no route is planned")
	}
	switch what {
	case RouteCard:
		return []Page{Route(j)}, nil
	case PassesCard:
		pg, err := Passes(j)
		return []Page{pg}, err
	case TemplateCard:
		if as != AsPDF {
			return []Page{inOne(j)}, nil
		}
		return Template(j), nil
	}
	return nil, fmt.Errorf("no card is called %q", what)
}
