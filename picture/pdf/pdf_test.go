package pdf_test

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"layshaft/picture"
	"layshaft/picture/pdf"
)

func page() *fpdf.Fpdf {
	doc := fpdf.New("L", "mm", "A4", "")
	doc.SetCompression(false) // so that tests can read the drawing
	doc.AddPage()
	return doc
}

func output(t *testing.T, doc *fpdf.Fpdf) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func loadPath(name string) *picture.Scene {
	return picture.LoadPath{
		Title: "Load path", Layout: picture.LongitudinalRear, Discs: 2,
		Parts: []picture.Part{
			{ID: picture.Pedal, Name: name, Numbers: []string{"206 N at the stop"}, Word: "heavy", Tone: picture.Near},
			{ID: picture.Disc, Name: "Discs", Numbers: []string{"933 N m"}, Word: "holds", Tone: picture.Fine},
		},
	}.Scene(picture.Wide)
}

// count tells how many texts and shapes a scene holds.
func count(items []picture.Item) (texts, shapes int) {
	for _, it := range items {
		switch it := it.(type) {
		case *picture.Group:
			t, s := count(it.Items)
			texts, shapes = texts+t, shapes+s
		case picture.Shape:
			shapes++
		case picture.Text:
			texts++
		}
	}
	return texts, shapes
}

func TestPaperShowsEverythingThatTheScreenDoes(t *testing.T) {
	s := loadPath("Pedal")
	doc := page()
	pdf.Draw(doc, s, 10, 10, 270)
	out := output(t, doc)
	texts, shapes := count(s.Root.Items)
	if got := len(regexp.MustCompile(`\) Tj`).FindAll(out, -1)); got != texts {
		t.Errorf("%d texts on paper, %d in the scene", got, texts)
	}
	if got := len(regexp.MustCompile(`(?m)^(S|f\*|B\*)$`).FindAll(out, -1)); got != shapes {
		t.Errorf("%d shapes on paper, %d in the scene", got, shapes)
	}
	if svg := s.Inline(); bytes.Count(svg, []byte("<path")) != shapes || bytes.Count(svg, []byte("<text")) != texts {
		t.Error("the page shows something else than the scene")
	}
}

func TestThePictureStandsWhereItIsPut(t *testing.T) {
	s := loadPath("Pedal")
	doc := page()
	height := pdf.Draw(doc, s, 20, 30, 200)
	if want := s.Height * 200 / s.Width; math.Abs(height-want) > 1e-9 || pdf.Height(s, 200) != height {
		t.Errorf("height %v, want %v", height, want)
	}
	const k, pageHeight = 72 / 25.4, 210.0
	for _, m := range regexp.MustCompile(`(?m)^(-?[\d.]+) (-?[\d.]+) [ml]$`).FindAllSubmatch(output(t, doc), -1) {
		x, _ := strconv.ParseFloat(string(m[1]), 64)
		y, _ := strconv.ParseFloat(string(m[2]), 64)
		x, y = x/k, pageHeight-y/k
		if x < 20-0.2 || x > 220+0.2 || y < 30-0.2 || y > 30+height+0.2 {
			t.Fatalf("a line reaches %.2f, %.2f mm", x, y)
		}
	}
}

func TestNamesThatTheTypefaceLacksDoNotStopThePaper(t *testing.T) {
	for _, name := range []string{"🔧 齿轮箱", "\u202e(\\) \x00", "Getriebe µ ± ² ×"} {
		doc := page()
		pdf.Draw(doc, loadPath(name), 10, 10, 200)
		pdf.Draw(doc, loadPath(name), 10, 110, 100)
		output(t, doc)
	}
}

func TestADocumentMayUseTheTypefaceItself(t *testing.T) {
	doc := page()
	pdf.AddFonts(doc)
	doc.SetFont(pdf.Family, "B", 11)
	doc.Text(20, 20, "Handover ± 1 mm")
	pdf.Draw(doc, loadPath("Pedal"), 10, 30, 200)
	doc.SetFont(pdf.Family, "", 11)
	doc.Text(20, 200, "after the picture")
	output(t, doc)
}
