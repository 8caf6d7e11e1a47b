package web

import (
	"fmt"

	"layshaft/picture"
)

// toneClass is the class of a verdict's word; its mark and colour hang on it.
func toneClass(t picture.Tone) string {
	return map[picture.Tone]string{picture.Fine: "fine", picture.Near: "near", picture.Wrong: "wrong"}[t]
}

// word is a verdict with how good or bad news it is.
type word struct{ Text, Class string }

// table is a table as a page shows it: on a narrow screen every row becomes a block, each cell with its head.
type table struct {
	Caption string
	Head    []string
	Rows    []row
}

type row struct {
	Name  string
	Cells []cell
	Why   string // a sentence below the row
}

// cell is a text or a verdict.
type cell struct {
	Head string
	Text string
	Word word
}

// add appends a row; cells that are words are given as word, others as string.
func (t *table) add(name, why string, cells ...any) {
	r := row{Name: name, Why: why}
	for i, c := range cells {
		one := cell{Head: t.Head[i+1]}
		switch c := c.(type) {
		case string:
			one.Text = c
		case word:
			one.Word = c
		default:
			panic(fmt.Sprintf("web: a cell cannot hold a %T", c))
		}
		r.Cells = append(r.Cells, one)
	}
	t.Rows = append(t.Rows, r)
}

// drawing is a picture in both its arrangements; the style sheet shows the one that suits the screen.
type drawing struct{ Wide, Narrow *picture.Scene }

func draw(p interface {
	Scene(picture.Size) *picture.Scene
}) *drawing {
	return &drawing{p.Scene(picture.Wide), p.Scene(picture.Narrow)}
}
