package back

import (
	"strconv"
	"strings"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// valueName puts a value of a filter into words.
func valueName(k weeks.Filter, v string) any {
	switch {
	case k == weeks.Size:
		text, guessed := strings.CutSuffix(v, "?")
		share, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return v
		}
		return words.Of("back.size", text == "100", words.Share(share/100), guessed)
	case k == weeks.Row:
		row, err := strconv.Atoi(v)
		if err != nil || row != 0 {
			return v
		}
		return words.Of("back.one-line")
	case !words.Has("back.value." + string(k) + "." + v):
		return v
	}
	return words.Of("back.value." + string(k) + "." + v)
}

// like says what the traces that are compared have in common.
func like(f weeks.Found) words.Msg {
	if len(f.By) == 0 {
		return words.Msg{}
	}
	help := valueName(weeks.Help, f.By[weeks.Help])
	if f.Motif == "" {
		return words.Of("back.like-usual", f.Alike, help)
	}
	row := valueName(weeks.Row, f.By[weeks.Row])
	if f.By[weeks.Row] != "0" {
		row = words.Of("back.in-the-row", f.By[weeks.Row])
	}
	return words.Of("back.like", f.Alike, row, valueName(weeks.Way, f.By[weeks.Way]), valueName(weeks.Device, f.By[weeks.Device]),
		valueName(weeks.Size, f.By[weeks.Size]), help)
}

// guided says what traces with help can and cannot tell.
func guided(f weeks.Found) words.Msg {
	if h := f.By[weeks.Help]; h == "" || h == string(progress.None) {
		return words.Msg{}
	}
	return words.Of("back.guided")
}
