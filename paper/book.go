package paper

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
	pages []leaf
	y     float64 // where the next block goes
	fresh bool    // nothing stands on the page yet
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

// room is what is left of the page.
func (b *book) room() float64 { return bodyBottom - b.y }

// add puts blocks below one another across the page, on further pages where they must.
func (b *book) add(blocks ...block) { b.columns([]float64{edge}, blocks) }

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
	n, height := 0, 0.0
	for n < len(blocks) && (height < tall(blocks)/2 || blocks[n-1].stays) {
		height += blocks[n].before + blocks[n].height
		n++
	}
	b.halves(blocks[:n], blocks[n:])
}

func (b *book) columns(places []float64, columns ...[]block) {
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

// tall is how tall blocks are below one another.
func tall(blocks []block) float64 {
	sum := 0.0
	for _, b := range blocks {
		sum += b.before + b.height
	}
	return sum
}
