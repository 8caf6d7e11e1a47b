package web

import (
	"slices"

	"layshaft/carview"
	"layshaft/workshop"
)

// answerView is everything that follows what is typed: the parts of a car's page that a try replaces.
type answerView struct {
	CarID       string
	Seq         int64 // of the car's last entry
	Short       string
	Gross       string
	Lead        []string
	Pairs       *pairTable
	Release     string // of the pair that is drawn
	LoadPath    *drawing
	Parts       []partLine
	Hold        *holdView
	LetGo       *letGoView
	Strip       *stripView
	Price       *priceView
	Insisted    []adviceLine
	Advised     []adviceLine
	Worth       *worthView
	NotComputed []assumption
	Assumed     []assumption
}

// pairTable is where a reader picks the pair that is drawn: every clutch down, every release system across, and
// whether the two get on.
type pairTable struct {
	Releases []candidate
	Rows     []pairRow
	Others   []pairChoice // that may be laid beside the pair that is drawn
}

// candidate is a clutch or a release system.
type candidate struct {
	Name    string
	Fitted  bool
	Verdict word
}

type pairRow struct {
	candidate
	Pairs []pairChoice
}

// pairChoice is one clutch with one release system.
type pairChoice struct {
	Value, Name   string
	Verdict       word
	Shown, Beside bool
}

// assumption is what nobody gave and what was taken instead.
type assumption struct{ Name, Text string }

// asked is what a reader wants to see of the answers.
type asked struct{ Pair, Beside string } // "clutch/release"; empty for the proposed pair and its original

func viewAnswers(car *workshop.Car, job *workshop.Job, a *workshop.Workup, want asked) *answerView {
	v := &answerView{CarID: car.ID, Seq: car.Seq, Short: carview.Short(job, a), Lead: carview.Lead(job, a)}
	shown, beside := pickPairs(job, a, want)
	v.Release = shown.release
	path := carview.LoadPath(job, a, shown.clutch, shown.release)
	v.LoadPath, v.Parts = draw(path), partLines(path.Parts, shown)
	v.Pairs = viewPairs(job, a, shown, beside)
	if a.Hold != nil {
		v.Hold = viewHold(job, a.Hold)
	}
	if a.Release != nil {
		v.LetGo = viewLetGo(job, a.Release, shown, beside)
	}
	if a.Strip != nil {
		v.Strip = viewStrip(a.Strip)
	}
	if a.Price != nil {
		v.Price = viewPrice(a.Price)
		v.Gross = carview.Money(a.Price.Gross, a.Price.Currency)
	}
	for _, advice := range a.Advice {
		line := adviceLine{advice.Title, sentence(advice.Because), advice.In}
		if advice.Weight == workshop.Insisted {
			v.Insisted = append(v.Insisted, line)
		} else {
			v.Advised = append(v.Advised, line)
		}
	}
	if a.Worth != nil && len(a.Worth.Order()) > 0 {
		v.Worth = viewWorth(a.Worth)
	}
	v.NotComputed, v.Assumed = assumptions(a.NotComputed), assumptions(a.Assumptions)
	return v
}

// tick shows options as ticked, whichever of them the sums are made with.
func (v *answerView) tick(chosen []string) {
	if v.Price == nil {
		return
	}
	for i := range v.Price.Options {
		v.Price.Options[i].Chosen = slices.Contains(chosen, v.Price.Options[i].Name)
	}
}

// pair is a clutch with a release system.
type pair struct{ clutch, release string }

func (p pair) value() string {
	if p == (pair{}) {
		return ""
	}
	return p.clutch + "/" + p.release
}

func (p pair) name() string { return carview.PairName(p.clutch, p.release) }

// allPairs are the candidates with one another, as the job file has them.
func allPairs(job *workshop.Job) []pair {
	var all []pair
	for _, clutch := range job.Clutches {
		for _, release := range job.Releases {
			all = append(all, pair{clutch.Name, release.Name})
		}
	}
	return all
}

// pickPairs finds the pair that is asked for and the one beside it, in the place of those that carview shows.
func pickPairs(job *workshop.Job, a *workshop.Workup, want asked) (shown, beside pair) {
	all := allPairs(job)
	shown.clutch, shown.release = job.ProposedPair()
	if _, answer := carview.ShownPairs(job, a.Release); answer != nil {
		beside = pair{answer.Clutch, answer.Release}
	}
	if p, there := findPair(all, want.Pair); there && p != shown {
		shown, beside = p, shown
	}
	if p, there := findPair(all, want.Beside); there && p != shown {
		beside = p
	}
	return shown, beside
}

func findPair(all []pair, value string) (pair, bool) {
	i := slices.IndexFunc(all, func(p pair) bool { return p.value() == value })
	if i < 0 {
		return pair{}, false
	}
	return all[i], true
}

func viewPairs(job *workshop.Job, a *workshop.Workup, shown, beside pair) *pairTable {
	t := &pairTable{}
	for _, release := range job.Releases {
		t.Releases = append(t.Releases, candidate{Name: release.Name, Fitted: release.Fitted})
	}
	for _, clutch := range job.Clutches {
		row := pairRow{candidate: candidate{Name: clutch.Name, Fitted: clutch.Fitted}}
		if a.Hold != nil {
			row.Verdict = verdict(a.Hold.Clutches[clutch.Name].Verdict)
		}
		for _, release := range job.Releases {
			p := pair{clutch.Name, release.Name}
			choice := pairChoice{Value: p.value(), Name: p.name(), Shown: p == shown, Beside: p == beside}
			if answer := a.Release.Pair(p.clutch, p.release); answer != nil {
				choice.Verdict = verdict(answer.Verdict)
			}
			row.Pairs = append(row.Pairs, choice)
			if !choice.Shown && choice.Verdict.Text != "" {
				t.Others = append(t.Others, choice)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func verdict(text string) word { return word{text, toneClass(carview.Tone(text))} }

func assumptions(all []workshop.Assumption) []assumption {
	var out []assumption
	for _, a := range all {
		out = append(out, assumption{carview.KeyWords(a.Key), a.Text})
	}
	return out
}
