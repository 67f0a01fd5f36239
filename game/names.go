package game

import (
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
)

// What the places share, under the names of this package.
type (
	Sheet        = replay.Sheet
	Third        = place.Third
	Settings     = place.Settings
	Units        = place.Units
	Hand         = place.Hand
	Alike        = place.Alike
	Place        = place.Name
	Msg          = place.Msg
	Resized      = place.Resized
	Reads        = place.Reads
	SystemDark   = place.SystemDark
	SystemMotion = place.SystemMotion
	PointerKind  = place.PointerKind
	Pointer      = place.Pointer
	Frame        = place.Frame
	Control      = place.Control
	Interrupt    = place.Interrupt
	Listed       = place.Listed
	FetchFor     = place.FetchFor
	Fetched      = place.Fetched
	Saved        = place.Saved
	StorageOff   = place.StorageOff
	Persistence  = place.Persistence
	Effect       = place.Effect
	Save         = place.Save
	Delete       = place.Delete
	Restore      = place.Restore
	Fetch        = place.Fetch
	SaveSettings = place.SaveSettings
	Download     = place.Download
	Thing        = place.Thing
	Shelf        = place.Shelf
	Shelved      = place.Shelved
	Photo        = place.Photo
	Keep         = place.Keep
	Discard      = place.Discard
	FetchPhoto   = place.FetchPhoto
	Jot          = place.Jot
	Unjot        = place.Unjot
	Clashed      = place.Clashed
	Notice       = place.Notice
	Focus        = place.Focus
	View         = screen.View
	Screen       = screen.Screen
	Screens      = screen.Screens
)

const (
	MinFoot       = place.MinFoot
	MaxFoot       = place.MaxFoot
	HandFollows   = place.HandFollows
	NeedleFollows = place.NeedleFollows
	StitchFollows = place.StitchFollows
	Inches        = place.Inches
	Millimetres   = place.Millimetres
	RightHand     = place.RightHand
	LeftHand      = place.LeftHand
	QuiltPlan     = place.QuiltPlan
	Draw          = place.Draw
	RoutePlan     = place.RoutePlan
	Rehearse      = place.Rehearse
	LookBack      = place.LookBack
	Machine       = place.Machine
	Move          = place.Move
	Down          = place.Down
	Up            = place.Up
	Cancel        = place.Cancel
	ToOpen        = place.ToOpen
	ToCompare     = place.ToCompare
	ToMeasure     = place.ToMeasure
	ToPicture     = place.ToPicture
	DesignThing   = place.DesignThing
	QuiltThing    = place.QuiltThing
	CourseThing   = place.CourseThing
	WarmUpThing   = place.WarmUpThing
	MMPerInch     = place.MMPerInch
	CardLongMM    = screen.CardLongMM
	CardShortMM   = screen.CardShortMM
	MinCard       = screen.MinCard
	MaxCard       = screen.MaxCard
	MarginMM      = screen.MarginMM
	GuessPxPerMM  = screen.GuessPxPerMM
)

var (
	DefaultSettings = place.DefaultSettings
	DecodeSettings  = place.DecodeSettings
)
