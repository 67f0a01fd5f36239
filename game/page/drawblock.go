package page

import (
	"unthreaded/game"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// Wrong says what is wrong with what was typed, by the field; empty for nothing.
type Wrong struct {
	Size   string `json:"size"`
	Margin string `json:"margin"`
	Pitch  string `json:"pitch"`
	Foot   string `json:"foot"`
	Photo  string `json:"photo"`
}

func wrongAt(d game.Drawing) Wrong {
	var w Wrong
	switch d.WrongField {
	case "width", "height":
		w.Size = d.Wrong
	case "margin":
		w.Margin = d.Wrong
	case "pitch":
		w.Pitch = d.Wrong
	case "foot":
		w.Foot = d.Wrong
	case "photo-width", "photo-height":
		w.Photo = d.Wrong
	}
	return w
}

// sizeText is a shape with its finished size: "square, 6 in".
func sizeText(s motif.Shape, inches bool) string {
	text := s.Kind.Name() + ", "
	if s.Kind == motif.Rectangle {
		text += words.Typed(s.W, inches) + " x " + words.Length(s.H, inches)
		return text
	}
	return text + words.Length(s.W, inches)
}
