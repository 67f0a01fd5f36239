package build

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The worker names the version of the build and every file that the page needs, so
// that another build is another script.
func TestTheWorkerKnowsItsBuild(t *testing.T) {
	o := trial(t)
	worker := filepath.Join(o.Pages, WorkerFile)
	if err := os.WriteFile(worker, []byte("// kept\n"+workerMark+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	r := mustBuild(t, o)
	got := string(read(t, o.Out, WorkerFile))
	want := `const BUILD = { version: "` + r.Version + `", files: ["app.wasm","art/line.svg","index.html","wasm_exec.js"] };`
	if !strings.Contains(got, want) || !strings.HasPrefix(got, "// kept") {
		t.Errorf("the worker reads\n%s\nwant the line\n%s", got, want)
	}
	if again := mustBuild(t, o); again.Version != r.Version {
		t.Errorf("built again: version %s, was %s", again.Version, r.Version)
	}
	if err := os.WriteFile(worker, []byte("// no mark"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Site(t.Context(), o); err == nil || !strings.Contains(err.Error(), WorkerFile) {
		t.Errorf("a worker without the mark: error %v", err)
	}
}
