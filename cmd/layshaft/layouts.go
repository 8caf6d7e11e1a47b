package main

import (
	"fmt"
	"os"

	"layshaft/library"
)

type layoutsCommand struct {
	Folder []string `type:"path" help:"Folders with the shop's own layouts."`
	Export string   `placeholder:"NAME" help:"Print this layout's file, to start your own from."`
}

func (l *layoutsCommand) Run(c console) error {
	var folders []library.Folder
	for _, name := range l.Folder {
		folders = append(folders, library.Folder{Name: name, Files: os.DirFS(name)})
	}
	layouts, err := library.Open(folders...)
	if err != nil {
		return err
	}
	if l.Export != "" {
		layout, err := layouts.Layout(l.Export)
		if err != nil {
			return err
		}
		_, err = c.out.Write(layout.Export())
		return err
	}
	for _, layout := range layouts.Layouts() {
		fmt.Fprintf(c.out, "%s  %s (%d operations, version %s)\n", layout.Name, layout.Title, len(layout.Operations), layout.Version())
		for _, job := range layout.Jobs {
			fmt.Fprintf(c.out, "    %-30s %s\n", job.Name, job.Title)
		}
	}
	return nil
}
