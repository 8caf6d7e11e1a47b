package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strconv"

	"layshaft/examples"
	"layshaft/library"
)

type demoCommand struct {
	Port int    `default:"0" help:"Port to answer on; 0 takes a free one."`
	Host string `default:"127.0.0.1" help:"Address to answer on. There is no sign-in: leave it at this computer unless you trust the network."`
	Data string `placeholder:"DIR" type:"path" help:"Keep what is entered in this folder; otherwise it goes when the demo ends."`
}

func (d *demoCommand) Run(c console) error {
	ctx, stop := untilTold()
	defer stop()
	return d.serve(ctx, c)
}

func (d *demoCommand) serve(ctx context.Context, c console) (err error) {
	folder := d.Data
	if folder == "" {
		if folder, err = os.MkdirTemp("", "layshaft-demo-"); err != nil {
			return err
		}
		defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	} else if err := os.MkdirAll(folder, 0o700); err != nil {
		return plain(err)
	}
	s, err := openDemo(ctx, folder)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.db.Close()) }()
	listener, err := net.Listen("tcp", net.JoinHostPort(d.Host, strconv.Itoa(d.Port)))
	if err != nil {
		return fmt.Errorf("cannot answer on %s port %d: %w", d.Host, d.Port, err)
	}
	return s.serve(ctx, listener, c.err, func(address string) {
		fmt.Fprintf(c.out, "Layshaft is at %s (an invented shop; Ctrl-C ends it)\n", address)
	})
}

// openDemo opens the demo's database in a folder, and enters the invented shop where there is none yet.
func openDemo(ctx context.Context, folder string) (*site, error) {
	s, err := openSite(ctx, filepath.Join(folder, "shop.db"), "Quarry Lane Driveline", library.Builtin())
	if err != nil {
		return nil, err
	}
	s.invented = true
	people, err := s.shop.People(ctx)
	if err == nil && len(people) == 0 {
		err = examples.Fill(ctx, s.shop)
	}
	if err != nil {
		return nil, errors.Join(err, s.db.Close())
	}
	return s, nil
}
