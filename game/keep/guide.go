package keep

// The ways of moving.
const (
	// Pencil has the needle follow the pointer.
	Pencil = "pencil"
	// Cloth has the pointer move the cloth under a needle that stands still.
	Cloth = "cloth"
)

// What is marked of the line.
const (
	WholeLine = "line"
	DotsOnly  = "dots"
	EndsOnly  = "ends"
	NoMarks   = "none"
)

// How the ideal needle goes; NoLead is none.
const (
	NoLead    = ""
	LeadAhead = "ahead"
	LeadWaits = "waits"
)

// Guide is what helped the hand while a trace was made.
type Guide struct {
	// Marks are what was seen of the line, Lead how the ideal needle went.
	Marks string `json:"marks"`
	Lead  string `json:"lead,omitempty"`
	// CountIn tells of three beats before the start, Ticks of a tick at each stitch,
	// SpeedStrip of the hand's speed shown while it moved.
	CountIn    bool `json:"count_in,omitempty"`
	Ticks      bool `json:"ticks,omitempty"`
	SpeedStrip bool `json:"speed_strip,omitempty"`
	// Unnumbered tells that the dots had no numbers.
	Unnumbered bool `json:"unnumbered,omitempty"`
}

// UsualGuide is the whole line and nothing else, as all had who traced before the
// guide was noted.
func UsualGuide() Guide { return Guide{Marks: WholeLine} }

// Known returns the guide with what this version does not know left out.
func (g Guide) Known() Guide {
	switch g.Marks {
	case WholeLine, DotsOnly, EndsOnly, NoMarks:
	default:
		g.Marks = WholeLine
	}
	if g.Lead != LeadAhead && g.Lead != LeadWaits {
		g.Lead = NoLead
	}
	return g
}
