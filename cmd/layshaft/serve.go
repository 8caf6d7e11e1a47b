package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"

	"layshaft/library"
	"layshaft/workshop"
)

type serveCommand struct {
	DB           string   `name:"db" default:"sqlite:layshaft-data/shop.db" placeholder:"sqlite:PATH" help:"Where the shop's data is kept."`
	Listen       string   `default:"127.0.0.1:8080" placeholder:"HOST:PORT" help:"Address to answer on."`
	Owner        string   `placeholder:"NAME" help:"Name of the shop's owner, at the first start."`
	Shop         string   `default:"Layshaft" placeholder:"NAME" help:"Name of the shop, as the pages show it."`
	Layouts      []string `type:"path" placeholder:"DIR" help:"Folders with the shop's own layouts."`
	TrustNetwork bool     `help:"Answer beyond this computer although there is no sign-in: everybody on the network can then read and enter everything."`
}

func (s *serveCommand) Run(c console) error {
	ctx, stop := untilTold()
	defer stop()
	return s.serve(ctx, c)
}

func (s *serveCommand) serve(ctx context.Context, c console) (err error) {
	listener, err := s.listener()
	if err != nil {
		return err
	}
	site, err := s.open(ctx)
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	defer func() { err = errors.Join(err, site.db.Close()) }()
	return site.serve(ctx, listener, c.err, func(address string) {
		fmt.Fprintf(c.out, "Layshaft is at %s (there is no sign-in yet; Ctrl-C ends it)\n", address)
	})
}

// listener takes the address first, so that a second program on it changes nothing.
func (s *serveCommand) listener() (net.Listener, error) {
	listener, err := net.Listen("tcp", s.Listen)
	if err != nil {
		return nil, fmt.Errorf("cannot answer on %s: %w", s.Listen, err)
	}
	if !s.TrustNetwork && !isLoopback(listener.Addr().String()) {
		return nil, errors.Join(fmt.Errorf("%s is open to the network, and there is no sign-in yet: whoever reaches it can read and enter everything. "+
			"Listen on 127.0.0.1, or add --trust-network if only the shop's own people are on that network", s.Listen), listener.Close())
	}
	return listener, nil
}

// open opens the shop's database; at the first start it enters the owner.
func (s *serveCommand) open(ctx context.Context) (*site, error) {
	path, err := sqlitePath(s.DB)
	if err != nil {
		return nil, err
	}
	var folders []library.Folder
	for _, name := range s.Layouts {
		folders = append(folders, library.Folder{Name: name, Files: os.DirFS(name)})
	}
	layouts, err := library.Open(folders...)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, plain(err)
	}
	site, err := openSite(ctx, path, s.Shop, layouts)
	if err != nil {
		return nil, err
	}
	if err := s.enterOwner(ctx, site); err != nil {
		return nil, errors.Join(err, site.db.Close())
	}
	return site, nil
}

// sqlitePath is the file that --db names.
func sqlitePath(db string) (string, error) {
	kind, path, _ := strings.Cut(db, ":")
	switch {
	case kind == "sqlite" && path != "":
		return path, nil
	case kind == "postgres" || kind == "postgresql":
		return "", errors.New("--db postgres: keeping the shop's data in PostgreSQL is not built yet; use --db sqlite:PATH")
	}
	return "", fmt.Errorf("--db %q names no database; write for example sqlite:layshaft-data/shop.db", db)
}

func (s *serveCommand) enterOwner(ctx context.Context, site *site) error {
	people, err := site.shop.People(ctx)
	if err != nil || len(people) > 0 {
		return err
	}
	if strings.TrimSpace(s.Owner) == "" {
		return errors.New(`nobody works in this shop yet; say who owns it, for example: layshaft serve --owner "Ida Marsh"`)
	}
	return site.shop.AddPerson(ctx, workshop.Person{}, workshop.Person{ID: "owner", Name: strings.TrimSpace(s.Owner)})
}
