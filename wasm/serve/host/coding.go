package host

import (
	"strconv"
	"strings"
)

// identity is the name of the plain form in HTTP.
const identity = "identity"

// choose picks the form that the client likes best by its Accept-Encoding lines
// (RFC 9110, 12.5.3); among equals the first of forms. It fails when the client
// has ruled out all of them. Without any line the plain form is given, since
// such clients rarely decode anything.
func choose(forms []form, lines []string) (form, bool) {
	if len(lines) == 0 {
		return forms[len(forms)-1], true
	}
	weights := parseWeights(lines)
	best, bestWeight := form{}, 0.0
	for _, f := range forms {
		if w := weight(weights, f.coding); w > bestWeight {
			best, bestWeight = f, w
		}
	}
	return best, bestWeight > 0
}

// unmentionedIdentity is the weight of the plain form when the client neither
// names nor excludes it: acceptable, but after all that it does name. The least
// weight that can be written is 0.001.
const unmentionedIdentity = 0.0005

// weight is what the client gives a coding, 0 for unacceptable.
func weight(weights map[string]float64, coding string) float64 {
	if w, ok := weights[coding]; ok {
		return w
	}
	star, ok := weights["*"]
	switch {
	case ok:
		return star
	case coding == identity:
		return unmentionedIdentity
	}
	return 0
}

// parseWeights reads "br, gzip;q=0.5" into weights by coding, in lower case.
// What cannot be read counts as not said.
func parseWeights(lines []string) map[string]float64 {
	weights := map[string]float64{}
	for _, item := range strings.Split(strings.Join(lines, ","), ",") {
		coding, params, _ := strings.Cut(item, ";")
		coding = strings.ToLower(strings.TrimSpace(coding))
		if coding == "" {
			continue
		}
		if coding == "x-gzip" { // to be taken as gzip, RFC 9110, 8.4.1.3
			coding = "gzip"
		}
		if q, ok := parseQuality(params); ok {
			weights[coding] = q
		}
	}
	return weights
}

// parseQuality reads the "q=0.5" behind a coding; nothing there means 1. The
// grammar (RFC 9110, 12.4.2) allows 0 to 1 with up to three decimals.
func parseQuality(params string) (float64, bool) {
	params = strings.ToLower(strings.TrimSpace(params))
	if params == "" {
		return 1, true
	}
	text, ok := strings.CutPrefix(params, "q=")
	if !ok || len(text) > len("0.000") || strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	q, err := strconv.ParseFloat(text, 64)
	return q, err == nil && q <= 1
}
