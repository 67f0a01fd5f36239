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
	ChangeHand   Quantity = "hand"
	ChangeStitch Quantity = "stitch"
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
	// More tells that it is more than now: a faster hand, a longer stitch.
	More bool
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
	fast, spi := p.Wanted > n.Max, SPI(p.Stitch)
	p.Remedies = []Remedy{
		{Change: ChangeHand, To: p.Set * stitch / 60, Unit: "mm/s", More: !fast},
		{Change: ChangeStitch, To: p.Stitch, Unit: "mm", Usual: spi >= MinUsualSPI && spi <= MaxUsualSPI, More: fast},
	}
	return p, nil
}
