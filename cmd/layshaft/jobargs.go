package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/workshop"
)

// largestFile is the most that is read of any file: no honest job file or dyno run comes near it.
const largestFile = 8 << 20

// jobArgs are what every command on a job file takes.
type jobArgs struct {
	File    string `arg:"" help:"Job file (YAML)."`
	JSON    bool   `name:"json" help:"Print one JSON object instead of text."`
	Check   bool   `help:"Exit with status 1 when the computed answer is no."`
	Seed    uint64 `default:"1" help:"Seed of the sampling."`
	Samples int    `default:"8192" help:"How many draws tell the chances."`
}

func (a *jobArgs) effort() (workshop.Effort, error) {
	if a.Samples < 100 || a.Samples > 10_000_000 {
		return workshop.Effort{}, fmt.Errorf("--samples %d: between 100 and 10000000 draws make sense", a.Samples)
	}
	effort := workshop.Thorough
	effort.Samples, effort.Seed = a.Samples, a.Seed
	return effort, nil
}

// load reads the job file, the files it names and the layouts it may use.
func (a *jobArgs) load() (*workshop.Job, *jobfile.Source, *library.Library, error) {
	text, err := readFile(a.File)
	if err != nil {
		return nil, nil, nil, err
	}
	folder := filepath.Dir(a.File)
	job, source, err := jobfile.Parse(a.File, text, func(name string) ([]byte, error) { return readFile(beside(folder, name)) })
	if err != nil {
		return nil, nil, nil, err
	}
	layouts, err := openLibrary(folder, job.Folders)
	if err != nil {
		return nil, nil, nil, source.Locate(err)
	}
	return job, source, layouts, nil
}

// openLibrary opens the shop's own layouts before the built-in ones.
func openLibrary(folder string, names []string) (*library.Library, error) {
	folders, err := libraryFolders(folder, names)
	if err != nil {
		return nil, err
	}
	return library.Open(folders...)
}

// reference opens the shop's own reference tables before the built-in ones.
func (a *jobArgs) reference(job *workshop.Job) (*library.Reference, error) {
	folders, err := libraryFolders(filepath.Dir(a.File), job.Folders)
	if err != nil {
		return nil, err
	}
	return library.OpenReference(folders...)
}

// libraryFolders are the shop's own folders as the job file names them.
func libraryFolders(folder string, names []string) ([]library.Folder, error) {
	var folders []library.Folder
	for i, name := range names {
		place := beside(folder, name)
		if info, err := os.Stat(place); err != nil || !info.IsDir() {
			return nil, &workshop.Fault{Key: fmt.Sprintf("library[%d]", i), Message: fmt.Sprintf("there is no folder %q beside the job file", name)}
		}
		folders = append(folders, library.Folder{Name: place, Files: os.DirFS(place)})
	}
	return folders, nil
}

func beside(folder, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(folder, name)
}

func readFile(name string) ([]byte, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, plain(err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, largestFile+1))
	if err != nil {
		return nil, plain(err)
	}
	if len(data) > largestFile {
		return nil, fmt.Errorf("%s: larger than %d MiB, which no file for this program is", name, largestFile>>20)
	}
	return data, nil
}

// plain says in the file's name and plain words what the operating system would not do.
func plain(err error) error {
	var path *fs.PathError
	switch {
	case !errors.As(err, &path):
		return err
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no such file", path.Path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: you may not read this file", path.Path)
	}
	return fmt.Errorf("%s: %v", path.Path, path.Err)
}

func printJSON(w io.Writer, answer any) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	return encoder.Encode(answer)
}
