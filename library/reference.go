package library

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path"
	"slices"

	"layshaft/uncertain"
	"layshaft/yamlfile"
)

//go:embed reference/*.yaml
var referenceFiles embed.FS

// Reference is the shop's tables of figures. Each entry says where it comes from and, once somebody in the shop has
// answered for it, who accepted it. None of it stands above the maker's sheet for the part in hand.
type Reference struct {
	Facings        yamlfile.Map[FacingFamily]
	ServiceFactors yamlfile.Map[ServiceFactor]
	Losses         yamlfile.Map[Loss]
	Bores          yamlfile.Map[Bore]
	Fluids         yamlfile.Map[FluidClass]
}

// FacingFamily is a kind of clutch facing.
type FacingFamily struct {
	Title       string          `key:"title" need:"yes"`
	Friction    uncertain.Value `key:"friction" of:"number" need:"yes" like:"0.26 .. 0.30" check:">0,<=2"`
	HotFriction uncertain.Value `key:"hot_friction" of:"number" need:"yes" like:"0.20 .. 0.26" check:">0,<=2"`
	Hot         string          `key:"hot"`                                                                     // what heat does to it, in words
	ServesTo    uncertain.Value `key:"serves_to" of:"temperature" need:"yes" like:"200 .. 260 degC" check:">0"` // sustained, K
	Source      string          `key:"source" need:"yes" like:"common practice, no source"`
	AcceptedBy  string          `key:"accepted_by"`
}

// ServiceFactor is what peak torque is multiplied by for a use.
type ServiceFactor struct {
	Title      string          `key:"title" need:"yes"`
	Factor     float64         `key:"factor" of:"number" need:"yes" like:"1.25" check:">=1"`
	Range      uncertain.Value `key:"range" of:"number" need:"yes" like:"1.2 .. 1.5" check:">=1"`
	Source     string          `key:"source" need:"yes" like:"common practice, no source"`
	AcceptedBy string          `key:"accepted_by"`
}

// Loss is the share lost between two places.
type Loss struct {
	Title      string          `key:"title" need:"yes"`
	Loss       uncertain.Value `key:"loss" of:"percent" need:"yes" like:"12 .. 18 %" check:">=0,<1"`
	Source     string          `key:"source" need:"yes" like:"common practice, no source"`
	AcceptedBy string          `key:"accepted_by"`
}

// Bore is a standard cylinder bore.
type Bore struct {
	Bore       float64 `key:"bore" of:"length" need:"yes" like:"3/4 in" check:">0"` // m
	Series     string  `key:"series" need:"yes" like:"imperial"`                    // imperial or metric
	Use        string  `key:"use"`
	Source     string  `key:"source" need:"yes" like:"common practice, no source"`
	AcceptedBy string  `key:"accepted_by"`
}

// Area of the bore in m2.
//
//	A = π·d²/4
func (b Bore) Area() float64 { return math.Pi / 4 * b.Bore * b.Bore }

// FluidClass is a kind of fluid, what it may meet and what it must not.
type FluidClass struct {
	Title      string   `key:"title" need:"yes"`
	UsedAs     []string `key:"used_as"`                                                 // names that layouts use
	DryBoiling *float64 `key:"dry_boiling" of:"temperature" like:"230 degC" check:">0"` // least when new, K
	WetBoiling *float64 `key:"wet_boiling" of:"temperature" like:"155 degC" check:">0"` // least with water taken up, K
	MixesWith  []string `key:"mixes_with"`
	NeverWith  []string `key:"never_with"`
	Caution    []string `key:"caution"`
	Source     string   `key:"source" need:"yes" like:"common practice, no source"`
	AcceptedBy string   `key:"accepted_by"`
}

// OpenReference reads the tables. A folder may hold reference/NAME.yaml, which stands in for the whole built-in
// table of that name: facings, service-factors, losses, bores or fluids. The first folder that has it wins.
func OpenReference(folders ...Folder) (*Reference, error) {
	folders = append(slices.Clone(folders), Folder{"built-in", referenceFiles})
	var r Reference
	err := errors.Join(
		read(folders, "facings", &r.Facings, nil),
		read(folders, "service-factors", &r.ServiceFactors, r.checkFactors),
		read(folders, "losses", &r.Losses, nil),
		read(folders, "bores", &r.Bores, r.checkBores),
		read(folders, "fluids", &r.Fluids, r.checkFluids),
	)
	if err != nil {
		return nil, err
	}
	return &r, nil
}

// read decodes the first file there is of a table, and then looks at what single values cannot show.
func read(folders []Folder, table string, into any, check func(*yamlfile.Document) yamlfile.Problems) error {
	file := "reference/" + table + ".yaml"
	for _, folder := range folders {
		name := path.Join(folder.Name, file)
		data, err := fs.ReadFile(folder.Files, file)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		doc, err := yamlfile.Parse(name, data)
		if err != nil {
			return err
		}
		if err := doc.Decode(into); err != nil || check == nil {
			return err
		}
		if problems := check(doc); len(problems) > 0 {
			return firstOf(problems)
		}
		return nil
	}
	panic("library: no built-in table " + table)
}

// FluidsUsedAs lists the classes that may go where a layout names a fluid.
func (r *Reference) FluidsUsedAs(name string) []string {
	var classes []string
	for _, class := range r.Fluids {
		if slices.Contains(class.Value.UsedAs, name) {
			classes = append(classes, class.Name)
		}
	}
	return classes
}
