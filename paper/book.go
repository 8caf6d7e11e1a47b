package paper

import (
	"math"
	"slices"

	"layshaft/picture"
)

// The page, in mm.
const (
	pageWidth  = 210.0
	pageHeight = 297.0
	edge       = 8.0
	textWidth  = pageWidth - 2*edge
	columnGap  = 5.5
	halfWidth  = (textWidth - columnGap) / 2
	firstTop   = 10.0  // of the first page, which has its own head
	bodyTop    = 17.5  // of the others, below their head
	bodyBottom = 286.0 // above the foot
)

// book is the pages as they are being filled.
type book struct {
	*ruler
	*Sheet
	setting
	scenes map[string]*picture.Scene // the pictures, each made once whatever the setting
	pages  []leaf
	y      float64 // where the next block goes
	fresh  bool    // nothing stands on the page yet
}

// leaf is one page.
type leaf struct {
	title  string
	placed []placed
}

// placed is a block where it stands.
type placed struct {
	block
	x, y float64
}

// turn begins a new page.
func (b *book) turn(title string) {
	b.pages = append(b.pages, leaf{title: title})
	b.y, b.fresh = bodyTop, true
	if len(b.pages) == 1 {
		b.y = firstTop
	}
}

// scene is the picture of a name, made where there is none yet.
func (b *book) scene(name string, draw func(picture.Size) *picture.Scene, size picture.Size) *picture.Scene {
	if b.scenes[name] == nil {
		b.scenes[name] = draw(size)
	}
	return b.scenes[name]
}

// onePage fills a page in the first of several ways, the fullest first, that does not run over it; the last way
// stands whether it does or not.
func (b *book) onePage(title string, ways int, fill func(way int)) {
	before := len(b.pages)
	for way := range ways {
		b.pages = b.pages[:before]
		b.turn(title)
		if fill(way); len(b.pages) == before+1 {
			return
		}
	}
}

// room is what is left of the page.
func (b *book) room() float64 { return bodyBottom - b.y }

// add puts blocks below one another across the page, on further pages where they must.
func (b *book) add(blocks ...block) { b.columns([]float64{edge}, blocks) }

// addIfRoom adds blocks where the page has room for all of them.
func (b *book) addIfRoom(blocks ...block) {
	if !b.fresh && tall(blocks) <= b.room() {
		b.add(blocks...)
	}
}

// halves puts two columns side by side, each going on by itself on further pages.
func (b *book) halves(left, right []block) {
	b.columns([]float64{edge, edge + halfWidth + columnGap}, left, right)
}

// flow runs one list down the left column and on down the right, page after page; on the last page the two columns
// come out about level, so that what follows has room below them.
func (b *book) flow(blocks []block) {
	for tall(blocks) > 2*b.room() {
		n := max(b.fitting(blocks), 1)
		m := n + b.fitting(blocks[n:])
		b.halves(blocks[:n], blocks[n:m])
		blocks = blocks[m:]
		b.turn(b.pages[len(b.pages)-1].title)
	}
	left, right := levelled(blocks)
	b.halves(left, right)
}

// levelled parts a list in two so that the taller is as short as can be.
func levelled(blocks []block) (left, right []block) {
	all, height, best := tall(blocks), 0.0, 0
	least := all
	for i, b := range blocks {
		height += b.before + b.height
		if taller := max(height, all-height); taller < least && !b.stays {
			best, least = i+1, taller
		}
	}
	return blocks[:best], blocks[best:]
}

// columns puts lists side by side, with the same white above them.
func (b *book) columns(places []float64, columns ...[]block) {
	white := math.Inf(1)
	for _, c := range columns {
		if len(c) > 0 {
			white = min(white, c[0].before)
		}
	}
	for i, c := range columns {
		if len(c) > 0 {
			columns[i] = slices.Clone(c)
			columns[i][0].before = white
		}
	}
	for {
		bottom, more := b.y, false
		for i := range columns {
			var end float64
			columns[i], end = b.pour(places[i], columns[i])
			bottom, more = max(bottom, end), more || len(columns[i]) > 0
		}
		if !more {
			b.y, b.fresh = bottom, b.fresh && bottom == b.y
			return
		}
		b.turn(b.pages[len(b.pages)-1].title)
	}
}

// pour puts as many blocks below one another as the page has room for, and returns the others and where it ended. On
// a fresh page it puts at least one, so that there is an end to it.
func (b *book) pour(x float64, blocks []block) (rest []block, end float64) {
	n := b.fitting(blocks)
	page := &b.pages[len(b.pages)-1]
	y := b.y
	for i, block := range blocks[:n] {
		if i > 0 || !b.fresh {
			y += block.before
		}
		page.placed = append(page.placed, placed{block, x, y})
		y += block.height
	}
	return blocks[n:], y
}

// fitting is how many of the blocks the page takes; none stays behind that belongs to the next.
func (b *book) fitting(blocks []block) int {
	y, n := b.y, 0
	for i, block := range blocks {
		if i > 0 || !b.fresh {
			y += block.before
		}
		if y += block.height; y > bodyBottom {
			break
		}
		n = i + 1
	}
	if n == len(blocks) {
		return n
	}
	for n > 0 && blocks[n-1].stays {
		n--
	}
	if n == 0 && b.fresh {
		return 1
	}
	return n
}

// together keeps blocks in one column, unless they would fill much of it.
func together(blocks []block) []block {
	if len(blocks) > 0 && tall(blocks) < (bodyBottom-bodyTop)/2 {
		return []block{stack(blocks...)}
	}
	return blocks
}

// tall is how tall blocks are below one another.
func tall(blocks []block) float64 {
	sum := 0.0
	for _, b := range blocks {
		sum += b.before + b.height
	}
	return sum
}
