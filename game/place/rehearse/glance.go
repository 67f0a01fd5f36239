package rehearse

import (
	"fmt"
	"math"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/scene"
	"unthreaded/scoring"
)

// Glance is what is seen of a trace at once, beside the sentence: her best inch and her
// worst. All else comes with More.
type Glance struct {
	Seen bool     `json:"seen"`
	Inch []InchOf `json:"inches"`
	// More tells that all else is shown too; it is a word, as the page's attribute has it.
	More string `json:"more"`
	Open bool   `json:"open"`
	// Onward says after the first trace of all what comes next in the job.
	Onward string `json:"onward"`
}

// InchOf is an inch as the page draws it: its stitches as paths of SVG in mm, each kind for
// itself, and the holes between them.
type InchOf struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Count string `json:"count"`
	Short string `json:"short"`
	Piled string `json:"piled"`
	Near  string `json:"near"`
	Long  string `json:"long"`
	Holes string `json:"holes"`
}

// glance shows the trace on the cloth at a glance.
func (r Room) glance() Glance {
	g := Glance{More: "false", Open: r.more}
	if r.more {
		g.More = "true"
	}
	if r.Open == nil || r.Live != nil || r.Guessing() || r.Open.Unmeasured != nil {
		return g
	}
	g.Seen = true
	if len(r.Records) == 1 && !r.Leading() {
		g.Onward = r.Book().Say("rehearse.onward")
	}
	in := r.Open.Report.Inches
	if len(in.Best.Stitches) > 0 {
		g.Inch = []InchOf{r.inchOf("best", in.Best), r.inchOf("worst", in.Worst)}
	}
	return g
}

// holeMM is how far in mm a stitch keeps from the holes at its ends, where it is long
// enough; middleMM is the line on which an inch is drawn.
const (
	holeMM   = 0.45
	middleMM = 1.5
)

// inchOf lays the stitches of an inch end to end.
func (r Room) inchOf(id string, in scoring.Inch) InchOf {
	var paths [4]strings.Builder
	const piled, holes = 2, 3
	kinds := map[scene.Size]int{scene.Short: 0, scene.Near: 1}
	var long strings.Builder
	planned, x := r.Settings.StitchMM, 0.0
	dot := func(b *strings.Builder, x float64) { fmt.Fprintf(b, "M%.2f %.1fh0", x, middleMM) }
	for _, mm := range in.Stitches {
		dot(&paths[holes], x)
		size := scene.SizeOf(mm, planned)
		to := &long
		if size != scene.Long {
			to = &paths[kinds[size]]
		}
		if mm < planned*scene.PileShare {
			dot(&paths[piled], x+mm/2)
		} else {
			gap := math.Min(holeMM, mm/4)
			fmt.Fprintf(to, "M%.2f %.1fh%.2f", x+gap, middleMM, mm-2*gap)
		}
		x += mm
	}
	dot(&paths[holes], x)
	b := r.Book()
	return InchOf{
		ID: id, Name: b.Say("rehearse.inch."+id, r.Inches()), Count: b.Say("rehearse.inch-count", stitch(x/float64(len(in.Stitches)))),
		Short: paths[0].String(), Near: paths[1].String(), Piled: paths[piled].String(), Long: long.String(), Holes: paths[holes].String(),
	}
}

// moreAsked shows all that is known of the trace, or only the glance again.
func (r Room) moreAsked() (Room, []place.Effect) {
	r.more = !r.more
	return r, nil
}
