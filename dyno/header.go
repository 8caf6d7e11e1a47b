package dyno

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// quantityKind is what a column holds, in the words of messages.
type quantityKind string

const (
	speedKind  quantityKind = "engine speed"
	powerKind  quantityKind = "power"
	torqueKind quantityKind = "torque"
)

// example is a heading that would be understood.
var example = map[quantityKind]string{
	speedKind: "rpm", powerKind: "power (kW)", torqueKind: "torque (N m)",
}

// units are the spellings of units met in runs, in lower case and without spaces, dots, hyphens and underscores, with
// the unit's name in package quantity.
var units = map[string]struct {
	kind quantityKind
	unit string
}{
	"rpm": {speedKind, "rpm"}, "1/min": {speedKind, "rpm"}, "min1": {speedKind, "rpm"}, "min^1": {speedKind, "rpm"},
	"min⁻¹": {speedKind, "rpm"}, "r/min": {speedKind, "rpm"}, "rev/min": {speedKind, "rpm"}, "u/min": {speedKind, "rpm"},
	"rad/s": {speedKind, "rad/s"},

	"kw": {powerKind, "kW"}, "w": {powerKind, "W"}, "hp": {powerKind, "hp"}, "bhp": {powerKind, "hp"},
	"whp": {powerKind, "hp"}, "ps": {powerKind, "PS"}, "cv": {powerKind, "PS"},

	"nm": {torqueKind, "N m"}, "n*m": {torqueKind, "N m"}, "kgm": {torqueKind, "kgf m"}, "kgfm": {torqueKind, "kgf m"},
	"lbft": {torqueKind, "lbf ft"}, "lbfft": {torqueKind, "lbf ft"}, "ftlb": {torqueKind, "lbf ft"},
	"ftlbf": {torqueKind, "lbf ft"}, "ftlbs": {torqueKind, "lbf ft"}, "lbsft": {torqueKind, "lbf ft"},
}

// names are the words by which a heading tells what its column holds.
var names = map[string]quantityKind{
	"rpm": speedKind, "revs": speedKind, "n": speedKind, "engine speed": speedKind, "enginespeed": speedKind,
	"power": powerKind, "p": powerKind, "horsepower": powerKind,
	"torque": torqueKind, "t": torqueKind, "m": torqueKind, "md": torqueKind,
	"speed": speedKind,
}

// vague are names that other columns also go by, such as t for time; they count only with a unit that fits.
var vague = []string{"n", "p", "t", "m", "speed"}

// qualifiers are words beside a name that leave it what it is.
var qualifiers = []string{"engine", "motor", "crank", "flywheel", "wheel", "wheels", "at", "the", "corrected", "measured", "brake"}

// column is one column that is read.
type column struct {
	name  string // its heading without the unit
	index int    // its place in a row, from nought
	kind  quantityKind
	unit  string // in package quantity's spelling
	cells []cell
}

// columns are those that are read, and the headings of those that are not.
type columns struct {
	speed, power, torque *column
	ignored              []string
	count                int // columns in the header
}

// readHeader understands the heading row and the row of units, if there is one, and returns the rows of figures.
func readHeader(rows []row) (*columns, []row, *Error) {
	header, rows := rows[0], rows[1:]
	if len(rows) == 0 {
		return nil, nil, fault(header.line, "", "one row only; a run needs a row of column names and at least two of figures")
	}
	unitRow := row{}
	if isUnitRow(rows[0]) {
		unitRow, rows = rows[0], rows[1:]
	}
	if len(rows) == 0 {
		return nil, nil, fault(unitRow.line, "", "no figures below the units")
	}
	cols := &columns{count: len(header.cells)}
	for i, heading := range header.cells {
		if err := cols.add(i, heading, header.line, unitRow); err != nil {
			return nil, nil, err
		}
	}
	switch {
	case cols.speed == nil:
		return nil, nil, fault(header.line, "", "no column of engine speed; name one for example %q", example[speedKind])
	case cols.power == nil && cols.torque == nil:
		return nil, nil, fault(header.line, "", "neither power nor torque; name a column for example %q", example[torqueKind])
	}
	return cols, rows, nil
}

// isUnitRow reports whether a row has a unit somewhere and nowhere a figure.
func isUnitRow(r row) bool {
	known := false
	for _, c := range r.cells {
		if strings.ContainsFunc(c, unicode.IsDigit) && !knownUnit(c) {
			return false
		}
		known = known || knownUnit(c)
	}
	return known
}

