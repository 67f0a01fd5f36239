package host

import (
	"net/http"
	"path"
	"strings"
)

// policy lets the page load nothing from elsewhere and send nothing away.
// 'wasm-unsafe-eval' permits compiling WebAssembly and no eval of text (Content
// Security Policy Level 3). Pictures may also come from memory: photos that the
// user opens and pictures that the page makes for download.
var policy = strings.Join([]string{
	"default-src 'self'",
	"script-src 'self' 'wasm-unsafe-eval'",
	"connect-src 'self'",
	"img-src 'self' blob: data:",
	"object-src 'none'",
	"base-uri 'none'",
	"form-action 'none'",
	"frame-ancestors 'none'",
}, "; ")

// setSecurity adds what every answer carries. The two cross-origin policies cut
// the page off from others, which gives it the finer clock: steps of 5 us instead
// of 100 us (W3C High Resolution Time, clock resolution).
func setSecurity(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Embedder-Policy", "require-corp")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
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
