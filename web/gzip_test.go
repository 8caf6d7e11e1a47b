package web

import (
	"compress/gzip"
	"io"
	"testing"
)

func TestPagesComeTheShorterWayToBrowsersThatTakeIt(t *testing.T) {
	s := newSite(t)
	plain := s.do("GET", "/layouts/rwd-longitudinal", nil)
	zipped := s.do("GET", "/layouts/rwd-longitudinal", nil, "Accept-Encoding", "gzip, br")
	if plain.Header().Get("Content-Encoding") != "" || zipped.Header().Get("Content-Encoding") != "gzip" {
		t.Fatalf("encodings %q and %q", plain.Header().Get("Content-Encoding"), zipped.Header().Get("Content-Encoding"))
	}
	size := zipped.Body.Len()
	reader, err := gzip.NewReader(zipped.Body)
	if err != nil {
		t.Fatal(err)
	}
	page, err := io.ReadAll(reader)
	if err != nil || string(page) != plain.Body.String() {
		t.Errorf("%d bytes unpacked, %d plain (%v)", len(page), plain.Body.Len(), err)
	}
	if 3*size > len(page) {
		t.Errorf("%d bytes for %d", size, len(page))
	}
	if paper := s.do("GET", "/cars/street-saloon/paper.pdf", nil, "Accept-Encoding", "gzip"); paper.Header().Get("Content-Encoding") != "" {
		t.Error("the paper, which is packed already, is packed again")
	}
}
