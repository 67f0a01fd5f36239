// Package sewing says what is told of a plan, or of a whole quilt, at the machine: its figures
// and names, and how its template lies on sheets. Page and cards tell the same.
package sewing

import (
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
