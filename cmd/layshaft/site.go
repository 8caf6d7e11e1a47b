package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"os"
	"os/signal"
	"syscall"
	"time"

	"layshaft/examples"
	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/paper"
	"layshaft/store"
	"layshaft/web"
	"layshaft/workshop"
)

// site is the web app on one database.
type site struct {
	name     string // of the shop
	invented bool
	layouts  *library.Library
	db       *store.SQLite
	shop     *workshop.Shop
}

func openSite(ctx context.Context, path, name string, layouts *library.Library) (*site, error) {
	db, err := store.Open(ctx, path)
	if err != nil {
		return nil, err
	}
	return &site{name: name, layouts: layouts, db: db, shop: workshop.NewShop(db, jobfile.Reader{}, layouts, time.Now)}, nil
}

// lastAnswers is how long answers that are under way may take once the program was told to stop.
const lastAnswers = 5 * time.Second

// serve answers requests until ctx ends, then lets those under way finish. said is called once it answers.
func (s *site) serve(ctx context.Context, listener net.Listener, log io.Writer, said func(address string)) error {
	pages, err := web.New(web.Config{
		Shop: s.shop, ShopName: s.name, Examples: examples.Files, Paper: paper.ForCar(s.name), Now: time.Now, Invented: s.invented,
		Log: slog.New(slog.NewTextHandler(log, nil)),
	})
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	if isLoopback(listener.Addr().String()) {
		pages = onlyByOwnName(pages)
	}
	server := &http.Server{Handler: pages, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	said("http://" + listener.Addr().String() + "/")
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), lastAnswers)
	defer cancel()
	return server.Shutdown(last)
}

// untilTold ends when somebody presses Ctrl-C or the system asks the program to stop.
func untilTold() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
}

func isLoopback(address string) bool {
	at, err := netip.ParseAddrPort(address)
	return err == nil && at.Addr().Unmap().IsLoopback()
}

// onlyByOwnName answers only to a loopback address or to localhost. A page elsewhere that gets a browser to look its
// own name up as 127.0.0.1 is thus not let in.
func onlyByOwnName(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		address, err := netip.ParseAddr(host)
		if host != "localhost" && (err != nil || !address.Unmap().IsLoopback()) {
			http.Error(w, fmt.Sprintf("This program answers on this computer only, as localhost or 127.0.0.1, not as %q.", host), http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}
