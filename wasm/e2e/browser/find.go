package browser

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
)

// ErrNotInstalled tells that there is no Chromium on this machine.
var ErrNotInstalled = errors.New("no Chromium found: install it (on Debian: apt-get install chromium) or set CHROMIUM to the path of one")

// usualPlaces are the commands and files under which systems install Chromium
// and Chrome.
var usualPlaces = []string{
	"chromium",
	"chromium-browser",
	"google-chrome",
	"google-chrome-stable",
	"chrome",
	"/snap/bin/chromium",
	"/Applications/Chromium.app/Contents/MacOS/Chromium",
	"/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
	`C:\Program Files\Google\Chrome\Application\chrome.exe`,
}

// Find gives the path of the Chromium to test with: the one that CHROMIUM names,
// or the first in the usual places.
func Find() (string, error) {
	if named := os.Getenv("CHROMIUM"); named != "" {
		path, err := exec.LookPath(named)
		if err != nil {
			return "", fmt.Errorf("CHROMIUM names what cannot be run: %w", err)
		}
		return path, nil
	}
	for _, place := range usualPlaces {
		if path, err := exec.LookPath(place); err == nil {
			return path, nil
		}
	}
	return "", ErrNotInstalled
}
