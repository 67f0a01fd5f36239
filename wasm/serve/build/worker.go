package build

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// workerMark is the line of the service worker that the build replaces.
const workerMark = "const BUILD = { version: '', files: [] };"

// stampWorker puts the version and the names of the files that make up the page into
// the service worker of the site, if it has one. Left out are the worker itself,
// InfoFile, which the worker takes last, and the licences, which only few want.
func stampWorker(out, version string, names []string) error {
	file := filepath.Join(out, WorkerFile)
	script, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if bytes.Count(script, []byte(workerMark)) != 1 {
		return fmt.Errorf("it does not hold the line %q once", workerMark)
	}
	var files []string
	for _, name := range slices.Sorted(slices.Values(names)) {
		if name != WorkerFile && name != LicencesFile {
			files = append(files, name)
		}
	}
	list, err := json.Marshal(files)
	if err != nil {
		return err
	}
	stamped := fmt.Appendf(nil, "const BUILD = { version: %q, files: %s };", version, list)
	return os.WriteFile(file, bytes.Replace(script, []byte(workerMark), stamped, 1), 0o644)
}
