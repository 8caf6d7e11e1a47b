// Package house keeps the house in order: which package may import which, and why. docs/architecture.md shows it as
// a picture.
package house

// Floors are the packages from the innermost to the outermost. A package may import those of its own module that
// stand before it in the list, and no others.
var Floors = []Floor{
	{"uncertain", "figures that are only roughly known; knows nothing of the trade"},
	{"spelling", "the nearest known word"},
	{"quantity", "numbers with units"},
	{"yamlfile", "strict YAML with positions; knows nothing of what is in it"},
	{"spring", "load curves and disc springs"},
	{"driveline", "capacity, demand, engagement, loads; no pedals, no money"},
	{"dyno", "a dynamometer's run"},
	{"release", "from the pedal to the fingers; no money, no people"},
	{"release/diagnosis", "why it drags"},
	{"stripdown", "access and least work; no money, no people"},
	{"pricing", "money, lines, tax; no HTTP, no SQL"},
	{"diary/project", "one project on scarce resources: plans and bounds; no files, no clock"},
	{"diary/psplib", "projects of the public library"},
	{"diary", "people, ramps, tools, calendars, promise days; no money, no files"},
	{"diary/check", "whether a plan keeps the rules; nothing of the planner's code"},
	{"diary/diarytest", "invented workshops for tests and measurements"},
	{"worth", "is a further job worth doing now; knows no currency and no car"},
	{"library", "the shop's knowledge as data; not one car"},
	{"workshop", "the domain; no SQL, no HTTP, no YAML"},
	{"workshop/ledgertest", "what every storage owes"},
	{"jobfile", "the written job"},
	{"diaryfile", "the written diary"},
	{"store", "SQLite behind the workshop's interfaces; no HTML"},
	{"examples", "an invented shop"},
	{"picture", "scenes of primitives; knows nothing of cars"},
	{"picture/pdf", "scenes on paper"},
	{"carview", "a car's answers as pictures and sentences"},
	{"paper", "PDF; no HTTP"},
	{"web", "pages; no SQL, no PDF"},
	{"cmd/layshaft", "puts it all together"},
}

// Floor is one package and what it is for.
type Floor struct{ Package, About string }

// Apart are imports that the order would allow but the house does not, each with its reason.
var Apart = []struct{ From, To, Why string }{
	{"web", "store", "pages reach data only through workshop.Shop"},
	{"web", "paper", "the paper is handed in, so that pages do not depend on PDF"},
	{"paper", "store", "paper shows answers and reads no data"},
	{"store", "jobfile", "storage keeps texts and does not read them"},
	{"workshop", "yamlfile", "the domain does not know how jobs are written"},
	{"release", "driveline", "letting go and holding are two chapters; workshop brings them together"},
	{"picture", "workshop", "pictures take plain structs"},
	{"stripdown", "pricing", "hours are not money"},
	{"worth", "pricing", "a ratio of two costs has no currency"},
}
