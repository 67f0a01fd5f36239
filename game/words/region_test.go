//go:build !js

package words_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/game/words"
)

// Paper and units of every country are those of the Unicode CLDR; English is read in inches
// everywhere.
func TestPaperAndUnitsOfCountries(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "testdata/cldr/measurementData.json"))
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Supplemental struct {
			MeasurementData struct{ MeasurementSystem, PaperSize map[string]string }
		}
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	data := doc.Supplemental.MeasurementData
	if len(data.PaperSize) < 10 || data.PaperSize["001"] != "A4" {
		t.Fatalf("the table of paper has %d rows", len(data.PaperSize))
	}
	for a := 'A'; a <= 'Z'; a++ {
		for b := 'A'; b <= 'Z'; b++ {
			country := string(a) + string(b)
			if got, want := words.OnLetter("es-"+country), data.PaperSize[country] == "US-Letter"; got != want {
				t.Errorf("%s prints on Letter: %v, want %v", country, got, want)
			}
			if got, want := words.InInches("es-"+country), data.MeasurementSystem[country] == "US"; got != want {
				t.Errorf("%s measures in inches: %v, want %v", country, got, want)
			}
		}
	}
	for tag, want := range map[string][2]bool{ // Letter, inches
		"en": {true, true}, "en-GB": {false, true}, "en-CA": {true, true}, "de": {false, false}, "de-AT": {false, false}, "fr-CA": {true, false},
		"es": {false, false}, "es-Latn-MX": {true, false}, "es-us": {true, true}, "pt-BR-u-ca-us": {false, false}, "": {false, false}, "de-x-us": {false, false},
	} {
		if got := [2]bool{words.OnLetter(tag), words.InInches(tag)}; got != want {
			t.Errorf("%q: Letter, inches %v, want %v", tag, got, want)
		}
	}
}
