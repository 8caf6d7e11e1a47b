package carview

import (
	"fmt"
	"math"
	"strings"

	"layshaft/picture"
	"layshaft/workshop"
	"layshaft/worth"
)

// Worth sets the chance that each further job is needed against the one above which doing it now pays.
func Worth(a *workshop.WorthAnswer) picture.Worth {
	bars := picture.Worth{Title: "Which further jobs are worth doing now"}
	var words []string
	for _, name := range a.Order() {
		job := a.Jobs[name]
		row := picture.WorthRow{Name: job.Title, Found: string(worth.NoRecords), BreakEven: float64(job.BreakEven), Word: string(job.Verdict)}
		if job.Rate == nil {
			row.Chance = picture.Range{Low: math.NaN(), Mid: math.NaN(), High: math.NaN()}
		} else {
			row.Found = fmt.Sprintf("worn in %d of %d", job.Rate.Found, job.Rate.Looked)
			row.Chance = picture.Range{Low: float64(job.Chance.Low), Mid: float64(job.Chance.Best), High: float64(job.Chance.High)}
		}
		switch job.Verdict {
		case worth.Pays:
			row.Tone = picture.Fine
		case worth.TooFew:
			row.Word, row.Tone = "too few to tell", picture.Near
		}
		words = append(words, job.Title+": "+job.Words)
		bars.Rows = append(bars.Rows, row)
	}
	bars.Desc = strings.Join(words, " ")
	return bars
}
