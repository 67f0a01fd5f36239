package machine

// MinUsualSPI and MaxUsualSPI are the stitches per inch of free motion (common
// practice).
const (
	MinUsualSPI = 8.0
	MaxUsualSPI = 12.0
)

// Quantity names what a remedy changes.
type Quantity string

// The quantities of a remedy.
const (
	ChangeHand   Quantity = "hand speed"
	ChangeStitch Quantity = "stitch length"
)

// Remedy is one change, by itself, that brings the needle speed within reach of
// the machine.
type Remedy struct {
	Change Quantity
	// To is the new value, in Unit: mm/s or mm.
	To   float64
	Unit string
	// Usual tells for a stitch length whether it is one of 8 to 12 per inch.
	Usual bool
	Text  string
}

// Pedal is the needle speed that fits a hand.
type Pedal struct {
	// Wanted is the needle speed in spm that makes the planned stitch at her hand
	// speed, Set the nearest that the machine can keep.
	Wanted, Set float64
	// Fits is true where they are the same; else Stitch is the length in mm that
	// her hand makes at Set, and Remedies say what to change.
	Fits     bool
	Stitch   float64
	Remedies []Remedy
}

// PedalFor returns the needle speed for her comfortable hand speed in mm/s and a
// planned stitch length in mm: 60 x hand / stitch. The speed wanted may lie beyond
// what any machine sews; Set never does.
func PedalFor(hand, stitch float64, n NeedleRange) (Pedal, error) {
	if err := checkAll(entry{hand, HandSpeed}, entry{stitch, StitchLength}); err != nil {
		return Pedal{}, err
	}
	if err := n.Validate(); err != nil {
		return Pedal{}, err
	}
	p := Pedal{Wanted: 60 * hand / stitch}
	p.Set = min(max(p.Wanted, n.Min), n.Max)
	p.Fits = p.Set == p.Wanted
	p.Stitch = stitch
	if p.Fits {
		return p, nil
	}
	p.Stitch = 60 * hand / p.Set
	slow, long := "Move the cloth more slowly.", "Let the stitches be longer."
	if p.Wanted < n.Min {
		slow, long = "Move the cloth faster.", "Let the stitches be shorter."
	}
	spi := SPI(p.Stitch)
	p.Remedies = []Remedy{
		{Change: ChangeHand, To: p.Set * stitch / 60, Unit: "mm/s", Text: slow},
		{Change: ChangeStitch, To: p.Stitch, Unit: "mm", Usual: spi >= MinUsualSPI && spi <= MaxUsualSPI, Text: long},
	}
	return p, nil
}
