package place

// Things that are kept besides traces and settings, each a JSON document, told
// apart by what they are.
const (
	DesignThing = "design"
	QuiltThing  = "quilt"
	CourseThing = "course"
	WarmUpThing = "warm-up"
	// What she decided about the order in which a quilt is sewn, and what is sewn so
	// far, each kept beside its quilt.
	ChoicesThing = "order"
	SewnThing    = "sewn"
)

// Thing is a kept document.
type Thing struct {
	Kind, ID string
	Doc      []byte
}

// Shelf brings all kept things when the visit begins.
type Shelf struct{ Things []Thing }

// Shelved tells how keeping or discarding a thing went; Err is empty for well.
type Shelved struct {
	Kind, ID string
	Err      Why
}

// Photo brings the picture of a photo, W x H pixels, 4 bytes each (RGBA, not
// premultiplied), which was chosen with the control Name or fetched (Name is then
// empty). Err tells why there is none.
type Photo struct {
	Name, ID string
	W, H     int
	Pix      []byte
	Err      Why
}

func (Shelf) IsMsg()   {}
func (Shelved) IsMsg() {}
func (Photo) IsMsg()   {}

// Keep keeps a thing, over the one of the same kind and ID.
type Keep struct{ Thing Thing }

// Discard takes a thing off the shelf. To take that back, it is kept again.
type Discard struct{ Kind, ID string }

// FetchPhoto asks for the picture of a kept photo.
type FetchPhoto struct{ ID string }

func (Keep) IsEffect()       {}
func (Discard) IsEffect()    {}
func (FetchPhoto) IsEffect() {}
