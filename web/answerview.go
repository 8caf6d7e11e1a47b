package web

import (
	"slices"
	"strings"

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
	Pairs       []pairChoice
	Shown       string
	Beside      string
	LoadPath    *drawing
	Parts       []partLine
	Hold        *holdView
	LetGo       *letGoView
	Strip       *stripView
	Price       *priceView
	Advice      []adviceLine
	NotComputed []assumption
	Assumed     []assumption
}

// pairChoice is one clutch with one release system in the pair picker.
type pairChoice struct {
	Value, Name   string
	Verdict       word
	Fitted        bool
	Shown, Beside bool
}

// assumption is what nobody gave and what was taken instead.
type assumption struct{ Name, Text string }

// asked is what a reader wants to see of the answers.
type asked struct{ Pair, Beside string } // "clutch/release"; empty for the proposed pair and its original

func viewAnswers(car *workshop.Car, job *workshop.Job, a *workshop.Workup, want asked) *answerView {
	v := &answerView{CarID: car.ID, Seq: car.Seq, Short: carview.Short(job, a), Lead: carview.Lead(job, a)}
	shown, beside := pickPairs(job, a, want)
	v.Shown, v.Beside = shown.value(), beside.value()
	path := carview.LoadPath(job, a, shown.clutch, shown.release)
	v.LoadPath, v.Parts = draw(path), partLines(path.Parts, shown)
	v.Pairs = pairChoices(job, a, shown, beside)
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
		v.Gross = money(a.Price.Gross, a.Price.Currency)
	}
	for _, advice := range a.Advice {
		v.Advice = append(v.Advice, adviceLine{advice.Weight, advice.Title, sentence(advice.Because), advice.In})
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

// pickPairs finds the pair that is asked for and the one beside it. Left to itself the proposed pair is shown, and
// beside it the same clutch on the release system that is in the car: that tells why the original has to go.
func pickPairs(job *workshop.Job, a *workshop.Workup, want asked) (shown, beside pair) {
	all := allPairs(job)
	shown.clutch, shown.release = job.ProposedPair()
	if p, there := findPair(all, want.Pair); there {
		shown = p
	}
	if p, there := findPair(all, want.Beside); there {
		return shown, p
	}
	fittedClutch, fittedRelease := job.FittedPair()
	for _, p := range []pair{{shown.clutch, fittedRelease}, {fittedClutch, fittedRelease}} {
		if p != shown && a.Release.Pair(p.clutch, p.release) != nil {
			return shown, p
		}
	}
	return shown, pair{}
}

func findPair(all []pair, value string) (pair, bool) {
	i := slices.IndexFunc(all, func(p pair) bool { return p.value() == value })
	if i < 0 {
		return pair{}, false
	}
	return all[i], true
}

func pairChoices(job *workshop.Job, a *workshop.Workup, shown, beside pair) []pairChoice {
	fittedClutch, fittedRelease := job.FittedPair()
	var all []pairChoice
	for _, p := range allPairs(job) {
		choice := pairChoice{Value: p.value(), Name: p.name(), Shown: p == shown, Beside: p == beside,
			Fitted: p == pair{fittedClutch, fittedRelease}}
		if answer := a.Release.Pair(p.clutch, p.release); answer != nil {
			choice.Verdict = verdict(answer.Verdict)
		}
		all = append(all, choice)
	}
	return all
}

func verdict(text string) word { return word{text, toneClass(carview.Tone(text))} }

func assumptions(all []workshop.Assumption) []assumption {
	var out []assumption
	for _, a := range all {
		out = append(out, assumption{keyWords(a.Key), a.Text})
	}
	return out
}

// keyWords turns a job file's key, such as release.metal-master.master.bore, into words: "release metal-master,
// master bore".
func keyWords(key string) string {
	parts := strings.Split(strings.ReplaceAll(key, "_", " "), ".")
	if len(parts) > 2 {
		return parts[0] + " " + parts[1] + ", " + strings.Join(parts[2:], " ")
	}
	return strings.Join(parts, " ")
}