func (cols *columns) add(index int, heading string, line int, unitRow row) *Error {
	name, unit := splitHeading(heading)
	kind, ok := kindOf(name)
	below := unbracket(unitRow.cell(index))
	if slices.Contains(vague, strings.ToLower(name)) && units[plain(unit+below)].kind != kind {
		ok = false
	}
	if !ok {
		if heading != "" {
			cols.ignored = append(cols.ignored, heading)
		}
		return nil
	}
	if below != "" {
		if unit != "" && !sameUnit(unit, below) {
			return fault(unitRow.line, name, "the unit %q is not the %q of the heading", below, unit)
		}
		unit, line = below, unitRow.line
	}
	if unit == "" && kind == speedKind && strings.Contains(strings.ToLower(name), "rpm") {
		unit = "rpm"
	}
	if unit == "" {
		return fault(line, name, "no unit; write for example %q, or put a row of units below the names", example[kind])
	}
	known, ok := units[plain(unit)]
	if !ok || known.kind != kind {
		return fault(line, name, "%q is not a unit of %s known here; write for example %q", unit, kind, example[kind])
	}
	return cols.take(&column{name: name, index: index, kind: kind, unit: known.unit}, line)
}

// take puts a column in its place, which must be free.
func (cols *columns) take(c *column, line int) *Error {
	place := map[quantityKind]**column{speedKind: &cols.speed, powerKind: &cols.power, torqueKind: &cols.torque}[c.kind]
	if *place != nil {
		return fault(line, c.name, "a second column of %s beside %q; keep the one that was measured where the job says", c.kind, (*place).name)
	}
	*place = c
	return nil
}

// splitHeading parts "power (bhp)", "P [kW]", "P / kW", "torque_nm" or "torque N m" into name and unit. A heading
// that is a unit and nothing else, "bhp", is both name and unit.
func splitHeading(heading string) (name, unit string) {
	if i := strings.LastIndexAny(heading, "(["); i > 0 && !slices.Contains(qualifiers, strings.ToLower(unbracket(heading[i:]))) {
		return strings.TrimSpace(heading[:i]), unbracket(heading[i:])
	}
	if knownUnit(heading) && names[plain(heading)] == "" {
		return string(units[plain(heading)].kind), heading
	}
	if before, after, ok := strings.Cut(heading, " / "); ok {
		return before, strings.TrimSpace(after)
	}
	words := strings.FieldsFunc(heading, isGap)
	for i := 1; i < len(words); i++ {
		head, tail := strings.Join(words[:i], " "), strings.Join(words[i:], " ")
		if _, named := kindOf(head); knownUnit(tail) && (named || names[plain(tail)] == "") {
			return head, tail
		}
	}
	return strings.Join(words, " "), ""
}

// kindOf tells from a heading without its unit what the column holds. A word that it does not know, as in "drag
// power" or "roll speed", makes it another column.
func kindOf(name string) (quantityKind, bool) {
	words := strings.FieldsFunc(strings.ToLower(name), isGap)
	if kind, ok := names[strings.Join(words, " ")]; ok {
		return kind, true
	}
	wheels := atWheels(name)
	words = slices.DeleteFunc(words, func(w string) bool { return slices.Contains(qualifiers, w) })
	kind, ok := names[strings.Join(words, " ")]
	return kind, ok && !(wheels && kind == speedKind)
}

// atWheels reports whether a heading speaks of the wheels.
func atWheels(name string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(name), isGap), func(word string) bool {
		return strings.TrimSuffix(word, "s") == "wheel"
	})
}

func isGap(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("_,()[]", r) }

func unbracket(text string) string { return strings.TrimSpace(strings.Trim(text, "()[] ")) }

// plain is how units are looked up: "lb-ft", "Lb_Ft" and "lb·ft" are all "lbft".
func plain(unit string) string {
	return strings.Map(func(r rune) rune {
		if isGap(r) || strings.ContainsRune(".·⋅-−", r) {
			return -1
		}
		return unicode.ToLower(r)
	}, unbracket(unit))
}

func knownUnit(text string) bool { _, ok := units[plain(text)]; return ok }

func sameUnit(a, b string) bool { return units[plain(a)] == units[plain(b)] }

// notes tell how the header was understood.
func (cols *columns) notes() []string {
	var notes []string
	for _, c := range []*column{cols.power, cols.torque} {
		if c == nil {
			continue
		}
		if c.unit == "hp" {
			notes = append(notes, fmt.Sprintf("%s: horsepower taken as mechanical, 745.7 W", c.name))
		}
		if atWheels(c.name) {
			notes = append(notes, fmt.Sprintf("%s: the heading says that it was measured at the wheels", c.name))
		}
	}
	if len(cols.ignored) > 0 {
		notes = append(notes, "columns not used: "+strings.Join(cols.ignored, ", "))
	}
	return notes
}
