package words

import "strings"

// Region returns the country of a language tag (BCP 47: language, script, region), in
// capitals; of English without one the United States, else "".
func Region(tag string) string {
	parts := strings.Split(tag, "-")
	for _, p := range parts[1:] {
		if len(p) == 2 {
			return strings.ToUpper(p)
		}
		if len(p) == 1 { // what follows is an extension
			break
		}
	}
	if strings.EqualFold(parts[0], "en") {
		return "US" // CLDR, likely subtags
	}
	return ""
}

// letterRegions print on Letter, all others on A4 (CLDR 48, paperSize); inchRegions measure
// in inches (CLDR 48, measurementSystem US).
const (
	letterRegions = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE"
	inchRegions   = "LR US"
)

// OnLetter tells whether who reads this language prints on Letter, not on A4.
func OnLetter(tag string) bool { return listed(letterRegions, Region(tag)) }

// InInches tells whether who reads this language measures quilts in inches: in the
// countries that measure so, and with English, since patterns in English do (common
// practice).
func InInches(tag string) bool {
	language, _, _ := strings.Cut(tag, "-")
	return strings.EqualFold(language, "en") || listed(inchRegions, Region(tag))
}

func listed(regions, one string) bool {
	return one != "" && strings.Contains(" "+regions+" ", " "+one+" ")
}
