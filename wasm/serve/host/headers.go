package host

import (
	"net"
	"net/http"
	"path"
	"strings"

	"unthreaded/wasm/serve/build"
)

// setSecurity adds what every answer carries; see build.Headers.
func setSecurity(h http.Header) {
	for _, line := range build.Headers() {
		h.Set(line.Name, line.Value)
	}
}

// Local answers only what is asked of this computer by one of its own names: a page
// elsewhere whose name was made to lead here (DNS rebinding) gets nothing.
func Local(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := r.Host
		if host, _, err := net.SplitHostPort(name); err == nil {
			name = host
		}
		if ip := net.ParseIP(strings.Trim(name, "[]")); name != "localhost" && (ip == nil || !ip.IsLoopback()) {
			http.Error(w, "this server answers for this computer alone", http.StatusMisdirectedRequest)
			return
		}
		h.ServeHTTP(w, r)
	})
}

// contentTypes gives the registered types of what a site may hold. Package mime
// is not asked, because its answers depend on the machine.
var contentTypes = map[string]string{
	".css":         "text/css; charset=utf-8",
	".gif":         "image/gif",
	".html":        "text/html; charset=utf-8",
	".ico":         "image/vnd.microsoft.icon",
	".jpg":         "image/jpeg",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".mjs":         "text/javascript; charset=utf-8",
	".pdf":         "application/pdf",
	".png":         "image/png",
	".svg":         "image/svg+xml",
	".txt":         "text/plain; charset=utf-8",
	".wasm":        "application/wasm",
	".webmanifest": "application/manifest+json",
	".webp":        "image/webp",
	".woff2":       "font/woff2",
}

func contentType(name string) string {
	if t, ok := contentTypes[path.Ext(name)]; ok {
		return t
	}
	return "application/octet-stream"
}
