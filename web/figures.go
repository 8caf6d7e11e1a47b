package web

import (
	"encoding/json"
	"slices"
	"strings"

	"layshaft/jobfile"
	"layshaft/workshop"
)

// figureForm is a car's job file laid out for filling in.
type figureForm struct {
	CarID  string
	Seq    int64    // of the entry that the figures are those of
	Deed   string   // of keeping them
	Chosen []string // options that are recorded
	Groups []figureGroup
	Faults []figureFault // that belong to no field
}

// figureGroup is one part of the job file, such as a candidate clutch.
type figureGroup struct {
	Key, Title string
	Fields     []figureField
	Spare      int // fields that the file does not have and need not have
	Open       bool
}

// figureField is one figure, as it is kept and as it is typed.
type figureField struct {
	Key, Label, Example string
	Kept, Typed         string
	Needed, Wide, Long  bool // Wide takes a whole line, Long several
	Fault               string
	Theirs              string // who changed it to what while this was typed
}

// ID is the field's id in the page.
func (f figureField) ID() string { return fieldID(f.Key) }

// fieldID turns a key of the job file into an id: keys may hold blanks, ids may not.
func fieldID(key string) string { return "f-" + strings.ReplaceAll(key, " ", "_") }

// The lengths from which a figure takes a whole line, and several lines.
const (
	wideFigure = 14
	longFigure = 30
)

func newFigureForm(car *workshop.Car, t *typed) *figureForm {
	form := &figureForm{CarID: car.ID, Seq: car.Seq, Deed: newID(), Chosen: car.Chosen}
	faults := slices.Clone(t.Faults)
	for _, g := range jobfile.Form([]byte(car.Text)) {
		group := figureGroup{Key: g.Key, Title: groupTitle(g.Key)}
		for _, f := range g.Fields {
			field := figureField{Key: f.Key, Label: f.Label, Example: f.Example, Kept: f.Value, Typed: f.Value, Needed: f.Needed}
			if figure, there := t.Figures[f.Key]; there {
				field.Typed = figure
			}
			field.Wide = len(field.Kept) > wideFigure
			field.Long = len(field.Kept) > longFigure || f.Example == "[4 mm, 2100 N]"
			field.Fault, faults = takeFault(faults, f.Key)
			field.Theirs = t.Theirs[f.Key]
			if field.Kept == "" && field.Typed == "" && !field.Needed && field.Fault == "" {
				group.Spare++
			}
			group.Open = group.Open || field.Fault != "" || field.Theirs != "" || field.Typed != field.Kept
			group.Fields = append(group.Fields, field)
		}
		form.Groups = append(form.Groups, group)
	}
	form.Faults = faults
	return form
}

// unfold opens one part, unless something else asks for the reader's eye.
func (f *figureForm) unfold(key string) {
	if slices.ContainsFunc(f.Groups, func(g figureGroup) bool { return g.Open }) {
		return
	}
	for i := range f.Groups {
		f.Groups[i].Open = f.Groups[i].Key == key
	}
}

// takeFault takes the faults at a key, or at an item of its list, out of all the faults.
func takeFault(faults []figureFault, key string) (string, []figureFault) {
	var here []string
	var others []figureFault
	for _, f := range faults {
		if name, _, _ := strings.Cut(f.Key, "["); name == key {
			here = append(here, sentence(f.Sentence()))
		} else {
			others = append(others, f)
		}
	}
	return strings.Join(here, " "), others
}

// groupTitle names a part of the job file: "release.metal-master" is "Release: metal-master".
func groupTitle(key string) string {
	kind, name, named := strings.Cut(key, ".")
	title := strings.ToUpper(kind[:1]) + kind[1:]
	if named {
		return title + ": " + name
	}
	return title
}

// figurePrefix stands before the keys of the job file in forms.
const figurePrefix = "figure."

// changesOf compares what was typed with the text that the form was made from. Keys that the form does not have are
// left alone.
func changesOf(text string, figures map[string]string) []workshop.Change {
	var changes []workshop.Change
	for _, group := range jobfile.Form([]byte(text)) {
		for _, field := range group.Fields {
			if figure, there := figures[field.Key]; there && figure != field.Value {
				changes = append(changes, workshop.Change{Key: field.Key, From: field.Value, To: figure})
			}
		}
	}
	return changes
}

// typedFigures are the figures of a form that was sent. A browser ends lines its own way and people leave blanks;
// neither is a change.
func typedFigures(r *request) map[string]string {
	figures := map[string]string{}
	for name, values := range r.PostForm {
		if key, is := strings.CutPrefix(name, figurePrefix); is && len(values) > 0 {
			figures[key] = strings.Join(strings.Fields(values[0]), " ")
		}
	}
	return figures
}

// asSeen is the car with the job file as it stood after the entry that the writer had seen last. Changes are made to
// that, so that a figure left alone is not turned back where somebody else has changed it meanwhile, and so that the
// same form sent twice comes out the same.
func asSeen(car *workshop.Car, seen int64) *workshop.Car {
	before := *car
	before.Text = ""
	for _, e := range car.History {
		if e.Seq > seen {
			break
		}
		var body struct{ Text string }
		if (e.Kind == workshop.KindOpened || e.Kind == workshop.KindFigures) && json.Unmarshal(e.Body, &body) == nil {
			before.Text = body.Text
		}
	}
	if before.Text == "" {
		before.Text = car.Text
	}
	return &before
}
