package library

import (
	"cmp"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"layshaft/yamlfile"
)

//go:embed layouts/*.yaml
var layoutFiles embed.FS

// Folder is a place with layouts: every file in it that ends in .yaml or .yml, not in folders inside it.
type Folder struct {
	Name  string // that stands before the file's in messages
	Files fs.FS
}

// Library finds layouts by name. It does not change after Open.
type Library struct{ layouts []*Layout }

// builtin reads the embedded layouts once; a fault in them is a fault of the program.
var builtin = sync.OnceValue(func() []*Layout {
	files, err := fs.Sub(layoutFiles, "layouts")
	if err != nil {
		panic("library: " + err.Error())
	}
	layouts, err := layoutsIn(Folder{"built-in", files})
	if err != nil {
		panic("library: " + err.Error())
	}
	return layouts
})

// Builtin holds the generic layouts alone.
func Builtin() *Library { return &Library{builtin()} }

// Open holds the layouts of a shop's folders and, behind them, the built-in ones: a shop's layout stands in for a
// built-in one of the same name. Two layouts of one name in the shop's folders are an error, as is any file that
// cannot be read.
func Open(folders ...Folder) (*Library, error) {
	var own []*Layout
	var faults []error
	for _, folder := range folders {
		layouts, err := layoutsIn(folder)
		own = append(own, layouts...)
		faults = append(faults, err)
	}
	faults = append(faults, twice(own))
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	l := &Library{own}
	for _, layout := range builtin() {
		if l.find(layout.Name) == nil {
			l.layouts = append(l.layouts, layout)
		}
	}
	slices.SortFunc(l.layouts, func(a, b *Layout) int { return cmp.Compare(a.Name, b.Name) })
	return l, nil
}

// Layouts lists all layouts by name.
func (l *Library) Layouts() []*Layout { return slices.Clone(l.layouts) }

// Layout finds a layout by the name in its layout key.
func (l *Library) Layout(name string) (*Layout, error) {
	if layout := l.find(name); layout != nil {
		return layout, nil
	}
	names := make([]string, len(l.layouts))
	for i, layout := range l.layouts {
		names[i] = layout.Name
	}
	if near := yamlfile.Nearest(name, names); near != "" {
		return nil, fmt.Errorf("no layout is called %q; did you mean %q?", name, near)
	}
	return nil, fmt.Errorf("no layout is called %q; there are %s", name, strings.Join(names, ", "))
}

func (l *Library) find(name string) *Layout {
	for _, layout := range l.layouts {
		if layout.Name == name {
			return layout
		}
	}
	return nil
}

// layoutsIn loads what is in one folder, and tells of all files that cannot be loaded.
func layoutsIn(folder Folder) ([]*Layout, error) {
	entries, err := fs.ReadDir(folder.Files, ".")
	if err != nil {
		return nil, fmt.Errorf("layout folder %s: %w", folder.Name, err)
	}
	var layouts []*Layout
	var faults []error
	for _, entry := range entries {
		if entry.IsDir() || !isYAML(entry.Name()) {
			continue
		}
		file := path.Join(folder.Name, entry.Name())
		data, err := fs.ReadFile(folder.Files, entry.Name())
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", file, err))
			continue
		}
		layout, err := Load(file, data)
		if err != nil {
			faults = append(faults, err)
			continue
		}
		layouts = append(layouts, layout)
	}
	return layouts, errors.Join(faults...)
}

func isYAML(name string) bool {
	return strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

// twice tells of layouts that share a name.
func twice(layouts []*Layout) error {
	var faults []error
	first := map[string]string{}
	for _, layout := range layouts {
		if file, taken := first[layout.Name]; taken {
			faults = append(faults, fmt.Errorf("%s: layout %q is already in %s; give one of them another name", layout.File, layout.Name, file))
			continue
		}
		first[layout.Name] = layout.File
	}
	return errors.Join(faults...)
}
