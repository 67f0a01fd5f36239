package machine

import "fmt"

// RulerThickness is what rulers may be entered with.
var RulerThickness = Range{"thickness of the ruler", "mm", 0.5, 20, 6}

// Question is something that only a maker or a manual can answer.
type Question struct{ Text, Why string }

// RulerQuestion returns what to ask before ruler work, with the thickness in mm as
// it was typed, or 0. It never says that a ruler fits.
func RulerQuestion(thickness float64) (Question, error) {
	q := Question{
		Text: "Is this ruler of the thickness that the maker of your ruler foot asks for, and does the foot suit the shank of your machine?",
		Why:  "Thicknesses differ between high and low shanks. Nobody but the makers can say what fits; a wrong pair can break the needle.",
	}
	if thickness == 0 {
		return q, nil
	}
	if err := RulerThickness.Check(thickness); err != nil {
		return Question{}, err
	}
	q.Text = fmt.Sprintf("Does the maker of your ruler foot name rulers of %s mm, and does the foot suit the shank of your machine?", number(thickness))
	return q, nil
}
