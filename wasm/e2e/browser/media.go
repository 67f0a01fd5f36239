package browser

import (
	"maps"
	"slices"

	"github.com/chromedp/cdproto/emulation"
)

// Media makes media features of CSS answer as asked for, such as forced-colors: active;
// all others as they are.
func (p *Page) Media(features map[string]string) {
	p.tb.Helper()
	var list []*emulation.MediaFeature
	for _, name := range slices.Sorted(maps.Keys(features)) {
		list = append(list, &emulation.MediaFeature{Name: name, Value: features[name]})
	}
	_, err := call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: list})
	p.must("set media features", err)
}
