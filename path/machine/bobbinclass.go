package machine

import "fmt"

// BobbinClass is a class of bobbins by the trade's name for it. Which one a
// machine takes, its manual says; a bobbin of another class must not be tried.
type BobbinClass struct {
	ID, Name string
	// Length is about what a full bobbin holds, wound at home, in mm of thread of
	// weight 50. The figures are from memory and approximate: they differ by a
	// quarter with thread and winding. A bobbin of one's own, wound and run out
	// once along a known line, gives a better one.
	Length float64
}

// BobbinWeight is the thread weight for which BobbinClasses states lengths.
const BobbinWeight = 50.0

// BobbinClasses returns the classes met in domestic and mid-arm machines.
func BobbinClasses() []BobbinClass {
	return []BobbinClass{
		{"15", "Class 15", 60000},
		{"66", "Class 66", 55000},
		{"L", "Class L", 50000},
		{"M", "Class M", 100000},
	}
}

// FindBobbin returns the class with the given ID.
func FindBobbin(id string) (BobbinClass, error) {
	for _, b := range BobbinClasses() {
		if b.ID == id {
			return b, nil
		}
	}
	return BobbinClass{}, fmt.Errorf("no bobbin class is called %q; known are 15, 66, L and M", id)
}

// Of returns about what a full bobbin holds, in mm, of thread of another weight.
// The weight number is the length for a mass, and thread wound alike fills the same
// room with the same mass.
func (b BobbinClass) Of(weight float64) (float64, error) {
	if err := ThreadWeight.Check(weight); err != nil {
		return 0, err
	}
	return b.Length * weight / BobbinWeight, nil
}
