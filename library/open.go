package library

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"

	"layshaft/yamlfile"
)

//go:embed layouts/*.yaml
var layoutFiles embed.FS

// Folder is a place with layouts: every file in it that ends in .yaml or .yml, not in folders inside it. A file named
// findings.yaml holds the shop's findings instead.
type Folder struct {
	Name  string // that stands before the file's in messages
	Files fs.FS
}

// Library finds layouts by name. It is safe for use from several goroutines.
type Library struct {
	own      []*Layout
	findings *Findings
}

// builtin reads each embedded layout once, when it is first asked for; a fault in one is a fault of the program.
var builtin = func() map[string]func() *Layout {
	files, err := layoutFiles.ReadDir("layouts")
	if err != nil {
		panic("library: " + err.Error())
	}
	readers := map[string]func() *Layout{}
	for _, file := range files {
		name := strings.TrimSuffix(file.Name(), ".yaml")
		readers[name] = sync.OnceValue(func() *Layout { return loadBuiltin(name) })
	}
	return readers
}()

// loadBuiltin reads the embedded layout that is named as its file is.
func loadBuiltin(name string) *Layout {
	data, err := layoutFiles.ReadFile("layouts/" + name + ".yaml")
	if err != nil {
		panic("library: " + err.Error())
	}
	layout, err := Load("built-in/"+name+".yaml", data)
	if err != nil {
		panic("library: " + err.Error())
	}
	if layout.Name != name {
		panic(fmt.Sprintf("library: built-in/%s.yaml holds layout %q", name, layout.Name))
	}
	return layout
}

// Builtin holds the generic layouts alone.
func Builtin() *Library { return &Library{} }

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
	library := &Library{own: own}
	var err error
	library.findings, err = findingsIn(folders, library)
	if err != nil {
		return nil, err
	}
	return library, nil
}

// names lists the layouts there are, in order.
func (l *Library) names() []string {
	names := slices.Collect(maps.Keys(builtin))
	for _, layout := range l.own {
		names = append(names, layout.Name)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// Layouts lists all layouts by name.
func (l *Library) Layouts() []*Layout {
	var all []*Layout
	for _, name := range l.names() {
		all = append(all, l.find(name))
	}
	return all
}

// Layout finds a layout by the name in its layout key.
func (l *Library) Layout(name string) (*Layout, error) {
	if layout := l.find(name); layout != nil {
		return layout, nil
	}
	names := l.names()
	if near := yamlfile.Nearest(name, names); near != "" {
		return nil, fmt.Errorf("no layout is called %q; did you mean %q?", name, near)
	}
	return nil, fmt.Errorf("no layout is called %q; there are %s", name, strings.Join(names, ", "))
}

func (l *Library) find(name string) *Layout {
	for _, layout := range l.own {
		if layout.Name == name {
			return layout
		}
	}
	if read, there := builtin[name]; there {
		return read()
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
		if !entry.Type().IsRegular() && entry.Type()&fs.ModeSymlink == 0 || !isYAML(entry.Name()) || entry.Name() == findingsFile {
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
