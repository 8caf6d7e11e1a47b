package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"maps"
	"net/http"
	"path"
	"slices"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"layshaft/picture"
)

//go:embed static
var staticFiles embed.FS

// assets are the style sheets, scripts and typefaces. Their address carries a hash of them all, so that a browser may
// keep them for good and a new program is never shown with old ones.
type assets struct {
	version string
	files   map[string][]byte
}

var contentTypes = map[string]string{
	".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".ttf": "font/ttf", ".svg": "image/svg+xml",
}

func loadAssets() (*assets, error) {
	a := &assets{files: map[string][]byte{
		"picture.css": []byte(picture.StyleSheet()),
		"regular.ttf": goregular.TTF, // the typeface that pictures are measured with
		"bold.ttf":    gobold.TTF,
	}}
	entries, err := fs.ReadDir(staticFiles, "static")
	if err != nil {
		return nil, fmt.Errorf("static files: %w", err)
	}
	for _, entry := range entries {
		if a.files[entry.Name()], err = fs.ReadFile(staticFiles, "static/"+entry.Name()); err != nil {
			return nil, fmt.Errorf("static files: %w", err)
		}
	}
	hash := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(a.files)) {
		if contentTypes[path.Ext(name)] == "" {
			return nil, fmt.Errorf("static file %s: its kind is not known", name)
		}
		fmt.Fprintf(hash, "%s %d\n", name, len(a.files[name]))
		hash.Write(a.files[name])
	}
	a.version = hex.EncodeToString(hash.Sum(nil))[:12]
	return a, nil
}

// address is where a file is found. It panics where there is none: a template names a file that was not built in.
func (a *assets) address(name string) string {
	if _, there := a.files[name]; !there {
		panic("web: no static file " + name)
	}
	return "/static/" + a.version + "/" + name
}

func (a *assets) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("file")
	data, there := a.files[name]
	if !there {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", contentTypes[path.Ext(name)])
	if r.PathValue("version") == a.version {
		w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	}
	_, _ = w.Write(data) // a reader who has gone away needs no answer
}
