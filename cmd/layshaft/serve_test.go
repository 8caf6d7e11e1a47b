package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// running starts a command that serves, reads the address that it prints, and returns what ends it.
func running(t testing.TB, serve func(context.Context, console) error) (address string, end func() error) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	out, printed := io.Pipe()
	done := make(chan error, 1)
	go func() {
		err := serve(ctx, console{printed, io.Discard})
		printed.CloseWithError(io.EOF)
		done <- err
	}()
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		stop()
		t.Fatalf("nothing was printed: %v", <-done)
	}
	address, _, _ = strings.Cut(strings.TrimPrefix(line, "Layshaft is at "), " ")
	return strings.TrimSuffix(address, "/"), func() error { stop(); return <-done }
}

func get(t testing.TB, address string) string {
	t.Helper()
	response, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	page, err := io.ReadAll(response.Body)
	if err != nil || response.StatusCode != http.StatusOK {
		t.Fatalf("status %d (%v): %.200s", response.StatusCode, err, page)
	}
	return string(page)
}

func TestDemoServesAndLeavesNothingBehind(t *testing.T) {
	scratch := t.TempDir()
	t.Setenv("TMPDIR", scratch)
	demo := demoCommand{Host: "127.0.0.1"}
	address, end := running(t, demo.serve)
	if page := get(t, address+"/"); !strings.Contains(page, "Corrie S4 saloon") {
		t.Errorf("the page is %.300s", page)
	}
	if err := end(); err != nil {
		t.Fatal(err)
	}
	if left, err := os.ReadDir(scratch); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
}

func TestWhatIsEnteredInTheDemosFolderIsThereTheNextTime(t *testing.T) {
	demo := demoCommand{Host: "127.0.0.1", Data: filepath.Join(t.TempDir(), "kept")}
	address, end := running(t, demo.serve)
	form := strings.NewReader("seen=3&deed=d1&note=The+tape+measure+is+in+ramp+3")
	response, err := http.Post(address+"/cars/street-saloon/note", "application/x-www-form-urlencoded", form)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	if err := end(); err != nil {
		t.Fatal(err)
	}
	address, end = running(t, demo.serve)
	if page := get(t, address+"/cars/street-saloon"); !strings.Contains(page, "The tape measure is in ramp 3") {
		t.Error("the note is gone")
	}
	if err := end(); err != nil {
		t.Fatal(err)
	}
}

// A page elsewhere that has its own name looked up as 127.0.0.1 must not get at the shop through a browser.
func TestOnThisComputerOnlyOwnNamesAreAnswered(t *testing.T) {
	demo := demoCommand{Host: "127.0.0.1"}
	address, end := running(t, demo.serve)
	for host, want := range map[string]int{"evil.example": http.StatusMisdirectedRequest, "evil.example:80": http.StatusMisdirectedRequest, "localhost": 200, "127.0.0.1": 200, "[::1]:80": 200} {
		request, err := http.NewRequest("GET", address+"/layouts", nil)
		if err != nil {
			t.Fatal(err)
		}
		request.Host = host
		response, err := http.DefaultClient.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		response.Body.Close()
		if response.StatusCode != want {
			t.Errorf("asked as %s: status %d, want %d", host, response.StatusCode, want)
		}
	}
	if err := end(); err != nil {
		t.Fatal(err)
	}
}

func TestServeKeepsTheShopsOwnPeople(t *testing.T) {
	db := "sqlite:" + filepath.Join(t.TempDir(), "data", "shop.db")
	serve := serveCommand{DB: db, Listen: "127.0.0.1:0", Owner: "Ada Pike", Shop: "Pike's"}
	address, end := running(t, serve.serve)
	if page := get(t, address+"/"); !strings.Contains(page, "Ada Pike, owner") || strings.Contains(page, "invented") {
		t.Errorf("the page is %.400s", page)
	}
	if err := end(); err != nil {
		t.Fatal(err)
	}
	again := serveCommand{DB: db, Listen: "127.0.0.1:0", Shop: "Pike's"}
	address, end = running(t, again.serve)
	get(t, address+"/")
	if err := end(); err != nil {
		t.Fatal(err)
	}
}

func TestServeRefusesInWords(t *testing.T) {
	sqlite := "sqlite:" + filepath.Join(t.TempDir(), "shop.db")
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	for name, c := range map[string]struct {
		args []string
		want string
	}{
		"no owner":  {[]string{"--db", sqlite, "--listen", "127.0.0.1:0"}, `layshaft serve --owner "Ida Marsh"`},
		"network":   {[]string{"--db", sqlite, "--listen", "0.0.0.0:0", "--owner", "Ada"}, "there is no sign-in yet"},
		"postgres":  {[]string{"--db", "postgres://localhost/shop", "--listen", "127.0.0.1:0"}, "PostgreSQL is not built yet"},
		"no kind":   {[]string{"--db", "shop.db", "--listen", "127.0.0.1:0"}, "sqlite:layshaft-data/shop.db"},
		"taken":     {[]string{"--db", sqlite, "--listen", taken.Addr().String()}, "cannot answer on " + taken.Addr().String()},
		"no folder": {[]string{"--db", sqlite, "--listen", "127.0.0.1:0", "--layouts", filepath.Join(t.TempDir(), "nothing")}, "layout folder"},
	} {
		t.Run(name, func(t *testing.T) {
			status, out, refusal := call(t, append([]string{"serve"}, c.args...)...)
			if status != exitBadInput || !strings.Contains(refusal, c.want) || out != "" {
				t.Errorf("status %d, %q, %q", status, refusal, out)
			}
		})
	}
}

func TestThePaperOfTheRealShopIsAPDF(t *testing.T) {
	demo := demoCommand{Host: "127.0.0.1"}
	address, end := running(t, demo.serve)
	if paper := get(t, address+"/cars/track-coupe/paper.pdf"); !strings.HasPrefix(paper, "%PDF-") || !bytes.HasSuffix(bytes.TrimSpace([]byte(paper)), []byte("%%EOF")) {
		t.Errorf("%d bytes beginning %.8q", len(paper), paper)
	}
	if err := end(); err != nil {
		t.Fatal(err)
	}
}

// BenchmarkDemoStart is the time from the start of the demo, its database still to be filled, until it answers.
func BenchmarkDemoStart(b *testing.B) {
	for b.Loop() {
		demo := demoCommand{Host: "127.0.0.1"}
		_, end := running(b, demo.serve)
		b.StopTimer()
		if err := end(); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
}
