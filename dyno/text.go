package dyno

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// maxSize is far above what an hour of runs fills.
const maxSize = 4 << 20

// textOf checks the bytes and returns them as text with plain line ends.
func textOf(data []byte) (string, *Error) {
	if len(data) > maxSize {
		return "", fault(0, "", "%d bytes are more than the %d a run may have; cut it down to one pull", len(data), maxSize)
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return "", fault(1, "", "the file is UTF-16 text; save it as UTF-8")
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	text := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(data))
	if !utf8.ValidString(text) {
		good := text[:firstBadByte(text)]
		return "", fault(1+strings.Count(good, "\n"), "", "not UTF-8 text; save the file as UTF-8")
	}
	return text, nil
}

func firstBadByte(text string) int {
	for i, r := range text {
		if r == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(text[i:]); size == 1 {
				return i
			}
		}
	}
	return len(text)
}

// row is one line of the file, split into trimmed cells.
type row struct {
	line  int
	cells []string
}

// blank reports whether nothing stands in the row.
func (r row) blank() bool { return strings.Join(r.cells, "") == "" }

// cell returns the nth cell, "" past the end.
func (r row) cell(n int) string {
	if n >= len(r.cells) {
		return ""
	}
	return r.cells[n]
}

// split parts the text into rows and cells; rows with nothing in them are left out.
func split(text string) ([]row, *Error) {
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comma = separator(text)
	reader.FieldsPerRecord = -1
	reader.TrimLeadingSpace = reader.Comma != '\t'
	var rows []row
	for {
		cells, err := reader.Read()
		if err == io.EOF {
			break
		}
		if bad := (*csv.ParseError)(nil); errors.As(err, &bad) {
			return nil, fault(bad.Line, "", "quotation marks are not in pairs around a cell")
		} else if err != nil {
			return nil, fault(0, "", "%v", err)
		}
		line, _ := reader.FieldPos(0)
		for i, c := range cells {
			cells[i] = strings.TrimSpace(c)
		}
		if r := (row{line, cells}); !r.blank() {
			rows = append(rows, r)
		}
	}
	if len(rows) == 0 {
		return nil, fault(0, "", "the file is empty; it needs a row of column names and rows of figures")
	}
	return rows, nil
}

// separator is what parts the columns of the first row that has anything in it: a semicolon before a tab before a
// comma, since the later ones may stand inside a name.
func separator(text string) rune {
	header, _, _ := strings.Cut(strings.TrimLeft(text, "\n \t"), "\n")
	for _, s := range ";\t" {
		if strings.ContainsRune(header, s) {
			return s
		}
	}
	return ','
}
