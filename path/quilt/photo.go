package quilt

import (
	"encoding/json"
	"fmt"

	"unthreaded/path/geom"
)

// Photo is the photo of the block that is drawn over. The picture itself is kept
// elsewhere, under its ID.
type Photo struct {
	ID string
	// Corners are the places in the picture, in pixels from its upper left, of the
	// corners of a rectangle in the world, clockwise from the upper left.
	Corners [4]geom.Point
	// WMM and HMM are the true sides of that rectangle in mm.
	WMM, HMM float64
	// Squared tells that the photo is squared up; Shown that it lies under the
	// drawing, at a share Strength of its own colours.
	Squared, Shown bool
	Strength       float64
}

// The range of the true sides of a photo's rectangle in mm.
const (
	MinPhotoSide = 10.0
	MaxPhotoSide = 3000.0
)

// photoDoc is a Photo as it is written: corners as pairs.
type photoDoc struct {
	ID       string        `json:"id"`
	Corners  [4][2]float64 `json:"corners_px"`
	W        float64       `json:"width_mm"`
	H        float64       `json:"height_mm"`
	Squared  bool          `json:"squared"`
	Shown    bool          `json:"shown"`
	Strength float64       `json:"strength"`
}

// MarshalJSON writes the corners as pairs of pixels.
func (p Photo) MarshalJSON() ([]byte, error) {
	doc := photoDoc{ID: p.ID, W: p.WMM, H: p.HMM, Squared: p.Squared, Shown: p.Shown, Strength: p.Strength}
	for i, c := range p.Corners {
		doc.Corners[i] = [2]float64{c.X, c.Y}
	}
	return json.Marshal(doc)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (p *Photo) UnmarshalJSON(data []byte) error {
	var doc photoDoc
	if err := strictly(data, &doc); err != nil {
		return err
	}
	*p = Photo{ID: doc.ID, WMM: doc.W, HMM: doc.H, Squared: doc.Squared, Shown: doc.Shown, Strength: doc.Strength}
	for i, c := range doc.Corners {
		p.Corners[i] = geom.Pt(c[0], c[1])
	}
	return nil
}

func (p Photo) validate() error {
	if p.ID == "" || len(p.ID) > MaxName {
		return fmt.Errorf("id: %d bytes, from 1 to %d are possible", len(p.ID), MaxName)
	}
	for i, c := range p.Corners {
		if !geom.Finite(c) {
			return fmt.Errorf("corners_px[%d]: %v is no place", i, c)
		}
	}
	for _, side := range []float64{p.WMM, p.HMM} {
		if !(side >= MinPhotoSide && side <= MaxPhotoSide) {
			return fmt.Errorf("size: %g mm, from %g to %g are possible", side, MinPhotoSide, MaxPhotoSide)
		}
	}
	if !(p.Strength >= 0 && p.Strength <= 1) {
		return fmt.Errorf("strength: %g is no share of 1", p.Strength)
	}
	return nil
}
