package place

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/sketch"
)

// Settings are what the person has set; they are kept from visit to visit.
type Settings struct {
	Motif string `json:"motif"`
	// Repeats is the number of repeats in the row; 0 means as many as fit.
	Repeats int `json:"repeats"`
	// SPM is the needle speed in stitches per minute.
	SPM float64 `json:"spm"`
	// StitchMM is the planned stitch length in mm.
	StitchMM float64 `json:"stitch_mm"`
	Units    Units   `json:"units"`
	// Hand is the drawing hand; the controls stand on the other side.
	Hand Hand `json:"hand"`
	// Lang is the language that she chose, "" for that of the browser.
	Lang words.Lang `json:"lang,omitempty"`
	// Theme is "light", "dark" or "auto", which follows the system.
	Theme string `json:"theme"`
	// Fabric is the pair of thread and cloth that she chose, "" for that of the page.
	Fabric look.Theme `json:"fabric,omitempty"`
	// FootMM is the distance from the needle to the edge of a ruler along the foot.
	FootMM float64 `json:"foot_mm"`

	// Follows is which of stitch length, needle speed and hand speed follows from
	// the other two.
	Follows Third `json:"follows"`
	// Way is the way of moving, Guide what helps the hand, Volume from 0 to 1 that of
	// the ticks.
	Way    string     `json:"way"`
	Guide  keep.Guide `json:"guide"`
	Volume float64    `json:"volume"`
	// Screens are the screens whose true size is known.
	Screens screen.Screens `json:"screens"`
	// Ditch tells that the seams of a top count as stitched.
	Ditch bool `json:"ditch"`
	// Place is where the last visit ended, "" for none before.
	Place Name `json:"place,omitempty"`
	// Alike is what she asked traces that are looked back on to have in common.
	Alike Alike `json:"alike"`
	// Quilt is the ID of the quilt that lay on the table last, "" for none.
	Quilt string `json:"quilt,omitempty"`
	// Visited tells that the quilt of the first visit has been shown and kept.
	Visited bool `json:"visited"`
}

// Units are the units that lengths are shown in.
type Units string

// Hand is the hand that holds the pointer.
type Hand string

// The units and the hands.
const (
	Inches      Units = "in"
	Millimetres Units = "mm"
	RightHand   Hand  = "right"
	LeftHand    Hand  = "left"
)

// MMPerInch is exact (international yard and pound agreement, 1959).
const MMPerInch = screen.MMPerInch

// DefaultSettings are 10 stitches per inch at 600 stitches a minute: one inch a
// second.
func DefaultSettings() Settings {
	return Settings{
		Motif: "linked-swirls", SPM: 600, StitchMM: MMPerInch / 10,
		Units: Inches, Hand: RightHand, Theme: "auto", FootMM: sketch.FootOffset,
		Follows: HandFollows, Way: keep.Pencil, Guide: keep.UsualGuide(), Volume: 0.5,
	}
}

// Encode returns the settings as a document to keep.
func (s Settings) Encode() []byte {
	b, err := json.Marshal(s)
	if err != nil {
		// Only numbers that are not finite could fail, and these are refused when set.
		panic(fmt.Sprintf("settings: %v", err))
	}
	return b
}

// DecodeSettings reads a kept document; what is missing or out of range takes the
// default.
func DecodeSettings(doc []byte) Settings {
	s, d := DefaultSettings(), DefaultSettings()
	if len(doc) == 0 || json.Unmarshal(doc, &s) != nil {
		return d
	}
	s.SPM = ClampOr(s.SPM, machine.NeedleSpeed.Min, machine.NeedleSpeed.Max, d.SPM)
	s.StitchMM = ClampOr(s.StitchMM, machine.StitchLength.Min, machine.StitchLength.Max, d.StitchMM)
	s.FootMM = ClampOr(s.FootMM, MinFoot, MaxFoot, d.FootMM)
	if s.Units != Inches && s.Units != Millimetres {
		s.Units = d.Units
	}
	if s.Hand != RightHand && s.Hand != LeftHand {
		s.Hand = d.Hand
	}
	if !slices.Contains(words.Languages(), s.Lang) {
		s.Lang = d.Lang
	}
	if s.Theme != "light" && s.Theme != "dark" {
		s.Theme = "auto"
	}
	if !slices.Contains(look.Fabrics, s.Fabric) {
		s.Fabric = d.Fabric
	}
	if s.Follows != NeedleFollows && s.Follows != StitchFollows {
		s.Follows = d.Follows
	}
	if s.Way != keep.Cloth {
		s.Way = d.Way
	}
	s.Guide = s.Guide.Known()
	s.Volume = ClampOr(s.Volume, 0, 1, d.Volume)
	return s
}

// ClampOr returns v within [lo, hi], or def where v is no number.
func ClampOr(v, lo, hi, def float64) float64 {
	if math.IsNaN(v) {
		return def
	}
	return math.Max(lo, math.Min(hi, v))
}

// Alike holds the values of the filters she asked for where traces are looked back on;
// empty is what can be judged best. A value that no trace has waits until one has it.
type Alike struct {
	Row    string `json:"row,omitempty"`
	Way    string `json:"way,omitempty"`
	Device string `json:"device,omitempty"`
	Help   string `json:"help,omitempty"`
	Size   string `json:"size,omitempty"`
}

// The range of the distance from the needle to the edge of a ruler in mm.
const MinFoot, MaxFoot = 1.0, 20.0
