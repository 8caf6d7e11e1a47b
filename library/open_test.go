package library

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

func files(texts map[string]string) Folder {
	m := fstest.MapFS{}
	for name, text := range texts {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return Folder{"own", m}
}

func named(name string) string { return strings.Replace(small, "layout: small", "layout: "+name, 1) }

func TestAShopsLayoutStandsBeforeTheBuiltIn(t *testing.T) {
	lib, err := Open(files(map[string]string{
		"ours.yaml": named("fwd-transverse"), "more.yml": named("three-wheeler"), "notes.txt": "not a layout", "old/fwd.yaml": "not read",
	}))
	if err != nil {
		t.Fatal(err)
	}
	if l, err := lib.Layout("fwd-transverse"); err != nil || l.File != "own/ours.yaml" || len(l.Jobs) != 2 {
		t.Errorf("got %+v, %v", l, err)
	}
	if l, err := lib.Layout("rwd-longitudinal"); err != nil || l.File != "built-in/rwd-longitudinal.yaml" {
		t.Errorf("got %+v, %v", l, err)
	}
	if got := len(lib.Layouts()); got != 6 {
		t.Errorf("%d layouts, expected the five with one replaced and one more", got)
	}
	if l, err := Builtin().Layout("fwd-transverse"); err != nil || l.File != "built-in/fwd-transverse.yaml" {
		t.Errorf("opening a shop's library changed the built-in one: %+v, %v", l, err)
	}
}

func TestOneNameTwiceInTheShopsFoldersIsRefused(t *testing.T) {
	other := files(map[string]string{"b.yaml": named("coupe")})
	other.Name = "other"
	_, err := Open(files(map[string]string{"a.yaml": named("coupe")}), other)
	if want := `other/b.yaml: layout "coupe" is already in own/a.yaml; give one of them another name`; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func TestAllBadFilesOfAFolderAreTold(t *testing.T) {
	_, err := Open(files(map[string]string{"a.yaml": "layout: a\n", "b.yaml": "- x\n", "c.yaml": named("good")}))
	if err == nil || !strings.Contains(err.Error(), "own/a.yaml:1:1: operations: is missing") || !strings.Contains(err.Error(), "own/b.yaml:1:1: the file is a list") {
		t.Errorf("got %v", err)
	}
}

func TestAFolderThatIsNotThereIsNamed(t *testing.T) {
	sub, err := fs.Sub(fstest.MapFS{}, "missing")
	if err != nil {
		t.Fatal(err)
	}
	_, err = Open(Folder{"my-layouts", sub})
	if !errors.Is(err, fs.ErrNotExist) || !strings.HasPrefix(err.Error(), "layout folder my-layouts: ") {
		t.Errorf("got %v", err)
	}
}

// Reading may fail after the folder was listed: the file is named and the cause kept.
func TestAFileThatCannotBeReadIsNamed(t *testing.T) {
	_, err := Open(Folder{"own", unreadable{files(map[string]string{"a.yaml": small}).Files}})
	if !errors.Is(err, fs.ErrPermission) || !strings.HasPrefix(err.Error(), "own/a.yaml: ") {
		t.Errorf("got %v", err)
	}
}

type unreadable struct{ fs.FS }

func (u unreadable) Open(name string) (fs.File, error) {
	if strings.HasSuffix(name, ".yaml") {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return u.FS.Open(name)
}

func TestAnUnknownLayoutIsRefusedWithTheNearest(t *testing.T) {
	for name, want := range map[string]string{
		"rwd-longitudnal": `no layout is called "rwd-longitudnal"; did you mean "rwd-longitudinal"?`,
		"steam":           `no layout is called "steam"; there are 4wd-longitudinal, 4wd-transverse, fwd-transverse, mid-transaxle, rwd-longitudinal`,
	} {
		if _, err := Builtin().Layout(name); err == nil || err.Error() != want {
			t.Errorf("got  %v\nwant %s", err, want)
		}
	}
}
