// Package workshop is the domain: a Job is all that is known and wanted of one car; Hold, LetGo, Strip, Price and
// WorkUp answer it by the physics packages; Shop is the front door through which people open cars, change figures,
// choose options and move cars, each deed checked against what that person may do and entered in a Ledger with who
// and when. Storage, pages and paper implement or use what is declared here; nothing here knows of them.
package workshop
